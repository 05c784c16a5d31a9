"""Seating and scale, beyond their tables: a room laid out well, published screens, generated rooms."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding, Grade
from halfdrop.audit.prove import Budget, remedies_for
from halfdrop.job.patch import apply

FAMILIES = ("seating.", "scale.")

#: A sofa 38 in off its wall, an armchair at each end of the coffee table, a hearth before them, a rug under them all.
WELL_LAID: dict[str, Any] = {
    "name": "Living room",
    "use": {"living": True},
    "survey": {
        "corners": "A B C D",
        "walls": {"AB": "19 ft", "BC": "15 ft", "CD": "19 ft", "DA": "15 ft"},
        "ties": {"AC": "290.489 in", "BD": "290.489 in"},
    },
    "openings": {
        "door": {
            "kind": "door", "wall": "DA", "along": "10 in", "width": "34 in", "height": "80 in", "hinge": "D", "opens": "in",
        }
    },
    "fittings": {
        "hearth": {"kind": "hearth", "wall": "CD", "along": "90 in", "width": "48 in", "depth": "0 in", "height": "48 in"}
    },
    "pieces": {
        "sofa": {
            "type": "sofa", "width": "84 in", "depth": "38 in", "height": "32 in", "seat_height": "17 in",
            "at": {"wall": "AB", "along": "72 in", "off": "38 in"},
        },
        "table": {
            "type": "coffee table", "width": "48 in", "depth": "24 in", "height": "16 in", "at": {"x": "114 in", "y": "104 in"},
        },
        "west": {
            "type": "armchair", "width": "33 in", "depth": "34 in", "height": "33 in", "at": {"x": "57 in", "y": "117 in"},
            "turn": "270°",
        },
        "east": {
            "type": "armchair", "width": "33 in", "depth": "34 in", "height": "33 in", "at": {"x": "171 in", "y": "117 in"},
            "turn": "90°",
        },
        "books": {
            "type": "bookcase", "width": "36 in", "depth": "12 in", "height": "72 in", "anchored": True,
            "at": {"wall": "CD", "along": "20 in", "off": "0 in"},
        },
    },
    "rugs": {
        "rug": {
            "width": "12 ft", "length": "9 ft", "at": {"x": "114 in", "y": "88 in"},
            "pad": {"thickness": "1/4 in"},
        }
    },
    "wishes": {"people": 5, "uses": {"talk": True}, "focal": "fittings/hearth"},
}  # fmt: skip


def _job(room: dict[str, Any], **more: Any) -> dict[str, Any]:
    base = {"halfdrop": 1, "job": {"name": "Seating", "units": "imperial"}, "rooms": {"r": room}}
    way_in = [{"kind": "door", "name": "front door", "width": "42 in", "height": "84 in"}]
    return {**base, "delivery": way_in, **more}


def _found(document: dict[str, Any]) -> list[Finding]:
    return [f for f in Auditor.of(document).findings("r") if f.rule.startswith(FAMILIES)]


def _changed(*ops: dict[str, Any]) -> dict[str, Any]:
    """Return the well-laid room's job with some of it changed."""
    return apply(_job(copy.deepcopy(WELL_LAID)), [{**op, "path": f"/rooms/r{op['path']}"} for op in ops])


def test_a_well_laid_room_is_clean() -> None:
    """A living room laid out by the trade's habits gets nothing to say from either family, not even taste."""
    assert [f.message for f in _found(_job(WELL_LAID))] == []


def test_a_well_laid_room_is_clean_for_every_family() -> None:
    """The rules do not contradict one another: in that room no family finds a hazard or a fault."""
    grave = [f for f in Auditor.of(_job(WELL_LAID)).findings("r") if f.grade is not Grade.TASTE]
    assert [f.message for f in grave] == []


@pytest.mark.parametrize(
    ("op", "rule"),
    [
        ({"op": "replace", "path": "/pieces/sofa/at/off", "value": "0 in"}, "seating.off-wall"),
        ({"op": "replace", "path": "/pieces/east/at/x", "value": "202 in"}, "seating.too-far"),
        ({"op": "replace", "path": "/pieces/table/at/y", "value": "98 in"}, "seating.coffee-table-reach"),
        ({"op": "remove", "path": "/pieces/table"}, "seating.no-surface"),
        ({"op": "replace", "path": "/pieces/table/width", "value": "70 in"}, "seating.coffee-table-size"),
        ({"op": "replace", "path": "/wishes/people", "value": 6}, "seating.enough-seats"),
        ({"op": "replace", "path": "/pieces/sofa/turn", "value": "180°"}, "seating.focal-sight"),
        ({"op": "replace", "path": "/pieces/sofa/width", "value": "190 in"}, "scale.sofa-to-room"),
    ],
)
def test_one_mistake_is_found(op: dict[str, Any], rule: str) -> None:
    """Each single mistake in that room is found by the rule that is for it."""
    op = {**op, "op": "add"} if op["path"].endswith("/turn") else op
    assert rule in {f.rule for f in _found(_changed(op))}


def test_the_region_changes_the_talk() -> None:
    """The corners that are talk in North America (3′ 8″) are too wide by the Mediterranean's own values."""
    there = _job(WELL_LAID, practice={"values": {"seating.region": "Mediterranean"}})
    assert {f.id for f in _found(there) if f.rule == "seating.too-far"} == {
        "r/seating.too-far/east",
        "r/seating.too-far/west",
    }


def test_a_finding_keeps_its_name_while_its_group_changes() -> None:
    """Two chairs too far are two findings: mending one leaves the other's name as it was."""
    both = _changed(
        {"op": "replace", "path": "/pieces/east/at/x", "value": "202 in"},
        {"op": "replace", "path": "/pieces/west/at/x", "value": "20 in"},
    )
    one = apply(both, [{"op": "replace", "path": "/rooms/r/pieces/east/at/x", "value": "171 in"}])
    far = [{f.id for f in _found(doc) if f.rule == "seating.too-far"} for doc in (both, one)]
    assert far == [{"r/seating.too-far/east", "r/seating.too-far/west"}, {"r/seating.too-far/west"}]


def test_bought_pieces_come_from_the_stock_with_their_price() -> None:
    """A side table that a remedy adds is the stock's own, at the stock's price; without stock it is named unpriced."""
    lonely = _changed(
        {"op": "remove", "path": "/pieces/table"},
        {"op": "remove", "path": "/pieces/east"},
        {"op": "remove", "path": "/pieces/sofa"},
    )
    stock = {
        "oak": {
            "kind": "piece", "piece": "side table", "name": "Oak side table", "width": "18 in", "length": "18 in",
            "height": "24 in", "price": "$180",
        }
    }  # fmt: skip
    for document, cost, unpriced in (
        ({**lonely, "stock": stock}, "$180", ()),
        (lonely, None, ("side table, 1′ 8″ × 1′ 8″",)),
    ):
        auditor = Auditor.of(document)
        every = auditor.findings("r")
        bare = next(f for f in every if f.rule == "seating.no-surface")
        offered = [r for r in remedies_for(auditor, bare, every) if r.kind == "add"]
        assert [(r.cost.text if r.cost else None, r.unpriced) for r in offered] == [(cost, unpriced)]
        assert offered[0].patch[0]["value"]["arrives"] is True


def test_the_nearest_wall_counts_for_a_corner_sofa() -> None:
    """A sofa aslant in a corner has its back to two walls; the nearer one is measured."""
    aslant = _changed(
        {"op": "replace", "path": "/pieces/sofa/at", "value": {"x": "60 in", "y": "50 in"}},
        {"op": "add", "path": "/pieces/sofa/turn", "value": "315°"},
    )
    gaps = [
        f.measured for f in _found(aslant) if f.rule == "seating.off-wall" and f.subjects[0].endswith("sofa")
    ]
    assert all(gap is not None and gap < 0.0762 for gap in gaps)


# ---------------------------------------------------------------- generated rooms

_IN = st.integers
_SEATS = st.sampled_from(("armchair", "loveseat", "chaise"))


@st.composite
def rooms(draw: st.DrawFn) -> dict[str, Any]:
    """Return a job with one room: a sofa at a wall, one or two seats anywhere, perhaps a table, a screen, storage."""
    width, length = draw(_IN(130, 260)), draw(_IN(130, 220))
    room: dict[str, Any] = copy.deepcopy(WELL_LAID)
    diagonal = f"{(width**2 + length**2) ** 0.5:.3f} in"
    room["survey"]["walls"] = {
        "AB": f"{width} in",
        "BC": f"{length} in",
        "CD": f"{width} in",
        "DA": f"{length} in",
    }
    room["survey"]["ties"] = {"AC": diagonal, "BD": diagonal}
    room["fittings"], room["rugs"], room["wishes"] = (
        {},
        {},
        {"people": draw(_IN(2, 6)), "uses": {"screen": True}},
    )
    pieces = room["pieces"]
    pieces["sofa"]["at"] = {
        "wall": "AB",
        "along": f"{draw(_IN(0, width - 84))} in",
        "off": f"{draw(_IN(0, 30))} in",
    }
    for key in ("west", "east"):
        if draw(st.booleans()):
            pieces[key]["type"] = draw(_SEATS)
            pieces[key]["at"] = {
                "x": f"{draw(_IN(24, width - 24))} in",
                "y": f"{draw(_IN(60, length - 24))} in",
            }
            pieces[key]["turn"] = f"{draw(st.sampled_from((0, 45, 90, 135, 180, 225, 270, 315)))}°"
        else:
            del pieces[key]
    if draw(st.booleans()):
        pieces["table"]["at"] = {
            "x": f"{draw(_IN(30, width - 30))} in",
            "y": f"{draw(_IN(50, length - 20))} in",
        }
    else:
        del pieces["table"]
    if draw(st.booleans()):
        pieces["screen"] = {
            "type": "screen", "diagonal": "55 in", "width": "48 in", "depth": "3 in", "height": "28 in",
            "center_height": f"{draw(_IN(36, 80))} in", "at": {"wall": "CD", "along": f"{draw(_IN(50, width - 48))} in", "off": "0 in"},
        }  # fmt: skip
    return _job(room)


@settings(max_examples=30, derandomize=True, deadline=None, suppress_health_check=list(HealthCheck))
@given(rooms())
def test_every_remedy_offered_is_proven(document: dict[str, Any]) -> None:
    """In rooms of any kind, each remedy these rules offer clears its finding and brings none as grave, audited afresh."""
    auditor = Auditor.of(document)
    every = auditor.findings("r")
    known = {f.id: f for f in every}
    for finding in [f for f in every if f.rule.startswith(FAMILIES)]:
        for remedy in remedies_for(auditor, finding, every, Budget(trials=8, candidates=60)):
            after = Auditor.of(apply(document, remedy.patch)).findings("r")
            assert finding.id not in {f.id for f in after}, remedy.title
            new = [f for f in after if f.grade.rank <= finding.grade.rank]
            assert [f.id for f in new if f.id not in known] == [], remedy.title
            worse = [f.id for f in new if f.id in known and f.shortfall > known[f.id].shortfall + 1.1e-3]
            assert worse == [], remedy.title
