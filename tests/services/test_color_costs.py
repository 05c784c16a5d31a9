"""What the steps of a scheme from art cost, against the take-off of the job under it."""

from __future__ import annotations

import copy
from typing import Any

from halfdrop.audit.auditor import Auditor
from halfdrop.base.units import Money
from halfdrop.job.patch import apply
from halfdrop.services.color_costs import StepCost, step_costs
from halfdrop.services.color_places import places_of, wearers
from halfdrop.services.recolor import recolored
from halfdrop.walls import faces_of, paint_job, paint_room
from tests.services.test_color_places import bare


def _stepped(document: dict[str, Any], path: str, swatch: str) -> tuple[Auditor, StepCost]:
    state = Auditor.of(document)
    wearer = next(w for w in wearers(state.case("r")) if w.path == f"rooms/r/{path}")
    patch = recolored(document, wearer, swatch, scheme=True)
    after = Auditor.of(apply(document, patch))
    name = document["swatches"][swatch]["name"]
    (cost,) = step_costs(after, "r", [(wearer, name, patch)])
    return after, cost


def test_paint_costs_what_the_cans_of_the_take_off_do() -> None:
    """Walls painted anew in a paint like the old one, whose cans have prices, cost what its cans cost when they are counted."""
    document = bare()
    document["paints"]["matte-bone"]["cans"] = {"big": {"size": "5 L", "price": "60.00 EUR"}}
    document["rooms"]["r"]["finishes"] = {"walls": {"on": "walls", "paint": "matte-bone"}}
    after, cost = _stepped(document, "finishes/walls", "oak")
    room = after.case("r").room
    finish = room.model.finishes["walls"]
    counted = paint_room("x", finish, after.job.paints, faces_of(room), room.area, after.practice)
    wanted = paint_job(
        finish.paint or "", after.job.paints[finish.paint or ""], [counted], after.practice
    ).cans.cost
    assert wanted is not None
    assert wanted.amount >= 60
    assert cost.cost == wanted


def test_a_swatch_with_a_price_prices_the_paint_of_its_color() -> None:
    """A paint whose cans have no price costs a whole number of cans at its swatch's price; without one it is named as not priced."""
    document = bare()
    dear = copy.deepcopy(document)
    dear["swatches"]["oak"]["price"] = "50.00 EUR"
    _, cost = _stepped(dear, "surfaces/walls", "oak")
    assert cost.cost is not None
    assert cost.cost.currency == "EUR"
    assert cost.cost.amount >= 50
    assert cost.cost.amount % 50 == 0
    _, free = _stepped(document, "surfaces/walls", "oak")
    assert free.cost is None
    assert "Oak for the walls" in free.unpriced


def test_cloth_costs_by_its_unit_of_sale_and_a_rug_is_named() -> None:
    """Cushions in a cloth of 30 EUR a meter cost a number of those in another color too; a rug has no price known."""
    document = bare()
    document["fabrics"] = {
        "wool": {"name": "Wool", "width": "140 cm", "price": "30.00 EUR", "sale": "meter", "colors": "bone"}
    }
    document["rooms"]["r"]["cushions"] = {
        "c": {"fabric": "wool", "width": "45 cm", "height": "45 cm", "count": 4}
    }
    _, cost = _stepped(document, "cushions/c", "oak")
    assert cost.cost is not None
    assert cost.cost >= Money.parse("30.00 EUR")
    assert cost.unpriced == ()
    _, rug = _stepped(document, "rugs/rug", "bone")
    assert rug == StepCost(None, ("rug in Bone",))


def test_hung_works_are_places_that_keep_their_colors() -> None:
    """A hung work whose colors are recorded counts in a scheme as it does in the inventory; one not hung in neither."""
    document = bare()
    work = {"width": "60 cm", "height": "40 cm", "colors": {"oak": 0.25, "bone": 0.75}}
    document["rooms"]["r"]["art"] = {
        "hung": work | {"at": {"wall": "CD", "along": "1 m", "bottom": "1.3 m"}},
        "waits": work,
    }
    places = {p.key: p for _, p in places_of(Auditor.of(document).case("r"))}
    assert places["rooms/r/art/hung"].area == 0.6 * 0.4
    assert [round(share, 9) for _, share in places["rooms/r/art/hung"].kept] == [0.25, 0.75]
    assert "rooms/r/art/waits" not in places
