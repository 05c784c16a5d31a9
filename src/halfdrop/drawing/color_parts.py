"""Where the colors are: a bar for each surface and thing, as long as what is seen of it, split into its swatches."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.notes import Column
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Area, Begin, End, Line, Text, Verb

if TYPE_CHECKING:
    from halfdrop.drawing.color_page import ColorPage, PagePart

#: Height of a row and of its bar [mm].
ROW, BAR = 5.6, 3.8
#: Widest name at the left of the bars, as a share of the column.
NAMES = 0.36


def part_bars(page: ColorPage, column: Column) -> list[Verb]:
    """Return the bars, the largest first, as many as the column holds; what is not recorded is hatched."""
    small = tokens().sizes["small"]
    names = min(max(text_width(p.name, small) for p in page.parts), NAMES * column.width)
    areas = max(text_width(p.area_text, small) for p in page.parts)
    left, wide = column.left + names + 2.0, column.width - names - areas - 5.0
    most = max(p.area for p in page.parts)
    day = {s.number: s.day for s in page.swatches}
    out: list[Verb] = [
        Text((column.left, column.top), "what is seen of each, by day", small, "lettering", "graphite")
    ]
    rule = column.top + 1.6
    out.append(Line(((column.left, rule), (column.left + column.width, rule)), "hair", "graphite"))
    fit = max(int((column.height - 6.0) / ROW), 1)
    shown = page.parts if len(page.parts) <= fit else page.parts[: max(fit - 1, 1)]
    y = column.top + 3.0
    for part in shown:
        name = part.name
        while text_width(name, small) > names + 0.1:
            name = name.rstrip("…")[:-1].rstrip(" ,") + "…"
        out.append(Begin("G-ANNO-NOTE", part.path))
        out.append(Text((left - 2.0, y + 3.0), name, small, "lettering", "ink", "end"))
        out += _bar(part, day, left, y, wide * part.area / most)
        out.append(
            Text(
                (left + wide * part.area / most + 1.2, y + 3.0),
                part.area_text,
                small,
                "lettering",
                "graphite",
            )
        )
        out.append(End())
        y += ROW
    if len(shown) < len(page.parts):
        text = f"and {len(page.parts) - len(shown)} smaller"
        out.append(Text((left, y + 3.0), text, small, "slanted", "graphite"))
    return out


def _bar(part: PagePart, day: dict[int, str], left: float, y: float, long: float) -> list[Verb]:
    """Return one bar: its swatches by day, each with its number where it has room, the rest hatched."""
    small = tokens().sizes["small"]
    out: list[Verb] = []
    x = left
    for number, share in part.colors:
        w = share * long
        out.append(Area((((x, y), (x + w, y), (x + w, y + BAR), (x, y + BAR)),), None, color=day[number]))
        if w > text_width(str(number), small, "strong") + 3.0:
            half = text_width(str(number), small, "strong") / 2 + 0.7
            tag = (
                (x + 0.8, y + 0.5),
                (x + 0.8 + 2 * half, y + 0.5),
                (x + 0.8 + 2 * half, y + BAR - 0.5),
                (x + 0.8, y + BAR - 0.5),
            )
            out.append(Area((tag,), "paper"))
            out.append(Text((x + 0.8 + half, y + 3.0), str(number), small, "strong", "ink", "middle"))
        x += w
    end = left + long
    step = 1.1
    k = 0
    while end - x > 0.3 and x + k * step < end + BAR:
        a = x + k * step
        low, high = max(a - BAR, x), min(a, end)
        if high > low:
            out.append(Line(((high, y + (a - high)), (low, y + (a - low))), "hair", "graphite"))
        k += 1
    out.append(Line(((left, y), (end, y), (end, y + BAR), (left, y + BAR)), "hair", "graphite", closed=True))
    return out
