"""What hangs at a window, face on: rod, finials, brackets, rings, cloth with a fold at every pleat; shades."""

from __future__ import annotations

from halfdrop.drapery.as_hung import HungPanel
from halfdrop.drawing.board import Board
from halfdrop.drawing.elevation.headings import draw_heading
from halfdrop.drawing.elevation.shown import Hanging
from halfdrop.drawing.furniture import SWAP
from halfdrop.drawing.layers import Status
from halfdrop.drawing.verbs import Vertex
from halfdrop.room.face import Elevation

#: Fold lines nearer than this are drawn by every second one [mm on paper].
NEAR = 0.9
#: Depth of a roller's bottom bar, and of a roman's fold as it gathers [m].
BAR, FOLD = 0.03, 0.055


def cloth_layer(status: Status) -> str:
    """Return the layer of what hangs at windows, by its status."""
    return "I-ELEV-CLTH-" + {"as found": "E", "proposed": "N", "moved from": "M"}[status]


def draw_hanging(
    board: Board, hanging: Hanging, face: Elevation, status: Status = "as found", *, shut: bool = False
) -> None:
    """Draw a treatment.

    Parameters
    ----------
    board : Board
        On the elevation.
    hanging : Hanging
    face : Elevation
        Cloth that is longer than to the floor lies on it; what runs past the ends is on another wall.
    status : {"as found", "proposed", "moved from"}
        In ink, in slate, or as a dashed graphite ghost of rod and cloth.
    shut : bool
        Draw the panels drawn shut, a shade let down.
    """
    with board.group(cloth_layer(status), hanging.path):
        if status == "moved from":
            _ghost(board, hanging, face, shut=shut)
            return
        own = board.inked(SWAP[status])
        if hanging.hung.kind == "panels":
            _curtains(own, hanging, face, shut=shut)
        else:
            _shade(own, hanging, shut=shut)


def _clipped(face: Elevation, a: float, b: float) -> tuple[float, float]:
    return max(a, -0.02), min(b, face.width + 0.02)


def _ghost(board: Board, hanging: Hanging, face: Elevation, *, shut: bool) -> None:
    a, b = _clipped(face, *hanging.rod)
    if hanging.hung.kind == "panels" and b > a:
        board.line([(a, hanging.height), (b, hanging.height)], "hair", "graphite", "ghost")
    for left, right, *hems in hanging.panels(shut=shut):
        a, b = _clipped(face, left, right)
        if b > a:
            ring = [(a, hems[0]), (a, hanging.top), (b, hanging.top), (b, hems[1])]
            board.area(ring, fill=None, pen="hair", ink="graphite", dash="ghost")


def _curtains(board: Board, hanging: Hanging, face: Elevation, *, shut: bool) -> None:
    hung = hanging.hung
    _hardware(board, hanging, face)
    placed = zip(hung.panels, hanging.panels(shut=shut), strict=True)
    for panel, (left, right, *hems) in placed:
        a, b = _clipped(face, left, right)
        if b - a < 1e-3:
            continue
        _panel(board, hanging, panel, (a, b), (hems[0], hems[1]), face)
    _valance(board, hanging, face)
    if hung.treatment.heading in ("rod pocket", "wave", "flat", "pencil") or hung.treatment.hardware.kind in (
        "track",
        "board",
    ):
        return
    _rod(board, hanging, face, over=True)


def _hardware(board: Board, hanging: Hanging, face: Elevation) -> None:
    """Draw brackets, then the rod before them, its finials outside its ends."""
    for left, right, low, high in bracket_boxes(hanging, face, board.frame.scale):
        board.box(left, right, low, high, pen="hair")
    _rod(board, hanging, face)


def bracket_boxes(hanging: Hanging, face: Elevation, scale: float) -> list[tuple[float, float, float, float]]:
    """Return left, right, foot and head of each bracket as it is drawn at a scale [m]; `scale`: paper millimetres to a metre."""
    thick, half = max(hanging.hung.diameter, 0.9 / scale), max(0.02, 0.8 / scale) / 2
    low, high = hanging.height - thick * 1.9, hanging.height + thick * 0.7
    return [(x - half, x + half, low, high) for x in hanging.supports if 0.0 <= x <= face.width]


def _rod(board: Board, hanging: Hanging, face: Elevation, *, over: bool = False) -> None:
    """Draw the rod; `over` the cloth only where rings or tabs let it be seen."""
    hung = hanging.hung
    if over and hanging.top >= hanging.height - hung.diameter:
        return
    thick = max(hung.diameter, 0.9 / board.frame.scale)
    a, b = _clipped(face, *hanging.rod)
    if b <= a:
        return
    board.box(a, b, hanging.height - thick, hanging.height, pen="thin")
    if hung.finial <= 0 or over:
        return
    for x, sign in ((hanging.rod[0], -1.0), (hanging.rod[1], 1.0)):
        if 0.0 < x < face.width:
            middle = hanging.height - thick / 2
            neck = min(hung.finial * 0.35, 0.03)
            low, high = sorted((x, x + sign * neck))
            board.box(low, high, middle - thick * 0.35, middle + thick * 0.35, pen="hair")
            size = max(hung.finial - neck, 0.015)
            board.oval(
                (x + sign * (neck + size / 2), middle), size, min(size, thick * 2.2), pen="thin", fill="paper"
            )


def _panel(
    board: Board,
    hanging: Hanging,
    panel: HungPanel,
    edges: tuple[float, float],
    hems: tuple[float, float],
    face: Elevation,
) -> None:
    a, b = edges
    floors = (face.floor(a), face.floor(b))
    pool = max(floors[0] - hems[0], floors[1] - hems[1], 0.0)
    low = (max(hems[0], floors[0]), max(hems[1], floors[1]))
    folds = max(2, panel.folds)
    ring: list[Vertex] = [(a, hanging.top), (a, low[0])]
    ring += _hem(a, b, low, folds)
    ring.append((b, hanging.top))
    board.area(ring, pen="thin")
    _band(board, hanging, edges, low, folds)
    if pool > 0.01:
        _pool(board, (a, b), low, pool)
    _folds(board, (a, b), hanging.top, low, folds, sheer=hanging.hung.treatment.behind is not None)
    draw_heading(board, hanging, (a, b), folds)


def _band(
    board: Board, hanging: Hanging, edges: tuple[float, float], low: tuple[float, float], folds: int
) -> None:
    """Draw a band sewn on at the hem: its seam, and its cloth in a light wash."""
    altered = hanging.hung.treatment.altered
    if altered is None or altered.band is None:
        return
    (a, b), deep = edges, float(altered.band)
    if min(hanging.top - y for y in low) <= deep:
        return
    seam: list[Vertex] = [(a, low[0] + deep), (b, low[1] + deep)]
    board.area([seam[0], (a, low[0]), *_hem(a, b, low, folds), seam[1]], fill="wash", pen="thin")


def _hem(a: float, b: float, low: tuple[float, float], folds: int) -> list[Vertex]:
    """Return the hem from left to right: a shallow scallop to each fold."""
    count = min(folds, 24)
    out: list[Vertex] = []
    for k in range(count):
        part = (k + 1) / count
        last = out.pop() if out else (a, low[0])
        out.append((last[0], last[1], 0.16 if k % 2 else -0.16))
        out.append((a + part * (b - a), low[0] + part * (low[1] - low[0])))
    return out


def _pool(board: Board, edges: tuple[float, float], low: tuple[float, float], pool: float) -> None:
    """Draw the cloth that lies on the floor: it spreads about as far as it is too long, a quarter as high."""
    a, b = edges
    out = min(pool * 0.6, 0.2)
    high = min(pool * 0.3, 0.07)
    board.area(
        [
            (a - out, low[0]),
            (a - out * 0.2, low[0] + high, -0.2),
            (b + out * 0.2, low[1] + high, -0.2),
            (b + out, low[1]),
        ],
        pen="thin",
    )
    board.line(
        [(a, low[0] + high * 0.45), ((a + b) / 2, low[0] + high * 0.2), (b, low[1] + high * 0.5)], "hair"
    )


def _folds(
    board: Board, edges: tuple[float, float], top: float, low: tuple[float, float], folds: int, *, sheer: bool
) -> None:
    a, b = edges
    step = 1
    while folds / step > 3 and (b - a) / folds * step * board.frame.scale < NEAR:
        step += 1
    for k in range(0, folds, step):
        part = (k + 0.5) / folds
        x = a + part * (b - a)
        foot = low[0] + part * (low[1] - low[0])
        sway = (b - a) / folds * (0.22 if k % 2 else -0.18)
        board.line([(x, top), (x + sway, (top + foot) / 2), (x, foot)], "hair", "graphite" if sheer else "ink",
                   "fine" if sheer else None)  # fmt: skip


def _valance(board: Board, hanging: Hanging, face: Elevation) -> None:
    valance = hanging.hung.treatment.valance
    if valance is None:
        return
    a, b = _clipped(face, *hanging.rod)
    deep = float(valance.depth)
    top = max(hanging.height, hanging.top)
    board.area([(a, top), (a, top - deep), (b, top - deep), (b, top)], pen="thin")
    count = max(3, round((b - a) / 0.12))
    for k in range(1, count):
        x = a + (b - a) * k / count
        board.line([(x, top), (x, top - deep)], "hair")


def _shade(board: Board, hanging: Hanging, *, shut: bool) -> None:
    hung = hanging.hung
    for panel, (a, b, *hems) in zip(hung.panels, hanging.panels(shut=shut), strict=True):
        low = max(hems)
        if hung.kind == "roller":
            tube = max(0.04, hung.diameter)
            board.area([(a, hanging.top - tube), (a, low), (b, low), (b, hanging.top - tube)], pen="thin")
            board.box(a, b, hanging.top - tube, hanging.top, tube / 3, pen="thin")
            board.box(a, b, low, low + BAR, pen="hair")
            continue
        board.area([(a, low), (a, hanging.top), (b, hanging.top), (b, low)], pen="thin")
        full = max(panel.folds, 1)
        if shut:
            deep = (hanging.top - low) / (full + 1)
            for k in range(1, full + 1):
                board.line([(a, hanging.top - k * deep), (b, hanging.top - k * deep)], "hair")
            continue
        gathered = min(full, 4)
        for k in range(1, gathered + 1):
            y = low + k * FOLD
            if y < hanging.top - 0.02:
                board.line([(a, y), (b, y)], "hair" if k < gathered else "thin")
