"""What hangs in a room of a job: the two numbers of each hook, fixings, cautions; and writing a hanging into a scheme."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from halfdrop.art import hanging_cautions
from halfdrop.art.cautions import OVER_PEOPLE
from halfdrop.art.fixings import Rating
from halfdrop.art.setting_out import Edge
from halfdrop.art.wall_face import ArtWall, Unit
from halfdrop.art.way import WALLS, Back, back_of, mass_of
from halfdrop.art.work import Work
from halfdrop.audit.art_case import walls_hung
from halfdrop.audit.case import RoomCase
from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.job.art import Art
from halfdrop.job.patch import apply
from halfdrop.job.scheme import add_step
from halfdrop.job.write import write_job
from halfdrop.practice import Practice
from halfdrop.room import HungArt
from halfdrop.services.hanging import hooks_of
from halfdrop.services.hanging_room import RoomAsk, RoomHanging, hang_in, names_of, wired_on
from halfdrop.services.hanging_types import Ask, HungWork, Own, work_json
from halfdrop.services.jobs import OpenJob


@dataclass(frozen=True, eq=False)
class HungWall:
    """One wall as it hangs.

    Attributes
    ----------
    wall : str
        Its name.
    edge : str
        What the numbers are taped from: "left end of wall CD (corner D)".
    works : tuple of HungWork
        In the order they are hung: groups from their largest on, then from left to right.
    ids : tuple of str
        Of the works, alike.
    notes, cautions : tuple of str
        What is to know, and what could hurt someone.
    workings : tuple of Working
        The steps.
    """

    wall: str
    edge: str
    works: tuple[HungWork, ...]
    ids: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    workings: tuple[Working, ...]
    face: ArtWall = field(repr=False)
    practice: Practice = field(repr=False)

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object, lengths in metres, masses in kilograms."""
        return {
            "wall": self.wall,
            "edge": self.edge,
            "works": [{"id": i, **work_json(w)} for i, w in zip(self.ids, self.works, strict=True)],
            "notes": list(self.notes),
            "cautions": list(self.cautions),
            "workings": [w.to_json() for w in self.workings],
        }


def hung_on(case: RoomCase, wall: ArtWall, edge: Edge = "left") -> HungWall:
    """Return how the works of a wall hang as the document has them.

    Checked by: tests/services/test_hanging_job.py.
    """
    stretches = wall.face.stretches
    corner = stretches[0].left_corner if edge == "left" else stretches[-1].right_corner
    works: list[HungWork] = []
    ids: list[str] = []
    told: dict[str, list[str]] = {}
    workings: list[Working] = []
    names = names_of({w.id: w.model for u in wall.units for w in u.works})
    heavy, glass, guessed, over = 0.0, False, False, None
    for unit in sorted(wall.units, key=lambda u: (round(u.box.x0, 6), u.id)):
        for work in _in_order(unit):
            one, notes, steps = hung_work(case, wall, unit, work, names[work.id], edge)
            works.append(one)
            ids.append(work.id)
            workings += steps
            for note in notes:
                told.setdefault(note, []).append(names[work.id])
            heavy += one.mass
            glass |= work.model.glass
            guessed |= work.model.mass is None
            over = unit.below_kind if unit.below_kind in OVER_PEOPLE else over
    notes_said = [n if len(who) == len(works) else f"{', '.join(who)}: {n}" for n, who in told.items()]
    if case.room.model.wall_build == "unknown":
        notes_said.append(
            "How the wall is built is not written down; the fixings are those for plasterboard. Knock and drill a trial hole first."
        )
    cautions = hanging_cautions(heavy, case.practice, below=over, glass=glass, estimated=guessed)
    return HungWall(
        wall.name, f"{edge} end of wall {wall.name} (corner {corner})", tuple(works), tuple(ids), tuple(notes_said),
        cautions if works else (), tuple(workings), wall, case.practice,
    )  # fmt: skip


def hung_work(
    case: RoomCase, wall: ArtWall, unit: Unit, work: HungArt, name: str, edge: Edge
) -> tuple[HungWork, list[str], list[Working]]:
    """Return how one work hangs as the document has it, what is to know of it, and the steps.

    Where its back as written cannot hang so, that is said, and its hooks are left open.
    """
    rect = unit.rects[unit.works.index(work)]
    frame, mass, along = (
        Work(name, work.width, work.height),
        mass_of(work.model, case.practice),
        (wall.face.width, "wall"),
    )

    def ask(back: Back) -> Ask:
        return Ask(
            (), own={name: Own(back, mass)}, below=unit.below_kind, edge=edge, wired=wired_on(wall),
            wall=WALLS[case.room.model.wall_build], rated=_rated(work.model),
        )  # fmt: skip

    try:
        return hooks_of(ask(back_of(work.model)), frame, rect, along, case.practice)
    except InputError as error:
        one, _, steps = hooks_of(ask(Back()), frame, rect, along, case.practice)
        return one, [error.message[0].upper() + error.message[1:] + "."], steps


def fixing_said(work: Art, hung: HungWork) -> str:
    """Return what a work hangs from, how many, and by how much each holds: as it is written down, else the lightest that does."""
    fixing, written = hung.fixing, work.fixings
    if fixing is None:
        return (
            "none holds it in this wall"
            if written is None or written.rated is None
            else "what is there does not hold it"
        )
    if written is not None and written.rated is not None:
        count, name = written.count, f"{written.kind} {written.rating} {written.rated.text}"
    else:
        count, name = len(hung.hang.offsets) if hung.hang is not None else 1, fixing.name
    return f"{f'{count} of: ' if count > 1 else ''}{name}, {fixing.said} times what is needed"


def _rated(work: Art) -> tuple[float, Rating] | None:
    """Return the load of the fixing at hand, where it is known."""
    fixings = work.fixings
    return None if fixings is None or fixings.rated is None else (float(fixings.rated), fixings.rating)


def _in_order(unit: Unit) -> list[HungArt]:
    """Return a group's works in the order they are hung: the one nearest its middle first, each next nearest to it."""
    x, y = unit.box.center

    def key(work: HungArt) -> tuple[float, float, str]:
        rect = unit.rects[unit.works.index(work)]
        return round(abs(rect.center[0] - x) + abs(rect.center[1] - y), 4), -rect.width * rect.height, work.id

    return sorted(unit.works, key=key)


def hung_walls(job: OpenJob, room: str, scheme: str | None = None, edge: Edge = "left") -> list[HungWall]:
    """Return every wall of a room that art hangs on, under a scheme where one is named."""
    job.room_ids(room)
    case = job.under(scheme).case(room)
    return [hung_on(case, wall, edge) for wall in walls_hung(case)]


def hang_of(job: OpenJob, room: str, ask: RoomAsk, scheme: str | None = None) -> RoomHanging:
    """Return where works would hang in a room of a job file.

    Raises
    ------
    InputError
        As `hang_in`; placed in the file where the fault is the document's.
    """
    job.room_ids(room)
    try:
        return hang_in(job.under(scheme).case(room), ask)
    except InputError as error:
        raise job.placed(error) from error


def take_hanging(job: OpenJob, scheme: str, room: str, ask: RoomAsk, way: int) -> RoomHanging:
    """Write one way of hanging into a scheme of the job file, begun where it is new.

    Raises
    ------
    InputError
        Where there is no such way; nothing is written.
    """
    document = job.loaded.document
    known = scheme in (document.get("schemes") or {})
    found = hang_of(job, room, ask, scheme if known else None)
    if not 1 <= way <= len(found.patches):
        raise InputError(
            f"there is no way {way}; {len(found.patches)} {'was' if len(found.patches) == 1 else 'were'} found",
            hint="run it without --take to see them",
        )
    step = {"title": found.title, "patch": found.patches[way - 1]}
    write_job(job.path, job.loaded, apply(document, add_step(document, scheme, step)))
    return found
