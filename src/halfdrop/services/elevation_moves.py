"""A hand's move on an elevation as a patch: along the wall and up; a rod raised or lengthened."""

from __future__ import annotations

from typing import Literal

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Patch
from halfdrop.audit.moves import step, text
from halfdrop.base.errors import InputError
from halfdrop.drawing.elevation import Hanging, Shown
from halfdrop.job.part import corners_of
from halfdrop.room.face import Seen, right_hand
from halfdrop.room.things import FixedFitting, HungArt, StandingPiece, WallOpening
from halfdrop.services.workbench_moves import STILL, move_patch

#: Which end of a rod a hand holds; `both` lengthens it at either end. Of a work `group` moves all that hang as one with it.
Handle = Literal["left", "right", "both", "group"]

#: Fittings that stand on the floor: they are moved along only.
_ON_FLOOR = frozenset({"hearth", "column", "closet", "counter", "bath", "shower", "toilet"})


def lift_patch(
    case: RoomCase,
    shown: Shown,
    path: str,
    by: tuple[float, float],
    handle: Handle | None = None,
    *,
    exact: bool = False,
) -> Patch:
    """Return the patch of a hand's move on an elevation.

    Parameters
    ----------
    case : RoomCase
    shown : Shown
        The elevation it is moved on.
    path : str
        The thing.
    by : (x, y)
        To the right and up [m]; rounded to 1/2 in or 1 cm unless `exact`.
    handle : {"left", "right", "both", "group"}, optional
        Of a rod: which end is moved along; without it the rod is only raised. Of a work: its whole group on this wall.

    Returns
    -------
    list of operations
        Empty where it stays.

    Raises
    ------
    InputError
        Where nothing on this wall stands at the path.
    """
    path = path.strip("/")
    for hanging in shown.hangings:
        if hanging.path == path:
            return _rod(case, hanging, by, handle, exact)
    face = shown.face
    for seen in (*face.openings, *face.fittings, *face.art, *face.pieces):
        if seen.path == path:
            together = _group(shown, seen) if handle == "group" else [seen]
            return [op for one in together for op in _seen(case, shown, one, by, exact)]
    raise InputError(f"nothing on wall {face.name} stands at `{path[:120]}`")


def _stepped(case: RoomCase, by: float, exact: bool) -> float:
    return by if exact else round(by / step(case)) * step(case)


def _set(case: RoomCase, path: str, key: str, old: float, new: float, written: bool) -> Patch:
    if abs(new - old) < STILL:
        return []
    return [{"op": "replace" if written else "add", "path": f"/{path}/{key}", "value": text(case, new)}]


def _seen(case: RoomCase, shown: Shown, seen: Seen, by: tuple[float, float], exact: bool) -> Patch:
    thing = seen.thing
    along, up = (_stepped(case, v, exact) for v in by)
    if isinstance(thing, StandingPiece):
        middle = (seen.left + seen.right) / 2
        across = along * right_hand(shown.face.stretch_at(middle).wall)
        return move_patch(case, thing.path, (float(across[0]), float(across[1])), exact=exact)
    if isinstance(thing, HungArt):
        at = thing.model.at
        assert at is not None
        sign = _sign(shown, at.wall)
        old, low = float(at.along), float(at.bottom)
        return [
            *_set(case, f"{thing.path}/at", "along", old, max(old + sign * along, 0.0), True),
            *_set(case, f"{thing.path}/at", "bottom", low, max(low + up, 0.0), True),
        ]
    model = thing.model
    if model.wall is None or model.along is None:
        raise InputError(f"{thing.name} stands free in the room; move it on the plan")
    old = float(model.along)
    patch = _set(case, thing.path, "along", old, max(old + _sign(shown, model.wall) * along, 0.0), True)
    if isinstance(thing, WallOpening):
        if thing.model.kind == "window":
            sill = float(thing.model.sill or 0.0)
            patch += _set(case, thing.path, "sill", sill, max(sill + up, 0.0), True)
        return patch
    assert isinstance(thing, FixedFitting)
    if thing.model.kind in _ON_FLOOR:
        return patch
    low = seen.bottom - shown.face.floor((seen.left + seen.right) / 2)
    return patch + _set(case, thing.path, "bottom", low, max(low + up, 0.0), thing.model.bottom is not None)


def _group(shown: Shown, seen: Seen) -> list[Seen]:
    """Return a work with all of its group that hang on this elevation; alone where it has none."""
    group = seen.thing.model.group if isinstance(seen.thing, HungArt) else None
    fellows = [s for s in shown.face.art if isinstance(s.thing, HungArt) and s.thing.model.group == group]
    return fellows if group is not None else [seen]


def _sign(shown: Shown, pair: str) -> float:
    """Return 1 where a thing's `along` grows to the right on the elevation, else -1."""
    return 1.0 if corners_of(pair)[0] == shown.face.stretch_of(pair).left_corner else -1.0


def _rod(
    case: RoomCase, hanging: Hanging, by: tuple[float, float], handle: Handle | None, exact: bool
) -> Patch:
    hung = hanging.hung
    model = hung.treatment.hardware
    if hung.treatment.mount != "outside":
        raise InputError(
            f"{hung.name} hangs {hung.treatment.mount}: its place is the opening's or the ceiling's"
        )
    along, up = (_stepped(case, v, exact) for v in by)
    ends = {"left": -hung.left, "right": hung.right - hung.run.width}
    grow = {
        "left": -along if handle == "left" else along if handle == "both" else 0.0,
        "right": along if handle in ("right", "both") else 0.0,
    }
    path = f"{hung.path}/hardware"
    patch = _set(case, path, "height", hung.height, max(hung.height + up, 0.3), model.height is not None)
    for key, old in ends.items():
        if hung.kind == "panels":
            least = -hung.run.width / 2 + 0.05
            patch += _set(case, path, key, old, max(old + grow[key], least), getattr(model, key) is not None)
    if patch and "hardware" not in hung.treatment.model_fields_set:
        patch.insert(0, {"op": "add", "path": f"/{path}", "value": {}})
    return patch
