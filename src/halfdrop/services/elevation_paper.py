"""Strips of wallpaper as an elevation shows them: each papered wall's, set out as it will be hung."""

from __future__ import annotations

from halfdrop.audit.case import RoomCase
from halfdrop.base.errors import InputError
from halfdrop.drawing.elevation import PaperStrip
from halfdrop.services.trade_strips import paper_walls
from halfdrop.services.trade_words import Say
from halfdrop.walls import faces_of, paper_room
from halfdrop.walls.focal import focal_of


def strips_of(case: RoomCase) -> dict[str, tuple[PaperStrip, ...]]:
    """Return the strips of each papered wall by the wall's name, in metres from its left end; none where paper cannot be set out."""
    return case.memo("paper strips", lambda: _strips(case))


def _strips(case: RoomCase) -> dict[str, tuple[PaperStrip, ...]]:
    room = case.room
    out: dict[str, tuple[PaperStrip, ...]] = {}
    for key, finish in room.model.finishes.items():
        if finish.paper is None:
            continue
        paper = case.job.papers[finish.paper]
        path = f"{room.path}/finishes/{key}"
        try:
            focal, center = focal_of(room) or (None, None)
            counted = paper_room(
                path, finish, paper, faces_of(room), case.practice, focal=focal, center=center
            )
        except InputError:
            continue
        for wall in paper_walls(room, paper, counted, Say(case.units)):
            found = tuple(
                PaperStrip(path, s.left, s.right, part[0], part[1], s.mark, wall.repeat)
                for s in wall.strips
                for part in s.parts
            )
            out[wall.name] = out.get(wall.name, ()) + found
    return out
