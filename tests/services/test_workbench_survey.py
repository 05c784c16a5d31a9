"""The sketch of a walk that is under way."""

from __future__ import annotations

import pytest

from halfdrop.job.model import Survey
from halfdrop.services.workbench_survey import walk_sketch


def _survey(**more: object) -> Survey:
    return Survey.model_validate({"corners": ["A", "B", "C", "D"], "walls": {}, **more})


def test_a_walk_begins_at_its_first_corner() -> None:
    """Nothing taped: only A is known."""
    assert walk_sketch(_survey()) == {"closed": False, "corners": [{"id": "A", "at": [0.0, 0.0]}]}


def test_corners_without_an_angle_are_drawn_square() -> None:
    """AB and BC taped: C lies square off B."""
    sketch = walk_sketch(_survey(walls={"AB": "4 m", "BC": "3 m"}))
    assert [c["at"] for c in sketch["corners"]] == [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0]]
    assert not sketch["closed"]


def test_a_walk_stops_at_the_first_gap() -> None:
    """CD is taped, BC is not: D cannot be drawn yet."""
    sketch = walk_sketch(_survey(walls={"AB": "4 m", "CD": "4 m"}))
    assert [c["id"] for c in sketch["corners"]] == ["A", "B"]


def test_a_measured_angle_is_kept() -> None:
    """135 degrees at B: the next wall runs off at 45."""
    sketch = walk_sketch(_survey(walls={"AB": "4 m", "BC": "1 m"}, angles={"B": "135°"}))
    assert sketch["corners"][2]["at"] == pytest.approx([4 + 0.5**0.5, 0.5**0.5], abs=1e-5)


def test_clockwise_walks_are_mirrored() -> None:
    """Walked clockwise, the room lies on the other hand, and the frame mirrors x as the survey does."""
    sketch = walk_sketch(_survey(walls={"AB": "4 m", "BC": "3 m"}, round="clockwise"))
    assert [c["at"] for c in sketch["corners"]] == [[0.0, 0.0], [-4.0, 0.0], [-4.0, 3.0]]


def test_every_wall_taped_closes_the_sketch() -> None:
    """Four walls and no tie: the likeliest outline is drawn, though nothing holds its angles."""
    sketch = walk_sketch(_survey(walls={"AB": "4 m", "BC": "3 m", "CD": "4 m", "DA": "3 m"}))
    assert sketch["closed"]
    assert sketch["corners"][2]["at"] == pytest.approx([4, 3], abs=0.01)
