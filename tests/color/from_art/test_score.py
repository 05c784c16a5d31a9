"""The marks of a scheme: each measure at its best, and at a fault made on purpose."""

from __future__ import annotations

import pytest

from halfdrop.color.areas import ColorArea
from halfdrop.color.from_art import Place
from halfdrop.color.from_art.score import areas_of, room_marks, score
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.practice import load_practice
from tests.color.from_art.rooms import lab

PRACTICE = load_practice("us")
ART = (ArtColor(lab("#7a8b6f"), 0.7), ArtColor(lab("#2f4858"), 0.3))
PLACES = (
    Place("walls", "walls", 60.0, "walls"),
    Place("sofa", "sofa", 30.0, "large"),
    Place("cushion", "cushion", 10.0, "small"),
    Place("floor", "floor", 1e-6, "floor", ((lab("#6b5236"), 1.0),)),
)
GOOD = {"walls": lab("#e4e6df"), "sofa": lab("#8b8f84"), "cushion": lab("#2f4858")}


def test_a_room_by_the_book_has_full_marks_for_it() -> None:
    """Sixty, thirty and ten; a light and a dark; a neutral sofa; walls over the floor: nothing off."""
    found = score(PLACES, GOOD, ART, PRACTICE)
    assert found["proportions"].mark == pytest.approx(1, abs=1e-6)
    assert found["proportions"].measured == "60 / 30 / 10"
    for name in ("values", "undertones", "dark below, light above", "long-lived pieces neutral"):
        assert found[name].mark == 1, name


@pytest.mark.parametrize(
    ("key", "color", "name"),
    [
        ("cushion", "#8b8f84", "values"),
        ("cushion", "#8b8f84", "belongs to the picture"),
        ("sofa", "#d9a03f", "long-lived pieces neutral"),
        ("walls", "#3a2c1c", "dark below, light above"),
        ("sofa", "#e4e6df", "proportions"),
    ],
)
def test_a_fault_made_on_purpose_costs_its_mark(key: str, color: str, name: str) -> None:
    """No dark, a color of the picture gone, a loud sofa, walls darker than the floor, two places in one family."""
    worse = score(PLACES, {**GOOD, key: lab(color)}, ART, PRACTICE)
    assert worse[name].mark < score(PLACES, GOOD, ART, PRACTICE)[name].mark


def test_the_total_is_the_mean_and_what_stays_counts() -> None:
    """Each mark weighs alike; a place that keeps two colors counts as both by their shares."""
    found = score(PLACES, GOOD, ART, PRACTICE)
    assert found.total == pytest.approx(100 * sum(m.mark for m in found.marks) / len(found.marks))
    rug = Place("rug", "rug", 10.0, "medium", ((lab("#8a3030"), 0.6), (lab("#d8c8a0"), 0.4)))
    assert [area.area for area in areas_of([rug], {})] == pytest.approx([6, 4])


def test_marks_do_not_change_with_the_unit_of_area() -> None:
    """In square feet or meters the marks of a room are the same."""
    areas = [ColorArea(p.what, GOOD[p.key], p.area) for p in PLACES if p.key in GOOD]
    feet = [ColorArea(a.what, a.lab, a.area * 10.7639) for a in areas]
    assert [m.mark for m in room_marks(areas, PRACTICE)] == pytest.approx(
        [m.mark for m in room_marks(feet, PRACTICE)]
    )
