"""The margin of a survey sheet: how it closes, the measures with their residuals, the suspects, what to
tape next.
"""

from __future__ import annotations

import math

from halfdrop.base.formats import Units, format_angle, format_length
from halfdrop.drawing.metrics import wrap
from halfdrop.drawing.notes import Column, line_height
from halfdrop.drawing.tokens import Font, Ink, tokens
from halfdrop.drawing.verbs import Begin, End, Line, Text, Verb
from halfdrop.room import ResolvedRoom
from halfdrop.survey import ObservationResult


def survey_margin(room: ResolvedRoom, column: Column, units: Units, times: int) -> list[Verb]:
    """Return the margin of a survey sheet.

    Parameters
    ----------
    room : ResolvedRoom
    column : Column
        Of the sheet [mm].
    units : {"imperial", "metric"}
    times : int
        How many times the corners' ellipses are drawn enlarged.
    """
    survey = room.survey
    block = _Block(column)
    block.paragraph(survey.misclosure, "prose", "ink")
    if survey.extra is not None:
        block.heading("One more measure", "slate")
        block.paragraph(survey.extra.words, "prose", "ink")
    block.heading("Measures", "ink")
    rows = [o for o in survey.observations if o.kind != "square"]
    suspects = {s.id for s in survey.suspects}
    foot = _foot(times, any(o.kind == "square" for o in survey.observations))
    block.table(rows, units, suspects, len(wrap(foot, column.width, tokens().sizes["small"], "slanted")) + 1)
    block.down(0.6)
    block.paragraph(foot, "slanted", "graphite")
    return [Begin("G-ANNO-NOTE", f"{room.path}/survey"), *block.verbs, End()]


def _foot(times: int, square: bool) -> str:
    text = f"Ellipses at the corners are standard errors, drawn {times} times their size; "
    text += "A and the direction AB are held."
    if square:
        text += " Corners taken as square weigh little and are not listed."
    return text + " Residual: adjusted less taped. A measure in pencil is suspect or set aside."


class _Block:
    """Lettering that runs down a column."""

    def __init__(self, column: Column) -> None:
        self.column = column
        self.y = column.top
        self.verbs: list[Verb] = []
        self.size = tokens().sizes["small"]
        self.high = line_height()

    def down(self, lines: float) -> None:
        self.y += lines * self.high

    def row(self, x: float, text: str, font: Font, ink: Ink, *, right: bool = False) -> None:
        at = (self.column.left + x, self.y)
        self.verbs.append(Text(at, text, self.size, font, ink, "end" if right else "start"))

    def heading(self, text: str, ink: Ink) -> None:
        self.down(1.7)
        self.row(0, text, "strong", ink)
        self.down(0.15)

    def paragraph(self, text: str, font: Font, ink: Ink) -> None:
        for line in wrap(text, self.column.width, self.size, font):
            self.down(1)
            self.row(0, line, font, ink)

    def table(self, rows: list[ObservationResult], units: Units, suspects: set[str], below: int) -> None:
        """Set name, taped and residual of each measure; what does not fit is counted."""
        w = self.column.width
        stops = (w * 0.52, w * 0.80, w)
        self.down(1)
        for x, head in zip((0.0, *stops), ("", "taped", "residual", "test"), strict=True):
            if head:
                self.row(x, head, "lettering", "graphite", right=True)
        rule = self.y + self.high * 0.38
        self.verbs.append(Line(((self.column.left, rule), (self.column.left + w, rule)), "hair", "graphite"))
        self.down(0.35)
        fit = int((self.column.top + self.column.height - self.y) / self.high) - below - 1
        shown = rows if len(rows) <= fit else rows[: max(fit - 1, 0)]
        for o in shown:
            self.down(1)
            flagged = o.id in suspects or not o.used
            ink: Ink = "pencil" if flagged else "ink"
            font: Font = "medium" if flagged else "lettering"
            self.row(0, o.id.split("/", 1)[1] + ("" if o.used else ", set aside"), font, ink)
            taped, left = _values(o, units)
            self.row(stops[0], taped, font, ink, right=True)
            self.row(stops[1], left, font, ink, right=True)
            self.row(stops[2], f"{abs(o.w):.1f}" if o.r > 1e-9 or not o.used else "–", font, ink, right=True)
        if len(shown) < len(rows):
            self.down(1)
            self.row(0, f"and {len(rows) - len(shown)} more, in the job's workings", "slanted", "graphite")


def _values(o: ObservationResult, units: Units) -> tuple[str, str]:
    """Return a measure's taped value, and its residual in units fine enough to show it."""
    if o.kind in ("angle", "square"):
        return format_angle(o.measured, digits=2), _signed(math.degrees(o.v), 2, "°")
    taped = format_length(o.measured, units, zero_inches=True)
    return taped, _signed(o.v / 0.0254, 2, " in") if units == "imperial" else _signed(o.v * 1000, 1, " mm")


def _signed(value: float, digits: int, unit: str) -> str:
    """Print a number with its sign; what rounds to nothing has none."""
    text = f"{abs(value):.{digits}f}"
    sign = "" if float(text) == 0 else "+" if value > 0 else "−"
    return f"{sign}{text}{unit}"
