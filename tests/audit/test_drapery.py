"""How windows are put right: what is kept, what it costs, what a person is told."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding, Remedy
from halfdrop.audit.prove import remedies_for, with_remedies
from halfdrop.audit.rules.drapery.hangs import hung_in
from halfdrop.audit.rules.drapery.rehang import best_height
from halfdrop.base.units import Money
from halfdrop.buying.shopping import shopping_list
from halfdrop.job.patch import apply

#: All four faults at once: on the frame, no wider than the glass, skimpy, and 20 in off the floor.
FLOATING: dict[str, Any] = {
    "openings": "w", "heading": "pencil", "fullness": 1.2, "drop": "62 in",
    "hardware": {"height": "82 in", "left": "0 in", "right": "0 in"},
}  # fmt: skip


def _document(treatment: dict[str, Any] = FLOATING, **more: Any) -> dict[str, Any]:
    return {
        "halfdrop": 1, "job": {"name": "Windows"},
        "fabrics": {"linen": {"name": "Linen", "width": "54 in", "price": "$30"}},
        "stock": {"rod": {"kind": "rod", "name": "iron rod", "length": "10 ft", "price": "$85"}},
        "rooms": {"r": {
            "name": "Room", "use": {"living": True},
            "survey": {
                "corners": "A B C D", "walls": {"AB": "20 ft", "BC": "14 ft", "CD": "20 ft", "DA": "14 ft"},
                "square": dict.fromkeys("ABCD", True), "heights": {"center": "8 ft"},
            },
            "openings": {"w": {"kind": "window", "wall": "AB", "along": "7 ft", "width": "60 in", "height": "56 in", "sill": "24 in"}},
            "treatments": {"t": treatment},
        }},
        **more,
    }  # fmt: skip


def _offered(document: dict[str, Any], rule: str) -> tuple[Finding, dict[str, Remedy]]:
    auditor = Auditor.of(document)
    every = auditor.findings("r")
    finding = next(f for f in every if f.rule == rule)
    return finding, {r.kind: r for r in remedies_for(auditor, finding, every)}


def test_each_of_the_four_faults_is_one_finding() -> None:
    """A low, short, skimpy, floating pair is told four things; that its panels cover glass goes without saying."""
    rules = [f.rule for f in Auditor.of(_document()).findings("r")]
    assert sorted(rules) == ["drapery.fullness", "drapery.rod-low", "drapery.rod-short", "drapery.short"]


@pytest.mark.parametrize(
    "rule", ["drapery.fullness", "drapery.rod-low", "drapery.rod-short", "drapery.short"]
)
def test_one_remedy_clears_all_four(rule: str) -> None:
    """Whichever is taken up, one choice puts all of the window right."""
    _, offered = _offered(_document(), rule)
    right = offered["hang it right with a band"]
    assert {f.split("/")[1] for f in right.proof.cleared} == {
        "drapery.fullness", "drapery.rod-low", "drapery.rod-short", "drapery.short",
    }  # fmt: skip


def test_what_is_kept_stays() -> None:
    """Kept panels are raised, lengthened and widened; they are never made anew, and they stay kept."""
    _, offered = _offered(_document({**FLOATING, "keep": True}), "drapery.short")
    assert "make anew" not in offered
    for remedy in offered.values():
        after = apply(_document({**FLOATING, "keep": True}), remedy.patch)["rooms"]["r"]["treatments"]["t"]
        assert after["keep"] is True
        assert not after.get("arrives")
        assert after["heading"] == "pencil"


def test_a_remedy_costs_what_the_shopping_list_then_says() -> None:
    """New panels and their rod: the remedy's price is the list's total, one cloth by hand rule and on its bolt being the same here."""
    document = _document()
    _, offered = _offered(document, "drapery.short")
    remedy = offered["make anew"]
    found, after = Auditor.of(document), Auditor.of(apply(document, remedy.patch))
    rooms = [{"r": state.case("r").room} for state in (found, after)]
    listed = shopping_list(
        found.job, after.job, after.practice, found_rooms=rooms[0], proposed_rooms=rooms[1]
    )
    assert listed.total == remedy.cost
    assert listed.unpriced == 0
    assert {line.kind for line in listed.bought} == {"cloth", "rod"}


def test_a_rod_that_is_not_stocked_is_named_unpriced() -> None:
    """Without a rod that reaches, the remedy names one and its length, and counts no price for it."""
    _, offered = _offered(_document(stock={}), "drapery.short")
    remedy = offered["make anew"]
    assert [text.split(",")[0] for text in remedy.unpriced] == ["rod"]
    assert remedy.unpriced[0].startswith("rod, 7′ 7")
    assert remedy.cost is not None
    assert remedy.cost < Money.parse("$1000")


def test_a_person_is_told_what_to_do_in_order() -> None:
    """Rod first, then its length, then the cloth."""
    _, offered = _offered(_document(), "drapery.rod-low")
    title = offered["hang it right with a band"].title
    steps = [
        "raise the rod 6 in",
        "a rod of",
        "sew a band of Linen",
        "add 3 widths of Linen as leading edges, 1.5 to each panel",
    ]
    places = [title.index(step) for step in steps]
    assert places == sorted(places)


def test_a_hem_is_let_down_where_it_has_the_cloth() -> None:
    """2 in short with 8 in in the hem: let down; the hem that is left and the new length are written down."""
    document = _document(
        {
            **FLOATING,
            "fullness": 2,
            "drop": "85 in",
            "hardware": {"height": "87 3/8 in", "left": "20 in", "right": "20 in"},
        }
    )
    _, offered = _offered(document, "drapery.short")
    hung = apply(document, offered["lengthen"].patch)["rooms"]["r"]["treatments"]["t"]
    assert hung["drop"] == "7' 3\""
    assert hung["hems"] == {"bottom": '6"'}
    assert hung["altered"] == {"let_down": '2"'}


def test_findings_show_how_they_were_reckoned() -> None:
    """Each carries its working: how it hangs, and how the cloth of new panels is counted and priced."""
    auditor = Auditor.of(_document())
    for finding in with_remedies(auditor, auditor.findings("r")):
        titles = [w.title for w in finding.working]
        assert titles[-1] == "New panels of Linen for the t"
        assert len(titles) == 2
        assert all(w.steps for w in finding.working)


def test_a_rod_is_raised_to_the_line_of_the_room() -> None:
    """The other window's pair hangs right at 90 in: the low rod is raised to that, not to its own aim of 88 in."""
    document = _document({**FLOATING, "drop": "81 in"})
    room = document["rooms"]["r"]
    room["openings"]["v"] = {
        "kind": "window",
        "wall": "CD",
        "along": "7 ft",
        "width": "60 in",
        "height": "56 in",
        "sill": "24 in",
    }
    room["treatments"]["u"] = {**FLOATING, "openings": "v", "fullness": 2, "drop": "89 5/8 in",
                               "hardware": {"height": "90 in", "left": "20 in", "right": "20 in"}}  # fmt: skip
    case = Auditor.of(document).case("r")
    assert best_height(case, hung_in(case)["t"]) == pytest.approx(90 * 0.0254)


def test_a_patch_of_one_window_resolves_its_room_only() -> None:
    """What hangs leaves outline and survey as they are: the other rooms are not resolved again."""
    document = _document()
    document["rooms"]["s"] = {**document["rooms"]["r"], "name": "Other"}
    auditor = Auditor.of(document)
    after = auditor.after([{"op": "replace", "path": "/rooms/r/treatments/t/drop", "value": "80 in"}])
    assert after.case("s") is auditor.case("s")
    assert after.case("r").room.survey is auditor.case("r").room.survey


def test_a_patch_that_names_an_unknown_cloth_is_refused() -> None:
    """The quick way to a patched room checks names as the slow way does."""
    from pydantic import ValidationError

    auditor = Auditor.of(_document())
    with pytest.raises(ValidationError, match="names a fabric of the job"):
        auditor.after([{"op": "add", "path": "/rooms/r/treatments/t/fabric", "value": "lace"}])
