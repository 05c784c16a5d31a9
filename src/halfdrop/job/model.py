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

from pydantic import ConfigDict, Field, StringConstraints, field_validator, model_validator
from pydantic_core import PydanticCustomError

from halfdrop.job.fields import (
    AngleField,
    AnyLength,
    AreaField,
    LengthField,
    MassField,
    MoneyField,
    SizeField,
)
from halfdrop.job.finishes import Finish, Paint, Paper
from halfdrop.job.part import Corner, Id, Name, Part, Text
from halfdrop.job.part import Pair as Pair
from halfdrop.job.part import corners_of as corners_of
from halfdrop.job.treatments import Cushion, Fabric, Treatment

VERSION = 1

# ---------------------------------------------------------------- survey


class Measure(Part):
    """One taped length with its own standard error, where it differs from the tape's."""

    length: SizeField
    sigma: SizeField | None = None
    note: Text | None = None


class AngleMeasure(Part):
    """One measured interior angle with its own standard error."""

    angle: AngleField
    sigma: AngleField | None = None


class Tape(Part):
    """Standard errors of the measuring tools of one survey; practice values stand in for what is not given."""

    sigma: SizeField | None = None
    angle_sigma: AngleField | None = None
    square_sigma: AngleField | None = None


class Survey(Part):
    """The measures as taped. The adjusted outline is computed from them."""

    corners: Annotated[list[Corner], Field(min_length=3, max_length=80)]
    round: Literal["clockwise", "counterclockwise"] = "counterclockwise"
    tape: Tape = Tape()
    walls: dict[Pair, SizeField | Measure]
    ties: dict[Pair, SizeField | Measure] = {}
    angles: dict[Corner, AngleField | AngleMeasure] = {}
    square: dict[Corner, bool] = {}
    heights: dict[str, SizeField] = {}
    plumb: dict[Pair, AnyLength] = {}
    level: dict[str, AnyLength] = {}

    @field_validator("corners", mode="before")
    @classmethod
    def _letters(cls, value: Any) -> Any:
        """Accept `A B C D` as well as a list."""
        return value.split() if isinstance(value, str) else value

    @model_validator(mode="after")
    def _known(self) -> Survey:
        order = self.corners
        known = set(order)
        if len(known) != len(order):
            twice = next(c for c in order if order.count(c) > 1)
            raise PydanticCustomError("survey", "corner {c} is named twice", {"c": twice})
        sides = {frozenset(p) for p in zip(order, order[1:] + order[:1], strict=True)}
        for where, pairs in (("walls", self.walls), ("ties", self.ties), ("plumb", self.plumb)):
            for pair in pairs:
                ends = corners_of(pair)
                for end in ends:
                    if end not in known:
                        raise PydanticCustomError(
                            "survey",
                            "{where}/{pair} names corner {c}; the corners are {all}",
                            {"where": where, "pair": pair, "c": end, "all": " ".join(order)},
                        )
                if where != "ties" and frozenset(ends) not in sides:
                    raise PydanticCustomError(
                        "survey",
                        "{where}/{pair} is not a wall: {a} and {b} are not neighbors; put it under ties",
                        {"where": where, "pair": pair, "a": ends[0], "b": ends[1]},
                    )
        for where, corners in (("angles", self.angles), ("square", self.square)):
            for corner in corners:
                if corner not in known:
                    raise PydanticCustomError(
                        "survey",
                        "{where}/{c} is not a corner; the corners are {all}",
                        {"where": where, "c": corner, "all": " ".join(order)},
                    )
        return self


# ---------------------------------------------------------------- positions


class AtWall(Part):
    """Stands at a wall: from the wall's first-named corner to the near edge, and off the wall to the nearest side."""

    wall: Pair
    along: AnyLength
    off: LengthField


class AtPoint(Part):
    """Stands free: the center of the footprint, x along AB from A, y square to AB into the room."""

    x: AnyLength
    y: AnyLength


At = AtWall | AtPoint


# ---------------------------------------------------------------- what is fixed


class Opening(Part):
    """A door, window or cased opening in a wall."""

    kind: Literal["door", "window", "cased opening"]
    name: Name | None = None
    wall: Pair
    along: LengthField
    width: SizeField
    height: SizeField
    # doors and cased openings
    leaf: Literal["hinged", "double", "sliding", "pocket", "bifold"] | None = None
    hinge: Corner | None = None
    opens: Literal["in", "out"] | None = None
    clear: SizeField | None = None
    undercut: LengthField | None = None
    to: Id | None = None
    # windows
    sill: LengthField | None = None
    trim: LengthField | None = None
    sash: Literal["fixed", "casement", "double-hung", "sliding", "awning", "tilt"] | None = None
    escape: bool = False
    clear_width: SizeField | None = None
    clear_height: SizeField | None = None

    @model_validator(mode="after")
    def _fits_kind(self) -> Opening:
        if self.kind == "window":
            if self.sill is None:
                raise PydanticCustomError("opening", "a window needs its sill height above the floor", {})
            for key in ("leaf", "hinge", "opens", "undercut", "to"):
                if getattr(self, key) is not None:
                    raise PydanticCustomError("opening", "a window has no `{key}`", {"key": key})
        if (
            self.kind == "door"
            and self.leaf in (None, "hinged")
            and (self.hinge is None or self.opens is None)
        ):
            raise PydanticCustomError(
                "opening",
                "a hinged door needs `hinge` (the corner its hinges are nearer to) and `opens` (in or out)",
                {},
            )
        if self.hinge is not None and self.hinge not in corners_of(self.wall):
            raise PydanticCustomError(
                "opening",
                "`hinge` is {hinge}; on wall {wall} it is one of its two corners",
                {"hinge": self.hinge, "wall": self.wall},
            )
        return self


class Fitting(Part):
    """What is fixed: at a wall, or standing free in the room (a column, a stair head)."""

    kind: Literal[
        "radiator", "heater", "hearth", "outlet", "switch", "thermostat", "sconce", "beam", "column",
        "closet", "counter", "sink", "bath", "shower", "toilet", "stair head", "smoke alarm", "register",
    ]  # fmt: skip
    name: Name | None = None
    wall: Pair | None = None
    along: LengthField | None = None
    at: AtPoint | None = None
    turn: AngleField | None = None
    width: SizeField
    depth: LengthField | None = None
    bottom: LengthField | None = None
    height: LengthField | None = None
    clearance: LengthField | None = None

    @model_validator(mode="after")
    def _one_place(self) -> Fitting:
        at_wall = self.wall is not None and self.along is not None
        if at_wall == (self.at is not None):
            raise PydanticCustomError(
                "fitting", "a fitting has either `wall` and `along`, or `at` (x and y), not both", {}
            )
        return self


# ---------------------------------------------------------------- what stands there

PieceType = Literal[
    "sofa", "loveseat", "sectional", "armchair", "chaise", "recliner", "ottoman", "bench", "stool",
    "dining chair", "desk chair",
    "coffee table", "side table", "console", "dining table", "desk", "nightstand",
    "bed", "crib",
    "dresser", "chest", "wardrobe", "bookcase", "cabinet", "media unit", "sideboard",
    "screen", "piano", "floor lamp", "table lamp", "plant", "mirror", "other",
]  # fmt: skip


class Opens(Part):
    """How a piece of storage opens: drawers pull or doors swing into the room, this far in front of it."""

    kind: Literal["drawer", "door", "sliding door", "flap", "recline"]
    reach: LengthField


class Return(Part):
    """The short leg of an L-shaped sectional: on which hand (as seated), how long from the back, how wide."""

    hand: Literal["left", "right"]
    length: SizeField
    width: SizeField


class Packed(Part):
    """The size a piece travels in, where that is smaller than it stands (legs off, box, largest part)."""

    width: SizeField
    depth: SizeField
    height: SizeField


class Piece(Part):
    """A free-standing piece of furniture. Width is across the front, depth from front to back."""

    type: PieceType
    name: Name | None = None
    width: SizeField
    depth: SizeField
    height: SizeField
    shape: Literal["rectangle", "round", "oval"] = "rectangle"
    ret: Return | None = Field(default=None, alias="return")
    at: At
    turn: AngleField | None = None
    on: Id | None = None
    group: Id | None = None
    seats: Annotated[int, Field(ge=0, le=40)] | None = None
    seat_height: SizeField | None = None
    leg_setback: LengthField | None = None
    pillows: Annotated[int, Field(ge=0, le=4)] | None = None
    opens: Opens | None = None
    diagonal: SizeField | None = None
    center_height: SizeField | None = None
    anchored: bool | None = None
    weight: MassField | None = None
    packed: Packed | None = None
    keep: bool = False
    arrives: bool = False
    price: MoneyField | None = None
    note: Text | None = None

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


class Pad(Part):
    """The pad under a rug."""

    thickness: SizeField
    inset: LengthField | None = None
    price: MoneyField | None = None


class Rug(Part):
    """A rug. Width runs along x at turn 0, length along y; a round rug has its diameter for both."""

    name: Name | None = None
    shape: Literal["rectangle", "round", "oval"] = "rectangle"
    width: SizeField
    length: SizeField
    at: At
    turn: AngleField | None = None
    pile: LengthField | None = None
    fiber: Name | None = None
    pattern: Literal["plain", "patterned"] | None = None
    pad: Pad | None = None
    over: Id | None = None
    group: Id | None = None
    keep: bool = False
    arrives: bool = False
    price: MoneyField | None = None
    note: Text | None = None


class Wishes(Part):
    """What the room is for: how many sit or eat or sleep, its uses, what it looks at."""

    people: Annotated[int, Field(ge=0, le=60)] | None = None
    uses: dict[Literal["talk", "screen", "read", "dine", "sleep", "work", "play", "dress"], bool] = {}
    focal: Annotated[str, StringConstraints(pattern=r"^(openings|fittings|pieces)/[a-z0-9_-]+$")] | None = (
        None
    )
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
        if self.wishes.focal is not None:
            kind, _, name = self.wishes.focal.partition("/")
            if name not in getattr(self, kind):
                raise PydanticCustomError(
                    "room", "wishes/focal is {focal}, which is not in this room", {"focal": self.wishes.focal}
                )
        return self


# ---------------------------------------------------------------- the job


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
    """A thing that can be bought for this job, with its price where it is known."""

    kind: Literal["rug", "pad", "anchor", "piece"]
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
