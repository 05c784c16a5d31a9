"""Headings to the millimeter."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.drapery.pleats import eyelets, pleats_equal, pleats_spaced
from halfdrop.drapery.pleats.share import shared
from tests.drapery.tables import IN, METRIC, US, rows


@pytest.mark.parametrize("row", rows("pleats"), ids=lambda row: f"{row['pleats']} pleats")
def test_goblets_as_wide_as_their_spaces(row: dict[str, str]) -> None:
    """50 in and 9 pleats: 5.56, marked 5½, ½ in left over, 5½ in to a pleat at a fullness of 2; to the printed digit."""
    answer = pleats_equal(float(row["finished"]) * IN, int(row["pleats"]), US)
    assert f"{answer.exact / IN:.2f}" == row["space_exact"]
    assert answer.space / IN == pytest.approx(float(row["space"]))
    assert answer.lost / IN == pytest.approx(float(row["lost"]))
    assert answer.pleat / IN == pytest.approx(float(row["pleat_at_fullness_2"]))


def test_a_panel_is_spaced_from_overlap_to_return() -> None:
    """1200 mm finished with 80 overlap and 100 return, 2600 flat: ten spaces of 102, eleven pleats of 127 or 128."""
    answer = pleats_spaced(2.6, 1.2, METRIC, overlap=0.08, returns=0.1)
    assert len(answer.spaces) == 10
    assert set(answer.spaces) == {102}
    assert set(answer.pleats) == {127, 128}
    assert (answer.finished, answer.flat) == (1200, 2600)
    assert answer.fullness == pytest.approx(2.6 / 1.2)


@given(st.integers(300, 6000), st.floats(1.2, 3.5), st.integers(0, 120), st.integers(0, 160))
def test_pleats_and_spaces_add_up_to_the_millimeter(
    finished: int, full: float, overlap: int, returns: int
) -> None:
    """All parts together are the flat width and the finished width; parts alike differ by 1 mm at most."""
    flat = round(finished * full)
    answer = pleats_spaced(
        flat / 1000, finished / 1000, METRIC, overlap=overlap / 1000, returns=returns / 1000
    )
    assert (answer.finished, answer.flat) == (finished, flat)
    assert len(answer.pleats) == len(answer.spaces) + 1
    for parts in (answer.pleats, answer.spaces):
        assert max(parts) - min(parts) <= 1


@given(st.integers(300, 8000))
def test_eyelets_are_even_and_meet_the_edges_by_halves(flat: int) -> None:
    """An even count, ends half a space from the edges, spaces alike to 2 mm."""
    at = eyelets(flat / 1000, METRIC).at
    assert len(at) % 2 == 0
    spaces = [b - a for a, b in pairwise(at)]
    assert max(spaces) - min(spaces) <= 2
    assert abs(at[0] - (flat - at[-1])) <= 1
    assert abs(2 * at[0] - flat / len(at)) <= 2


@given(st.integers(0, 10000), st.integers(1, 60))
def test_what_is_shared_is_all_of_it(total: int, parts: int) -> None:
    """Nothing is lost, no part is more than 1 larger."""
    found = shared(total, parts)
    assert sum(found) == total
    assert len(found) == parts
    assert max(found) - min(found) <= 1


@pytest.mark.parametrize(
    ("flat", "finished", "ends", "pleats", "word"),
    [
        (2.0, 1.0, 0.6, None, "nothing is left"),
        (1.0, 1.0, 0.0, None, "leaves none"),
        (2.0, 1.0, 0.0, 1, "no space"),
    ],
)
def test_what_cannot_be_pleated_is_refused(
    flat: float, finished: float, ends: float, pleats: int | None, word: str
) -> None:
    """Only overlap and return; no cloth over; one pleat."""
    with pytest.raises(InputError, match=word):
        pleats_spaced(flat, finished, METRIC, overlap=ends, returns=ends, pleats=pleats)
