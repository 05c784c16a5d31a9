"""What hanging art buys and moves."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.buying.art import art_bought, art_moved
from halfdrop.job.art import Art

HERON: dict[str, Any] = {
    "kind": "print", "width": "24 in", "height": "30 in", "glazing": "glass", "fixings": {"kind": "nail"},
    "at": {"wall": "CD", "along": "20 in", "bottom": "42 in"},
}  # fmt: skip


def _art(**more: Any) -> dict[str, Art]:
    return {"heron": Art.model_validate({**HERON, **more})}


def test_nothing_changed_buys_and_moves_nothing() -> None:
    """A work that hangs as it hung is on no list."""
    assert not list(art_bought("r", _art(), _art(), "imperial"))
    assert not list(art_moved("r", _art(), _art(), "imperial"))


def test_a_fixing_put_in_anew_and_acrylic_are_bought_unpriced() -> None:
    """Two toggles and a sheet of the frame's size, and no price is made up for either."""
    now = _art(fixings={"kind": "toggle", "count": 2}, glazing="acrylic")
    lines = {line.kind: line for line in art_bought("r", _art(), now, "imperial")}
    assert lines["fixing"].amount == "2 pieces"
    assert lines["fixing"].name == "toggle, for the heron print"
    assert lines["glazing"].size == "24 in × 30 in"
    assert all(line.price is None and line.price_from == "not in the stock list" for line in lines.values())


def test_a_work_that_arrives_has_its_own_price() -> None:
    """What is bought is the work; its price is the job's."""
    (line,) = art_bought("r", {}, _art(arrives=True, price="$240"), "imperial")
    assert (line.kind, str(line.total)) == ("work", str(line.price))
    assert line.price is not None
    assert float(line.price.amount) == pytest.approx(240)


def test_a_work_hung_elsewhere_is_moved_and_both_places_are_set_out() -> None:
    """From where, and to where: wall, corner, and the bottom above the floor."""
    now = _art(at={"wall": "BC", "along": "30 in", "bottom": "40 in"})
    (moved,) = art_moved("r", _art(), now, "imperial")
    assert (moved.before, moved.after) == (
        "wall CD, 20 in from C, bottom 42 in up",
        "wall BC, 30 in from B, bottom 40 in up",
    )
    (down,) = art_moved("r", _art(), {"heron": Art.model_validate({**HERON, "at": None})}, "imperial")
    assert down.after == "not hung"
