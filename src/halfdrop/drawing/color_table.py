"""The table of a color page: number, both chips, name and code, share, area, light reflectance value, lean, what wears it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.notes import Column
from halfdrop.drawing.tokens import Font, Ink, tokens
from halfdrop.drawing.verbs import Anchor, Area, Begin, End, Line, Text, Verb

if TYPE_CHECKING:
    from halfdrop.drawing.color_page import ColorPage, PageSwatch

#: Height of a row of one line and of a chip, and width of a chip [mm].
ROW, CHIP, CHIP_WIDE = 9.4, 6.4, 8.0


def swatch_table(page: ColorPage, column: Column) -> list[Verb]:
    """Return the table, as many rows as the column holds; the rest is counted."""
    small = tokens().sizes["small"]
    wide = column.width >= 150.0
    stops = _stops(column.width, wide)
    out: list[Verb] = []
    y = column.top
    heads = [("day", "chips"), ("eve", "eve"), ("name", "name"), ("share", "share"), ("LRV", "lrv")]
    heads += [("area", "area"), ("leans", "leans"), ("moves", "moves")] if wide else []
    for word, key in heads:
        x, anchor = stops[key]
        out.append(Text((column.left + x, y), word, small, "lettering", "graphite", anchor))
    rule = y + 1.6
    out.append(Line(((column.left, rule), (column.left + column.width, rule)), "hair", "graphite"))
    fit = max(int((column.height - 6.0) / ROW), 1)
    shown = page.swatches if len(page.swatches) <= fit else page.swatches[: max(fit - 1, 1)]
    y += 2.6
    for swatch in shown:
        out += _row(swatch, column, stops, y, wide)
        y += ROW
    if len(shown) < len(page.swatches):
        left = len(page.swatches) - len(shown)
        out.append(
            Text((column.left, y + 4.0), f"and {left} more of smaller share", small, "slanted", "graphite")
        )
    return out


def _stops(width: float, wide: bool) -> dict[str, tuple[float, Anchor]]:
    if wide:
        return {
            "chips": (7.0, "start"), "eve": (16.0, "start"), "name": (27.0, "start"), "share": (width - 78.0, "end"),
            "area": (width - 56.0, "end"), "lrv": (width - 42.0, "end"), "leans": (width - 36.0, "start"), "moves": (width, "end"),
        }  # fmt: skip
    return {
        "chips": (7.0, "start"), "eve": (16.0, "start"), "name": (27.0, "start"), "share": (width - 12.0, "end"), "lrv": (width, "end"),
    }  # fmt: skip


def _row(
    swatch: PageSwatch, column: Column, stops: dict[str, tuple[float, Anchor]], y: float, wide: bool
) -> list[Verb]:
    small = tokens().sizes["small"]
    base = y + 3.4
    out: list[Verb] = [Begin("G-ANNO-NOTE", swatch.path)]
    for key, color in (("chips", swatch.day), ("eve", swatch.evening)):
        x = column.left + stops[key][0]
        ring = ((x, y), (x + CHIP_WIDE, y), (x + CHIP_WIDE, y + CHIP), (x, y + CHIP))
        out.append(Area((ring,), None, "hair", "graphite", color=color))

    def put(key: str, text: str, at: float, font: Font = "lettering", ink: Ink = "ink") -> None:
        x, anchor = stops[key]
        out.append(Text((column.left + x, at), text, small, font, ink, anchor))

    out.append(Text((column.left, base), str(swatch.number), small, "strong", "ink"))
    room = stops["share"][0] - stops["name"][0] - (11.0 if wide else 9.0)
    called = f"{swatch.name} · {swatch.code}" if swatch.code else swatch.name
    put("name", _cut(called, room, "medium"), base, "medium")
    wearers = ", ".join(swatch.on)
    put(
        "name",
        _cut(wearers, column.width - stops["name"][0], "lettering"),
        base + 3.6,
        ink="graphite",
    )
    put("share", f"{100 * swatch.share:.1f}%" if swatch.share < 0.1 else f"{100 * swatch.share:.0f}%", base)
    put("lrv", f"{swatch.lrv:.0f}", base)
    if wide:
        put("area", swatch.area, base)
        put("leans", swatch.leans if swatch.leans != "none" else "–", base)
        put("moves", f"{swatch.moves:.1f}", base)
    return [*out, End()]


def _cut(text: str, width: float, font: Font) -> str:
    """Return the text, or as much of it as fits with an ellipsis."""
    small = tokens().sizes["small"]
    if text_width(text, small, font) <= width:
        return text
    while text and text_width(text + "…", small, font) > width:
        text = text[:-1]
    return text.rstrip(" ,·") + "…"
