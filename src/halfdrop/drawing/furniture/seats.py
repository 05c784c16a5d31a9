"""Seats: back, arms and cushions; a chair's splay; a stool's ring."""

from __future__ import annotations

import math

from halfdrop.drawing.board import QUARTER, Board
from halfdrop.drawing.verbs import Vertex
from halfdrop.job.model import Piece


def _arm(width: float) -> float:
    return min(max(0.10 * width, 0.08), 0.20, width / 4)


def _back(depth: float) -> float:
    return min(max(0.24 * depth, 0.10), 0.26, depth / 2.5)


def cushions(board: Board, left: float, right: float, back: float, front: float, count: int) -> None:
    """Draw a row of cushions side by side."""
    each = (right - left) / count
    soft = min(0.06, each / 5, (front - back) / 5)
    for k in range(count):
        board.box(left + k * each, left + (k + 1) * each, back, front, soft, pen="hair")


def _count(piece: Piece, width: float) -> int:
    """Return the number of seat cushions: as many as it seats, else one to about 0.65 m."""
    return max(1, min(piece.seats or 99, max(1, round(width / 0.65)), 6))


def sofa(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a back, two arms and a row of seat cushions with loose back cushions behind them."""
    arm, back = _arm(w), _back(d)
    x, y = w / 2, d / 2
    board.box(-x, x, -y, y, (0.07, 0.07, 0.04, 0.04), pen="thin")
    seat_left, seat_right = -x + arm, x - arm
    board.line([(-x + arm * 0.9, -y + back * 0.42), (x - arm * 0.9, -y + back * 0.42)], "hair")
    for hand in (-1, 1):
        low, high = sorted((hand * x, hand * (x - arm)))
        board.box(low, high, -y + back * 0.42, y - 0.02, (0.02, 0.02, 0.05, 0.05), pen="thin")
    count = _count(piece, seat_right - seat_left)
    cushions(board, seat_left, seat_right, -y + back * 0.42, -y + back * 1.12, count)
    cushions(board, seat_left, seat_right, -y + back * 1.12, y - 0.015, count)


def sectional(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a sofa whose one end runs forward as a long seat."""
    if piece.ret is None:
        sofa(board, piece, w, d)
        return
    hand = -1.0 if piece.ret.hand == "left" else 1.0
    x, y = w / 2, d / 2
    body = float(piece.depth)
    run = float(piece.ret.width)
    arm, back = _arm(w) * 0.9, _back(body)
    front, end = body - y, float(piece.ret.length) - y
    inner = x - run  # in the frame where the return is at the right

    def flip(points: list[Vertex]) -> list[Vertex]:
        if hand > 0:
            return points
        out: list[Vertex] = [(-p[0], p[1]) for p in points]
        return out[::-1]

    board.area(flip([(-x, -y), (x, -y), (x, end), (inner, end), (inner, front), (-x, front)]), pen="thin")

    def cushion(left: float, right: float, low: float, high: float) -> None:
        lo, hi = (left, right) if hand > 0 else (-right, -left)
        board.box(lo, hi, low, high, min(0.06, (right - left) / 5, (high - low) / 5), pen="hair")

    shell = back * 0.42
    board.line(flip([(-x + arm, -y + shell), (x - shell, -y + shell), (x - shell, end)]), "hair")
    cushion(-x, -x + arm, -y + shell, front - 0.02)
    span = inner - (-x + arm)
    count = max(1, round(span / 0.7))
    for k in range(count):
        a, b = -x + arm + span * k / count, -x + arm + span * (k + 1) / count
        cushion(a, b, -y + shell, -y + back * 1.12)
        cushion(a, b, -y + back * 1.12, front - 0.015)
    cushion(inner, x - shell, -y + shell, -y + back * 1.12)
    cushion(inner, x - back * 1.12, front, end - 0.015)
    cushion(inner, x - back * 1.12, -y + back * 1.12, front)
    cushion(x - back * 1.12, x - shell, -y + back * 1.12, end - 0.015)


def armchair(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw one seat in a round-shouldered shell with two arms."""
    x, y = w / 2, d / 2
    if piece.shape != "rectangle":
        board.oval((0.0, 0.0), w, d, fill="paper")
        board.oval((0.0, d * 0.08), w * 0.68, d * 0.68, pen="hair")
        return
    arm, back = min(max(0.16 * w, 0.07), 0.18), _back(d)
    shoulder = min(0.22, w / 3, d / 3)
    board.box(-x, x, -y, y, (shoulder, shoulder, 0.05, 0.05), pen="thin")
    cut = max(shoulder - arm * 0.7, 0.03)
    board.box(-x + arm, x - arm, -y + back * 0.55, y - 0.015, (cut, cut, 0.05, 0.05), pen="hair")
    board.line([(-x + arm, -y + back * 1.25), (0.0, -y + back * 1.05), (x - arm, -y + back * 1.25)], "hair")


def recliner(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw an armchair whose footrest folds out: its reach is a dashed outline in front."""
    armchair(board, piece, w, d)
    if piece.opens is not None:
        arm = min(max(0.16 * w, 0.07), 0.18)
        reach = float(piece.opens.reach)
        board.box(-w / 2 + arm, w / 2 - arm, d / 2, d / 2 + reach, 0.04, fill=None, pen="hair", dash="fine")


def chaise(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a long seat with a back at its head."""
    x, y = w / 2, d / 2
    back = min(0.24, d / 5)
    board.box(-x, x, -y, y, (0.08, 0.08, 0.12, 0.12), pen="thin")
    board.box(-x + 0.06, x - 0.06, -y + back * 0.5, -y + back * 1.3, 0.05, pen="hair")
    board.box(-x + 0.03, x - 0.03, -y + back * 1.3, y - 0.03, (0.03, 0.03, 0.1, 0.1), pen="hair")


def ottoman(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a cushion with its welt, buttoned at the middle."""
    rim = min(0.05, w / 8, d / 8)
    if piece.shape == "rectangle":
        board.box(-w / 2, w / 2, -d / 2, d / 2, 0.05, pen="thin")
        board.box(-w / 2 + rim, w / 2 - rim, -d / 2 + rim, d / 2 - rim, 0.03, fill=None, pen="hair")
    else:
        board.oval((0.0, 0.0), w, d, fill="paper")
        board.oval((0.0, 0.0), w - 2 * rim, d - 2 * rim, pen="hair")
    board.oval((0.0, 0.0), 0.03, 0.03, pen="hair")


def bench(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw an upholstered board on splayed legs: the legs show as strokes at the corners."""
    x, y = w / 2, d / 2
    board.box(-x, x, -y, y, 0.03, pen="thin")
    count = max(1, round(w / 0.7))
    for k in range(1, count):
        board.line([(-x + w * k / count, -y), (-x + w * k / count, y)], "hair")
    inset = min(0.05, w / 6, d / 6)
    for sx in (-1, 1):
        for sy in (-1, 1):
            board.line(
                [(sx * (x - inset), sy * (y - inset)), (sx * (x - 2 * inset), sy * (y - 2 * inset))], "hair"
            )


def stool(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a seat with its rail below."""
    if piece.shape == "rectangle":
        board.box(-w / 2, w / 2, -d / 2, d / 2, min(w, d) / 5, pen="thin")
        board.box(-w * 0.34, w * 0.34, -d * 0.34, d * 0.34, min(w, d) / 8, fill=None, pen="hair")
    else:
        board.oval((0.0, 0.0), w, d, fill="paper")
        board.oval((0.0, 0.0), w * 0.7, d * 0.7, pen="hair")


def dining_chair(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw the splay of a side chair: the seat wider in front than behind, the back a bowed rail."""
    x, y = w / 2, d / 2
    rear = 0.80 * x
    rail = min(0.07, d / 6)
    soft = min(0.07, w / 6)
    board.area(
        [
            (-rear, -y + rail * 0.5),
            (rear, -y + rail * 0.5),
            (x, y - soft, QUARTER),
            (x - soft, y),
            (-x + soft, y, QUARTER),
            (-x, y - soft),
        ],
        pen="thin",
    )
    bow = 0.18
    board.area(
        [
            (-rear - 0.015, -y + rail, bow),
            (rear + 0.015, -y + rail),
            (rear, -y + rail * 1.75, -bow),
            (-rear, -y + rail * 1.75),
        ],
        pen="thin",
    )
    board.line([(-rear * 0.92, -y + d * 0.36), (rear * 0.92, -y + d * 0.36)], "hair")


def desk_chair(board: Board, piece: Piece, w: float, d: float) -> None:
    """Draw a five-footed chair: feet, round seat, curved back."""
    reach = min(w, d) / 2
    for k in range(5):
        t = math.pi / 2 + k * math.tau / 5
        board.line([(0.0, 0.0), (reach * math.cos(t), reach * math.sin(t))], "hair")
    board.oval((0.0, 0.03 * d), w * 0.78, d * 0.74, fill="paper")
    bow = 0.22
    x, y = 0.40 * w, -d / 2 + bow * 0.40 * w
    thick = min(0.07, d / 8)
    board.area(
        [(-x, y, bow), (x, y), (x * 0.92, y + thick, -bow), (-x * 0.92, y + thick)],
        pen="thin",
    )
