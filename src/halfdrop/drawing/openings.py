"""Doors with their leaves and swings, windows with sill and trim, cased openings."""

from __future__ import annotations

import math

import numpy as np
from shapely.geometry import Polygon

from halfdrop.drawing.board import Board
from halfdrop.drawing.tokens import Dash
from halfdrop.drawing.verbs import XY
from halfdrop.drawing.walls import THICK, ring
from halfdrop.geometry.plane import Array, heading
from halfdrop.room import ResolvedRoom, WallOpening

#: Thickness of a door's leaf [m].
LEAF = 0.04
#: How far a leaf that opens out of the room is drawn open [rad].
AJAR = math.radians(30.0)

#: Hinge, shut tip and drawn tip [m], and the angle drawn open [rad].
Leaf = tuple[Array, Array, Array, float]

#: What stands farther outside the room than this does not make the drawing smaller [m].
ASTRAY = 2.0


def draw_opening(board: Board, opening: WallOpening, thick: float = THICK) -> None:
    """Draw an opening in its wall."""
    model = opening.model
    layer = {"door": "A-DOOR", "window": "A-GLAZ", "cased opening": "A-FLOR-OTLN"}[model.kind]
    angle = heading(opening.wall.inward) - math.pi / 2
    own = board.to(opening.center, angle)  # x along the wall, y into the room, the wall's face at y = 0
    half = float(model.width) / 2
    with board.group(layer, opening.path):
        if model.kind == "window":
            _window(own, opening, half, thick)
            return
        for y in (0.0, -thick):
            dash: Dash | None = "overhead" if model.kind == "cased opening" else None
            own.line([(-half, y), (half, y)], "hair", dash=dash)
        if model.kind == "cased opening":
            return
        if model.leaf in ("sliding", "pocket"):
            _sliding(own, opening, half, thick)
        elif model.leaf == "bifold":
            _bifold(board, opening)
        else:
            for leaf in opening.leaves:
                _leaf(board, opening, leaf, thick)


def leaf_shape(hinge: Array, shut: Array, opened: Array) -> Polygon:
    """Return a leaf standing open [m], its thickness on the side of the shut one."""
    along = (opened - hinge) / float(np.hypot(*(opened - hinge)))
    side = np.array((-along[1], along[0]))
    side = side if side @ (shut - hinge) > 0 else -side
    return Polygon([hinge, opened, opened + LEAF * side, hinge + LEAF * side])


def drawn_leaf(opening: WallOpening, leaf: tuple[Array, Array, Array], thick: float = THICK) -> Leaf:
    """Return hinge, shut tip and tip as drawn, with the angle drawn open [rad].

    A leaf that opens into the room stands square. One that opens out hangs at the wall's far face and stands ajar:
    the floor it sweeps is another room's.
    """
    hinge, shut, opened = leaf
    if opening.model.opens != "out":
        return hinge, shut, opened, math.pi / 2
    shift = -thick * opening.wall.inward
    tip = hinge + (shut - hinge) * math.cos(AJAR) + (opened - hinge) * math.sin(AJAR)
    return hinge + shift, shut + shift, tip + shift, AJAR


def drawn_shapes(opening: WallOpening, thick: float = THICK) -> list[Polygon]:
    """Return the leaves of an opening as they are drawn [m]; empty where none swings."""
    if opening.model.leaf == "bifold":
        return [bifold_shape(*leaf) for leaf in opening.leaves]
    return [leaf_shape(*drawn_leaf(opening, leaf, thick)[:3]) for leaf in opening.leaves]


def extent(room: ResolvedRoom, thick: float = THICK) -> tuple[float, float, float, float]:
    """Return the bounds of a room with its walls, the leaves that open out of it and what stands through a wall [m]."""
    shapes = [room.outline.buffer(thick, join_style="mitre", mitre_limit=2.5)]
    for opening in room.openings.values():
        shapes += drawn_shapes(opening, thick)
    near = room.outline.envelope.buffer(ASTRAY, join_style="mitre")
    things = (t.footprint.intersection(near) for t in (*room.pieces.values(), *room.rugs.values()))
    shapes += [shape for shape in things if not shape.is_empty]
    bounds = [shape.bounds for shape in shapes]
    return (
        min(b[0] for b in bounds),
        min(b[1] for b in bounds),
        max(b[2] for b in bounds),
        max(b[3] for b in bounds),
    )


def _leaf(board: Board, opening: WallOpening, leaf: tuple[Array, Array, Array], thick: float) -> None:
    """Draw a leaf standing open and the arc its edge runs on."""
    hinge, shut, opened, angle = drawn_leaf(opening, leaf, thick)
    board.area(ring(leaf_shape(hinge, shut, opened).exterior.coords), fill="paper", pen="medium")
    a, b = shut - hinge, opened - hinge
    sense = 1.0 if a[0] * b[1] - a[1] * b[0] > 0 else -1.0
    board.line([(*_xy(shut), sense * math.tan(angle / 4)), _xy(opened)], "hair")


def bifold_shape(hinge: Array, track: Array, opened: Array) -> Polygon:
    """Return the narrow V that a folded pair of leaves stands as: hinge, fold, track [m]."""
    panel = float(np.hypot(*(track - hinge)))
    along, into = (track - hinge) / panel, (opened - hinge) / panel
    spread = 0.35 * panel
    fold = hinge + spread / 2 * along + math.sqrt(panel**2 - (spread / 2) ** 2) * into
    return Polygon([hinge, fold, hinge + spread * along])


def _bifold(board: Board, opening: WallOpening) -> None:
    """Draw two leaves folded to a point in the room, and the track they run on."""
    for hinge, track, opened in opening.leaves:
        foot, fold, runner = (
            _xy(np.array(p)) for p in bifold_shape(hinge, track, opened).exterior.coords[:3]
        )
        board.line([foot, fold, runner], "medium")
        board.line([runner, _xy(hinge + 2 * (track - hinge))], "hair", dash="fine")


def _sliding(board: Board, opening: WallOpening, half: float, thick: float) -> None:
    """Draw a leaf that runs in the wall's plane: its pocket dashed, or its lap with a fixed leaf."""
    mid = -thick / 2
    hand = 1.0
    if opening.model.hinge is not None:
        corner = opening.wall.start if opening.model.hinge == opening.wall.first else opening.wall.end
        right = np.array((opening.wall.inward[1], -opening.wall.inward[0]))
        hand = 1.0 if (corner - opening.center) @ right > 0 else -1.0
    if opening.model.leaf == "pocket":
        a, b = hand * half * 0.55, hand * half * 2.9
        board.line(
            [(a, mid - LEAF / 2), (b, mid - LEAF / 2), (b, mid + LEAF / 2), (a, mid + LEAF / 2)],
            "hair",
            dash="fine",
            closed=True,
        )
        low, high = sorted((a, hand * half))
        board.box(low, high, mid - LEAF / 2, mid + LEAF / 2, pen="medium")
        return
    lap = 0.03
    for side, y in ((-1.0, mid - LEAF * 0.6), (1.0, mid + LEAF * 0.6)):
        low, high = sorted((side * half, -side * lap))
        board.box(low, high, y - LEAF * 0.45, y + LEAF * 0.45, pen="medium")
    y = -thick - 0.05
    board.line([(-0.15, y), (0.15, y)], "hair")
    board.line([(hand * 0.09, y + 0.03), (hand * 0.15, y), (hand * 0.09, y - 0.03)], "hair")


def _window(board: Board, opening: WallOpening, half: float, thick: float) -> None:
    """Draw frame, sash, sill and trim."""
    model = opening.model
    for y in (0.0, -thick):
        board.line([(-half, y), (half, y)], "medium")
    mid, step = -thick / 2, 0.014
    if model.sash in ("double-hung", "sliding"):
        spans = ((-half, 0.02, mid + step), (-0.02, half, mid - step)) if model.sash == "sliding" else (
            (-half, half, mid + step), (-half, half, mid - step))  # fmt: skip
        for a, b, y in spans:
            board.line([(a, y), (b, y)], "hair")
    else:
        board.line([(-half, mid), (half, mid)], "hair")
        if model.sash == "casement":
            board.line([(0.0, mid - step * 1.6), (0.0, mid + step * 1.6)], "hair")
        if model.sash in ("awning", "tilt"):
            board.line([(-half, mid - step * 1.6), (half, mid - step * 1.6)], "hair", dash="fine")
    frame = 0.03
    for side in (-1.0, 1.0):
        board.line([(side * (half - frame), 0.0), (side * (half - frame), -thick)], "hair")
    trim = float(model.trim) if model.trim is not None else 0.0
    stool = 0.035
    reach = half + trim
    board.line([(-reach, 0.0), (-reach, stool), (reach, stool), (reach, 0.0)], "hair")


def _xy(p: Array) -> XY:
    return (float(p[0]), float(p[1]))
