"""The survey sheet: the outline as adjusted, every measure as taped, what remains, and what to tape next."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from halfdrop.base.formats import Units, format_angle
from halfdrop.drawing.board import Board, Frame
from halfdrop.drawing.dimensions import print_length
from halfdrop.drawing.metrics import cap_height, text_width
from halfdrop.drawing.paper import Paper, Scale
from halfdrop.drawing.paper import paper as paper_named
from halfdrop.drawing.plan import fit
from halfdrop.drawing.sheet import Sheet, TitleInfo, View, divide, sheet_of
from halfdrop.drawing.survey_margin import survey_margin
from halfdrop.drawing.tokens import Ink, tokens
from halfdrop.drawing.verbs import XY, Area, Begin, Dimension, End, Text, Verb
from halfdrop.job.model import corners_of
from halfdrop.room import ResolvedRoom, Wall
from halfdrop.survey import ObservationResult

#: Space for wall measures and corner letters round the outline [mm].
AROUND = 17.0
#: Wall measures off the wall, and corner letters off the corner [mm].
OFF, LETTER = 7.0, 5.2
#: Times the corners' ellipses may be enlarged; half the widest is drawn at most this wide [mm].
TIMES = (1000, 500, 200, 100, 50, 20, 10)
WIDEST = 5.0
#: A line steeper than this is lettered like an upright one, from the right [degrees].
STEEP = 80.0


def survey_sheet(
    room: ResolvedRoom,
    *,
    title: TitleInfo,
    paper: str | Paper = "tabloid",
    scale: str | Scale | None = None,
    units: Units = "imperial",
) -> Sheet:
    """Return the survey of a room as a sheet.

    Walls and ties carry their taped lengths and residuals; suspects are in pencil, the one more measure in
    slate; the corners' standard error ellipses are drawn enlarged, which the margin says.

    Parameters
    ----------
    room : ResolvedRoom
    title : TitleInfo
    paper : str or Paper
    scale : str or Scale, optional
    units : {"imperial", "metric"}

    Raises
    ------
    InputError
        Where the room does not fit.
    """
    page = paper_named(paper) if isinstance(paper, str) else paper
    parts = divide(page)
    dims = dict.fromkeys(("south", "west", "north", "east"), AROUND)
    chosen, frame = fit(room, parts.field, dims, scale, units, narrow=parts.narrow)
    verbs: list[Verb] = []
    board = Board(frame, verbs)
    times = enlargement(room, frame)
    _outline(board, room)
    _ellipses(board, room, times)
    suspects = {s.id for s in room.survey.suspects}
    boxes = _walls(verbs, frame, room, units, suspects)
    _ties(board, room, units, suspects, boxes)
    margin = survey_margin(room, parts.margin, units, times)
    return sheet_of(page, title, units, [View(frame, tuple(verbs))], margin, parts, chosen)


def enlargement(room: ResolvedRoom, frame: Frame) -> int:
    """Return how many times the ellipses are drawn enlarged: their half width at most `WIDEST`."""
    widest = max(ellipse(room, i)[0] * frame.scale for i in range(len(room.walls)))
    return next((t for t in TIMES if widest * t <= WIDEST), TIMES[-1])


def ellipse(room: ResolvedRoom, i: int) -> tuple[float, float, float]:
    """Return a corner's standard error ellipse: semi-axes [m] and the turn of the longer one [rad]."""
    block = room.survey.covariance[2 * i : 2 * i + 2, 2 * i : 2 * i + 2]
    values, vectors = np.linalg.eigh(np.asarray(block))
    long, short = (math.sqrt(max(float(v), 0.0)) for v in (values[1], values[0]))
    axis = vectors[:, 1]
    if axis[0] < 0 or (abs(axis[0]) < 1e-12 and axis[1] < 0):
        axis = -axis
    return long, short, math.atan2(float(axis[1]), float(axis[0]))


def _outline(board: Board, room: ResolvedRoom) -> None:
    with board.group("A-WALL", f"{room.path}/survey/walls"):
        board.line([(float(x), float(y)) for x, y in room.survey.xy], "wide", closed=True)
    for opening in room.openings.values():
        with board.group("A-GLAZ" if opening.model.kind == "window" else "A-DOOR", opening.path):
            a, b = opening.start, opening.end
            n = opening.wall.inward * 0.05
            corners = [a - n, b - n, b + n, a + n]
            board.area(
                [(float(p[0]), float(p[1])) for p in corners], fill="paper", pen="hair", ink="graphite"
            )


def _ellipses(board: Board, room: ResolvedRoom, times: int) -> None:
    size = tokens().sizes["body"]
    cap = cap_height(size, "strong")
    for i, name in enumerate(room.survey.corners):
        x, y = (float(v) for v in room.survey.xy[i])
        with board.group("V-CTRL-HCPT", f"{room.path}/survey/corners/{name}"):
            long, short, turn = ellipse(room, i)
            if long * times * board.frame.scale > 0.1:
                board.oval(
                    (x, y),
                    2 * long * times,
                    2 * short * times,
                    pen="thin",
                    ink="graphite",
                    turn=math.degrees(turn),
                )
            board.oval((x, y), 1.3 / board.frame.scale, 1.3 / board.frame.scale, pen=None, fill="ink")
            out = -(room.walls[i].inward + room.walls[i - 1].inward)
            length = float(np.hypot(*out)) or 1.0
            at = (
                x + float(out[0]) / length * LETTER / board.frame.scale,
                y + float(out[1]) / length * LETTER / board.frame.scale,
            )
            px, py = board.frame(*at)
            board.verbs.append(Text((px, py + cap / 2), name, size, "strong", "ink", "middle"))


def measure_text(o: ObservationResult, units: Units) -> str:
    """Return a measure as taped: a length, or an angle."""
    if o.kind in ("angle", "square"):
        return format_angle(o.measured, digits=2)
    return print_length(o.measured, units)


def _of_pair(room: ResolvedRoom, kind: str) -> list[tuple[str, ObservationResult]]:
    return [(o.id.split("/", 1)[1], o) for o in room.survey.observations if o.kind == kind]


def _walls(
    verbs: list[Verb], frame: Frame, room: ResolvedRoom, units: Units, suspects: set[str]
) -> list[BaseGeometry]:
    """Draw each wall's taped length outside it; return the values' boxes [mm]."""
    size = tokens().sizes["small"]
    boxes: list[BaseGeometry] = []
    taped = {frozenset(corners_of(pair)): o for pair, o in _of_pair(room, "wall")}
    for wall in room.walls:
        observed = taped.get(frozenset((wall.first, wall.second)))
        if observed is None:
            continue
        ink: Ink = "pencil" if observed.id in suspects or not observed.used else "graphite"
        value = measure_text(observed, units)
        a, b, base, text_at, turn = wall_line(frame, wall)
        verbs += [
            Begin("V-CTRL-TAPE", f"{room.path}/survey/{observed.id}"),
            Dimension(a, b, base, value, text_at, turn, size, ink),
            End(),
        ]
        reach = text_width(value, size) / 2 + 0.5
        boxes.append(box(text_at[0] - reach, text_at[1] - 2.4, text_at[0] + reach, text_at[1] + 0.4))
    return boxes


def wall_line(frame: Frame, wall: Wall) -> tuple[XY, XY, XY, XY, float]:
    """Return feet, a point of the line, the value's place and its turn for a wall's measure [mm]."""
    out = -wall.inward * OFF / frame.scale
    a, b = frame(*map(float, wall.start)), frame(*map(float, wall.end))
    base = frame(*map(float, wall.start + out))
    end = frame(*map(float, wall.end + out))
    turn = upright(base, end)
    t = math.radians(turn)
    middle = ((base[0] + end[0]) / 2, (base[1] + end[1]) / 2)
    return a, b, base, (middle[0] + 0.9 * math.sin(t), middle[1] - 0.9 * math.cos(t)), turn


def upright(a: XY, b: XY) -> float:
    """Return the turn of lettering along a line so that it reads from below or from the right [degrees]."""
    turn = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) % 180
    return round(turn - 180 if turn > STEEP else turn, 6) + 0.0


def _ties(
    board: Board, room: ResolvedRoom, units: Units, suspects: set[str], boxes: list[BaseGeometry]
) -> None:
    """Draw the ties and, in slate, the one more measure, each with its value on its line."""
    place = {
        name: board.frame(float(x), float(y))
        for name, (x, y) in zip(room.survey.corners, room.survey.xy, strict=True)
    }
    rows: list[tuple[str, str, Ink, str]] = []
    for pair, o in _of_pair(room, "tie"):
        ink: Ink = "pencil" if o.id in suspects or not o.used else "graphite"
        rows.append((pair, measure_text(o, units), ink, f"{room.path}/survey/{o.id}"))
    extra = room.survey.extra
    if extra is not None:
        rows.append((extra.pair, f"tape {extra.pair} {'again' if extra.repeat else 'next'}", "slate", ""))
    lines = [LineString([place[c] for c in corners_of(pair)]) for pair, *_ in rows]
    edge = LineString([*place.values(), next(iter(place.values()))]).buffer(0.8)
    taken: list[BaseGeometry] = [*boxes, edge]
    for k, (pair, value, ink, path) in enumerate(rows):
        a, b = (place[c] for c in corners_of(pair))
        with board.group("V-CTRL-TAPE", path):
            p, q = board.frame.inverse(a), board.frame.inverse(b)
            slate = ink == "slate"
            board.line([p, q], "thin" if slate else "hair", ink, "ghost" if slate else "fine")
            others = [line for j, line in enumerate(lines) if not line.equals(lines[k]) and j != k]
            at, shape = _tie_spot(a, b, value, [*taken, *others], taken)
            taken.append(shape)
            _letter(board.verbs, at, upright(a, b), value, ink)


def _tie_spot(
    a: XY, b: XY, value: str, clear_of: Sequence[BaseGeometry], hard: Sequence[BaseGeometry]
) -> tuple[XY, Polygon]:
    """Return where along a tie its value stands: clear of other ties where it can, always of other values."""
    size = tokens().sizes["small"]
    half, high = text_width(value, size) / 2 + 0.6, cap_height(size) / 2 + 0.6
    t = math.radians(upright(a, b))
    u, v = (math.cos(t), math.sin(t)), (-math.sin(t), math.cos(t))

    def shape(x: float, y: float) -> Polygon:
        signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
        return Polygon(
            [(x + i * half * u[0] + j * high * v[0], y + i * half * u[1] + j * high * v[1]) for i, j in signs]
        )

    parts = [0.5, *(p for k in range(1, 10) for p in (0.5 - 0.04 * k, 0.5 + 0.04 * k))]
    spots = [(a[0] + (b[0] - a[0]) * p, a[1] + (b[1] - a[1]) * p) for p in parts]
    for obstacles in (clear_of, hard):
        for spot in spots:
            if not any(shape(*spot).intersects(o) for o in obstacles):
                return spot, shape(*spot)
    return spots[0], shape(*spots[0])


def _letter(verbs: list[Verb], at: XY, turn: float, value: str, ink: Ink) -> None:
    """Letter a value on its line, the line broken behind it."""
    size = tokens().sizes["small"]
    half, cap = text_width(value, size) / 2 + 0.6, cap_height(size)
    t = math.radians(turn)
    u, v = (math.cos(t), math.sin(t)), (-math.sin(t), math.cos(t))
    signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    high = cap / 2 + 0.4
    ring = tuple(
        (at[0] + i * half * u[0] + j * high * v[0], at[1] + i * half * u[1] + j * high * v[1])
        for i, j in signs
    )
    verbs.append(Area((ring,)))
    verbs.append(
        Text(
            (at[0] + cap / 2 * v[0], at[1] + cap / 2 * v[1]),
            value,
            size,
            "medium" if ink != "graphite" else "lettering",
            ink,
            "middle",
            turn,
        )
    )
