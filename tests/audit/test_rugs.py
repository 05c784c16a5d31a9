"""The rug rules as a decorator meets them: the sizes that come out, what is layered, and remedies proven over made-up rooms."""

from __future__ import annotations

import copy
import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding, Remedy
from halfdrop.audit.prove import remedies_for
from halfdrop.base.units import Length
from halfdrop.job.patch import apply

Document = dict[str, Any]

STOCK: Document = {
    "jute-8x10": {"kind": "rug", "name": "Plain jute", "width": "8'", "length": "10'", "fiber": "jute",
                  "pattern": "plain", "pile": "1/4 in", "price": "$410"},
    "wool-8x10": {"kind": "rug", "name": "Flat-woven wool", "width": "8'", "length": "10'", "fiber": "wool",
                  "pattern": "patterned", "pile": "1/4 in", "price": "$1,150"},
    "felt": {"kind": "pad", "name": "Felt pad", "thickness": "1/4 in", "price": "$2.20", "per_area": "1 sq ft"},
}  # fmt: skip


def room(width: float, depth: float, use: str, **parts: Any) -> Document:
    """Return a job of one square-cornered room, width × depth [in], with its parts."""
    tie = f"{math.hypot(width, depth):.4f} in"
    survey = {
        "corners": "A B C D",
        "walls": {"AB": f"{width} in", "BC": f"{depth} in", "CD": f"{width} in", "DA": f"{depth} in"},
        "ties": {"AC": tie, "BD": tie},
    }
    return {
        "halfdrop": 1,
        "job": {"name": "Rugs", "units": "imperial"},
        "practice": {"set": "us"},
        "rooms": {"r": {"name": "Room", "use": {use: True}, "survey": survey, **parts}},
    }


def found(document: Document, rule: str) -> tuple[Auditor, tuple[Finding, ...], Finding]:
    """Return the audit, all findings, and the first of a rule."""
    auditor = Auditor.of(document)
    every = auditor.findings("r")
    return auditor, every, next(f for f in every if f.rule == rule)


def offered(document: Document, rule: str) -> dict[str, Remedy]:
    """Return the remedies a rule's first finding is offered, by kind."""
    auditor, every, finding = found(document, rule)
    return {r.kind: r for r in remedies_for(auditor, finding, every)}


def laid(document: Document, remedy: Remedy, rug: str) -> list[int]:
    """Return the sides of a rug after a remedy, in whole feet, the shorter first."""
    after = apply(document, remedy.patch)["rooms"]["r"]["rugs"][rug]
    return sorted(round(float(Length.parse(after[k])) / 0.3048) for k in ("width", "length"))


def bed_room(width: float, depth: float, bed: float) -> Document:
    """Return a bedroom with a bed 80 in long in the middle of wall AB, on a rug far too small."""
    along = (width - bed) / 2
    return room(
        width,
        depth,
        "bedroom",
        pieces={"bed": {"type": "bed", "width": f"{bed} in", "depth": "80 in", "height": "40 in", "keep": True,
                        "at": {"wall": "AB", "along": f"{along} in", "off": "0"}}},
        rugs={"rug": {"width": f"{bed + 12} in", "length": "5'", "pad": {"thickness": "1/4 in"},
                      "at": {"x": f"{width / 2} in", "y": "60 in"}}},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("width", "depth", "bed", "size"),
    [(168, 168, 60, [8, 10]), (132, 132, 60, [6, 9]), (192, 168, 76, [9, 12])],
    ids=["queen", "queen in a small room", "king"],
)
def test_beds_take_the_sizes_of_the_trade(width: float, depth: float, bed: float, size: list[int]) -> None:
    """A queen takes 8×10 ft, 6×9 ft in a small room, and a king 9×12 ft: they come out of the rule's remedy."""
    document = bed_room(width, depth, bed)
    assert laid(document, offered(document, "rugs.bed")["size"], "rug") == size


def dining_room(rug: Document, **parts: Any) -> Document:
    """Return a dining room with a table of 72 × 38 in for six, on the rug given."""
    chair = {"type": "dining chair", "width": "18 in", "depth": "21 in", "height": "36 in"}
    spots = [("a", 82, 58.5, None), ("b", 110, 58.5, None), ("c", 82, 105.5, "180°"), ("d", 110, 105.5, "180°"),
             ("e", 54.5, 82, "270°"), ("f", 137.5, 82, "90°")]  # fmt: skip
    pieces: Document = {
        "table": {
            "type": "dining table",
            "width": "72 in",
            "depth": "38 in",
            "height": "30 in",
            "at": {"x": "96 in", "y": "82 in"},
        }
    }
    for key, x, y, turn in spots:
        pieces[key] = {**chair, "at": {"x": f"{x} in", "y": f"{y} in"}, **({"turn": turn} if turn else {})}
    return room(192, 164, "dining", pieces=pieces, rugs={"rug": rug}, **parts)


SMALL = {"width": "8'", "length": "5'", "pad": {"thickness": "1/4 in"}, "at": {"x": "96 in", "y": "82 in"}}


def test_a_table_for_six_takes_an_8_by_10() -> None:
    """The worked example through the rule: 72 × 38 in and 24 in all round wants 120 × 86 in, so 8×10 ft."""
    document = dining_room(copy.deepcopy(SMALL))
    _, _, finding = found(document, "rugs.dining-chairs")
    assert finding.measured == pytest.approx(11 * 0.0254, abs=1e-4)
    assert finding.wanted == pytest.approx(24 * 0.0254)
    remedy = offered(document, "rugs.dining-chairs")["size"]
    assert laid(document, remedy, "rug") == [8, 10]
    assert remedy.cost is None
    assert any("8 × 10 ft" in name for name in remedy.unpriced)


def test_what_is_bought_is_priced_from_the_stock_with_its_pad() -> None:
    """The stock's 8×10 ft is taken at its price, and a pad 94 × 118 in at $2.20 a square foot: 77.03 counts as 78."""
    document = dining_room({**SMALL, "fiber": "wool", "pattern": "patterned"})
    document["stock"] = STOCK
    remedy = offered(document, "rugs.dining-chairs")["size"]
    after = apply(document, remedy.patch)["rooms"]["r"]["rugs"]["rug"]
    assert remedy.cost is not None
    assert float(remedy.cost.amount) == pytest.approx(1150 + 78 * 2.20)
    assert remedy.unpriced == ()
    assert (after["arrives"], after["price"], after["name"]) == (
        True,
        "$1,150",
        "8 × 10 ft flat-woven wool rug",
    )
    assert "price" not in after["pad"]


def living_room(depth: float = 190, **rug: Any) -> Document:
    """Return a living room with a sofa and a facing chair, the rug between them, too small."""
    lies = {
        "width": "8'",
        "length": "5'",
        "pad": {"thickness": "1/4 in"},
        "at": {"x": "105 in", "y": "92 in"},
        **rug,
    }
    pieces = {
        "sofa": {"type": "sofa", "width": "80 in", "depth": "36 in", "height": "32 in", "at": {"x": "105 in", "y": "36 in"}},
        "chair": {"type": "armchair", "width": "32 in", "depth": "32 in", "height": "32 in", "turn": "180°",
                  "at": {"x": "105 in", "y": "140 in"}},
    }  # fmt: skip
    return room(210, depth, "living", pieces=pieces, rugs={"rug": lies})


def test_a_kept_rug_is_layered_over_a_larger_plain_base() -> None:
    """A kept 5×8 ft lies in the middle of a plain 8×10 ft, 12 and 18 in of it showing, and is neither changed nor replaced."""
    document = living_room(keep=True)
    document["stock"] = STOCK
    kinds = offered(document, "rugs.front-legs")
    assert "size" not in kinds
    after = apply(document, kinds["layer"].patch)["rooms"]["r"]["rugs"]
    top, base = after["rug"], after[after["rug"]["over"]]
    assert base["name"] == "8 × 10 ft plain jute rug"
    assert (base["fiber"], base["pattern"], base["arrives"]) == ("jute", "plain", True)
    for axis in ("x", "y"):
        assert float(Length.parse(top["at"][axis])) == pytest.approx(float(Length.parse(base["at"][axis])))
    margins = [
        (float(Length.parse(base[k])) - float(Length.parse(top[k]))) / 2 / 0.0254 for k in ("width", "length")
    ]
    assert margins == pytest.approx([12, 18])
    assert (top["width"], top["length"], top["keep"]) == ("8'", "5'", True)


def test_a_rug_that_is_not_kept_is_changed_for_one_that_reaches() -> None:
    """The same rug, not kept, gives way to a made size that all front legs stand on."""
    document = living_room()
    remedy = offered(document, "rugs.front-legs")["size"]
    after = Auditor.of(apply(document, remedy.patch)).findings("r")
    assert not [f for f in after if f.rule == "rugs.front-legs"]


def test_an_l_shaped_room_gives_a_rug_its_own_arm() -> None:
    """In an L-shaped room the rug lies within the arm its table stands in, by its true outline."""
    document = dining_room(copy.deepcopy(SMALL))
    document["rooms"]["r"]["survey"] = {
        "corners": "A B C D E F",
        "walls": {"AB": "292 in", "BC": "90 in", "CD": "100 in", "DE": "74 in", "EF": "192 in", "FA": "164 in"},
        "ties": {"AC": f"{math.hypot(292, 90):.4f} in", "AD": f"{math.hypot(192, 90):.4f} in",
                 "AE": f"{math.hypot(192, 164):.4f} in", "BF": f"{math.hypot(292, 164):.4f} in"},
    }  # fmt: skip
    remedy = offered(document, "rugs.dining-chairs")["size"]
    case = Auditor.of(apply(document, remedy.patch)).case("r")
    assert laid(document, remedy, "rug") == [8, 10]
    assert case.room.outline.covers(case.room.rugs["rug"].footprint)


def test_an_unmeasured_undercut_is_a_question() -> None:
    """Where no undercut is taped the finding says so, with how much is wanted under the leaf."""
    document = living_room(at={"x": "60 in", "y": "40 in"}, pile="3/8 in")
    document["rooms"]["r"]["openings"] = {
        "door": {
            "kind": "door",
            "wall": "AB",
            "along": "40 in",
            "width": "32 in",
            "height": "80 in",
            "hinge": "A",
            "opens": "in",
        }
    }
    _, _, finding = found(document, "rugs.door-catches")
    assert (str(finding.grade), finding.measured) == ("taste", None)
    assert "has not been taped" in finding.message
    assert "1⅛ in under the leaf" in finding.message


def _check(document: Document, rules: str) -> None:
    """Every remedy offered for a rug finding clears it and brings nothing as grave, audited again from scratch."""
    auditor = Auditor.of(document)
    every = auditor.findings("r")
    known = {f.id for f in every}
    for finding in every:
        if not finding.rule.startswith(rules):
            continue
        for remedy in remedies_for(auditor, finding, every):
            patched = apply(document, remedy.patch)
            after = Auditor.of(patched).findings("r")
            assert finding.id not in {f.id for f in after}, remedy.title
            assert not [f.id for f in after if f.id not in known and f.grade.rank <= finding.grade.rank], (
                remedy.title
            )
            _kept(document, patched)


def _kept(before: Document, after: Document) -> None:
    """What the client keeps is there still, in its own size."""
    for kind in ("pieces", "rugs"):
        for key, thing in before["rooms"]["r"].get(kind, {}).items():
            if thing.get("keep"):
                there = after["rooms"]["r"][kind][key]
                sides = [k for k in ("width", "length", "depth", "height") if k in thing]
                assert [there[k] for k in sides] == [thing[k] for k in sides]


inches = st.integers


@st.composite
def rooms(draw: st.DrawFn) -> Document:
    """Return a living, dining or bedroom of some size with a rug of some size somewhere under what it is for."""
    width, depth = draw(inches(130, 300)), draw(inches(130, 260))
    kind = draw(st.sampled_from(["living", "dining", "bedroom"]))
    x, y = width / 2 + draw(inches(-20, 20)), depth / 2 + draw(inches(-15, 15))
    if kind == "bedroom":
        bed = draw(st.sampled_from([54, 60, 76]))
        document = bed_room(width, depth, bed)
    elif kind == "dining":
        document = dining_room(copy.deepcopy(SMALL))
        survey = room(max(width, 160), max(depth, 140), "dining")["rooms"]["r"]["survey"]
        document["rooms"]["r"]["survey"] = survey
    else:
        document = living_room()
        document["rooms"]["r"]["survey"] = room(max(width, 180), max(depth, 170), "living")["rooms"]["r"][
            "survey"
        ]
    shape = draw(st.sampled_from(["rectangle", "rectangle", "rectangle", "round"]))
    a, b = draw(inches(4, 11)), draw(inches(4, 14))
    rug: Document = {
        "width": f"{a}'",
        "length": f"{a if shape == 'round' else b}'",
        "shape": shape,
        "at": {"x": f"{x} in", "y": f"{y} in"},
    }
    if draw(st.booleans()):
        rug["pad"] = {"thickness": "1/4 in"}
    if draw(st.booleans()):
        rug["keep"] = True
    if draw(inches(0, 4)) == 0:
        rug["turn"] = f"{draw(inches(0, 179))}°"
    document["rooms"]["r"]["rugs"] = {"rug": rug}
    if draw(st.booleans()):
        document["stock"] = STOCK
    if draw(st.booleans()):
        document["rooms"]["r"]["openings"] = {
            "door": {"kind": "door", "wall": "DA", "along": "12 in", "width": "32 in", "height": "80 in", "hinge": "D", "opens": "in",
                     **({"undercut": "1/2 in"} if draw(st.booleans()) else {})}
        }  # fmt: skip
    return document


@settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(rooms())
def test_every_rug_remedy_is_proven_over_made_up_rooms(document: Document) -> None:
    """Whatever the room, each rug remedy offered clears its finding, brings nothing as grave, and keeps what is kept."""
    _check(document, "rugs.")
