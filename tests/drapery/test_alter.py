"""Panels that hang and are altered: the cloth of a band, of a join, of widths; what it costs."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.base.units import Money
from halfdrop.drapery import (
    altered_strips,
    as_hung,
    cloth_of,
    cloth_takeoff,
    flat_of,
    price_of_units,
    units_of,
)
from halfdrop.drapery.sewn import StripsAnswer
from halfdrop.job.model import Job
from halfdrop.job.treatments import Fabric
from tests.drapery.homes import US, job, resolved, window
from tests.drapery.tables import IN

LINEN = {"name": "linen", "width": "54 in", "price": "$30"}


def _job(**more: Any) -> Job:
    pair = {
        "openings": "w", "heading": "pencil", "fullness": 2, "drop": "87 5/8 in", "keep": True,
        "hardware": {"height": "88 in", "left": "15 in", "right": "15 in", "overlap": "3 in", "returns": "4 in"}, **more,
    }  # fmt: skip
    return job({"r": {"openings": {"w": window()}, "treatments": {"t": pair}}}, {"linen": LINEN})


def _strips(**altered: Any) -> dict[str, StripsAnswer]:
    whole = _job(altered={"fabric": "linen", **altered})
    cloths = {i: cloth_of(i, f, US) for i, f in whole.fabrics.items()}
    hung = as_hung(resolved(whole)["r"], "t", cloths, US)
    assert hung is not None
    return dict(altered_strips(hung, cloths["linen"], US))


def test_a_band_runs_along_the_whole_flat_width() -> None:
    """A pair 90 in wide with 14 in overlap and returns, twice full, is 208 in flat: 2 widths each, so 4 strips of 12 + 1 + 2 in."""
    band = _strips(band="12 in")["band"]
    assert band.strips == 4
    assert band.cut / IN == pytest.approx(15)


def test_a_join_brings_its_own_heading() -> None:
    """5 in joined on at the top take the seam and the cloth of the heading besides."""
    join = _strips(joined="5 in")["join"]
    heading = US.length("drapery.heading_tape")
    assert join.cut == pytest.approx(5 * IN + US.length("drapery.tie_allowance") + heading)


def test_widths_are_cut_whole_and_as_long_as_the_panel() -> None:
    """One and a half widths are two cuts of the finished length with hem and heading."""
    widths = _strips(widths=1.5)["widths"]
    assert widths.strips == 2
    assert widths.cut / IN == pytest.approx(87.625 + 8 + 4)


def test_what_is_kept_and_altered_takes_only_the_cloth_of_the_alteration() -> None:
    """The take-off of a kept pair with a band is its band; of a kept pair let down, nothing."""
    whole = _job(altered={"band": "12 in", "fabric": "linen"})
    (line,) = cloth_takeoff(whole, resolved(whole), US)["linen"].lines
    assert line.path == "rooms/r/treatments/t/altered/band"
    assert line.hand / IN == pytest.approx(4 * 15)
    let_down = _job(altered={"let_down": "2 in"})
    assert not cloth_takeoff(let_down, resolved(let_down), US)


def test_flat_width_unknown_is_what_the_heading_wants() -> None:
    """Where neither fullness nor widths are known, a band is reckoned for the fullness of the heading."""
    whole = job({"r": {"openings": {"w": window()}, "treatments": {"t": {
        "openings": "w", "heading": "pencil", "hardware": {"left": "0", "right": "0"}}}}}, {})  # fmt: skip
    hung = as_hung(resolved(whole)["r"], "t", {}, US)
    assert hung is not None
    assert flat_of(hung, US) / IN == pytest.approx(2 * 60)


@pytest.mark.parametrize(
    ("fabric", "inches", "units", "price"),
    [
        ({}, 36, 1.0, "$30"),
        ({}, 37, 1.25, "$37.50"),
        ({"sale": "meter"}, 39, 1.0, "$30"),
        ({"sale": "bolt", "bolts": {"b": {"length": "10 yd"}}}, 361, 2.0, "$60"),
        ({"repeat": "18 in"}, 36, 1.5, "$45"),
    ],
)
def test_cloth_is_paid_to_its_step_of_sale(
    fabric: dict[str, Any], inches: float, units: float, price: str
) -> None:
    """A quarter of a yard at a time, whole bolts where it is sold so; a pattern takes one repeat more to place its motif."""
    model = Fabric.model_validate({**LINEN, **fabric})
    cloth = cloth_of("linen", model, US)
    assert units_of(cloth, inches * IN) == pytest.approx(units)
    assert price_of_units(model, units) == Money.parse(price)


def test_cloth_without_a_price_costs_nothing_known() -> None:
    """No price, no figure."""
    assert price_of_units(Fabric.model_validate({"name": "linen", "width": "54 in"}), 3) is None
