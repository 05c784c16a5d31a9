"""A wall on the board: openings, fittings, cloth, works, pieces in the order they hide each other; and what to letter."""

from __future__ import annotations

from shapely.geometry import box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from halfdrop.base.formats import Units
from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.art import draw_art
from halfdrop.drawing.elevation.cloth import bracket_boxes, draw_hanging
from halfdrop.drawing.elevation.compare import FaceChanges, draw_moves
from halfdrop.drawing.elevation.fittings import draw_fitting
from halfdrop.drawing.elevation.openings import draw_opening
from halfdrop.drawing.elevation.paper import draw_paper
from halfdrop.drawing.elevation.pieces import draw_piece
from halfdrop.drawing.elevation.shown import Hanging, Shown
from halfdrop.drawing.elevation.wall import draw_wall, letter_corners
from halfdrop.drawing.labels import Label
from halfdrop.drawing.layers import Status
from halfdrop.drawing.scene import Scene, on_paper
from halfdrop.drawing.tokens import Ink
from halfdrop.room.face import Seen
from halfdrop.room.things import FixedFitting, HungArt, StandingPiece, WallOpening

#: Fittings that a reader knows by their drawing; they are lettered only where the job names them.
_PLAIN = frozenset({"outlet", "switch", "thermostat", "register", "sconce", "toilet", "sink", "bath"})
_PLAIN_PIECES = frozenset({"dining chair", "desk chair", "stool", "floor lamp", "table lamp", "plant"})


def draw_face(
    board: Board,
    shown: Shown,
    units: Units,
    *,
    found: FaceChanges | None = None,
    shut: bool = False,
    pieces: bool = True,
) -> Scene:
    """Draw a wall and return what is to be lettered.

    Parameters
    ----------
    board : Board
        On the elevation.
    shown : Shown
    units : {"imperial", "metric"}
        Of the arrows' distances.
    found : FaceChanges, optional
        What is proposed: drawn in slate, with the ghosts of what was.
    shut : bool
        Curtains drawn shut.
    pieces : bool
        False leaves out what stands before the wall.
    """
    found = found or FaceChanges()
    face, scene = shown.face, Scene()
    stood = face.pieces if pieces else ()

    def status(path: str) -> Status:
        return "proposed" if path in found.proposed else "as found"

    draw_wall(board, shown)
    draw_paper(board, shown)
    for seen in face.openings:
        draw_opening(board, seen, shown.trims.casing, status(seen.path))
    for seen in face.fittings:
        draw_fitting(board, seen, status(seen.path))
    for ghost in found.hangings:
        draw_hanging(board, ghost, face, "moved from", shut=shut)
    for hanging in shown.hangings:
        draw_hanging(board, hanging, face, status(hanging.path), shut=shut)
    for old in found.seen:
        _ghost(board, old)
    for seen in face.art:
        draw_art(board, seen, status(seen.path))
    for seen in stood:
        draw_piece(board, seen, status(seen.path))
    letter_corners(board, face)
    shapes = {path: on_paper(board.frame, shape) for path, shape in shown.boxes.items()}
    scene.edges = [shape.exterior for path, shape in shapes.items() if pieces or "/pieces/" not in path]
    scene.blocks = [
        on_paper(board.frame, part) for h in shown.hangings for part in _rod_boxes(board, shown, h)
    ]
    scene.labels = _labels(shown, shapes, stood, found)
    scene.floor = on_paper(board.frame, face.outline)
    scene.blocks += draw_moves(board, found, units, scene.blocks, scene.edges).boxes
    return scene


def _ghost(board: Board, seen: Seen) -> None:
    if isinstance(seen.thing, HungArt):
        draw_art(board, seen, "moved from")
    elif isinstance(seen.thing, StandingPiece):
        draw_piece(board, seen, "moved from")
    else:
        with board.group("A-ELEV-TRIM", seen.path):
            board.area(
                list(seen.box.exterior.coords)[:-1], fill=None, pen="hair", ink="graphite", dash="ghost"
            )


def _rod_boxes(board: Board, shown: Shown, hanging: Hanging) -> list[BaseGeometry]:
    """Return rod and brackets, as large as they are drawn, as shapes that lettering stays off [m]."""
    a, b = hanging.rod
    thick = max(hanging.hung.diameter, 0.9 / board.frame.scale)
    top = hanging.height
    brackets = [
        box(left, low, right, high).buffer(0.01, join_style="mitre")
        for left, right, low, high in bracket_boxes(hanging, shown.face, board.frame.scale)
    ]
    return [box(a - hanging.hung.finial, top - thick, b + hanging.hung.finial, top), *brackets]


def _labels(
    shown: Shown, shapes: dict[str, BaseGeometry], stood: tuple[Seen, ...], found: FaceChanges
) -> list[Label]:
    """Return the names to letter: what hangs, works, pieces, fittings, openings."""

    def ink(path: str) -> Ink:
        return "slate" if path in found.proposed else "ink"

    def home(path: str, hides: list[str]) -> BaseGeometry:
        return shapes[path].difference(unary_union([shapes[p] for p in hides if p != path]))

    cloth = [h.path for h in shown.hangings]
    over = [s.path for s in stood]
    labels = [
        Label((_name(h.hung.name),), shapes[h.path], h.path, ink=ink(h.path), inside=False)
        for h in shown.hangings
    ]
    for seen in shown.face.art:
        shape = home(seen.path, over)
        labels.append(
            Label(
                (_name(seen.thing.name),),
                shapes[seen.path] if shape.is_empty else shape,
                seen.path,
                "wash",
                ink(seen.path),
                inside=False,
            )
        )
    told: set[str] = set()
    for k, seen in enumerate(stood):
        assert isinstance(seen.thing, StandingPiece)
        if seen.thing.type in _PLAIN_PIECES and (seen.thing.model.name is None or seen.thing.name in told):
            continue
        told.add(seen.thing.name)
        shape = home(seen.path, over[k + 1 :])
        if not shape.is_empty:
            labels.append(Label((_name(seen.thing.name),), shape, seen.path, "paper", ink(seen.path)))
    for seen in shown.face.fittings:
        assert isinstance(seen.thing, FixedFitting)
        shape = home(seen.path, [*cloth, *over])
        if not shape.is_empty and (seen.thing.model.kind not in _PLAIN or seen.thing.model.name):
            labels.append(Label((_name(seen.thing.name),), shape, seen.path, "paper", ink(seen.path)))
    for seen in shown.face.openings:
        assert isinstance(seen.thing, WallOpening)
        shape = home(seen.path, [*cloth, *over])
        if seen.path in _bare(shown) and not shape.is_empty:
            labels.append(Label((_name(seen.thing.name),), shape, seen.path, "paper", "graphite"))
    return labels


def _bare(shown: Shown) -> set[str]:
    """Return the openings at which nothing hangs: the others are known by what hangs there."""
    hung = {i for h in shown.hangings for i in h.hung.treatment.openings}
    return {s.path for s in shown.face.openings if s.thing.id not in hung}


def _name(text: str) -> str:
    return text[:1].upper() + text[1:]
