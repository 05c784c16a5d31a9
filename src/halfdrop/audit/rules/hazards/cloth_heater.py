"""No curtain or shade hangs close to a heater.

Why: Cloth that touches an electric heater, or hangs over it, scorches and catches fire, and draws itself into a
    fire by the draft; before a radiator it sends the heat up behind itself and out at the glass.
Source: practice values hazards.heater_clear (electric heater; beside an open fire), hazards.hearth_clear
    (before an open fire or stove) and hazards.radiator_clear (hot water); the maker's label goes before all of
    them.
Fails: drawn shut or lowered, the shortest distance from the cloth to the heater, in plan and in height, is
    less than the value, or less than the fitting's own `clearance` where its label gives one: a hazard; a
    fault for hot water. Cloth reaches from the wall to its rod. A heater whose height was not taped counts
    from floor to ceiling.
Passes exactly: at the value.
Silent: over a radiator, for cloth that ends at its top or above it, which is how short curtains are hung there;
    where there is no heater; for how the cloth is treated against fire.
Caution: follow the maker's label and the local code; have gas and electric heaters, flues and chimneys
    checked by a licensed person.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot, inf

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Patch, Proposal
from halfdrop.audit.hung import footprint, hung_in
from halfdrop.audit.moves import text
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.hazards.heat import CAUTION, heaters, limit
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.drapery.as_hung import AsHung
from halfdrop.geometry.plane import Array, closest
from halfdrop.room import FixedFitting

GRADE = Grade.HAZARD
PRACTICE = ("hazards.heater_clear", "hazards.radiator_clear", "hazards.hearth_clear")

#: A shorter rod is tried in so many steps.
_STEPS = 24
_WHY = {"radiator": "its heat comes into the room and not up behind the cloth"}


@dataclass(frozen=True)
class _Near:
    """How near a treatment comes to a heater: across the floor, up, what is wanted [m]; where, on the plan."""

    across: float
    up: float
    wanted: float
    key: str | None
    p: Array
    q: Array

    @property
    def gap(self) -> float:
        """The shortest distance [m]."""
        return hypot(self.across, self.up)


def _heights(heater: FixedFitting) -> tuple[float, float]:
    low = float(heater.model.bottom or 0.0)
    return (low, inf) if heater.model.height is None else (low, low + float(heater.model.height))


def _nearest(case: RoomCase, hung: AsHung, heater: FixedFitting) -> _Near | None:
    """Return where a treatment's cloth comes nearest to a heater; None over a radiator."""
    low, high = _heights(heater)
    found = []
    for panel in hung.panels:
        hem = min(panel.hem)
        if heater.model.kind == "radiator" and at_least(hem, high):
            continue
        shape = footprint(hung, panel.shut)
        source, wanted, key = limit(case, heater, shape)
        p, q, across = closest(shape, source)
        found.append(_Near(across, max(hem - high, low - hung.top, 0.0), wanted, key, p, q))
    return min(found, key=lambda n: n.gap - n.wanted, default=None)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each treatment too near to each heater."""
    for heater in heaters(case):
        for key, hung in hung_in(case).items():
            near = _nearest(case, hung, heater)
            if near is None or at_least(near.gap, near.wanted):
                continue
            hanging = case.room.treatments[key]
            radiator = heater.model.kind == "radiator"
            way = "lowered" if hung.kind != "panels" else "drawn shut"
            there = f"The {heater.name} stands behind the {hanging.name}, {way}"
            if near.gap > 1e-3:
                there = (
                    f"Between the {hanging.name}, {way}, and the {heater.name} there is {case.say(near.gap)}"
                )
            yield case.finding(
                rule_id(__name__), Grade.FAULT if radiator else GRADE, (hanging, heater),
                f"{there}; {case.say(near.wanted, 'up')} is wanted, "
                f"so that {_WHY.get(heater.model.kind, 'nothing scorches or catches fire')}.",
                measured=near.gap, wanted=near.wanted, practice=near.key, anchor=near.p, marks=((near.p, near.q),),
                sigma=case.room.sigma(hanging.openings[0], heater, near.p, near.q), caution=CAUTION,
            )  # fmt: skip


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Shorten the rod on that side, take the cloth up over the heater, hang a shade inside in its place; take a shade down."""
    key, heater_id = (path.split("/")[-1] for path in finding.subjects)
    hung, heater = hung_in(case)[key], case.room.fittings[heater_id]
    hanging, near = case.room.treatments[key], _nearest(case, hung, heater)
    if near is None:
        return
    yield from _shorter_rod(case, hung, heater, near.wanted)
    yield from _taken_up(case, hung, heater, near)
    path = f"/{hanging.path}"
    if not hanging.model.keep:
        shade = {
            "kind": "roman",
            "openings": list(hanging.model.openings),
            "mount": "inside",
            "arrives": True,
        }
        if hanging.model.fabric is not None:
            shade["fabric"] = hanging.model.fabric
        patch: Patch = [{"op": "replace", "path": path, "value": shade}]
        if hung.kind == "panels":
            title = f"Hang a roman shade inside the opening in place of the {hanging.name}."
            yield Proposal("shade", title, patch, None, (f"roman shade for the {hanging.openings[0].name}",))
        elif all(t.model.behind != key for t in case.room.treatments.values()):
            yield Proposal("remove", f"Take the {hanging.name} down.", [{"op": "remove", "path": path}])


def _shorter_rod(case: RoomCase, hung: AsHung, heater: FixedFitting, wanted: float) -> Iterator[Proposal]:
    """Yield a rod that ends short of the heater, on the side where the heater is."""
    if hung.kind != "panels":
        return
    hardware = f"/{hung.path}/hardware"
    for side, past in (("left", -hung.left), ("right", hung.right - hung.run.width)):
        for out in (past * k / _STEPS for k in range(_STEPS - 1, -1, -1)):
            span = (-out, hung.right) if side == "left" else (hung.left, hung.run.width + out)
            shape = footprint(hung, span)
            if not at_least(float(shape.distance(limit(case, heater, shape)[0])), wanted):
                continue
            value = text(case, out, -1)
            patch: Patch = [{"op": "add", "path": f"{hardware}/{side}", "value": value}]
            if "hardware" not in hung.treatment.model_fields_set:
                patch = [{"op": "add", "path": hardware, "value": {side: value}}]
            title = f"Let the rod of the {hung.name} end {value} past the opening on the {side}, clear of the {heater.name}."
            yield Proposal("rod", title, patch)
            break


def _taken_up(case: RoomCase, hung: AsHung, heater: FixedFitting, near: _Near) -> Iterator[Proposal]:
    """Yield cloth that ends at the sill, where that is high enough over the heater."""
    up = 0.0 if heater.model.kind == "radiator" else max(near.wanted**2 - near.across**2, 0.0) ** 0.5
    if not at_most(_heights(heater)[1] + up, hung.run.sill):
        return
    patch: Patch = [{"op": "remove", "path": f"/{hung.path}/drop"}] if "drop" in hung.given else []
    if hung.kind == "panels":
        patch.append({"op": "add", "path": f"/{hung.path}/length", "value": "sill"})
    yield Proposal("shorten", f"Take the {hung.name} up to the sill, over the {heater.name}.", patch)
