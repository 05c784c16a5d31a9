"""The audit of a job document, and of what a patch makes of it.

`Auditor` holds one state of the document with its rooms resolved. `after(patch)` gives the state behind a patch and
resolves again only the rooms it touches; whole surveys are adjusted again only where the survey changed.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Patch
from halfdrop.audit.rule import Rule, all_rules
from halfdrop.base.errors import At, InputError, did_you_mean
from halfdrop.job.conflicts import touched
from halfdrop.job.model import Job, Room
from halfdrop.job.patch import apply
from halfdrop.job.worn import worn_in
from halfdrop.practice import Practice, load_practice
from halfdrop.room import ResolvedRoom, resolve_room
from halfdrop.survey import SurveyResult, adjust_survey

Document = dict[str, Any]


def practice_of(job: Job, folder: Path | None = None) -> Practice:
    """Return the practice a job works to, told in its units; a house file is looked for beside the job file, in `folder`."""
    choice = job.practice
    house_file = None
    if choice.file is not None:
        if folder is None:
            raise InputError(
                f"house practice file `{choice.file}` cannot be found: this job was not read from a file",
                at=At(path="practice/file"),
            )
        house_file = folder / choice.file
    return load_practice(choice.set, house=choice.values, house_file=house_file).told_in(job.job.units)


@dataclass(frozen=True, eq=False)
class Auditor:
    """One state of a job, ready to be judged.

    Attributes
    ----------
    document : dict
        The document (never changed here).
    job : Job
        Its validated view.
    practice : Practice
        What it is judged by.
    cases : Mapping
        The rooms, resolved, by id.
    folder : Path or None
        Where a house practice file is looked for.
    """

    document: Document
    job: Job
    practice: Practice
    cases: Mapping[str, RoomCase]
    folder: Path | None = None

    @classmethod
    def of(
        cls,
        document: Document,
        job: Job | None = None,
        *,
        folder: Path | None = None,
        without: Collection[str] = (),
    ) -> Auditor:
        """Resolve every room of a document; those `without` stay in the document and have no case.

        Raises
        ------
        InputError
            Where a survey cannot be adjusted or an opening does not fit its wall; the error names the room.
        """
        job = job if job is not None else Job.model_validate(document)
        practice = practice_of(job, folder)
        cases = {i: room_case(job, i, room, practice) for i, room in job.rooms.items() if i not in without}
        return cls(document, job, practice, cases, folder)

    def case(self, room: str) -> RoomCase:
        """Return one room's case; an unknown id is an error with the nearest known one."""
        if room not in self.cases:
            raise InputError(f"there is no room `{room}` in this job", hint=did_you_mean(room, self.cases))
        return self.cases[room]

    def findings(self, room: str | None = None, rules: tuple[Rule, ...] | None = None) -> tuple[Finding, ...]:
        """Judge one room or all: findings by grade, then in the order of rules and ids."""
        rooms = [room] if room is not None else list(self.cases)
        found = [f for i in rooms for f in judge(self.case(i), rules)]
        return tuple(sorted(found, key=lambda f: (f.grade.rank, rooms.index(f.room), f.rule, f.id)))

    def after(self, patch: Patch) -> Auditor:
        """Return the state behind a patch.

        Raises
        ------
        InputError
            Where the patch cannot be applied.
        pydantic.ValidationError
            Where what it makes is not a valid document.
        """
        document = apply(self.document, patch)
        rooms: dict[str, set[str]] = {}
        changed: dict[str, set[tuple[str, ...]]] = {}
        stocked = False
        for pointer in touched(patch):
            parts = pointer.split("/")
            if len(parts) > 1 and parts[1] in _BESIDE:
                stocked = True
                continue
            if len(parts) < 4 or parts[1] != "rooms" or parts[2] not in self.cases or parts[3] not in _INSIDE:
                return Auditor.of(document, folder=self.folder)
            rooms.setdefault(parts[2], set()).add(parts[3])
            changed.setdefault(parts[2], set()).add(tuple(parts[3:5]))
        if stocked:
            job = Job.model_validate(document)
            cases = {
                i: room_case(job, i, room, self.practice, self.cases[i].room.survey)
                if i in rooms
                else RoomCase(job, self.cases[i].room, self.practice)
                for i, room in job.rooms.items()
            }
            return Auditor(document, job, self.practice, cases, self.folder)
        fresh = {i: _valid(document["rooms"][i], self.job.rooms[i], changed[i]) for i in sorted(rooms)}
        if not all(_names_known(self.job, room) for room in fresh.values()):
            return Auditor.of(document, folder=self.folder)
        job = self.job.model_copy(update={"rooms": {**self.job.rooms, **fresh}})
        cases = dict(self.cases)
        for i, room in fresh.items():
            cases[i] = room_case(job, i, room, self.practice, self.cases[i].room.survey, self.cases[i].room)
            if not rooms[i] & _HANGS:
                cases[i].keep(self.cases[i], "hung")
        return Auditor(document, job, self.practice, cases, self.folder)


#: The parts of a room that change how what hangs at its windows hangs.
_HANGS = frozenset({"treatments", "fittings"})
#: The parts of a room that leave its outline and the rest of the job as they are.
_INSIDE = frozenset(
    {
        "pieces",
        "rugs",
        "wishes",
        "fittings",
        "treatments",
        "cushions",
        "finishes",
        "art",
        "surfaces",
        "lamps",
        "note",
    }
)

#: The parts of a job beside its rooms that leave every outline as it is.
_BESIDE = frozenset({"fabrics", "papers", "paints", "swatches"})


#: The maps of a room.
_THINGS = ("openings", "fittings", "pieces", "rugs", "treatments", "cushions", "finishes", "art")


def _valid(raw: Document, was: Room, changed: set[tuple[str, ...]]) -> Room:
    """Validate a room behind a patch; the things it left alone are taken as they were validated.

    `changed` are the places it wrote: a part of the room, and of a map which of its things.
    """
    parts = {**raw, "survey": was.survey}
    for part in _THINGS:
        if part in raw and (part,) not in changed:
            known = getattr(was, part)
            parts[part] = {
                key: known[key] if key in known and (part, key) not in changed else thing
                for key, thing in raw[part].items()
            }
    return Room.model_validate(parts)


def _names_known(job: Job, room: Room) -> bool:
    """Return whether every cloth, paper, paint and swatch that a room names is the job's; validation of the whole says which is not."""
    cloths = [cloth for t in room.treatments.values() for _, cloth in t.cloths()]
    cloths += [c.fabric for c in room.cushions.values()]
    finishes = room.finishes.values()
    paints = [name for f in finishes for name in (f.paint, f.primer) if name is not None]
    papers = [f.paper for f in finishes if f.paper is not None]
    return (
        set(cloths) <= job.fabrics.keys()
        and set(paints) <= job.paints.keys()
        and set(papers) <= job.papers.keys()
        and {name for _, colors in worn_in(room) for name in colors} <= job.swatches.keys()
    )


def room_case(
    job: Job,
    room_id: str,
    room: Room,
    practice: Practice,
    survey: SurveyResult | None = None,
    was: ResolvedRoom | None = None,
) -> RoomCase:
    """Return one room resolved; its survey is adjusted unless it is given, what it `was` is used as far as it is the same.

    Raises
    ------
    InputError
        Where the survey cannot be adjusted or an opening does not fit its wall; the error names the room.
    """
    try:
        adjusted = survey if survey is not None else adjust_survey(room.survey, practice)
        resolved = resolve_room(room_id, room, adjusted, practice, was)
    except InputError as error:
        path = f"rooms/{room_id}"
        inner = error.at.path if error.at and error.at.path else None
        at = At(path=inner if inner and inner.startswith("rooms/") else "/".join(filter(None, (path, inner))))
        hint = error.hint or f"run `halfdrop survey JOB --room {room_id}` to see its measures"
        raise InputError(f"room `{room_id}`: {error.message}", at=at, hint=hint) from error
    return RoomCase(job, resolved, practice)


def judge(case: RoomCase, rules: tuple[Rule, ...] | None = None) -> list[Finding]:
    """Run rules on one room; every one there is, unless told otherwise, and that once for a case."""
    if rules is None:
        return list(case.memo("findings", lambda: tuple(judge(case, all_rules()))))
    return [finding for rule in rules for finding in rule.check(case)]
