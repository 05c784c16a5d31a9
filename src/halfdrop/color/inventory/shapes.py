"""How much of a piece is seen, by its shape: the faces of a stepped solid, those against a wall left out.

All faces that look one way, of a solid made of steps, have together the area of its outline seen from there: so back and seat
front of a sofa are its width times its height, cushions and arm tops its floor plan. The insides of arms come on top.
"""

from __future__ import annotations

import math

from shapely.geometry import LineString

from halfdrop.color.inventory.part import Role
from halfdrop.practice import Practice, piece_key
from halfdrop.practice.words import Words
from halfdrop.room import ResolvedRoom, StandingPiece
from halfdrop.room.things import BEDS, SEATING, STORAGE, TABLES

LARGE = (
    frozenset(
        {
            "sofa",
            "loveseat",
            "sectional",
            "chaise",
            "recliner",
            "bed",
            "crib",
            "dining table",
            "piano",
            "desk",
        }
    )
    | STORAGE
)
_SMALL = frozenset({"side table", "stool", "floor lamp", "table lamp", "plant", "mirror", "screen", "other"})
_OPEN = frozenset({"dining chair", "desk chair"})
_LAMPS = frozenset({"floor lamp", "table lamp"})
_FLAT = frozenset({"screen", "mirror"})
#: Arms run along so much of a seat's depth, its back takes the rest; a shade is so much of a lamp's height. Our choice, no source.
_ARM, _SHADE = 0.75, 0.3
#: A table's edge with its apron [m]; a shade is no higher than this [m]; tops above this are not seen [m]. Our choice, no source.
_EDGE, _SHADE_MOST, _EYE = 0.06, 0.35, 1.5


def role_of(kind: str) -> Role:
    """Return whether a type of piece is large, medium or small to a color scheme."""
    return "large" if kind in LARGE else "small" if kind in _SMALL else "medium"


def seen_area(room: ResolvedRoom, piece: StandingPiece, practice: Practice) -> tuple[float, str]:
    """Return what is seen of a piece [m²], and how that came about.

    Faces nearer to a wall than `color.face_seen` are not seen; what is below it, behind its legs, and inside it is not counted.

    Source: our own geometry, no source. Checked by: tests/color/test_inventory.py.
    """
    faces = _faces(room, piece, practice)
    say = Words(practice)
    total = sum(area for _, area in faces)
    return total, " + ".join(f"{name} {say.area(area, 2)}" for name, area in faces if area > 5e-3)


def _faces(room: ResolvedRoom, piece: StandingPiece, practice: Practice) -> list[tuple[str, float]]:
    kind, w, d, h = piece.type, piece.width, float(piece.model.depth), piece.height
    plan = float(piece.footprint.area)
    round_ = piece.model.shape != "rectangle"
    if kind in _FLAT:
        return [("front", w * h)]
    if kind == "plant":
        return [("outline", w * h)]
    if kind in _LAMPS:
        return [("shade", math.pi * w * min(_SHADE * h, _SHADE_MOST))]
    if kind in TABLES - {"nightstand"}:
        return [("top", plan), ("edge", float(piece.footprint.exterior.length) * _EDGE)]
    if kind in BEDS:
        low = min(float(practice.length("furniture.mattress_top")), h)
        sides = d * low * _open(room, piece, "sides", practice)
        return [("top", plan), ("sides", sides), ("foot", w * low), ("headboard", w * (h - low))]
    seat = _seat_height(piece, practice)
    if kind in _OPEN:
        return [("seat", plan), ("back, both ways", 2 * w * max(h - seat, 0.0))]
    if kind == "stool":
        return [("seat", plan)]
    if kind in SEATING:
        return _upholstered(room, piece, practice, seat)
    if round_:
        return [("side", float(piece.footprint.exterior.length) * h), ("top", plan if h < _EYE else 0.0)]
    return [
        ("front", w * h * _open(room, piece, "front", practice)),
        ("back", w * h * _open(room, piece, "back", practice)),
        ("sides", d * h * _open(room, piece, "sides", practice)),
        ("top", plan if h < _EYE else 0.0),
    ]


def _upholstered(
    room: ResolvedRoom, piece: StandingPiece, practice: Practice, seat: float
) -> list[tuple[str, float]]:
    w, d, h = piece.width, piece.depth, piece.height
    arm = min(seat + float(practice.length("seating.arm_above_seat")), h)
    side = _ARM * d * arm + (1.0 - _ARM) * d * h
    return [
        ("back and front", w * h),
        ("seat and arm tops", float(piece.footprint.area)),
        ("outer sides", side * _open(room, piece, "sides", practice)),
        ("inner arms", 2 * _ARM * d * max(arm - seat, 0.0)),
        ("outer back", w * h * _open(room, piece, "back", practice)),
    ]


def _seat_height(piece: StandingPiece, practice: Practice) -> float:
    if piece.model.seat_height is not None:
        return float(piece.model.seat_height)
    key = piece_key(piece.type, "seat_height")
    return float(practice.length(key)) if key in practice else 0.0


def _open(room: ResolvedRoom, piece: StandingPiece, side: str, practice: Practice) -> float:
    """Return how many of the faces of a side are seen, 0 to 2: the share of each that has open floor before it."""
    if not piece.on_floor:
        return 2.0 if side == "sides" else 1.0
    off = float(practice.length("color.face_seen"))
    x, y = piece.width / 2, piece.depth / 2
    lines = {
        "front": [((-x, y + off), (x, y + off))],
        "back": [((-x, -y - off), (x, -y - off))],
        "sides": [((x + off, -y), (x + off, y)), ((-x - off, -y), (-x - off, y))],
    }[side]
    seen = 0.0
    for a, b in lines:
        line = LineString([piece.at(*a), piece.at(*b)])
        seen += float(line.intersection(room.outline).length) / float(line.length)
    return seen
