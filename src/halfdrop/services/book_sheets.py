"""The sheets of a book: each room's survey, plan, elevations and colors, as found and as proposed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding
from halfdrop.book.content import BookSheet
from halfdrop.drawing.notes import Note
from halfdrop.drawing.sheet import Sheet
from halfdrop.services.color import color_drawn, colors_of
from halfdrop.services.elevations import elevation_drawn, told_of, wall_runs
from halfdrop.services.jobs import OpenJob
from halfdrop.services.sheets import ViewName, drawn


@dataclass
class RoomSheets:
    """The sheets of one room, numbered `room.sheet`.

    Attributes
    ----------
    job : OpenJob
    after : Auditor
        The job as proposed.
    numbers : mapping
        Number of each finding by its id.
    paper : str
    room : str
    number : int
        Of the room.
    """

    job: OpenJob
    after: Auditor
    numbers: Mapping[str, int]
    paper: str
    room: str
    number: int
    made: int = 0

    def sheet(self, view: ViewName, findings: Sequence[Finding], *, proposed: bool = False) -> BookSheet:
        """Return the room's next sheet."""
        self.made += 1
        notes = [
            Note(self.numbers[f.id], f.grade.value, f.message, f.anchor, f.within_tape, f.subjects[0])
            for f in findings
        ]
        found = self.job.found.case(self.room)
        later = proposed or view == "before-after"
        made = drawn(
            view,
            found,
            self.after.case(self.room) if later else found,
            notes,
            proposed=later,
            paper=self.paper,
            number=f"{self.number}.{self.made}",
            onward="see the pages of findings",
        )
        return book_sheet(made)

    def elevations(self, findings: Sequence[Finding], *, proposed: bool = False) -> Iterator[BookSheet]:
        """Give the walls at which anything hangs; of a proposal those that it changes."""
        found = self.job.found.case(self.room)
        case = self.after.case(self.room) if proposed else found
        for _, walls in wall_runs(case):
            if not told_of(found, case, walls, proposed=proposed):
                continue
            self.made += 1
            made = elevation_drawn(
                found,
                case,
                walls,
                findings,
                self.numbers,
                proposed=proposed,
                paper=self.paper,
                number=f"{self.number}.{self.made}",
                onward="see the pages of findings",
            )
            yield book_sheet(made)

    def colors(self, findings: Sequence[Finding], *, proposed: bool = False) -> Iterator[BookSheet]:
        """Give the color page where colors are recorded; of a proposal where it changes any."""
        found = self.job.found.case(self.room)
        case = self.after.case(self.room) if proposed else found
        worn = colors_of(case)
        if worn is None or (proposed and worn == colors_of(found)):
            return
        self.made += 1
        told = [f for f in findings if f.rule.startswith("color.")]
        number = f"{self.number}.{self.made}"
        yield book_sheet(color_drawn(case, told, proposed=proposed, paper=self.paper, number=number))


def book_sheet(sheet: Sheet) -> BookSheet:
    """Return a finished sheet as the book binds it."""
    return BookSheet(
        svg=sheet.svg(),
        width=sheet.paper.width,
        height=sheet.paper.height,
        number=sheet.title.number,
        view=sheet.title.view,
        scale=sheet.scale.name if sheet.scale is not None else "not to scale",
        paper=sheet.paper.name,
    )
