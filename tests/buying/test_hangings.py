"""What treatments buy: the shopping list and the take-off give the same figures, each thing once."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest

from halfdrop.base.units import Money
from halfdrop.buying.lines import ShoppingList
from halfdrop.buying.shopping import shopping_list
from halfdrop.drapery import cloth_takeoff
from halfdrop.job.model import Job
from tests.drapery.homes import PLAIN, US, panels, resolved, window

LINEN = {"name": "Linen", "width": "54 in", "price": "$30"}
ROD = {"kind": "rod", "name": "iron rod", "length": "8 ft", "price": "$85"}


def _job(treatment: dict[str, Any], **more: Any) -> Job:
    room = {**PLAIN, "openings": {"w": window()}, "treatments": {"t": treatment}}
    return Job.model_validate(
        {"halfdrop": 1, "job": {"name": "Windows"}, "fabrics": {"linen": LINEN}, "rooms": {"r": room}, **more}
    )


def _listed(found: Job, proposed: Job) -> ShoppingList:
    return shopping_list(found, proposed, US, found_rooms=resolved(found), proposed_rooms=resolved(proposed))


HUNG = {
    "openings": "w",
    "heading": "pencil",
    "fullness": 1.2,
    "drop": "70 in",
    "hardware": {"height": "82 in"},
}


def test_panels_made_anew_buy_their_cloth_and_their_rod() -> None:
    """Cloth is bought as the bolt plan of the take-off lays it; the rod is the stock's that reaches."""
    made = _job(panels(arrives=True), stock={"rod": {**ROD, "length": "12 ft"}})
    listed = _listed(_job(HUNG), made)
    cloth, rod = listed.bought
    plan = cloth_takeoff(made, resolved(made), US)["linen"].plan
    assert (cloth.kind, rod.kind) == ("cloth", "rod")
    assert cloth.size == f"{plan.paid / 0.9144:.4g} yd"
    assert cloth.total == Money.parse(f"${30 * plan.paid / 0.9144:.2f}")
    assert rod.total == Money.parse("$85")
    assert rod.price_from == "stock list"
    assert listed.unpriced == 0


def test_what_was_to_arrive_before_is_coming_not_bought() -> None:
    """Panels the job as found already has arriving are counted against the budget, and not bought twice."""
    job = _job(panels(arrives=True))
    listed = _listed(job, job)
    assert not listed.bought
    assert [line.kind for line in listed.coming] == ["cloth", "rod"]


@pytest.mark.parametrize("keep", [True, False])
def test_what_hangs_there_now_buys_nothing(keep: bool) -> None:
    """A drop is the length of what hangs there now: its cloth and its rod are there."""
    job = _job({**HUNG, "fabric": "linen", "keep": keep})
    assert not _listed(job, job).coming
    assert not cloth_takeoff(job, resolved(job), US)


def test_a_longer_rod_is_bought_for_panels_that_stay() -> None:
    """What is altered buys its rod at the price the remedy found, and the cloth of its band alone."""
    altered = deepcopy(HUNG) | {
        "keep": True, "drop": "81 in", "altered": {"band": "12 in", "fabric": "linen"},
        "hardware": {"height": "82 in", "left": "15 in", "right": "15 in", "arrives": True, "price": "$70"},
    }  # fmt: skip
    listed = _listed(_job(HUNG), _job(altered))
    cloth, rod = listed.bought
    assert cloth.paths == ("rooms/r/treatments/t/altered/band",)
    assert rod.total == Money.parse("$70")
    assert rod.size == "90 in"


def test_a_roller_that_arrives_is_ordered_by_its_opening() -> None:
    """A roller shade takes no cloth of the job; it is one line, as wide as its opening and as long as to its sill."""
    roller = {"kind": "roller", "openings": "w", "mount": "inside", "arrives": True, "price": "$140"}
    (shade,) = _listed(_job(HUNG), _job(roller)).bought
    assert (shade.kind, shade.total) == ("shade", Money.parse("$140"))
    assert shade.size == "60 in × 56 in"


def test_a_treatment_that_cannot_be_worked_out_is_said() -> None:
    """Without any height the list stands, and says what is not counted."""
    survey = {k: v for k, v in PLAIN["survey"].items() if k != "heights"}
    job = _job(panels(arrives=True))
    bare = Job.model_validate({**job.model_dump(mode="json", exclude_unset=True, by_alias=True), "rooms": {"r": {
        **PLAIN, "survey": survey, "openings": {"w": window()}, "treatments": {"t": panels(arrives=True)}}}})  # fmt: skip
    listed = _listed(bare, bare)
    assert not listed.coming
    assert "cannot be counted yet" in listed.works[0].what
