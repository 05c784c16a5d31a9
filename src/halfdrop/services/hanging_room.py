"""Hang the works of a job on a wall of its room: where they go, clear of what is there, and the patch that says so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from halfdrop.art.places import keep_off
from halfdrop.art.rect import Rect
from halfdrop.art.setting_out import Edge
from halfdrop.art.wall_face import WIRED, ArtWall, kind_below, pieces_below, sits
from halfdrop.art.way import WALLS, back_of, mass_of
from halfdrop.art.work import Work
from halfdrop.audit.art_case import wall_with_art
from halfdrop.audit.case import RoomCase
from halfdrop.audit.rehang import place_of
from halfdrop.base.errors import At, InputError, UsageError, did_you_mean
from halfdrop.job.art import Art
from halfdrop.job.naming import art_name
from halfdrop.job.part import corners_of
from halfdrop.room.face import Seen
from halfdrop.services.hanging import hang
from halfdrop.services.hanging_types import Ask, HangReport, Layout, Own

Patch = list[dict[str, Any]]


@dataclass(frozen=True)
class RoomAsk:
    """What is to hang in a room, and where; lengths [m].

    Attributes
    ----------
    art : tuple of str
        Ids of works, in the order they hang.
    form : str
        Row, grid, stack or cluster.
    wall, over : str or None
        The wall by its corners; the piece it hangs over, or `hearth`. One of them suffices.
    at : float or None
        Where the middle is wanted, from the wall's left end; over the piece, or the middle of the widest bare wall.
    center, gap_over, gap : float or None
        Height of the middle; gap over the piece; between frames. Practice's without them.
    columns, candidates, seed : int or None, int, int
        Of a grid; of a cluster.
    edge : {"left", "right"}
        The end of the wall that is taped from.
    """

    art: tuple[str, ...]
    form: Layout = "row"
    wall: str | None = None
    over: str | None = None
    at: float | None = None
    center: float | None = None
    gap_over: float | None = None
    gap: float | None = None
    columns: int | None = None
    candidates: int = 3
    seed: int = 0
    edge: Edge = "left"


@dataclass(frozen=True, eq=False)
class RoomHanging:
    """Where they hang: the numbers of each way, and the patch that hangs them so.

    Attributes
    ----------
    report : HangReport
        One answer, or several ways of a cluster, the best first.
    patches : tuple of patches
        One for each answer.
    wall, over : str, str or None
        Where.
    title : str
        What is done, as a step of a scheme says it.
    """

    report: HangReport
    patches: tuple[Patch, ...]
    wall: str
    over: str | None
    title: str

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        found = self.report.to_json()
        for answer, patch in zip(found["answers"], self.patches, strict=True):
            answer["patch"] = patch
        return {"wall": self.wall, "over": self.over, "title": self.title, **found}


def works_of(case: RoomCase, ids: Sequence[str]) -> dict[str, Art]:
    """Return works of a room by id.

    Raises
    ------
    InputError
        For an id the room has no work of; for one named twice.
    """
    known = case.room.model.art
    for key in ids:
        if key not in known:
            hint = did_you_mean(key, known) if known else "write its size down under the room's `art` first"
            raise InputError(
                f"there is no work `{key}` in this room", at=At(path=f"{case.room.path}/art"), hint=hint
            )
    if not ids or len(set(ids)) != len(ids):
        raise UsageError(
            "each work is hung once", hint=f"name some of: {', '.join(known) or 'none is there'}"
        )
    return {key: known[key] for key in ids}


def names_of(works: dict[str, Art]) -> dict[str, str]:
    """Return what to call each work; its id too where two are called alike."""
    plain = {key: art_name(key, work) for key, work in works.items()}
    said = list(plain.values())
    return {key: name if said.count(name) == 1 else f"{name} ({key})" for key, name in plain.items()}


def hang_in(case: RoomCase, ask: RoomAsk) -> RoomHanging:
    """Return where works of a job hang on a wall of a room.

    Raises
    ------
    UsageError
        Where neither wall nor piece is said and the works hang nowhere yet.
    InputError
        For an unknown work, wall or piece; where the wall has no place for them.

    Checked by: tests/services/test_hanging_room.py.
    """
    works = works_of(case, ask.art)
    wall, over = _where(case, ask, works)
    names = names_of(works)
    own = {names[key]: Own(back_of(work), mass_of(work, case.practice)) for key, work in works.items()}
    frames = tuple(Work(names[key], float(w.width), float(w.height)) for key, w in works.items())
    asked = Ask(
        works=frames, layout=ask.form, gap=ask.gap, columns=ask.columns, candidates=ask.candidates, seed=ask.seed,
        edge=ask.edge, center=ask.center, gap_over=ask.gap_over, seated=sits(case.room), wall_width=wall.face.width,
        ceiling=wall.free.y1, at=ask.at if ask.at is not None else _middle(wall, over, frames, case),
        wall=WALLS[case.room.model.wall_build], own=own, wired=wired_on(wall),
        obstacles=tuple(keep_off(wall, case.practice, over, works)),
        glazing="glass" if any(w.glass for w in works.values()) else "none",
        **_below(over),
    )  # fmt: skip
    report = hang(asked, case.practice)
    patches = tuple(
        _patch(case, wall, over, works, [h.frame for h in answer.works]) for answer in report.answers
    )
    place = f"over the {over.thing.name}" if over is not None else f"on wall {wall.name}"
    return RoomHanging(
        report, patches, wall.name, over.thing.id if over else None, _title(list(names.values()), ask, place)
    )


def _title(names: list[str], ask: RoomAsk, place: str) -> str:
    if len(names) == 1:
        return f"Hang the {names[0]} {place}."
    return f"Hang {len(names)} works as a {ask.form} {place}: {', '.join(names)}."


def wired_on(wall: ArtWall) -> tuple[tuple[str, Rect], ...]:
    """Return what has a cable to it on a wall."""
    return tuple((m.name, m.rect) for m in wall.marks if m.kind in WIRED)


def _where(case: RoomCase, ask: RoomAsk, works: dict[str, Art]) -> tuple[ArtWall, Seen | None]:
    """Return the wall, and what they hang over."""
    if ask.over is not None:
        return _over(case, ask.over, ask.wall)
    at = next((w.at for w in works.values() if w.at is not None), None)
    above = {w.above for w in works.values()}
    if ask.wall is None and len(above) == 1 and None not in above:
        return _over(case, str(next(iter(above))), None)
    if ask.wall is None and at is None:
        names = ", ".join(w.name for w in case.room.walls)
        raise UsageError(
            "where they are to hang is not said", hint=f"name a wall ({names}) or a piece they hang over"
        )
    return _wall(case, ask.wall if ask.wall is not None else str(at and at.wall)), None


def _wall(case: RoomCase, name: str) -> ArtWall:
    known = {frozenset((w.first, w.second)): w.name for w in case.room.walls}
    try:
        return wall_with_art(case, known[frozenset(corners_of(name))])
    except (KeyError, ValueError):
        raise InputError(
            f"`{name}` is no wall of this room", hint=f"walls: {' '.join(known.values())}"
        ) from None


def _over(case: RoomCase, key: str, wall: str | None) -> tuple[ArtWall, Seen]:
    """Return the wall a piece stands at, and the piece as it is seen there, its front to the room where it can be."""
    found: list[tuple[float, int, ArtWall, Seen]] = []
    for n, one in enumerate(
        [_wall(case, wall)] if wall is not None else [_wall(case, w.name) for w in case.room.walls]
    ):
        found += [(round(s.off, 6) + (0.0 if s.side == "front" else 1.0), n, one, s)
                  for s in pieces_below(one.face) if s.thing.id == key]  # fmt: skip
    if not found:
        known = {s.thing.id for w in case.room.walls for s in pieces_below(_wall(case, w.name).face)}
        where = f"on wall {wall}" if wall else "at a wall"
        raise InputError(
            f"nothing called `{key}` stands {where} for a work to hang over",
            hint=did_you_mean(key, known) if known else "name a wall instead",
        )
    _, _, one, seen = min(found, key=lambda f: f[:2])
    return one, seen


def _below(over: Seen | None) -> dict[str, Any]:
    if over is None:
        return {}
    return {"below": kind_below(over), "top": over.top, "piece_width": over.right - over.left}


def _middle(wall: ArtWall, over: Seen | None, frames: Sequence[Work], case: RoomCase) -> float:
    """Return where the middle is wanted: over the piece, else in the widest bare stretch at the height of the eye."""
    if over is not None:
        return (over.left + over.right) / 2
    eye, half = float(case.length("art.center_low")), max(w.height for w in frames) / 2
    spans = wall.bare(eye - half, eye + half)
    low, high = max(spans, key=lambda s: (round(s[1] - s[0], 6), -s[0]), default=(0.0, wall.face.width))
    return (low + high) / 2


def _patch(
    case: RoomCase, wall: ArtWall, over: Seen | None, works: dict[str, Art], rects: list[Rect]
) -> Patch:
    patch: Patch = []
    group = _group_id(case, wall, works) if len(works) > 1 else None
    above = over.thing.id if over is not None and over.path.split("/")[-2] == "pieces" else None
    for (key, work), rect in zip(works.items(), rects, strict=True):
        path = f"/{case.room.path}/art/{key}"
        patch.append({"op": "add", "path": f"{path}/at", "value": place_of(case, wall, rect)})
        for name, now, then in (("group", work.group, group), ("above", work.above, above)):
            if then is not None and now != then:
                patch.append({"op": "add", "path": f"{path}/{name}", "value": then})
            elif then is None and now is not None:
                patch.append({"op": "remove", "path": f"{path}/{name}"})
    return patch


def _group_id(case: RoomCase, wall: ArtWall, works: dict[str, Art]) -> str:
    now = {w.group for w in works.values()}
    if len(now) == 1 and None not in now:
        return str(next(iter(now)))
    taken = {w.group for key, w in case.room.model.art.items() if key not in works}
    stem = f"{wall.name.lower()}-group"
    return next(n for n in (stem, *(f"{stem}-{k}" for k in range(2, 1000))) if n not in taken)
