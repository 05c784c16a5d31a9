"""Paint: coats by what is there, volume by spread, rooms summed."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.working import Working
from halfdrop.job.finishes import Finish, Paint
from halfdrop.practice import load_practice
from halfdrop.practice.words import Words
from halfdrop.walls import UNNAMED, coats_for, paint_job, paint_room, paint_volume
from tests.walls.published import rows
from tests.walls.rooms import hole, oblong

METRIC = load_practice("metric")
SAY = Words(METRIC)
PAINTS = {
    "white": Paint.model_validate({"name": "White", "spread": "11 m²/L", "cans": {"a": {"size": "2.5 L"}}}),
    "base": Paint.model_validate({"name": "Base", "primer": True, "spread": "8 m²/L"}),
}
ROOM = oblong(
    holes={"AB": (hole("door", "door", 0.5, 0.8, 0, 2.0), hole("window", "window", 2, 1.5, 0.9, 2.1))}
)
PATH = "rooms/r/finishes/walls"


def _finish(**more: Any) -> Finish:
    return Finish.model_validate({"on": "walls", "paint": "white", **more})


@pytest.mark.parametrize("row", rows("walls_paint.csv"), ids=lambda r: r["case"])
def test_the_published_volume_comes_out(row: dict[str, str]) -> None:
    """42 m² in two coats at 11 m²/L are 7.64 L; the page prints 7.6, rounded down: a tin of 7.6 L would be 40 mL short."""
    working = Working("x")
    volume = paint_volume(
        float(row["area_m2"]), int(row["coats"]), float(row["spread_m2_l"]) * 1000, SAY, working
    )
    assert f"{volume * 1000:.2f}" == row["litres"]
    assert f"{volume * 1000:.1f}" == row["printed"]
    assert volume * 1000 > float(row["printed"])
    assert working.steps[0].result == "7.64 L"


@pytest.mark.parametrize(
    ("substrate", "change", "asked", "finish", "ground", "coats"),
    [
        ("painted", "near", None, 2, "none", 0), ("painted", "same", None, 1, "none", 0),
        ("painted", "strong", None, 3, "none", 0), ("painted", "strong", 2, 2, "none", 0),
        ("new drywall", "near", None, 2, "primer", 1), ("new drywall", "same", None, 2, "primer", 1),
        ("new plaster", "near", None, 2, "mist", 1), ("bare wood", "near", 1, 1, "primer", 1),
        ("glossy", "same", None, 1, "primer", 1), ("patched", "strong", None, 3, "primer", 1),
    ],
)  # fmt: skip
def test_coats_follow_what_is_there(
    substrate: Any, change: Any, asked: int | None, finish: int, ground: str, coats: int
) -> None:
    """Two coats, three over a strong change, one in the same color; what is new or glossy takes a ground coat first."""
    answer = coats_for(substrate, change, METRIC, asked=asked)
    assert (answer.finish, answer.ground, answer.ground_coats) == (finish, ground, coats)


def test_walls_take_their_net_area() -> None:
    """14 m of wall 2.5 m high less a door of 1.6 and a window of 1.8 m² are 31.6 m²: two coats at 11 m²/L are 5.745 L."""
    room = paint_room(PATH, _finish(), PAINTS, ROOM, 12.0, METRIC)
    assert room.area == pytest.approx(31.6)
    assert room.wanted == {"white": pytest.approx(31.6 * 2 / 11000)}


def test_new_plaster_drinks_the_finish_paint_thinned() -> None:
    """The mist coat is the finish paint at 9 m²/L, so one paint is bought, for three coats."""
    room = paint_room(PATH, _finish(substrate="new plaster"), PAINTS, ROOM, 12.0, METRIC)
    assert room.wanted == {"white": pytest.approx(31.6 / 9000 + 31.6 * 2 / 11000)}


def test_a_primer_is_bought_beside_the_paint_named_or_not() -> None:
    """The job's own primer by its label, 8 m²/L; one it does not name by practice, 6 m²/L."""
    named = paint_room(PATH, _finish(substrate="new drywall", primer="base"), PAINTS, ROOM, 12.0, METRIC)
    assert named.wanted["base"] == pytest.approx(31.6 / 8000)
    unnamed = paint_room(PATH, _finish(substrate="new drywall"), PAINTS, ROOM, 12.0, METRIC)
    assert unnamed.wanted[UNNAMED] == pytest.approx(31.6 / 6000)
    assert paint_job(UNNAMED, None, [unnamed], METRIC).cans.volume >= 31.6 / 6000


def test_ceiling_and_trim_are_counted_by_their_own_measure() -> None:
    """The ceiling is the floor's 12 m²; trim is its faces, told by running length."""
    ceiling = paint_room(
        PATH, Finish.model_validate({"on": "ceiling", "paint": "white"}), PAINTS, ROOM, 12.0, METRIC
    )
    assert (ceiling.area, ceiling.trim) == (12.0, None)
    trim = paint_room(
        PATH, Finish.model_validate({"on": "trim", "paint": "white"}), PAINTS, ROOM, 12.0, METRIC
    )
    assert trim.trim is not None
    assert trim.trim.runs["baseboard"] == pytest.approx(14 - 0.8)


def test_rooms_are_summed_before_cans_are_chosen() -> None:
    """Two rooms of 5.75 L with 5 % in reserve are 12.07 L: five cans of 2.5 L, where three each would be six."""
    room = paint_room(PATH, _finish(), PAINTS, ROOM, 12.0, METRIC)
    answer = paint_job("white", PAINTS["white"], [room, room], METRIC)
    assert answer.with_reserve * 1000 == pytest.approx(2 * 31.6 * 2 / 11 * 1.05)
    assert [(can.size.text, n) for can, n in answer.cans.cans] == [("2.5 L", 5)]
    assert answer.cans.volume >= answer.with_reserve


@given(st.floats(0, 500), st.integers(1, 4), st.floats(3, 14), st.floats(0, 50))
def test_more_area_or_coats_never_take_less(area: float, coats: int, spread: float, more: float) -> None:
    """Volume grows with area and coats and falls with spread."""
    working = Working("x")

    def volume(a: float, c: int, s: float) -> float:
        return paint_volume(a, c, s * 1000, SAY, working)

    here = volume(area, coats, spread)
    assert volume(area + more, coats, spread) >= here
    assert volume(area, coats + 1, spread) >= here
    assert volume(area, coats, spread + 1) <= here
    assert here * spread * 1000 == pytest.approx(area * coats)


def test_out_of_range_is_refused() -> None:
    """No spread, no negative area."""
    for args in ((-1, 1, 1), (1, -1, 1), (1, 1, 0)):
        with pytest.raises(ValueError, match="paint cannot be counted"):
            paint_volume(*args, SAY, Working("x"))
