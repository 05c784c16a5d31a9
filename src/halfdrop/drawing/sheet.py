"""The sheet: drawing field, margin column, title strip; no boxes, rules and white space separate."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from halfdrop.base.formats import Units
from halfdrop.drawing.board import Frame
from halfdrop.drawing.embed import font_rules
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.notes import Column, Note
from halfdrop.drawing.paper import Paper, Scale
from halfdrop.drawing.svg import to_svg
from halfdrop.drawing.tokens import Font, Ground, Size, tokens
from halfdrop.drawing.verbs import Anchor, Area, Begin, End, Line, Text, Verb

#: White edge of the paper, height of the title strip and space above it [mm].
EDGE = 9.0
STRIP = 13.0
AIR = 5.0
#: Below this width the margin stands under the drawing (a phone) [mm].
NARROW = 170.0
#: Longest scale bar on a wide and on a narrow sheet [mm].
BAR = {False: 40.0, True: 22.0}
#: A wide sheet narrower than this takes the short bar too [mm].
SHORT_BAR = 240.0


@dataclass(frozen=True)
class TitleInfo:
    """What the title strip says."""

    job: str
    room: str
    view: str
    date: str = ""
    revision: str = ""
    number: str = ""
    decorator: str = ""


@dataclass(frozen=True)
class View:
    """A drawing on the sheet: its frame (plan metres to paper), and its verbs."""

    frame: Frame
    verbs: tuple[Verb, ...]


@dataclass(frozen=True)
class Sheet:
    """A finished sheet.

    Attributes
    ----------
    paper, title, units
        What it is drawn on, what its strip says, and its units.
    views : tuple of View
        The drawings, each at its true scale.
    margin : tuple of Verb
        Notes and keys.
    strip : tuple of Verb
        The title strip.
    left : tuple of Note
        Notes that found no place; draw them with `notes_sheet`.
    scale : Scale or None
        Of its views.
    """

    paper: Paper
    title: TitleInfo
    units: Units
    views: tuple[View, ...]
    margin: tuple[Verb, ...]
    strip: tuple[Verb, ...]
    left: tuple[Note, ...] = ()
    scale: Scale | None = None

    @property
    def verbs(self) -> tuple[Verb, ...]:
        """Everything on the sheet, in the order it is drawn."""
        drawn = tuple(v for view in self.views for v in view.verbs)
        return drawn + self.margin + self.strip

    @property
    def name(self) -> str:
        """What a reader calls the sheet."""
        return " · ".join(part for part in (self.title.job, self.title.room, self.title.view) if part)

    def svg(self, ground: Ground = "light", *, fonts: bool = False) -> str:
        """Return the sheet as SVG; with `fonts`, the glyphs it letters travel inside it."""
        rules = font_rules(self.verbs) if fonts else ""
        return to_svg(
            self.verbs, self.paper.width, self.paper.height, title=self.name, ground=ground, fonts=rules
        )

    def dxf(self) -> bytes:
        """Return the sheet as DXF: its drawings 1:1 in model space, margin and strip on the paper."""
        from halfdrop.drawing.dxf import Layout, to_dxf  # here, since it is slow to load

        frame = self.views[0].frame if self.views else Frame((0.0, 0.0), 1.0)
        drawn = [verb for view in self.views for verb in view.verbs]
        paper = Layout(self.paper.width, self.paper.height, self.margin + self.strip)
        return to_dxf(frame, drawn, units=self.units, layout=paper)


@dataclass(frozen=True)
class Parts:
    """How a paper is divided [mm]: the drawing field and the margin column as boxes, and whether it is
    narrow.
    """

    field: Column
    margin: Column
    narrow: bool
    strip_top: float


def divide(paper: Paper, *, margin: bool = True, below: float = 0.45) -> Parts:
    """Divide a paper into drawing field, margin column (a quarter of the width; below on a narrow one) and
    strip.

    Parameters
    ----------
    paper : Paper
    margin : bool
        False gives the drawing the whole width.
    below : float
        Part of a narrow sheet's height that the margin takes.
    """
    narrow = paper.width < NARROW
    edge = EDGE if not narrow else 5.0
    strip = STRIP if not narrow else 2 * STRIP
    bottom = paper.height - edge - strip
    width = paper.width - 2 * edge
    top, high = edge, bottom - edge - AIR
    if not margin:
        return Parts(Column(edge, top, width, high), Column(paper.width, top, 0.0, high), narrow, bottom)
    if narrow:
        part = high * (1 - below)
        return Parts(
            Column(edge, top, width, part - AIR),
            Column(edge, top + part, width, high - part),
            narrow,
            bottom,
        )
    column = max(52.0, min(0.25 * paper.width, 96.0))
    field_width = width - column - 2 * AIR
    return Parts(
        Column(edge, top, field_width, high),
        Column(edge + width - column, top, column, high),
        narrow,
        bottom,
    )


@dataclass
class _Cell:
    caption: str
    value: str
    font: Font = "medium"
    size: Size = "body"
    wide: float = 0.0
    bar: list[Verb] = field(default_factory=list)


def title_strip(
    paper: Paper, parts: Parts, title: TitleInfo, scale: Scale | None, units: Units
) -> tuple[Verb, ...]:
    """Return the title strip along the bottom edge."""
    edge = EDGE if not parts.narrow else 5.0
    top, right = parts.strip_top, paper.width - edge
    verbs: list[Verb] = [Begin("G-ANNO-TTLB"), Line(((edge, top), (right, top)), "medium", "ink")]
    cells = [
        _Cell(title.job, title.room, "strong", "lead"),
        _Cell("View", title.view),
        _Cell("Scale", scale.name if scale else "none"),
        _Cell("Date", title.date or "–"),
        _Cell("Revision", title.revision or "–"),
        _Cell("Sheet", title.number or "–", "strong", "lead"),
    ]
    rows = [cells] if not parts.narrow else [[cells[0], cells[1], cells[5]], [cells[2], cells[3], cells[4]]]
    for k, row in enumerate(rows):
        verbs += _row(row, edge, right, top + k * STRIP, scale, units, narrow=parts.narrow)
    return (*verbs, End())


def _row(
    row: list[_Cell],
    left: float,
    right: float,
    top: float,
    scale: Scale | None,
    units: Units,
    *,
    narrow: bool,
) -> list[Verb]:
    look = tokens()
    small = look.sizes["small"]
    gap = 7.0 if not narrow else 3.5
    bar = BAR[narrow or right - left < SHORT_BAR]
    bar_length = 0.0
    for cell in row:
        size = look.sizes[cell.size]
        cell.wide = max(text_width(cell.caption, small), text_width(cell.value, size, cell.font))
        if cell.caption == "Scale" and scale is not None:
            bar_length = scale_bar_length(scale, units, bar)[0]
            cell.wide += bar_length + (12.0 if not narrow else 9.0)
    spare = (right - left) - sum(c.wide for c in row) - gap * (len(row) - 1)
    if spare < 0:  # shorten the wordiest to one common width
        free = [c for c in row if c.caption != "Scale"]
        room = sum(c.wide for c in free) + spare
        for k, cell in enumerate(sorted(free, key=lambda c: c.wide)):
            cell.wide = min(cell.wide, max(room / (len(free) - k), 8.0))
            room -= cell.wide
    slack = max(spare, 0.0) / max(len(row) - 1, 1)
    out: list[Verb] = []
    x = left
    for k, cell in enumerate(row):
        last = k == len(row) - 1
        at = right if last else x
        anchor: Anchor = "end" if last else "start"
        size = look.sizes[cell.size]
        limit = cell.wide
        out.append(
            Text((at, top + 4.9), _fit(cell.caption, limit, small), small, "lettering", "graphite", anchor)
        )
        value = cell.value
        out.append(
            Text((at, top + 10.6), _fit(value, limit, size, cell.font), size, cell.font, "ink", anchor)
        )
        if cell.caption == "Scale" and scale is not None:
            lead = text_width(value, size, cell.font) + (5.0 if not narrow else 3.0)
            out += scale_bar(scale, units, x + lead, top + 10.6, bar)
        x += cell.wide + gap + slack
    return out


def _fit(text: str, width: float, size: float, font: Font = "lettering") -> str:
    """Return the text, or as much of it as fits with an ellipsis."""
    if text_width(text, size, font) <= width + 0.1:
        return text
    while text and text_width(text + "…", size, font) > width:
        text = text[:-1]
    return text.rstrip() + "…"


def scale_bar_length(scale: Scale, units: Units, longest: float) -> tuple[float, float, int]:
    """Return a scale bar's length [mm], its whole value in feet or metres, and its number of parts."""
    unit = 304.8 if units == "imperial" else 1000.0
    choices = ((1, 4), (2, 4), (4, 4), (8, 4), (16, 4), (32, 4)) if units == "imperial" else (
        (0.5, 5), (1, 4), (2, 4), (4, 4), (5, 5), (10, 5), (20, 4))  # fmt: skip
    best = (choices[0][0] * unit * scale.ratio, float(choices[0][0]), choices[0][1])
    for value, parts in choices:
        length = value * unit * scale.ratio
        if length <= longest:
            best = (length, float(value), parts)
    return best


def scale_bar(scale: Scale, units: Units, x: float, y: float, longest: float) -> list[Verb]:
    """Return a scale bar that starts at (x, y) [mm]: parts by turns solid and open, its ends lettered."""
    length, value, parts = scale_bar_length(scale, units, longest)
    high, small = 1.3, tokens().sizes["small"]
    out: list[Verb] = []
    for k in range(parts):
        a, b = x + length * k / parts, x + length * (k + 1) / parts
        ring = ((a, y), (b, y), (b, y - high), (a, y - high))
        out.append(Area((ring,), "graphite" if k % 2 == 0 else "paper", "hair", "graphite"))
    mark = f"{value:g}′" if units == "imperial" else f"{value:g} m"
    out.append(Text((x, y - high - 1.3), "0", small, "lettering", "graphite", "middle"))
    out.append(Text((x + length, y - high - 1.3), mark, small, "lettering", "graphite", "middle"))
    return out


def heading(text: str, at: tuple[float, float], size: Size = "body") -> list[Verb]:
    """Return a small heading over a view or a column."""
    return [Text(at, text, tokens().sizes[size], "strong", "ink")]


def sheet_of(
    paper: Paper,
    title: TitleInfo,
    units: Units,
    views: Sequence[View],
    margin: Sequence[Verb],
    parts: Parts,
    scale: Scale | None,
    left: Sequence[Note] = (),
) -> Sheet:
    """Return a sheet of its parts, its strip drawn."""
    strip = title_strip(paper, parts, title, scale, units)
    return Sheet(paper, title, units, tuple(views), tuple(margin), strip, tuple(left), scale)
