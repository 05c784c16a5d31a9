"""What hangs near heat, lies where people walk, or steps in its pattern: judged as plain geometry would have it."""

from __future__ import annotations

import copy
from math import hypot
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.audit.tables import found, table

FEW = settings(max_examples=60, deadline=None, derandomize=True, database=None)


def _room(rule: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return the first document of a rule's table, and its room, to be changed."""
    document = copy.deepcopy(table(rule)[0].document)
    return document, document["rooms"]["r"]


def _gap(a: tuple[float, float], b: tuple[float, float]) -> float:
    """Return how far two spans lie apart."""
    return max(a[0] - b[1], b[0] - a[1], 0.0)


@FEW
@given(
    along=st.integers(0, 4200),
    bottom=st.integers(0, 2000),
    height=st.integers(50, 800),
    drop=st.integers(1000, 2250),
    left=st.integers(0, 600),
)
def test_cloth_is_told_just_where_it_is_nearer_to_a_heater_than_the_value(
    along: int, bottom: int, height: int, drop: int, left: int
) -> None:
    """On one wall cloth and heater are two boxes; the shortest way from one to the other is what the rule measures."""
    document, room = _room("hazards.cloth-heater")
    heater, pair = room["fittings"]["heater"], room["treatments"]["pair"]
    heater |= {"along": f"{along} mm", "bottom": f"{bottom} mm", "height": f"{height} mm"}
    pair["drop"] = f"{drop} mm"
    pair["hardware"]["left"] = f"{left} mm"
    # Along CD from C: who faces it has C on the right hand.
    cloth_x, heater_x = (2.0 - 0.4, 3.0 + left / 1000), (along / 1000, along / 1000 + 0.8)
    cloth_z, heater_z = (2.25 - drop / 1000, 2.25), (bottom / 1000, (bottom + height) / 1000)
    gap = hypot(_gap(cloth_x, heater_x), _gap(cloth_z, heater_z))
    findings = found(document, "hazards.cloth-heater")
    if abs(gap - 0.3048) > 3e-4:
        assert bool(findings) == (gap < 0.3048)
    assert all(f.measured == pytest.approx(gap, abs=3e-4) for f in findings)


@FEW
@given(lies=st.integers(-60, 300), beside=st.integers(0, 900))
def test_cloth_drags_just_where_it_lies_near_the_door(lies: int, beside: int) -> None:
    """More than the value on the floor and nearer to the doorway than the value: told, else not."""
    document, room = _room("drapery.drags")
    room["treatments"]["pair"]["drop"] = f"{2250 + lies} mm"
    room["openings"]["door"] |= {"along": f"{3300 + beside} mm", "width": "70 cm"}
    told = bool(found(document, "drapery.drags"))
    if abs(lies - 12.7) > 0.2 and abs(beside - 304.8) > 0.2:
        assert told == (lies > 12.7 and beside < 304.8)


@FEW
@given(
    first=st.integers(0, 2200),
    step=st.integers(-40, 40),
    repeats=st.integers(0, 3),
    half_drop=st.booleans(),
)
def test_whole_repeats_do_not_count_and_the_step_is_what_is_left(
    first: int, step: int, repeats: int, half_drop: bool
) -> None:
    """Motifs any number of repeats apart are in step; by what they differ besides, they are out of it."""
    document, room = _room("drapery.unmatched")
    del room["treatments"]["one"]["off_match"]
    period = 320 if half_drop else 640
    for key, at in (("one", first), ("two", first + step + repeats * period)):
        room["treatments"][key] |= {"fabric": "drop" if half_drop else "print", "motif": f"{max(at, 0)} mm"}
    if first + step + repeats * period < 0:
        return
    findings = found(document, "drapery.unmatched")
    if abs(step) <= 3:
        assert not findings
    elif abs(step) > 3.2:
        assert [f.measured for f in findings] == [pytest.approx(abs(step) / 1000, abs=1e-6)]
