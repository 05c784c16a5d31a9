"""Openings seen face on: casing, leaf with its panels, sash and muntin, sill."""

from __future__ import annotations

from halfdrop.drawing.board import Board
from halfdrop.drawing.furniture import SWAP
from halfdrop.drawing.layers import Status
from halfdrop.drawing.tokens import Dash
from halfdrop.job.model import Opening
from halfdrop.room.face import Seen, runs_right
from halfdrop.room.things import WallOpening

#: Face of a sash's rails and stiles, and of a sill [m].
RAIL = 0.05
SILL = 0.035


def draw_opening(board: Board, seen: Seen, casing: float, status: Status = "as found") -> None:
    """Draw an opening: paper behind it hides the wall's trim.

    Parameters
    ----------
    board : Board
        On the elevation.
    seen : Seen
    casing : float
        Width of a casing that was not taped [m].
    """
    opening = seen.thing
    assert isinstance(opening, WallOpening)
    model = opening.model
    layer = {"door": "A-DOOR", "window": "A-GLAZ", "cased opening": "A-DOOR"}[model.kind]
    trim = float(model.trim) if model.trim is not None else casing
    own = board.to(((seen.left + seen.right) / 2, seen.bottom)).inked(SWAP[status])
    width, height = seen.right - seen.left, seen.top - seen.bottom
    with board.group(layer, seen.path):
        if model.kind == "window":
            _window(own, model, width, height, trim)
        else:
            _frame(own, width, height, trim)
            if model.kind == "door":
                _door(own, opening, width, height)


def _frame(board: Board, w: float, h: float, trim: float) -> None:
    x = w / 2
    if trim:
        board.area([(-x - trim, 0), (-x - trim, h + trim), (x + trim, h + trim), (x + trim, 0)], pen="thin")
    board.area([(-x, 0), (-x, h), (x, h), (x, 0)], fill="paper", pen="medium")


def _door(board: Board, opening: WallOpening, w: float, h: float) -> None:
    model = opening.model
    under = float(model.undercut or 0.0)
    halves = model.leaf in ("double", "sliding", "bifold")
    leaves = [(-w / 2, 0.0), (0.0, w / 2)] if halves else [(-w / 2, w / 2)]
    for a, b in leaves:
        if halves or under:
            board.area([(a, under), (b, under), (b, h), (a, h)], fill=None, pen="thin")
        _panels(board, a, b, under, h)
    if model.leaf in ("sliding", "pocket"):
        board.line([(-w * 0.14, h * 0.5), (w * 0.14, h * 0.5)], "hair", "graphite")
        for x in (-0.14, 0.14):
            tip = w * x
            board.line(
                [(tip * 0.75, h * 0.5 + 0.03), (tip, h * 0.5), (tip * 0.75, h * 0.5 - 0.03)],
                "hair",
                "graphite",
            )
    elif halves:
        for x in (-0.06, 0.06):
            board.oval((x, 1.0), 0.05, 0.05, pen="thin", fill="paper")
    else:
        _hinged(board, opening, w, h)


def _hinged(board: Board, opening: WallOpening, w: float, h: float) -> None:
    """Mark the knob, and the side it hangs on: lines from the knob's edge to the hinges, broken where it opens away."""
    hand = _hinge_hand(opening)
    x = hand * w / 2
    dash: Dash = "fine" if opening.model.opens == "out" else "ghost"
    board.line([(-x, 0.02), (x, h / 2), (-x, h)], "hair", "graphite", dash)
    board.oval((-x * 0.86, 0.96), 0.055, 0.055, pen="thin", fill="paper")


def _hinge_hand(opening: WallOpening) -> float:
    """Return -1 where the hinges are at the viewer's left, 1 at the right."""
    first = opening.model.hinge in (None, opening.wall.first)
    return -1.0 if first == runs_right(opening.wall) else 1.0


def _panels(board: Board, a: float, b: float, low: float, high: float) -> None:
    """Draw two panels in a leaf, the lower a third."""
    stile = min(0.11, (b - a) * 0.17)
    lock = low + (high - low) * 0.42
    for bottom, top in ((low + stile * 1.6, lock - stile / 2), (lock + stile / 2, high - stile)):
        board.area(
            [(a + stile, bottom), (b - stile, bottom), (b - stile, top), (a + stile, top)],
            fill=None,
            pen="hair",
        )


def _window(board: Board, model: Opening, w: float, h: float, trim: float) -> None:
    x = w / 2
    if trim:
        board.area([(-x - trim, 0), (-x - trim, h + trim), (x + trim, h + trim), (x + trim, 0)], pen="thin")
    board.area([(-x, 0), (-x, h), (x, h), (x, 0)], fill="paper", pen="medium")
    past = trim + 0.025
    board.area([(-x - past, -SILL), (x + past, -SILL), (x + past, 0), (-x - past, 0)], pen="thin")
    if trim:
        board.area(
            [(-x - trim, -SILL - 0.06), (x + trim, -SILL - 0.06), (x + trim, -SILL), (-x - trim, -SILL)],
            pen="hair",
        )
    sash = model.sash or "fixed"
    rail = min(RAIL, w / 8, h / 8)
    if sash == "double-hung":
        for low, high in ((0.0, h / 2 + rail / 2), (h / 2 - rail / 2, h)):
            _sash(board, -x, x, low, high, rail)
    elif sash in ("casement", "sliding") and w > 0.75:
        for a, b in ((-x, 0.0), (0.0, x)):
            _sash(board, a, b, 0.0, h, rail)
        _opens(board, sash, w, h)
    else:
        _sash(board, -x, x, 0.0, h, rail)
        _opens(board, sash, w, h)


def _sash(board: Board, a: float, b: float, low: float, high: float, rail: float) -> None:
    board.area([(a, low), (b, low), (b, high), (a, high)], fill=None, pen="thin")
    r = rail
    board.area(
        [(a + r, low + r), (b - r, low + r), (b - r, high - r), (a + r, high - r)], fill=None, pen="hair"
    )


def _opens(board: Board, sash: str, w: float, h: float) -> None:
    """Mark how a sash opens: lines that meet at its hinges; nothing for one that does not."""
    x = w / 2
    ways: dict[str, list[list[tuple[float, float]]]] = {
        "casement": [[(0, 0), (-x, h / 2), (0, h)], [(0, 0), (x, h / 2), (0, h)]]
        if w > 0.75
        else [[(x, 0), (-x, h / 2), (x, h)]],
        "awning": [[(-x, 0), (0, h), (x, 0)]],
        "tilt": [[(-x, h), (0, 0), (x, h)]],
        "sliding": [[(-x * 0.6, h / 2), (-x * 0.2, h / 2)], [(x * 0.2, h / 2), (x * 0.6, h / 2)]],
    }
    for way in ways.get(sash, []):
        board.line(way, "hair", "graphite", "ghost")
