"""The color page: areas in true proportion, each swatch by day and of an evening, the value ladder.

Nothing is told by hue alone: every color has its number, name, share and light reflectance value, and the ladder is gray.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from halfdrop.base.formats import Units
from halfdrop.drawing.color_parts import part_bars
from halfdrop.drawing.color_table import swatch_table
from halfdrop.drawing.metrics import text_width, wrap
from halfdrop.drawing.notes import Column, line_height
from halfdrop.drawing.paper import Paper
from halfdrop.drawing.paper import paper as paper_named
from halfdrop.drawing.sheet import Sheet, TitleInfo, divide, heading, sheet_of
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Area, Begin, End, Line, Text, Verb

#: Gutter at the left of the bar for its two words, height of its two halves, of the ladder [mm].
GUTTER, DAY, EVENING, LADDER = 17.0, 24.0, 18.0, 21.0
#: Between the halves [mm].
SEAM = 0.9
#: A field narrower than this has the parts below the table, not beside it [mm].
BESIDE = 230.0


@dataclass(frozen=True)
class PageSwatch:
    """A swatch as the page shows it.

    Attributes
    ----------
    number : int
        As it stands over the bar and in the table, the largest share first.
    path, name, code : str
    share : float
        Of all that is recorded, 0 to 1.
    area : str
        As printed.
    lightness, lrv : float
        L*, and light reflectance value [percent].
    leans : str
        Its hue's word, or "none".
    day, evening : str
        How it is seen, `#rrggbb`.
    moves : float
        From day to evening [CIEDE2000].
    on : tuple of str
        What wears it.
    """

    number: int
    path: str
    name: str
    code: str
    share: float
    area: str
    lightness: float
    lrv: float
    leans: str
    day: str
    evening: str
    moves: float
    on: tuple[str, ...]


@dataclass(frozen=True)
class PagePart:
    """A surface or thing: its area [m²] and as printed, and the numbers of its swatches with their shares of it."""

    path: str
    name: str
    area: float
    area_text: str
    colors: tuple[tuple[int, float], ...]


@dataclass(frozen=True)
class ColorPage:
    """What a color page says.

    Attributes
    ----------
    path : str
        The room's.
    swatches : tuple of PageSwatch
        By number.
    parts : tuple of PagePart
        The largest first.
    day, evening : str
        Names of the lights.
    limits : (float, float)
        L* up to which a color is dark, and from which it is light.
    says : tuple of (str, str)
        Headings and sentences for the margin.
    findings : tuple of str
        What the color rules found.
    """

    path: str
    swatches: tuple[PageSwatch, ...]
    parts: tuple[PagePart, ...]
    day: str
    evening: str
    limits: tuple[float, float]
    says: tuple[tuple[str, str], ...]
    findings: tuple[str, ...] = ()


def color_sheet(
    page: ColorPage, *, title: TitleInfo, paper: str | Paper = "tabloid", units: Units = "imperial"
) -> Sheet:
    """Return a room's color page as a sheet.

    Parameters
    ----------
    page : ColorPage
        One swatch at least.
    title : TitleInfo
    paper : str or Paper
    units : {"imperial", "metric"}

    Raises
    ------
    InputError
        Where the paper is not known.
    """
    sheet = paper_named(paper) if isinstance(paper, str) else paper
    parts = divide(sheet, below=0.3)
    field = parts.field
    verbs: list[Verb] = [Begin("G-ANNO-NOTE", page.path)]
    y = field.top + tokens().sizes["lead"]
    verbs += heading("Colors by what is seen of them", (field.left, y), "body" if parts.narrow else "lead")
    halves = (12.0, 8.0) if parts.narrow else (DAY, EVENING)
    y = _bar(verbs, page, field, y + 8.0, halves)
    bottom = field.top + field.height
    ladder = LADDER if not parts.narrow else 0.0
    body = Column(field.left, y + 9.0, field.width, bottom - ladder - y - (13.0 if ladder else 9.0))
    if field.width >= BESIDE:
        half = 0.6 * field.width
        verbs += swatch_table(page, replace(body, width=half - 8.0))
        verbs += part_bars(page, replace(body, left=body.left + half, width=body.width - half))
    else:
        shown = swatch_table(page, body)
        verbs += shown
        low = max((v.at[1] for v in shown if isinstance(v, Text)), default=body.top) + 10.0
        left = body.top + body.height - low
        if left > 24.0:
            verbs += part_bars(page, Column(body.left, low, body.width, left))
    if ladder:
        verbs += _ladder(page, Column(field.left, bottom - ladder, field.width, ladder))
    verbs.append(End())
    margin = [Begin("G-ANNO-NOTE", page.path), *_margin(page, parts.margin), End()]
    return sheet_of(sheet, title, units, [], [*verbs, *margin], parts, None)


def _bar(verbs: list[Verb], page: ColorPage, field: Column, y: float, halves: tuple[float, float]) -> float:
    """Draw the colors as columns of their true share, by day above and of an evening below; return where it ends."""
    small = tokens().sizes["small"]
    left, wide = field.left + GUTTER, field.width - GUTTER
    top, (day, evening) = y + 2.0, halves
    for word, low in (("Day", top + 5.0), ("Evening", top + day + 5.0)):
        verbs.append(Text((field.left, low), word, small, "medium", "ink"))
    ends: list[float] = []
    x = left
    for swatch in page.swatches:
        w = swatch.share * wide
        verbs.append(Begin("G-ANNO-NOTE", swatch.path))
        verbs.append(Area((_ring(x, top, w, day),), None, color=swatch.day))
        verbs.append(Area((_ring(x, top + day + SEAM, w, evening - SEAM),), None, color=swatch.evening))
        verbs.append(End())
        ends.append(x + w)
        x += w
    for low, high in ((top, day), (top + day + SEAM, evening - SEAM)):
        verbs += [Line(((end, low), (end, low + high)), "hair", "ink") for end in ends[:-1]]
        verbs.append(Line(_ring(left, low, wide, high), "thin", "ink", closed=True))
    starts = [left, *ends[:-1]]
    _numbers(verbs, [(a + b) / 2 for a, b in zip(starts, ends, strict=True)], page, top, left + wide)
    for k, swatch in enumerate(page.swatches):
        text, w = f"{100 * swatch.share:.0f}%", ends[k] - starts[k]
        if text_width(text, small) < w - 2.0:
            at = ((starts[k] + ends[k]) / 2, top + day + evening + small + 0.8)
            verbs.append(Text(at, text, small, "lettering", "graphite", "middle"))
    return top + day + evening + small


def _numbers(verbs: list[Verb], middles: list[float], page: ColorPage, top: float, right: float) -> None:
    """Letter the numbers over the bar, moved apart where they would touch, each joined to its column."""
    small = tokens().sizes["small"]
    wide = [text_width(str(s.number), small, "strong") + 1.6 for s in page.swatches]
    at = list(middles)
    for k in range(1, len(at)):
        at[k] = max(at[k], at[k - 1] + (wide[k - 1] + wide[k]) / 2)
    over = at[-1] + wide[-1] / 2 - right
    for k in range(len(at) - 1, -1, -1):
        if over <= 0:
            break
        at[k] = min(at[k], right - sum(wide[k + 1 :]) - wide[k] / 2)
    for middle, x, swatch in zip(middles, at, page.swatches, strict=True):
        verbs.append(Text((x, top - 3.2), str(swatch.number), small, "strong", "ink", "middle"))
        verbs.append(Line(((x, top - 2.5), (middle, top - 0.4)), "hair", "graphite"))


def _ladder(page: ColorPage, column: Column) -> list[Verb]:
    """Return the value ladder: from black to white, a gray mark for each swatch, its number, the limits of dark and light."""
    small = tokens().sizes["small"]
    left, wide = column.left + GUTTER, column.width - GUTTER
    top, high = column.top + 7.5, 6.0
    out: list[Verb] = [Text((column.left, top + 4.2), "Value", small, "medium", "ink")]
    steps = 20
    for k in range(steps):
        gray = _gray(100.0 * (k + 0.5) / steps)
        out.append(Area((_ring(left + wide * k / steps, top, wide / steps + 0.02, high),), None, color=gray))
    out.append(Line(tuple(_ring(left, top, wide, high)), "hair", "graphite", closed=True))
    low = top + high + 4.4
    dark, light = (left + wide * limit / 100.0 for limit in page.limits)
    out += [Line(((x, top - 1.0), (x, top + high + 5.0)), "medium", "ink", "fine") for x in (dark, light)]
    out += [
        Text((dark - 1.0, low), "dark up to here", small, "slanted", "graphite", "end"),
        Text((light + 1.0, low), "light from here", small, "slanted", "graphite"),
        Text((left, low), "L* 0", small, "lettering", "graphite"),
    ]
    if left + wide - light > text_width("light from here L* 100", small) + 4.0:
        out.append(Text((left + wide, low), "L* 100", small, "lettering", "graphite", "end"))
    ordered = sorted(page.swatches, key=lambda s: (s.lightness, s.number))
    spots = [left + wide * s.lightness / 100.0 for s in ordered]
    _numbers(out, spots, replace(page, swatches=tuple(ordered)), top, left + wide)
    return out


def _gray(lightness: float) -> str:
    """Return the gray of L* as `#rrggbb` (IEC 61966-2-1)."""
    scaled = (lightness + 16.0) / 116.0
    y = scaled**3 if lightness > 8.0 else lightness / 903.3
    value = 12.92 * y if y <= 0.0031308 else 1.055 * y ** (1 / 2.4) - 0.055
    byte = round(255.0 * min(max(value, 0.0), 1.0))
    return f"#{byte:02x}{byte:02x}{byte:02x}"


def _ring(x: float, y: float, w: float, h: float) -> tuple[tuple[float, float], ...]:
    return ((x, y), (x + w, y), (x + w, y + h), (x, y + h))


def _margin(page: ColorPage, column: Column) -> list[Verb]:
    """Return the margin: what was measured, in words, as far as the column holds; findings first."""
    small, high = tokens().sizes["small"], line_height()
    out: list[Verb] = []
    y = column.top
    worth = [("Worth a thought" if k == 0 else "", text) for k, text in enumerate(page.findings)]
    for head, text in (*worth, *page.says):
        lines = wrap(text, column.width, small, "prose")
        if y + (len(lines) + 1.5) * high > column.top + column.height:
            break
        if head:
            y += high * 1.15
            out.append(
                Text(
                    (column.left, y), head, small, "strong", "pencil" if head == "Worth a thought" else "ink"
                )
            )
        for line in lines:
            y += high
            out.append(Text((column.left, y), line, small, "prose", "ink"))
        y += high * 0.35
    return out
