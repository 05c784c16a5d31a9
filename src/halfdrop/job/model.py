"""The job document, version 1: what is, never what is computed.

A document is JSON-compatible. Collections are maps keyed by a short stable id; lengths are text as a
person typed them. These models are the validated view of it (SI inside, `.text` as typed); the
document itself stays a plain `dict`, so that a patch is a patch of what the person wrote.

Frame of a room: corner A is the origin, x runs along wall AB, y square to it into the room, for
clockwise and counterclockwise surveys alike. Turn 0 means the back is to wall AB and the front looks
into the room; turns are counterclockwise as seen on the plan.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, StringConstraints, model_validator
from pydantic_core import PydanticCustomError

from halfdrop.job.art import Art
from halfdrop.job.colors import Lamps, Surfaces, Swatch
from halfdrop.job.fields import (
    AreaField,
    LengthField,
    MoneyField,
    SizeField,
)
from halfdrop.job.finishes import Finish, Paint, Paper
from halfdrop.job.part import Id, Name, Part, Text
from halfdrop.job.part import Pair as Pair
from halfdrop.job.part import corners_of as corners_of
from halfdrop.job.standing import At as At
from halfdrop.job.standing import AtPoint as AtPoint
from halfdrop.job.standing import AtWall as AtWall
from halfdrop.job.standing import Fitting as Fitting
from halfdrop.job.standing import Opening as Opening
from halfdrop.job.standing import Opens as Opens
from halfdrop.job.standing import Packed as Packed
from halfdrop.job.standing import Pad as Pad
from halfdrop.job.standing import Piece as Piece
from halfdrop.job.standing import PieceType as PieceType
from halfdrop.job.standing import Return as Return
from halfdrop.job.standing import Rug as Rug
from halfdrop.job.taped import AngleMeasure as AngleMeasure
from halfdrop.job.taped import Measure as Measure
from halfdrop.job.taped import Survey as Survey
from halfdrop.job.taped import Tape as Tape
from halfdrop.job.treatments import Cushion, Fabric, Treatment
from halfdrop.job.worn import check_worn

VERSION = 1


class Wishes(Part):
    """What the room is for: how many sit or eat or sleep, its uses, what it looks at."""

    people: Annotated[int, Field(ge=0, le=60)] | None = None
    uses: dict[Literal["talk", "screen", "read", "dine", "sleep", "work", "play", "dress"], bool] = {}
    focal: (
        Annotated[str, StringConstraints(pattern=r"^(openings|fittings|pieces|art)/[a-z0-9_-]+$")] | None
    ) = None
    note: Text | None = None


RoomUse = Literal["living", "dining", "bedroom", "kitchen", "bath", "hall", "study"]


class Room(Part):
    """One surveyed space and what is in it."""

    name: Name
    use: dict[RoomUse, bool]
    survey: Survey
    floor: Literal["hard", "carpet"] = "hard"
    wall_build: Literal["stud", "masonry", "unknown"] = "unknown"
    openings: dict[Id, Opening] = {}
    fittings: dict[Id, Fitting] = {}
    pieces: dict[Id, Piece] = {}
    rugs: dict[Id, Rug] = {}
    treatments: dict[Id, Treatment] = {}
    cushions: dict[Id, Cushion] = {}
    finishes: dict[Id, Finish] = {}
    art: dict[Id, Art] = {}
    surfaces: Surfaces = Surfaces()
    lamps: Lamps | None = None
    wishes: Wishes = Wishes()
    note: Text | None = None

    @model_validator(mode="after")
    def _walls(self) -> Room:
        order = self.survey.corners
        sides = {frozenset(p) for p in zip(order, order[1:] + order[:1], strict=True)}
        places: list[tuple[str, str]] = [(f"openings/{i}/wall", o.wall) for i, o in self.openings.items()]
        places += [(f"fittings/{i}/wall", f.wall) for i, f in self.fittings.items() if f.wall]
        places += [
            (f"pieces/{i}/at/wall", p.at.wall) for i, p in self.pieces.items() if isinstance(p.at, AtWall)
        ]
        places += [(f"rugs/{i}/at/wall", r.at.wall) for i, r in self.rugs.items() if isinstance(r.at, AtWall)]
        places += [(f"art/{i}/at/wall", a.at.wall) for i, a in self.art.items() if a.at is not None]
        places += [(f"finishes/{i}/{key}", pair) for i, f in self.finishes.items() for key, pair in f.pairs()]
        for where, pair in places:
            if frozenset(corners_of(pair)) not in sides:
                raise PydanticCustomError(
                    "room",
                    "{where} is {pair}, which is no wall of this room; walls: {walls}",
                    {
                        "where": where,
                        "pair": pair,
                        "walls": " ".join(a + b for a, b in zip(order, order[1:] + order[:1], strict=True)),
                    },
                )
        for i, piece in self.pieces.items():
            if piece.on is not None and (piece.on not in self.pieces or piece.on == i):
                raise PydanticCustomError(
                    "room",
                    "pieces/{i}/on is {on}; it names another piece of the room",
                    {"i": i, "on": piece.on},
                )
        for i, rug in self.rugs.items():
            if rug.over is not None and (rug.over not in self.rugs or rug.over == i):
                raise PydanticCustomError(
                    "room",
                    "rugs/{i}/over is {over}; it names another rug of the room",
                    {"i": i, "over": rug.over},
                )
        for i, work in self.art.items():
            if work.above is not None and work.above not in self.pieces:
                raise PydanticCustomError(
                    "room",
                    "art/{i}/above is {above}; it names a piece of the room",
                    {"i": i, "above": work.above},
                )
        for i, finish in self.finishes.items():
            if finish.mismatch is not None and finish.mismatch not in order:
                raise PydanticCustomError(
                    "room",
                    "finishes/{i}/mismatch is {c}, which is no corner of this room; corners: {all}",
                    {"i": i, "c": finish.mismatch, "all": " ".join(order)},
                )
        for i, hung in self.treatments.items():
            for key in hung.openings:
                if key not in self.openings:
                    raise PydanticCustomError(
                        "room",
                        "treatments/{i}/openings names {key}, which is no opening of this room; openings: {all}",
                        {"i": i, "key": key, "all": " ".join(self.openings) or "none"},
                    )
            if hung.behind is not None and (hung.behind not in self.treatments or hung.behind == i):
                raise PydanticCustomError(
                    "room",
                    "treatments/{i}/behind is {key}; it names another treatment of the room",
                    {"i": i, "key": hung.behind},
                )
            if hung.behind is not None:
                front = self.treatments[hung.behind]
                if front.behind == i:
                    raise PydanticCustomError(
                        "room",
                        "treatments/{i}/behind is {key}, which hangs behind {i}; one of them hangs in front",
                        {"i": i, "key": hung.behind},
                    )
                if not set(front.openings) & set(hung.openings):
                    raise PydanticCustomError(
                        "room",
                        "treatments/{i}/behind is {key}, which hangs at other openings: {there}",
                        {"i": i, "key": hung.behind, "there": " ".join(front.openings)},
                    )
        if self.wishes.focal is not None:
            kind, _, name = self.wishes.focal.partition("/")
            if name not in getattr(self, kind):
                raise PydanticCustomError(
                    "room", "wishes/focal is {focal}, which is not in this room", {"focal": self.wishes.focal}
                )
        return self


class Person(Part):
    """One who lives here."""

    name: Name | None = None
    age: Literal["child", "adult", "elder"] = "adult"
    note: Text | None = None


class Passage(Part):
    """One station on the delivery path, in the order it is passed.

    `door`: clear width and height. `corridor`: width, height, and length where it is short. `turn`: a right-angled
    turn from a way `width` wide into one `width_after` wide. `stairs`: width, headroom as height, and a landing `landing`
    deep where it turns. `lift`: door width and height, and the car's car_width, car_depth, car_height.
    """

    kind: Literal["door", "corridor", "turn", "stairs", "lift"]
    name: Name
    width: SizeField
    height: SizeField
    width_after: SizeField | None = None
    length: SizeField | None = None
    landing: SizeField | None = None
    car_width: SizeField | None = None
    car_depth: SizeField | None = None
    car_height: SizeField | None = None

    @model_validator(mode="after")
    def _whole(self) -> Passage:
        needs = {"turn": ("width_after",), "lift": ("car_width", "car_depth", "car_height")}.get(
            self.kind, ()
        )
        for key in needs:
            if getattr(self, key) is None:
                raise PydanticCustomError(
                    "passage", "a {kind} needs `{key}`", {"kind": self.kind, "key": key}
                )
        return self


class Stock(Part):
    """A thing that can be bought for this job, with its price where it is known.

    Of a rod, `length` is the longest it reaches or is cut from, `shortest` the shortest it goes to.
    """

    kind: Literal["rug", "pad", "anchor", "piece", "rod"]
    name: Name
    shape: Literal["rectangle", "round", "oval"] | None = None
    width: SizeField | None = None
    length: SizeField | None = None
    height: SizeField | None = None
    pile: LengthField | None = None
    thickness: SizeField | None = None
    fiber: Name | None = None
    pattern: Literal["plain", "patterned"] | None = None
    piece: PieceType | None = None
    shortest: SizeField | None = None
    price: MoneyField | None = None
    per_area: AreaField | None = None


class PracticeChoice(Part):
    """Which set of practice values the job works to, and this house's own values over it."""

    set: Literal["us", "metric"] = "us"
    file: Annotated[str, StringConstraints(max_length=200)] | None = None
    values: dict[str, str | float | int | bool] = {}


class PatchOp(Part):
    """One operation of RFC 6902."""

    op: Literal["add", "remove", "replace", "move", "copy", "test"]
    path: Annotated[str, StringConstraints(max_length=400)]
    from_: Annotated[str, StringConstraints(max_length=400)] | None = Field(default=None, alias="from")
    value: Any = None

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


class SchemeStep(Part):
    """One accepted change: its patch, and the finding it clears where it is a remedy."""

    title: Annotated[str, StringConstraints(min_length=1, max_length=1000)]
    finding: str | None = None
    patch: Annotated[list[PatchOp], Field(min_length=1, max_length=400)]
    cost: MoneyField | None = None


class Scheme(Part):
    """A named list of patches on the room as found."""

    name: Name
    note: Text | None = None
    steps: list[SchemeStep] = []


class JobInfo(Part):
    """Whose job, when, in which units and money."""

    name: Name
    client: Name | None = None
    address: Text | None = None
    decorator: Name | None = None
    date: Annotated[str, StringConstraints(pattern=r"^\d{4}-\d{2}-\d{2}$")] | None = None
    units: Literal["imperial", "metric"] = "imperial"
    currency: Annotated[str, StringConstraints(pattern=r"^[A-Z]{3}$")] = "USD"
    budget: MoneyField | None = None
    revision: Name | None = None
    brief: Text | None = None


class Job(Part):
    """One client commission: people, rooms, schemes, budget."""

    halfdrop: Literal[1]
    job: JobInfo
    practice: PracticeChoice = PracticeChoice()
    people: dict[Id, Person] = {}
    delivery: list[Passage] = []
    stock: dict[Id, Stock] = {}
    fabrics: dict[Id, Fabric] = {}
    swatches: dict[Id, Swatch] = {}
    papers: dict[Id, Paper] = {}
    paints: dict[Id, Paint] = {}
    rooms: dict[Id, Room] = {}
    schemes: dict[Id, Scheme] = {}

    @model_validator(mode="after")
    def _rooms(self) -> Job:
        for i, room in self.rooms.items():
            for j, opening in room.openings.items():
                if opening.to is not None and opening.to != "outside" and opening.to not in self.rooms:
                    raise PydanticCustomError(
                        "job",
                        "rooms/{i}/openings/{j}/to is {to}; it names a room of the job or `outside`",
                        {"i": i, "j": j, "to": opening.to},
                    )
            for j, finish in room.finishes.items():
                for key, word in (("paper", "papers"), ("paint", "paints"), ("primer", "paints")):
                    name = getattr(finish, key)
                    if name is not None and name not in getattr(self, word):
                        raise PydanticCustomError(
                            "job",
                            "rooms/{i}/finishes/{j}/{key} is {name}; it names one of the job's {word}",
                            {"i": i, "j": j, "key": key, "name": name, "word": word},
                        )
        return self

    @model_validator(mode="after")
    def _cloths(self) -> Job:
        """Every cloth that is sewn is one of the job's."""
        for i, room in self.rooms.items():
            sewn = [
                (f"treatments/{j}/{key}", cloth)
                for j, t in room.treatments.items()
                for key, cloth in t.cloths()
            ]
            sewn += [(f"cushions/{j}/fabric", cushion.fabric) for j, cushion in room.cushions.items()]
            for where, cloth in sewn:
                if cloth not in self.fabrics:
                    raise PydanticCustomError(
                        "job",
                        "rooms/{i}/{where} is {cloth}; it names a fabric of the job: {all}",
                        {
                            "i": i,
                            "where": where,
                            "cloth": cloth,
                            "all": " ".join(self.fabrics) or "none is given",
                        },
                    )
        return self

    @model_validator(mode="after")
    def _swatches(self) -> Job:
        """Every color that is worn is one of the job's swatches."""
        check_worn(self)
        return self
