"""How far what can burn keeps from what is hot: shared by the rules of pieces and of cloth."""

from __future__ import annotations

from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.room import FixedFitting

#: The practice value of each thing that is hot.
KEYS = {
    "heater": "hazards.heater_clear",
    "hearth": "hazards.hearth_clear",
    "radiator": "hazards.radiator_clear",
}
CAUTION = "Follow the heater's label and the local code; gas, electric and wood heaters are a licensed person's work."


def heaters(case: RoomCase) -> list[FixedFitting]:
    """Return what is hot in a room."""
    return [f for f in case.room.fittings.values() if f.model.kind in KEYS]


def _fireplace_front(case: RoomCase, heater: FixedFitting, shape: BaseGeometry) -> BaseGeometry | None:
    """Return the fire opening, in the wall's line, where a thing stands before it; None where beside it."""
    if heater.model.kind != "hearth" or heater.wall is None or heater.model.clearance is not None:
        return None
    w, back = heater.width / 2, -max(heater.depth, 1e-3) / 2
    if not shape.intersects(heater.box(-w, w, back, back + case.length("hazards.hearth_clear"))):
        return None
    return LineString((heater.at(-w, back), heater.at(w, back)))


def limit(
    case: RoomCase, heater: FixedFitting, shape: BaseGeometry
) -> tuple[BaseGeometry, float, str | None]:
    """Return what a shape on the plan keeps clear of, by how much [m], and the practice key (None: its own label)."""
    if heater.model.clearance is not None:
        return heater.footprint, float(heater.model.clearance), None
    front = _fireplace_front(case, heater, shape)
    if front is not None:
        return front, case.length("hazards.hearth_clear"), "hazards.hearth_clear"
    beside = heater.model.kind == "hearth" and heater.wall is not None
    key = "hazards.heater_clear" if beside else KEYS[heater.model.kind]
    return heater.footprint, case.length(key), key
