"""What all install sheets of a job are made from, counted once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import HalfdropError
from halfdrop.base.formats import Units
from halfdrop.drapery import Cloth, ClothTakeoff, Hung, cloth_of, cloth_takeoff, hang
from halfdrop.drapery.made import is_made
from halfdrop.job.model import Job
from halfdrop.job.treatments import Treatment
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom
from halfdrop.services.jobs import OpenJob
from halfdrop.services.takeoff import count_finishes
from halfdrop.services.trade_words import Say
from halfdrop.walls import PaintRoom, PaperRoom


@dataclass(frozen=True, eq=False)
class Counts:
    """A job as it is to be carried out: rooms resolved, cloth on bolts, finishes counted.

    Attributes
    ----------
    opened : OpenJob
        The job; `opened.found` is the job as found.
    after : Auditor
        As it is to be.
    rooms : mapping of str to ResolvedRoom
        Those the sheets are for.
    """

    opened: OpenJob
    after: Auditor
    rooms: Mapping[str, ResolvedRoom]

    @property
    def job(self) -> Job:
        """The document as it is to be."""
        return self.after.job

    @property
    def practice(self) -> Practice:
        """What the job works to."""
        return self.after.practice

    @property
    def units(self) -> Units:
        """Of the job."""
        return self.job.job.units

    @cached_property
    def say(self) -> Say:
        """The printer."""
        return Say(self.units)

    @cached_property
    def cloths(self) -> dict[str, Cloth]:
        """Every cloth of the job."""
        return {i: cloth_of(i, fabric, self.practice) for i, fabric in self.job.fabrics.items()}

    @cached_property
    def takeoff(self) -> dict[str, ClothTakeoff]:
        """Every cloth that something takes, on bolts."""
        try:
            return cloth_takeoff(self.job, self.rooms, self.practice)
        except HalfdropError as error:
            raise self.opened.placed(error) from error

    @cached_property
    def finishes(self) -> tuple[dict[str, list[PaperRoom]], dict[str, list[PaintRoom]]]:
        """Papers and paints by id, with every finish that takes of them."""
        return count_finishes(self.opened, self.after, list(self.rooms))

    def treatments(self) -> Iterator[tuple[ResolvedRoom, str, Treatment]]:
        """Give every treatment there is, room by room."""
        for room in self.rooms.values():
            for key, treatment in room.model.treatments.items():
                yield room, key, treatment

    def made(self, treatment: Treatment) -> bool:
        """Return whether panels or a shade are made in a cloth of the job."""
        return is_made(treatment) and treatment.fabric is not None and treatment.kind != "roller"

    def hung(self, room: ResolvedRoom, key: str) -> Hung:
        """Return panels worked out.

        Raises
        ------
        InputError
            Where they cannot be: with file and line.
        """
        try:
            return hang(room, key, self.cloths, self.practice)
        except HalfdropError as error:
            raise self.opened.placed(error) from error
