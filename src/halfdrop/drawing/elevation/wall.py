"""The wall itself: floor, ceiling, the walls that turn at its ends, trim."""

from __future__ import annotations

from itertools import pairwise

from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.shown import Shown
from halfdrop.drawing.metrics import cap_height
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.walls import THICK
from halfdrop.room.face import Elevation, Stretch
from halfdrop.room.things import WallOpening

#: How far the floor line runs on past a corner where no wall is cut [m].
PAST = 0.25


def draw_wall(board: Board, shown: Shown) -> None:
    """Draw floor, ceiling, corners and trim, and the walls that are cut at the ends, under everything else."""
    face = shown.face
    with board.group("A-WALL-PATT"):
        for k, end in enumerate((face.stretches[0], face.stretches[-1])):
            if inside_corner(face, end, k == 0):
                _cut_wall(board, end, left=k == 0)
    with board.group("A-ELEV-OTLN", f"{face.room.path}/survey/walls/{face.stretches[0].wall.name}"):
        _edges(board, face)
    with board.group("A-ELEV-TRIM"):
        _trim(board, shown)


def inside_corner(face: Elevation, stretch: Stretch, left: bool) -> bool:
    """Return whether the wall at an end turns toward the viewer, so that the drawing cuts through it."""
    walls = face.room.walls
    at = walls.index(stretch.wall)
    corner = stretch.left_corner if left else stretch.right_corner
    step = -1 if corner == stretch.wall.first else 1
    other = walls[(at + step) % len(walls)]
    away = other.direction if step > 0 else -other.direction
    return float(away @ stretch.wall.inward) > 0.05


def _cut_wall(board: Board, stretch: Stretch, *, left: bool) -> None:
    x = stretch.left if left else stretch.right
    out = x - THICK if left else x + THICK
    low, high = (stretch.floor[0], stretch.ceiling[0]) if left else (stretch.floor[1], stretch.ceiling[1])
    board.area([(x, low), (out, low), (out, high), (x, high)], fill="wash", pen=None)
    board.line([(x, low), (x, high)], "heavy")
    board.line([(out, low), (out, high)], "hair")


def _edges(board: Board, face: Elevation) -> None:
    first, last = face.stretches[0], face.stretches[-1]
    low = [(first.left, first.floor[0])]
    high = [(first.left, first.ceiling[0])]
    for stretch in face.stretches:
        low.append((stretch.right, stretch.floor[1]))
        high.append((stretch.right, stretch.ceiling[1]))
    reach = [THICK if inside_corner(face, s, left) else PAST for s, left in ((first, True), (last, False))]
    floor = [(low[0][0] - reach[0], low[0][1]), *low, (low[-1][0] + reach[1], low[-1][1])]
    board.line(floor, "heavy")
    cut = [(high[0][0] - THICK, high[0][1])] if inside_corner(face, first, True) else []
    end = [(high[-1][0] + THICK, high[-1][1])] if inside_corner(face, last, False) else []
    board.line([*cut, *high, *end], "medium", dash=None if face.ceiling_taped else "overhead")
    for stretch, left in ((first, True), (last, False)):
        if not inside_corner(face, stretch, left):
            x, k = (stretch.left, 0) if left else (stretch.right, 1)
            board.line([(x, stretch.floor[k]), (x, stretch.ceiling[k])], "medium")
    for a, _ in pairwise(face.stretches):  # a corner within the elevation
        board.line([(a.right, a.floor[1]), (a.right, a.ceiling[1])], "thin", dash="overhead")


def letter_corners(board: Board, face: Elevation) -> None:
    """Letter each corner under the floor line."""
    small = tokens().sizes["small"]
    drop = (1.6 + cap_height(small)) / board.frame.scale
    names = [(s.left, s.floor[0], s.left_corner) for s in face.stretches]
    last = face.stretches[-1]
    with board.group("A-ANNO-TEXT"):
        for x, y, name in [*names, (last.right, last.floor[1], last.right_corner)]:
            board.text((x, y - drop), name, small, "medium", "graphite")


def _trim(board: Board, shown: Shown) -> None:
    face, trims = shown.face, shown.trims
    if trims.baseboard:
        for a, b in _between_doors(face, trims.casing):
            board.line([(a, face.floor(a) + trims.baseboard), (b, face.floor(b) + trims.baseboard)], "thin")
            cap = trims.baseboard * 0.86
            board.line([(a, face.floor(a) + cap), (b, face.floor(b) + cap)], "hair")
    if trims.crown:
        for stretch in face.stretches:
            for drop, pen in ((trims.crown, "thin"), (trims.crown * 0.35, "hair")):
                ends = ((stretch.left, stretch.ceiling[0] - drop), (stretch.right, stretch.ceiling[1] - drop))
                board.line(ends, "thin" if pen == "thin" else "hair")


def _between_doors(face: Elevation, casing: float) -> list[tuple[float, float]]:
    """Return the stretches of floor line that a baseboard runs along [m]: doors and their casings left out."""
    spans = [(0.0, face.width)]
    for seen in face.openings:
        assert isinstance(seen.thing, WallOpening)
        model = seen.thing.model
        if model.kind == "window" and model.sill and float(model.sill) > 0.2:
            continue
        trim = float(model.trim) if model.trim is not None else casing
        a, b = seen.left - trim, seen.right + trim
        spans = [
            part
            for low, high in spans
            for part in ((low, min(high, a)), (max(low, b), high))
            if part[1] - part[0] > 1e-6
        ]
    return spans
