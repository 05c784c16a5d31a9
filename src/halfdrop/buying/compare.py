"""Two states of a job, thing by thing: what is bought, moved, let go, kept and worked on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from halfdrop.base.formats import format_length
from halfdrop.base.tolerance import SAME
from halfdrop.base.working import Working
from halfdrop.buying.art import art_bought, art_moved
from halfdrop.buying.hangings import compared
from halfdrop.buying.lines import Bought, Leaves, Moved, Stays, Work
from halfdrop.buying.prices import from_stock, pad_line, price_of
from halfdrop.buying.words import place, thing_name, thing_size, turned
from halfdrop.job.model import Job, Piece, Room, Rug, SchemeStep
from halfdrop.job.naming import fixed_name
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom

Thing = Piece | Rug
Places = Mapping[str, ResolvedRoom]

ANCHOR_CAUTION = (
    "Fix into stud or masonry with the anchors that wall takes; find out what the wall is first, "
    "and what runs in it. Local codes and a licensed person go before this list."
)


@dataclass
class Comparison:
    """One comparison: `run` fills its lists, in the order of the rooms."""

    found: Job
    proposed: Job
    practice: Practice
    steps: tuple[SchemeStep, ...]
    found_rooms: Places
    proposed_rooms: Places
    only: str | None = None
    bought: list[Bought] = field(default_factory=list)
    coming: list[Bought] = field(default_factory=list)
    moved: list[Moved] = field(default_factory=list)
    leaves: list[Leaves] = field(default_factory=list)
    stays: list[Stays] = field(default_factory=list)
    works: list[Work] = field(default_factory=list)
    workings: list[Working] = field(default_factory=list)

    def run(self) -> None:
        """Compare room by room."""
        carried = self._carried()
        for i, room in self.proposed.rooms.items():
            if self.only not in (None, i):
                continue
            before = self.found.rooms.get(i)
            old = _things(before) if before is not None else {}
            new = _things(room)
            for key in sorted(new.keys() | old.keys(), key=lambda k: _order(k, old, new)):
                path = f"rooms/{i}/{key}"
                if key not in new:
                    if path not in carried:
                        self._leaves(i, path, key, old[key])
                elif key not in old:
                    if path not in carried.values():
                        self._buy(i, path, key, new[key])
                else:
                    self._changed(i, path, key, old[key], new[key])
            if before is not None:
                self._works(i, before, room)
            self._art(i, before, room)
        self._hangings()
        for source, target in carried.items():
            if self.only in (None, source.split("/")[1], target.split("/")[1]):
                self._to_other_room(source, target)

    def _hangings(self) -> None:
        """What treatments buy; what the room as found already has arriving, unchanged, is coming."""
        rooms = {i: r for i, r in self.proposed_rooms.items() if self.only in (None, i)}
        bought, coming, works = compared(self.found, self.proposed, rooms, self.practice, self._why)
        self.bought += bought
        self.coming += coming
        self.works += works

    def _carried(self) -> dict[str, str]:
        """Return the things that leave one room and stand in another: old path to new."""
        gone: dict[str, Thing] = {}
        come: dict[str, Thing] = {}
        for i in self.proposed.rooms.keys() | self.found.rooms.keys():
            old = _things(self.found.rooms[i]) if i in self.found.rooms else {}
            new = _things(self.proposed.rooms[i]) if i in self.proposed.rooms else {}
            gone |= {f"rooms/{i}/{k}": old[k] for k in old.keys() - new.keys()}
            come |= {f"rooms/{i}/{k}": new[k] for k in new.keys() - old.keys() if not new[k].arrives}
        pairs: dict[str, str] = {}
        for source in sorted(gone):
            fits = [t for t in sorted(come) if t not in pairs.values() and _same_thing(gone[source], come[t])]
            named = [t for t in fits if t.split("/")[-1] == source.split("/")[-1]]
            if named or len(fits) == 1:
                pairs[source] = (named or fits)[0]
        return pairs

    def _why(self, path: str, of: Literal["make", "place", "any"] = "any") -> tuple[str, tuple[str, ...]]:
        """Return the titles of the steps that touch a thing, and the findings they clear.

        `make` passes over steps that only move or turn it, `place` those that only do something else to it.
        """
        pointer = "/" + path
        hits = [
            step
            for step in self.steps
            if any(_touches(way, pointer, of) for op in step.patch for way in (op.path, op.from_ or op.path))
        ]
        titles = tuple(dict.fromkeys(step.title for step in hits))
        return "; ".join(titles), tuple(dict.fromkeys(step.finding for step in hits if step.finding))

    def _buy(
        self,
        room: str,
        path: str,
        key: str,
        thing: Thing,
        before: Thing | None = None,
        *,
        coming: bool = False,
    ) -> None:
        units = self.proposed.job.units
        name = thing_name(key.partition("/")[2], thing)
        working = Working(f"{name}, {self._room(room)}: quantity and price")
        priced = price_of(self.proposed, thing, before, working)
        self._keep(working)
        why, findings = self._why(path, "make")
        rug = isinstance(thing, Rug)
        line = Bought(
            room, (path,), "rug" if rug else "piece", name, thing_size(thing, units), priced.quantity,
            priced.unit, priced.price, priced.source, why, findings,
            self._rug_caution(thing) if isinstance(thing, Rug) else "",
        )  # fmt: skip
        (self.coming if coming else self.bought).append(line)
        if isinstance(thing, Rug) and thing.pad is not None:
            self._pad_with(room, path, thing, before if isinstance(before, Rug) else None, coming=coming)

    def _pad_with(self, room: str, path: str, rug: Rug, before: Rug | None, *, coming: bool = False) -> None:
        """Buy the pad of a rug that is bought; the pad of a larger rug that leaves is cut down instead."""
        old = before.pad if before is not None else None
        if before is not None and old is not None and rug.pad is not None and rug.shape == before.shape:
            inside = sorted((rug.width, rug.length)), sorted((before.width, before.length))
            same = abs(old.thickness - rug.pad.thickness) <= SAME
            if same and all(a <= b + SAME for a, b in zip(*inside, strict=True)):
                name = thing_name(path.rsplit("/", 1)[1], rug)
                self.works.append(
                    Work(room, f"{path}/pad", f"Cut the pad at hand down to {name}.", self._why(path)[0])
                )
                return
        self._buy_pad(room, path, rug, before, coming=coming)

    def _buy_pad(self, room: str, path: str, rug: Rug, before: Rug | None, *, coming: bool = False) -> None:
        assert rug.pad is not None
        name = thing_name(path.rsplit("/", 1)[1], rug)
        working = Working(f"Pad under {name}, {self._room(room)}")
        pad = pad_line(self.proposed, rug, before, self.practice, working)
        self.workings.append(working)
        why, findings = self._why(f"{path}/pad")
        thick = format_length(rug.pad.thickness, self.proposed.job.units)
        line = Bought(
            room, (f"{path}/pad",), "pad", f"pad, {thick}, under {name}", pad.size, pad.priced.quantity,
            pad.priced.unit, pad.priced.price, pad.priced.source, why, findings, pad.cut,
        )  # fmt: skip
        (self.coming if coming else self.bought).append(line)

    def _leaves(self, room: str, path: str, key: str, thing: Thing, replaced: str = "") -> None:
        name = thing_name(key.partition("/")[2], thing)
        size = thing_size(thing, self.proposed.job.units)
        self.leaves.append(Leaves(room, path, name, size, replaced, thing.keep, self._why(path, "make")[0]))

    def _changed(self, room: str, path: str, key: str, old: Thing, new: Thing) -> None:
        name = thing_name(key.partition("/")[2], new)
        if not _same_make(old, new):
            self._leaves(room, path, key, old, replaced=f"{name}, {thing_size(new, self.proposed.job.units)}")
            self._buy(room, path, key, new, old)
            return
        if new.arrives and old.arrives:
            self._buy(room, path, key, new, coming=True)
        moved = self._moved(room, path, name, old, new)
        if moved is not None:
            self.moved.append(moved)
        elif not new.arrives:
            size = thing_size(new, self.proposed.job.units)
            self.stays.append(Stays(room, path, name, size, new.keep))
        if isinstance(old, Rug) and isinstance(new, Rug):
            self._pad_changed(room, path, name, old, new)
        if isinstance(old, Piece) and isinstance(new, Piece) and new.anchored and not old.anchored:
            self._anchor(room, path, name)
        if isinstance(new, Piece) and _recolored(old, new) and not new.arrives:
            worn = " and ".join(self.proposed.swatches[key].name for key in new.colors or {})
            text = f"The {name} is covered anew in {worn}."
            self.works.append(Work(room, f"{path}/colors", text, self._why(f"{path}/colors")[0]))

    def _pad_changed(self, room: str, path: str, name: str, old: Rug, new: Rug) -> None:
        if new.pad is not None and (old.pad is None or abs(old.pad.thickness - new.pad.thickness) > SAME):
            self._buy_pad(room, path, new, old)
        elif old.pad is not None and new.pad is None:
            self.works.append(
                Work(room, f"{path}/pad", f"Take up the pad under {name}.", self._why(f"{path}/pad")[0])
            )

    def _anchor(self, room: str, path: str, name: str) -> None:
        priced = from_stock(self.proposed, "anchor", lambda s: True)
        why, findings = self._why(f"{path}/anchored")
        self.bought.append(
            Bought(
                room, (path,), "anchor", f"tip-over anchors for {name}", "set of two straps", 1, "set",
                priced.price, priced.source, why, findings, ANCHOR_CAUTION,
            )
        )  # fmt: skip

    def _moved(self, room: str, path: str, name: str, old: Thing, new: Thing) -> Moved | None:
        job, units = self.proposed, self.proposed.job.units
        corners = job.rooms[room].survey.corners
        before, after = place(old.at, corners, units), place(new.at, corners, units)
        turn = turned(float(old.turn or 0.0), float(new.turn or 0.0))
        distance = self._distance(path, old, new)
        apart = distance > SAME if distance is not None else before != after
        if not apart and not turn:
            return None
        if before == after:
            before = "where it stands"
        words = after if not turn else f"{after}, {turn}" if apart else turn
        return Moved(room, path, name, before, words, distance, None, self._why(path, "place")[0])

    def _distance(self, path: str, old: Thing, new: Thing) -> float | None:
        _, room, kind, key = path.split("/")
        if room in self.found_rooms and room in self.proposed_rooms:
            a = getattr(self.found_rooms[room], kind)[key].center
            b = getattr(self.proposed_rooms[room], kind)[key].center
            return float(np.hypot(*(b - a)))
        return None

    def _to_other_room(self, source: str, target: str) -> None:
        (_, a, *old_key), (_, b, *new_key) = source.split("/"), target.split("/")
        old = _things(self.found.rooms[a])["/".join(old_key)]
        new = _things(self.proposed.rooms[b])["/".join(new_key)]
        units = self.proposed.job.units
        before = place(old.at, self.found.rooms[a].survey.corners, units)
        after = place(new.at, self.proposed.rooms[b].survey.corners, units)
        why = self._why(target)[0] or self._why(source)[0]
        self.moved.append(
            Moved(a, source, thing_name(old_key[-1], old), before, f"{self._room(b)}, {after}", None, b, why)
        )

    def _works(self, room: str, old: Room, new: Room) -> None:
        """What changes at openings and fittings: said in the step's own words, for a trade to price."""
        for kind in ("openings", "fittings"):
            before, after = getattr(old, kind), getattr(new, kind)
            for key in sorted(before.keys() | after.keys()):
                if before.get(key) == after.get(key):
                    continue
                path = f"rooms/{room}/{kind}/{key}"
                model = after.get(key) or before[key]
                name = fixed_name(key, model)
                done = (
                    "is changed" if key in before and key in after else "is new" if key in after else "goes"
                )
                self.works.append(Work(room, path, f"The {name} {done}.", self._why(path)[0]))

    def _art(self, room: str, old: Room | None, new: Room) -> None:
        """What hanging buys and moves; a work that the room as found has arriving already is coming."""
        found, units = old.art if old is not None else {}, self.proposed.job.units
        for line in art_bought(room, found, new.art, units):
            key = line.paths[0].rsplit("/", 1)[-1]
            why, clears = self._why(line.paths[0], "make")
            coming = line.kind == "work" and key in found and found[key].arrives
            (self.coming if coming else self.bought).append(replace(line, why=why, findings=clears))
        for moved in art_moved(room, found, new.art, units):
            self.moved.append(replace(moved, why=self._why(moved.path, "place")[0]))

    def _rug_caution(self, rug: Rug) -> str:
        short = self.practice["rugs.made_size_short"].text
        return f"A made size is a name: machine-made rugs run some {short} short of it. Order by actual size."

    def _room(self, room: str) -> str:
        return self.proposed.rooms[room].name

    def _keep(self, working: Working) -> None:
        if working.steps:
            self.workings.append(working)


def _touches(way: str, pointer: str, of: Literal["make", "place", "any"]) -> bool:
    """Return whether a path concerns a thing: the thing, what holds it, or a part of the kind asked for."""
    if way == pointer or pointer.startswith(way + "/"):
        return True
    if not way.startswith(pointer + "/"):
        return False
    moves = way[len(pointer) + 1 :].split("/")[0] in ("at", "turn")
    return of == "any" or moves == (of == "place")


def _things(room: Room) -> dict[str, Thing]:
    return {
        **{f"pieces/{i}": piece for i, piece in room.pieces.items()},
        **{f"rugs/{i}": rug for i, rug in room.rugs.items()},
    }


def _order(key: str, old: Mapping[str, Thing], new: Mapping[str, Thing]) -> tuple[int, str]:
    return (0 if key.startswith("rugs/") else 1, key)


_PLACE = {
    "at",
    "turn",
    "on",
    "group",
    "over",
    "pad",
    "anchored",
    "note",
    "arrives",
    "price",
    "keep",
    "name",
    "colors",
}


def _same_make(a: Thing, b: Thing) -> bool:
    """Return whether two models are the same thing, wherever it stands and whatever is said of it."""
    if type(a) is not type(b):
        return False
    if _recolored(a, b) and (isinstance(a, Rug) or (b.arrives and not a.arrives)):
        return False
    own = {"opens", "seats", "weight", "packed", "pillows", "pattern"}
    skip = _PLACE if isinstance(a, Rug) else _PLACE | own
    return all(getattr(a, k) == getattr(b, k) for k in type(a).model_fields if k not in skip)


def _recolored(a: Thing, b: Thing) -> bool:
    """Return whether a thing wears other colors than were recorded of it; recording them first is no change."""
    return a.colors is not None and b.colors is not None and a.colors != b.colors


def _same_thing(a: Thing, b: Thing) -> bool:
    return _same_make(a, b) and a.name == b.name
