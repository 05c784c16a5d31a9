"""A crib stands clear of windows, of what hangs there, and of cords.

Why: A child who stands in a crib pulls what hangs within reach over its head, winds a cord round its neck, or climbs
    from the rail to the sill.
Source: practice value hazards.crib_to_cord (common practice, no source).
Fails: the shortest distance on the floor from a crib to a window, or to the cloth or shade at any opening, shut or
    drawn back, is less than the value.
Passes exactly: at the value.
Silent: where there is no crib; for pictures and shelves over it.
Caution: keep the crib's maker's instructions; a safety agency's advice goes before ours.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from shapely import union_all
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.hung import footprint, hung_in
from halfdrop.audit.moves import clearing_moves
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least
from halfdrop.geometry.plane import closest
from halfdrop.room import HungTreatment, WallOpening

GRADE = Grade.HAZARD
PRACTICE = ("hazards.crib_to_cord",)
CAUTION = "Keep to the crib's own instructions; a safety agency's advice goes before ours."


class _Near(NamedTuple):
    thing: HungTreatment | WallOpening
    shape: BaseGeometry


def _reached(case: RoomCase) -> list[_Near]:
    """Return the windows and what hangs, each with its shape on the floor."""
    windows = [o for o in case.room.openings.values() if o.model.kind == "window"]
    found = [_Near(w, LineString((w.start, w.end))) for w in windows]
    for key, hung in hung_in(case).items():
        spans = [span for panel in hung.panels for span in (panel.shut, panel.drawn)]
        found.append(_Near(case.room.treatments[key], union_all([footprint(hung, span) for span in spans])))
    return found


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each crib too near to a window or to what hangs there: the nearest of them."""
    wanted = case.length("hazards.crib_to_cord")
    for crib in (p for p in case.room.floor_pieces.values() if p.type == "crib"):
        near = sorted(
            _reached(case), key=lambda n: (round(crib.footprint.distance(n.shape), 6), n.thing.path)
        )
        if not near:
            continue
        p, q, gap = closest(crib.footprint, near[0].shape)
        if at_least(gap, wanted):
            continue
        thing = near[0].thing
        window = thing if isinstance(thing, WallOpening) else thing.openings[0]
        yield case.finding(
            rule_id(__name__), GRADE, (crib, thing),
            f"The {crib.name} stands {case.say(gap)} from the {thing.name}; {case.say(wanted, 'up')} is wanted, so that a "
            "child in it reaches neither cloth nor cord nor sill.",
            measured=gap, wanted=wanted, sigma=case.room.sigma(crib, window, p, q), practice="hazards.crib_to_cord",
            anchor=p, marks=((p, q),), caution=CAUTION, name=crib.id,
        )  # fmt: skip


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the crib away from every window and all that hangs."""
    crib = case.room.pieces[finding.subjects[0].split("/")[-1]]
    shape = union_all([near.shape for near in _reached(case)])
    for by, patch in clearing_moves(case, crib, shape, case.length("hazards.crib_to_cord")):
        yield Proposal("move", f"Move the {crib.name} {case.say(by, 'up')} away from the window.", patch)
