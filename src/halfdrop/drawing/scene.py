"""A room on the board: rugs, fittings, furniture, walls and openings in the order they hide each other."""

from __future__ import annotations

from dataclasses import dataclass, field

from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from halfdrop.base.formats import Units, format_size
from halfdrop.drawing.board import Board, Frame
from halfdrop.drawing.changes import Changes, draw_arrows
from halfdrop.drawing.fittings import draw_fitting
from halfdrop.drawing.furniture import draw_piece
from halfdrop.drawing.furniture.others import POOL
from halfdrop.drawing.hung import draw_hung
from halfdrop.drawing.labels import Label
from halfdrop.drawing.layers import Status
from halfdrop.drawing.openings import draw_opening, drawn_shapes
from halfdrop.drawing.rugs import FRINGE, border_lines, draw_rug
from halfdrop.drawing.tokens import Ink
from halfdrop.drawing.walls import THICK, draw_walls, wall_shapes
from halfdrop.geometry.plane import point
from halfdrop.room import LyingRug, ResolvedRoom, StandingPiece, Thing

#: Pieces that slide under others, and those that stand over them.
_UNDER = frozenset({"dining chair", "desk chair", "stool", "bench"})
_OVER = frozenset({"floor lamp", "table lamp", "plant", "mirror", "screen"})
#: Pieces a reader knows by their drawing; they are lettered only where the job names them, and alike ones
#: once.
_PLAIN = frozenset({"dining chair", "desk chair", "stool", "floor lamp", "table lamp", "plant"})
#: Pieces whose drawing a name would hide: it stands beside them.
_BESIDE = frozenset({"floor lamp", "table lamp", "plant", "mirror", "screen", "stool"})
_OVERHEAD = frozenset({"beam", "smoke alarm", "sconce"})
_LETTERED = frozenset({"closet", "counter", "hearth", "radiator", "heater", "beam", "stair head"})


@dataclass
class Scene:
    """A drawn room: what to letter, and what lettering must stay off [mm]."""

    labels: list[Label] = field(default_factory=list)
    blocks: list[BaseGeometry] = field(default_factory=list)
    edges: list[BaseGeometry] = field(default_factory=list)
    floor: BaseGeometry | None = None


def on_paper(frame: Frame, shape: BaseGeometry) -> BaseGeometry:
    """Return a plan shape on the paper [mm]; the frame must not be turned."""
    return affine_transform(shape, [frame.scale, 0, 0, -frame.scale, frame.origin[0], frame.origin[1]])


def rug_order(room: ResolvedRoom) -> list[LyingRug]:
    """Return rugs from the lowest to the topmost: what lies over another after it, larger ones first."""
    done: list[LyingRug] = []
    left = sorted(room.rugs.values(), key=lambda r: (-r.footprint.area, r.id))
    while left:
        names = {r.id for r in left}
        ready = next((r for r in left if r.model.over not in names), left[0])
        left.remove(ready)
        done.append(ready)
    return done


def piece_order(room: ResolvedRoom) -> list[StandingPiece]:
    """Return pieces from the lowest to the topmost."""

    def rank(piece: StandingPiece) -> tuple[int, int]:
        depth, at = 0, piece
        while at.model.on is not None and depth < 8:
            at, depth = room.pieces[at.model.on], depth + 1
        kind = 0 if piece.type in _UNDER else 2 if piece.type in _OVER else 1
        return depth, kind

    return sorted(room.pieces.values(), key=rank)


def draw_room(
    board: Board,
    room: ResolvedRoom,
    units: Units,
    *,
    scale: float,
    found: Changes | None = None,
    furniture: bool = True,
) -> Scene:
    """Draw a room and return what is to be lettered.

    Parameters
    ----------
    board : Board
        On the plan.
    room : ResolvedRoom
    units : {"imperial", "metric"}
        Of rugs' sizes and arrows' distances.
    scale : float
        Paper to true length, for the walls' poché.
    found : Changes, optional
        What is proposed: drawn in slate, with the ghosts of what stood elsewhere.
    furniture : bool
        False leaves the room empty.
    """
    found = found or Changes()
    scene = Scene()
    frame = board.frame
    floor = on_paper(frame, room.outline)
    pieces = piece_order(room) if furniture else []
    rugs = rug_order(room) if furniture else []

    def status(path: str) -> Status:
        return "proposed" if path in found.proposed else "as found"

    for rug in rugs:
        draw_rug(board, rug, status(rug.path))
        cover = on_paper(frame, rug.footprint)
        scene.edges += [cover.exterior, cover.buffer(FRINGE + 0.2).exterior]
        for line in border_lines(rug):
            scene.edges.append(cover.buffer(-line * frame.scale, join_style="mitre").exterior)
    for fitting in room.fittings.values():
        if fitting.model.kind not in _OVERHEAD:
            draw_fitting(board, fitting)
            scene.edges.append(on_paper(frame, fitting.footprint.exterior))
    for ghost in found.ghosts if furniture else ():
        if isinstance(ghost, LyingRug):
            draw_rug(board, ghost, "moved from")
        else:
            draw_piece(board, ghost, "moved from")
        scene.edges.append(on_paper(frame, ghost.footprint.exterior))
    for piece in pieces:
        draw_piece(board, piece, status(piece.path))
        scene.edges.append(on_paper(frame, piece.footprint.exterior))
        if piece.type in ("floor lamp", "table lamp"):
            pool = on_paper(frame, point(piece.center)).buffer(POOL * piece.width / 2 * frame.scale)
            scene.edges.append(pool.exterior)
    draw_walls(board, room, scale)
    for work in room.art.values() if furniture else ():
        draw_hung(board, work, status(work.path))
    for opening in room.openings.values():
        draw_opening(board, opening)
        scene.blocks += [on_paper(frame, shape).buffer(0.6) for shape in drawn_shapes(opening)]
        if opening.swing is not None:
            scene.edges.append(on_paper(frame, opening.swing.boundary))
    for fitting in room.fittings.values():
        if fitting.model.kind in _OVERHEAD:
            draw_fitting(board, fitting)
            if fitting.model.kind == "smoke alarm":
                scene.blocks.append(on_paper(frame, fitting.footprint.centroid).buffer(2.0, quad_segs=4))
    scene.blocks += [on_paper(frame, shape) for shape in wall_shapes(room)]
    scene.labels = _labels(frame, room, pieces, rugs, units, found)
    fixed = [f.footprint for f in room.fittings.values() if f.model.kind not in _OVERHEAD]
    stood = unary_union([on_paper(frame, shape) for shape in [*(p.footprint for p in pieces), *fixed]])
    scene.floor = floor.difference(stood)
    if found.moved and furniture:
        scene.blocks += draw_arrows(board, found, units, scene.blocks, scene.edges).boxes
    return scene


def _labels(
    frame: Frame,
    room: ResolvedRoom,
    pieces: list[StandingPiece],
    rugs: list[LyingRug],
    units: Units,
    found: Changes,
) -> list[Label]:
    """Return the names to letter: pieces by size, then rugs, then fittings."""
    shapes = [on_paper(frame, p.footprint) for p in pieces]
    labels: list[Label] = []
    told: set[tuple[str, str]] = set()
    for k, piece in enumerate(pieces):
        if piece.type in _PLAIN:
            if piece.model.name is None or (piece.type, piece.name) in told:
                continue
            told.add((piece.type, piece.name))
        home = shapes[k].difference(unary_union(shapes[k + 1 :]))
        inside = piece.type not in _BESIDE and not home.is_empty
        shape = shapes[k] if home.is_empty else home  # wholly hidden by what stands over it: still told
        labels.append(
            Label((_name(piece),), shape, piece.path, "paper", _ink(piece.path, found), inside=inside)
        )
    labels.sort(key=lambda label: (-round(label.home.area, 3), label.path))
    fixed = [on_paper(frame, f.footprint) for f in room.fittings.values() if f.model.kind not in _OVERHEAD]
    stood = unary_union([*shapes, *fixed])
    covers = [on_paper(frame, r.footprint) for r in rugs]
    floor = on_paper(frame, room.outline)
    for k, rug in enumerate(rugs):
        home = covers[k].buffer(-1.2).intersection(floor).difference(unary_union([stood, *covers[k + 1 :]]))
        size = (
            "" if " × " in rug.name else f", {format_size(rug.width, rug.depth, units)}"
        )  # some names say it
        labels.append(
            Label(
                (f"{_name(rug)}{size}",),
                covers[k] if home.is_empty else home,
                rug.path,
                "wash",
                _ink(rug.path, found),
                beside=False,
                inside=not home.is_empty,
            )
        )
    for fitting in room.fittings.values():
        if fitting.model.kind in _LETTERED and (fitting.depth > 0.2 or fitting.model.name):
            home = on_paper(frame, fitting.footprint).difference(unary_union(shapes))
            if not home.is_empty:
                labels.append(Label((_name(fitting),), home, fitting.path, "paper", "graphite"))
    return labels


def _name(thing: Thing) -> str:
    """Return a thing's name as it is lettered, its first letter a capital."""
    return thing.name[:1].upper() + thing.name[1:]


def _ink(path: str, found: Changes) -> Ink:
    return "slate" if path in found.proposed else "ink"


__all__ = ["THICK", "Scene", "draw_room", "on_paper", "piece_order", "rug_order"]
