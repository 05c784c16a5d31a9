"""Which general cautions a job needs, by what it holds."""

from __future__ import annotations

from collections.abc import Callable

from halfdrop.job.model import Job, Piece
from halfdrop.practice import Practice, load_practice
from halfdrop.practice.cautions import Caution, load_cautions

#: Above this height fixing is done from a ladder [m]; common practice, no source.
REACH = 1.8
_STORAGE = {"dresser", "chest", "wardrobe", "bookcase", "cabinet", "media unit", "sideboard"}
#: Where people sleep or sit with their heads under what hangs.
_UNDER = {"bed", "crib", "sofa", "loveseat", "sectional", "chaise"}
_PLUGGED = {"floor lamp", "table lamp", "screen"}


def _tall(piece: Piece, practice: Practice) -> bool:
    return piece.type == "screen" or (
        piece.type in _STORAGE and float(piece.height) >= practice.length("hazards.anchor_height") - 1e-9
    )


def holds(job: Job, practice: Practice) -> frozenset[str]:
    """Return what a job holds that asks for caution, in the words of `cautions.toml`'s `when`."""
    rooms = job.rooms.values()
    pieces = [p for room in rooms for p in room.pieces.values()]
    fixed = [p for p in pieces if p.anchored or (p.type == "screen" and p.on is None)]
    kinds = {f.kind for room in rooms for f in room.fittings.values()}
    covered = [f for room in rooms for f in room.finishes.values()]
    hung = [t for room in rooms for t in room.treatments.values()]
    put_up = any(not t.keep and (t.arrives or t.drop is None) for t in hung)
    art = [a for room in rooms for a in room.art.values() if a.at is not None]
    tests: dict[str, Callable[[], bool]] = {
        "pieces": lambda: bool(pieces),
        "tall storage": lambda: any(_tall(p, practice) for p in pieces),
        "fixing": lambda: bool(fixed or art) or put_up,
        "fixing or finishes": lambda: bool(fixed or covered or art) or put_up,
        "high work": lambda: (
            put_up
            or any(max(float(p.height), float(p.center_height or 0.0)) > REACH for p in fixed)
            or any(float(a.at.bottom) + float(a.height) > REACH for a in art if a.at is not None)
            or any(f.on != "trim" and float(f.top or REACH + 1) > REACH for f in covered)
        ),
        "paper": lambda: any(f.paper is not None for f in covered),
        "paint": lambda: any(f.paint is not None for f in covered),
        "window coverings": lambda: bool(hung),
        "wet rooms": lambda: any(room.use.get("bath") or room.use.get("kitchen") for room in rooms),
        "plugged in": lambda: any(p.type in _PLUGGED for p in pieces),
        "heaters": lambda: bool(kinds & {"radiator", "heater", "hearth"}),
        "rugs": lambda: any(room.rugs for room in rooms),
        "bedrooms": lambda: any(room.use.get("bedroom") for room in rooms),
        "children": lambda: any(person.age == "child" for person in job.people.values()),
        "glass": lambda: any(p.type == "mirror" for p in pieces) or any(a.glass for a in art),
        "art": lambda: bool(art),
        "art over people": lambda: any(
            any(a.at is not None for a in room.art.values())
            and any(p.type in _UNDER for p in room.pieces.values())
            for room in rooms
        ),
    }
    return frozenset(what for what, there in tests.items() if there())


def cautions_for(job: Job, practice: Practice | None = None) -> tuple[Caution, ...]:
    """Return the general cautions that a job needs, in the book's order.

    Parameters
    ----------
    job : Job
        As proposed: what a scheme anchors or buys counts.
    practice : Practice, optional
        What the job works to; the job's own set and values where not given.
    """
    if practice is None:
        practice = load_practice(job.practice.set, house=job.practice.values).told_in(job.job.units)
    there = holds(job, practice)
    return tuple(c for c in load_cautions() if c.when in there)
