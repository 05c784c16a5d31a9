"""What a moved thing nearly does on an elevation, and its gaps: to floor, ceiling and what stands beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from halfdrop.audit.case import RoomCase
from halfdrop.base.errors import InputError
from halfdrop.drawing.elevation import Shown
from halfdrop.room.face import Seen
from halfdrop.room.things import FixedFitting, HungArt, WallOpening
from halfdrop.services.elevation_moves import Handle, lift_patch
from halfdrop.services.trade_words import Say
from halfdrop.services.workbench_moves import STILL

#: Alignments are offered for what is nearer than this [m].
NEAR = 0.12


@dataclass(frozen=True)
class _Line:
    """A line that a moved thing may be drawn to: upright at `at`, or level."""

    at: float
    level: bool
    text: str
    kind: str
    to: str
    practice: str | None = None


def lift_snaps(
    case: RoomCase, shown: Shown, path: str, handle: Handle | None, most: int = 4
) -> list[dict[str, Any]]:
    """Return what the moved thing is nearly doing, each with the patch that does it, the least move first."""
    edges, own = _edges(shown, path, handle)
    found = []
    for line in _lines(shown, own):
        for value in edges["level" if line.level else "upright"]:
            off = line.at - value
            if STILL < abs(off) <= NEAR:
                found.append((abs(off), (0.0, off) if line.level else (off, 0.0), line))
    out: list[dict[str, Any]] = []
    for _, by, line in sorted(found, key=lambda f: (round(f[0], 6), f[2].text)):
        try:
            patch = lift_patch(case, shown, path, by, handle, exact=True)
        except InputError:
            return []
        if patch and line.text not in {o["text"] for o in out}:
            out.append(
                {
                    "path": path,
                    "kind": line.kind,
                    "to": line.to,
                    "by": [round(v, 6) for v in by],
                    "turn": 0.0,
                    "text": line.text,
                    "practice": line.practice,
                    "line": _drawn(shown, line),
                    "patch": patch,
                }
            )
        if len(out) >= most:
            break
    return out


def _drawn(shown: Shown, line: _Line) -> list[list[float]]:
    face = shown.face
    if line.level:
        return [[0.0, round(line.at, 5)], [round(face.width, 5), round(line.at, 5)]]
    return [
        [round(line.at, 5), round(face.floor(line.at), 5)],
        [round(line.at, 5), round(face.ceiling(line.at), 5)],
    ]


def _edges(shown: Shown, path: str, handle: Handle | None) -> tuple[dict[str, list[float]], str]:
    for hanging in shown.hangings:
        if hanging.path == path:
            ends = {"left": [hanging.rod[0]], "right": [hanging.rod[1]]}.get(handle or "", [])
            return {"level": [hanging.height] if handle is None else [], "upright": ends}, path
    for seen in _all(shown):
        if seen.path == path:
            middle = (seen.left + seen.right) / 2
            return {
                "level": [seen.bottom, seen.top, (seen.bottom + seen.top) / 2],
                "upright": [seen.left, seen.right, middle],
            }, path
    return {"level": [], "upright": []}, path


def _all(shown: Shown) -> tuple[Seen, ...]:
    face = shown.face
    return (*face.openings, *face.fittings, *face.art, *face.pieces)


def _lines(shown: Shown, but: str) -> list[_Line]:
    """Return what a thing may be lined up with: rods, heads, works, middles of things, where practice puts a rod."""
    out: list[_Line] = []
    for hanging in shown.hangings:
        hung = hanging.hung
        if hanging.path != but:
            out.append(
                _Line(hanging.height, True, f"in line with the rod of {hung.name}", "in line", hanging.path)
            )
            continue
        span, rod = hung.place.span, hung.place
        out.append(_Line(span.height + hanging.dy, True, "where practice puts the rod", "practice", but))
        stack = rod.stack
        if stack is not None:
            each = stack.total / 2
            for at, end in ((hanging.dx - each, "left"), (hanging.dx + hung.run.width + each, "right")):
                out.append(_Line(at, False, f"so that the {end} stack clears the glass", "practice", but))
    for seen in _all(shown):
        if seen.path == but:
            continue
        name = seen.thing.name
        middle = (seen.left + seen.right) / 2
        out.append(_Line(middle, False, f"centered on {name}", "centered", seen.path))
        if isinstance(seen.thing, WallOpening):
            out.append(_Line(seen.top, True, f"in line with the head of {name}", "in line", seen.path))
        elif isinstance(seen.thing, HungArt):
            out.append(
                _Line(
                    (seen.top + seen.bottom) / 2, True, f"centers in line with {name}", "in line", seen.path
                )
            )
        elif isinstance(seen.thing, FixedFitting):
            out.append(_Line(seen.bottom, True, f"in line with the foot of {name}", "in line", seen.path))
    return out


def lift_gaps(case: RoomCase, shown: Shown, path: str) -> list[dict[str, Any]]:
    """Return the gaps of what is moved: down to the floor, up to the ceiling, and to each side, in words and numbers."""
    face, say = shown.face, Say(case.units)
    boxes = shown.boxes
    if path not in boxes:
        return []
    left, bottom, right, top = boxes[path].bounds
    rod = next((h for h in shown.hangings if h.path == path), None)
    if rod is not None and rod.hung.kind == "panels":
        left, right = rod.rod
        top = max(rod.height, rod.top)
    middle, level = (left + right) / 2, (bottom + top) / 2
    if rod is not None:
        level = rod.height
    sides = [
        ("down", (middle, bottom), (middle, face.floor(middle)), "floor"),
        ("up", (middle, top), (middle, face.ceiling(middle)), "ceiling"),
        ("left", (left, level), *_beside(shown, path, left, level, -1)),
        ("right", (right, level), *_beside(shown, path, right, level, 1)),
    ]
    if rod is not None:
        sides.append(("floor to rod", (left, face.floor(left)), (left, rod.height), path))
    out = []
    for side, p, q, to in sides:
        length = max(abs(p[0] - q[0]), abs(p[1] - q[1]))
        if length > 1e-3:
            out.append(
                {
                    "from": path,
                    "to": to,
                    "side": side,
                    "length": round(length, 5),
                    "text": say.fix(length),
                    "sigma": 0.0,
                    "p": [round(v, 5) for v in p],
                    "q": [round(v, 5) for v in q],
                }
            )
    return out


def _beside(shown: Shown, path: str, x: float, level: float, way: int) -> tuple[tuple[float, float], str]:
    """Return the nearest edge beside a place at its own height, else the corner of the wall."""
    face = shown.face
    far, to = (0.0, "corner") if way < 0 else (face.width, "corner")
    for other, shape in shown.boxes.items():
        a, low, b, high = shape.bounds
        if other == path or "/pieces/" in other or not low <= level <= high:
            continue
        edge = b if way < 0 else a
        if (edge - x) * way >= 0 and (edge - far) * way < 0:
            far, to = edge, other
    return (far, level), to
