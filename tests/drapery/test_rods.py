"""The rods a job buys, and which of the stock list."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.base.units import Money
from halfdrop.drapery import cloth_of, rod_of, rod_price, rods_to_buy
from halfdrop.job.model import Job
from tests.drapery.homes import PLAIN, US, panels, resolved, window
from tests.drapery.tables import IN

STOCK = {
    "short": {"kind": "rod", "name": "iron rod", "length": "6 ft", "price": "$50"},
    "reach": {
        "kind": "rod",
        "name": "rod that draws out",
        "shortest": "66 in",
        "length": "10 ft",
        "price": "$70",
    },
    "long": {"kind": "rod", "name": "oak pole", "length": "12 ft", "price": "$190"},
    "other": {"kind": "rod", "name": "steel rod", "length": "20 ft"},
}


def _job(treatment: dict[str, Any], stock: dict[str, Any] = STOCK) -> Job:
    room = {**PLAIN, "openings": {"w": window()}, "treatments": {"t": treatment}}
    fabrics = {"linen": {"name": "linen", "width": "54 in"}}
    return Job.model_validate(
        {"halfdrop": 1, "job": {"name": "Rods"}, "fabrics": fabrics, "stock": stock, "rooms": {"r": room}}
    )


@pytest.mark.parametrize(
    ("length", "name"),
    [
        (50, "iron rod"),
        (72, "iron rod"),
        (73, "rod that draws out"),
        (121, "oak pole"),
        (200, "steel rod"),
        (241, None),
    ],
)
def test_the_cheapest_rod_that_reaches(length: float, name: str | None) -> None:
    """Of those that reach, and go as short, the cheapest; one without a price comes last."""
    found = rod_of(_job(panels()), length * IN)
    assert (found.name if found else None) == name


def test_panels_that_are_made_need_their_rod() -> None:
    """Made of a named cloth, they need a rod as long as their stack wants; its brackets come with it."""
    job = _job(panels(arrives=True))
    (rod,) = rods_to_buy(resolved(job), {i: cloth_of(i, f, US) for i, f in job.fabrics.items()}, US)
    assert rod.hung is not None
    assert rod.length == rod.hung.place.rod.length
    assert rod_price(job, rod) == (Money.parse("$70"), "stock list")


def test_panels_that_hang_need_none_unless_it_arrives() -> None:
    """What hangs there now has its rod; a longer one that arrives is bought at the price written with it."""
    old = {
        "openings": "w",
        "heading": "pencil",
        "drop": "80 in",
        "keep": True,
        "hardware": {"height": "82 in", "left": "20 in", "right": "20 in"},
    }
    assert not list(rods_to_buy(resolved(_job(old)), {}, US))
    new = {**old, "hardware": {**old["hardware"], "arrives": True, "price": "$44"}}  # type: ignore[dict-item]
    job = _job(new)
    (rod,) = rods_to_buy(resolved(job), {}, US)
    assert rod.length / IN == pytest.approx(100)
    assert rod_price(job, rod) == (Money.parse("$44"), "job")
    assert rod.brackets.holds
    assert rod.weight.mass == pytest.approx(2 * 100 * IN * 80 * IN * US.number("drapery.weight_medium"))


def test_a_price_that_is_not_known_says_why() -> None:
    """Nothing in stock, or no price on it: said, not guessed."""
    job = _job(panels(arrives=True), {})
    cloths = {i: cloth_of(i, f, US) for i, f in job.fabrics.items()}
    (rod,) = rods_to_buy(resolved(job), cloths, US)
    assert rod_price(job, rod) == (None, "not in the stock list")
    unpriced = _job(panels(arrives=True), {"other": STOCK["other"]})
    assert rod_price(unpriced, rod) == (None, "“steel rod” of the stock list has no price")
