"""What wears a color in a room: its surfaces and things, how much of each is seen, and what it wears.

Areas are of what a person in the room sees, from the measures in the document; each says how it was found.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from shapely.ops import unary_union

from halfdrop.audit.case import RoomCase
from halfdrop.audit.hung import hung_in
from halfdrop.base.errors import InputError
from halfdrop.job.colors import Colors
from halfdrop.room.things import BEDS, SEATING, STORAGE, LyingRug, StandingPiece
from halfdrop.walls.faces import Face, chosen, faces_of

Role = Literal["walls", "ceiling", "trim", "floor", "large", "medium", "small"]
Kind = Literal["surface", "piece", "rug", "cloth", "cushions", "art", "fitting"]

#: What is bought for decades, and what is in between; anything else on the floor is cheap to change. Our choice, no source.
_LARGE = (SEATING - {"armchair", "chaise", "recliner"}) | STORAGE | BEDS | {"dining table", "desk", "piano"}
_MEDIUM = frozenset(
    {"armchair", "chaise", "recliner", "ottoman", "bench", "dining chair", "desk chair", "console"}
)
#: Standing things whose color is nobody's choice unless it is recorded.
_AS_IT_IS = frozenset({"screen", "plant", "mirror", "other"})
#: Height of a baseboard and width of a casing where neither was taped [m]. Common practice, no source.
_BASEBOARD, _CASING = 0.10, 0.07


@dataclass(frozen=True)
class Wearer:
    """A surface or thing that wears colors.

    Attributes
    ----------
    path : str
        In the document: `rooms/living/pieces/sofa`, `rooms/living/surfaces/walls`; of cloth that hangs, the first treatment's.
    area : float
        What is seen of it [m²].
    how : str
        How the area was found, in words.
    colors : mapping of swatch to share
        Empty where none is recorded.
    stays : str
        Why a scheme leaves its color; empty where it may change.
    fabric : str
        The job's cloth that it is made of, where its color is that cloth's.
    paths : tuple of str
        Everything that changes with it.
    """

    path: str
    name: str
    kind: Kind
    role: Role
    area: float
    how: str
    colors: Colors
    stays: str = ""
    fabric: str = ""
    paths: tuple[str, ...] = ()


def wearers(case: RoomCase) -> tuple[Wearer, ...]:
    """Return what wears a color in a room: surfaces, then pieces, rugs, cloth, cushions, art, fittings.

    Checked by: tests/audit/test_wearers.py.
    """
    return case.memo("wearers", lambda: tuple(_all(case)))


def _all(case: RoomCase) -> Iterator[Wearer]:
    yield from _surfaces(case)
    for piece in case.room.pieces.values():
        yield from _piece(piece)
    for rug in case.room.rugs.values():
        yield _rug(case, rug)
    yield from _cloth(case)
    yield from _cushions(case)
    for key, work in case.room.model.art.items():
        if work.at is not None:
            area = float(work.width) * float(work.height)
            yield Wearer(
                f"{case.room.path}/art/{key}", work.name or key.replace("-", " "), "art", "small", area,
                "width × height", work.colors or {}, "a work of art stays as it is",
            )  # fmt: skip
    for fitting in case.room.fittings.values():
        if fitting.model.colors:
            area = fitting.width * float(fitting.model.height or fitting.depth)
            yield Wearer(
                fitting.path,
                fitting.name,
                "fitting",
                "small",
                area,
                "width × height",
                fitting.model.colors,
                "it is fixed",
            )


# ---------------------------------------------------------------- surfaces


def _surfaces(case: RoomCase) -> Iterator[Wearer]:
    room, worn = case.room, case.room.model.surfaces
    try:
        faces = faces_of(room)
    except InputError:
        return
    path = f"{room.path}/surfaces"
    hidden = sum(_behind(p) for p in room.floor_pieces.values())
    walls = sum(f.length * f.mean_height - sum(h.width * h.height for h in f.holes) for f in faces)
    papered = [
        f for f in room.model.finishes.values() if f.on == "walls" and f.paper is not None and f.walls is None
    ]
    yield Wearer(
        f"{path}/walls", "walls", "surface", "walls", max(walls - hidden, 0.0),
        "length × height, less openings and what tall pieces hide", _finished(case, "walls", faces) or worn.walls or {},
        "the paper on them stays" if papered else "",
    )  # fmt: skip
    yield Wearer(
        f"{path}/ceiling",
        "ceiling",
        "surface",
        "ceiling",
        room.area,
        "floor area",
        _finished(case, "ceiling", faces) or worn.ceiling or {},
    )
    length = sum(f.length - sum(h.width for h in f.holes if h.bottom <= 0.0) for f in faces)
    casings = sum((2 * h.height + h.width) * (h.trim or _CASING) for f in faces for h in f.holes)
    yield Wearer(
        f"{path}/trim", "trim", "surface", "trim", length * _BASEBOARD + casings, "baseboard and casings",
        _finished(case, "trim", faces) or worn.trim or {},
    )  # fmt: skip
    covered = unary_union(
        [r.footprint for r in room.rugs.values()] + [p.footprint for p in room.floor_pieces.values()]
    )
    yield Wearer(
        f"{path}/floor", "floor", "surface", "floor", float(room.outline.difference(covered).area),
        "floor area, less rugs and what stands on it", worn.floor or {}, "the floor stays" if worn.floor else "",
    )  # fmt: skip


def _behind(piece: StandingPiece) -> float:
    """Return how much wall a piece hides [m²]: what stands at a wall and is taller than a seat."""
    at_wall = hasattr(piece.model.at, "wall") and float(piece.model.at.off) < 0.2
    return piece.width * piece.height if at_wall and piece.type in STORAGE else 0.0


def _finished(case: RoomCase, on: str, faces: Sequence[Face]) -> Colors:
    """Return what the finishes of a surface wear, by the length of wall that each has; empty where it is not known of all."""
    shares: dict[str, float] = {}
    whole = sum(face.length for face in faces)
    for finish in case.room.model.finishes.values():
        if finish.on != on:
            continue
        part = sum(f.length for f in chosen(faces, finish.walls)) / whole if on == "walls" else 1.0
        paper, paint = case.job.papers.get(finish.paper or ""), case.job.paints.get(finish.paint or "")
        colors = (paper.colors if paper else None) or ({paint.swatch: 1.0} if paint and paint.swatch else {})
        for name, share in colors.items():
            shares[name] = shares.get(name, 0.0) + share * part
    total = sum(shares.values())
    found = getattr(case.room.model.surfaces, on)
    if found and 0.0 < total < 0.999:
        for name, share in found.items():
            shares[name] = shares.get(name, 0.0) + share * (1.0 - total)
        total = sum(shares.values())
    return {name: share / max(total, 1.0) for name, share in shares.items()}


# ---------------------------------------------------------------- things


def _role(type: str) -> Role:
    return "large" if type in _LARGE else "medium" if type in _MEDIUM else "small"


def _piece(piece: StandingPiece) -> Iterator[Wearer]:
    model = piece.model
    if piece.type in _AS_IT_IS and not model.colors:
        return
    w, d, h = piece.width, piece.depth, piece.height
    if piece.type in BEDS:
        area, how = w * d + w * max(h - 0.6, 0.3), "top of the bed and its head"
    elif piece.type in SEATING:
        area, how = w * h + w * d * 0.7 + d * h, "front, seat and one side"
    elif piece.type in STORAGE:
        area, how = w * h + 0.5 * d * h, "front and half a side"
    elif piece.type in ("floor lamp", "table lamp"):
        area, how = w * h * 0.35, "its shade"
    else:
        area, how = w * d + 0.25 * (w + d) * h, "top and what is seen of its legs"
    stays = "the client keeps it" if model.keep else ""
    if piece.type in _AS_IT_IS:
        stays = "it is as it is"
    yield Wearer(piece.path, piece.name, "piece", _role(piece.type), area, how, model.colors or {}, stays)


def _rug(case: RoomCase, rug: LyingRug) -> Wearer:
    over = [r.footprint for r in case.room.rugs.values() if r.model.over == rug.id]
    stood = unary_union([p.footprint for p in case.room.floor_pieces.values()] + over)
    return Wearer(
        rug.path, rug.name, "rug", "medium", float(rug.footprint.difference(stood).area),
        "its area, less what stands on it", rug.model.colors or {}, "the client keeps it" if rug.model.keep else "",
    )  # fmt: skip


def _cloth(case: RoomCase) -> Iterator[Wearer]:
    """Give curtains and shades by the cloth they are made of: of one cloth, they change together."""
    by_cloth: dict[str, list[tuple[str, float, bool]]] = {}
    for key, hung in case.room.model.treatments.items():
        as_hung = hung_in(case).get(key)
        if as_hung is None:
            continue
        area = 0.0
        for panel in as_hung.panels:
            wide = panel.drawn[1] - panel.drawn[0]
            area += wide * max(as_hung.top - sum(panel.hem) / 2, 0.0)
        by_cloth.setdefault(hung.fabric or f"?{key}", []).append((key, area, hung.keep))
    for cloth, hangs in by_cloth.items():
        paths = tuple(f"{case.room.path}/treatments/{key}" for key, _, _ in hangs)
        fabric = case.job.fabrics.get(cloth)
        stays = (
            "the client keeps it"
            if any(keep for _, _, keep in hangs)
            else ""
            if fabric
            else "its cloth is not named"
        )
        names = ", ".join(key.replace("-", " ") for key, _, _ in hangs)
        yield Wearer(
            paths[0], f"{fabric.name.lower()} at the window" if fabric else names, "cloth", "medium", sum(a for _, a, _ in hangs),
            "width drawn back × length", (fabric.colors if fabric else None) or {}, stays, cloth if fabric else "", paths,
        )  # fmt: skip


def _cushions(case: RoomCase) -> Iterator[Wearer]:
    for key, cushion in case.room.model.cushions.items():
        fabric = case.job.fabrics[cushion.fabric]
        area = float(cushion.width) * float(cushion.height) * cushion.count
        path = f"{case.room.path}/cushions/{key}"
        yield Wearer(
            path, cushion.name or f"{key.replace('-', ' ')} cushions", "cushions", "small", area, "one face of each",
            fabric.colors or {}, "", cushion.fabric, (path,),
        )  # fmt: skip
