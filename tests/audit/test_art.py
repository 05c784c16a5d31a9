"""The rules of art together: a well-hung room is clean, remedies keep what is kept, a new finding is never bought for an old one."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding, Remedy
from halfdrop.audit.prove import disturbance, remedies_for
from halfdrop.job.patch import apply
from tests.art.walls import SOFA, at, document

CONSOLE = {
    "type": "console",
    "width": "1.2 m",
    "depth": "35 cm",
    "height": "80 cm",
    "at": {"wall": "AB", "along": "1.9 m", "off": "0"},
}
BED = {
    "type": "bed",
    "width": "1.6 m",
    "depth": "2.1 m",
    "height": "1 m",
    "at": {"wall": "CD", "along": "1.7 m", "off": "0"},
}
SMALL = {"width": "24 cm", "height": "30 cm", "reason": "A set."}
WELL: dict[str, Any] = {
    # over the sofa, 20 cm up and two thirds of its width
    "heron": {"width": "1.3 m", "height": "90 cm", "mass": "6 kg", "above": "sofa", "at": at("1.85 m", "1 m"), "reason": "The pond.",
              "hangs": {"from": "wire", "drop": "6 cm"}, "fixings": {"kind": "toggle", "count": 2}},
    # three in a row over the console
    **{
        key: {**SMALL, "group": "trio", "at": {"wall": "AB", "along": along, "bottom": "1.1 m"}}
        for key, along in (("one", "2.072 m"), ("two", "2.38 m"), ("three", "2.688 m"))
    },
    # a large one at the height of the eye, in the middle of a bare wall
    "map": {"width": "1.4 m", "height": "1 m", "at": {"wall": "BC", "along": "1.3 m", "bottom": "96 cm"}, "reason": "Home."},
}  # fmt: skip


def _art(doc: dict[str, Any]) -> list[Finding]:
    return [f for f in Auditor.of(doc).findings("r") if f.rule.startswith("art.")]


def _remedies(doc: dict[str, Any], rule: str) -> tuple[Remedy, ...]:
    auditor = Auditor.of(doc)
    every = auditor.findings("r")
    finding = next(f for f in every if f.rule == rule)
    return remedies_for(auditor, finding, every)


def test_a_well_hung_room_is_clean() -> None:
    """Over a sofa, over a console and on a bare wall, by practice: no rule of art has a word to say."""
    doc = document(WELL, pieces={"sofa": SOFA, "console": CONSOLE})
    assert [f.message for f in _art(doc)] == []


@pytest.mark.parametrize(
    ("key", "place"),
    [
        ("heron", {"bottom": "1.3 m"}),
        ("map", {"bottom": "1.26 m"}),
        ("three", {"along": "2.77 m"}),
        ("one", {"along": "1.9 m"}),
    ],
)
def test_one_work_slipped_is_found(key: str, place: dict[str, str]) -> None:
    """Hung 30 cm higher, or 8 to 17 cm aside in its group, it is a fault of some rule, and a remedy brings it back."""
    work = {**WELL[key], "at": {**WELL[key]["at"], **place}}
    doc = document({**WELL, key: work}, pieces={"sofa": SOFA, "console": CONSOLE})
    found = _art(doc)
    assert found
    auditor = Auditor.of(doc)
    every = auditor.findings("r")
    offered = remedies_for(auditor, found[0], every)
    assert offered
    assert len(_art(apply(doc, offered[0].patch))) < len(found)


def test_a_work_that_is_kept_is_moved_but_never_taken_down_for_good() -> None:
    """What the client keeps may hang elsewhere or wait; it stays in the job."""
    art = {
        "heron": {"width": "1 m", "height": "60 cm", "mass": "12 kg", "keep": True, "at": at("2 m", "1.2 m")}
    }
    doc = document(art, pieces={"bed": BED}, use={"bedroom": True})
    offered = _remedies(doc, "art.over-bed")
    assert {r.kind for r in offered} == {"place", "remove"}
    for remedy in offered:
        after = apply(doc, remedy.patch)["rooms"]["r"]["art"]
        assert "heron" in after
        assert after["heron"]["keep"] is True


def test_a_lighter_work_changes_places_with_a_heavy_one() -> None:
    """12 kg over the bed and 2 kg on the wall across: each hangs rightly in the other's place."""
    art = {
        "heavy": {"width": "1 m", "height": "60 cm", "mass": "12 kg", "at": at("2 m", "1.2 m")},
        "light": {"width": "1.05 m", "height": "65 cm", "mass": "2 kg", "at": {"wall": "AB", "along": "1.975 m", "bottom": "1.125 m"}},
    }  # fmt: skip
    doc = document(art, pieces={"bed": BED}, use={"bedroom": True})
    swap = next(r for r in _remedies(doc, "art.over-bed") if r.kind == "swap")
    after = apply(doc, swap.patch)["rooms"]["r"]["art"]
    assert {k: set(after[k]["at"]["wall"]) for k in after} == {"heavy": {"A", "B"}, "light": {"C", "D"}}


def test_acrylic_is_put_in_where_glass_is_over_a_bed_and_weighs_less() -> None:
    """The patch changes the glazing and takes off what acrylic saves: 0.6 m² × (6.25 − 3.57) kg/m²."""
    art = {
        "map": {
            "kind": "print",
            "glazing": "glass",
            "width": "1 m",
            "height": "60 cm",
            "mass": "4.4 kg",
            "at": at("2 m", "1.2 m"),
        }
    }
    doc = document(art, pieces={"bed": BED}, use={"bedroom": True})
    glaze = next(r for r in _remedies(doc, "art.glass-over-bed") if r.kind == "glaze")
    after = apply(doc, glaze.patch)["rooms"]["r"]["art"]["map"]
    assert after["glazing"] == "acrylic"
    assert after["mass"] == "2.8 kg"
    assert (
        glaze.unpriced == ("acrylic sheet 1000 mm × 600 mm, for the map print",)
        or "acrylic sheet" in glaze.unpriced[0]
    )


def test_hanging_elsewhere_disturbs_less_than_a_new_fixing_and_both_less_than_a_piece_that_leaves() -> None:
    """The order in which remedies are offered follows from it."""
    doc = document(WELL, pieces={"sofa": SOFA, "console": CONSOLE})
    before = Auditor.of(doc)
    moved = before.after([{"op": "replace", "path": "/rooms/r/art/map/at/bottom", "value": "97 cm"}])
    fixed = before.after([{"op": "add", "path": "/rooms/r/art/map/fixings", "value": {"kind": "toggle"}}])
    gone = before.after([{"op": "remove", "path": "/rooms/r/pieces/console"}])
    weights = [disturbance(before.case("r"), state.case("r")) for state in (moved, fixed, gone)]
    assert 0 < weights[0] < weights[1] < weights[2]


def test_a_work_that_waits_takes_the_place_of_one_too_heavy() -> None:
    """12 kg over the bed comes down, and the light painting that waited hangs there at its own right height."""
    art = {
        "heavy": {
            "width": "1 m",
            "height": "60 cm",
            "mass": "12 kg",
            "above": "bed",
            "at": at("2 m", "1.2 m"),
        },
        "light": {"width": "1.05 m", "height": "70 cm", "mass": "2 kg"},
    }
    doc = document(art, pieces={"bed": BED}, use={"bedroom": True})
    exchange = next(r for r in _remedies(doc, "art.over-bed") if r.kind == "exchange")
    after = apply(doc, exchange.patch)["rooms"]["r"]["art"]
    assert "at" not in after["heavy"]
    assert "above" not in after["heavy"]
    assert [f.rule for f in _art(apply(doc, exchange.patch)) if f.grade.rank < 2] == []
