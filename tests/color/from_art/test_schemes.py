"""Three schemes from a picture: what each promises, in rooms drawn at random."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.from_art import ROLES, Place, color_schemes
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.lab import lab_of_srgb, lch_of_lab
from halfdrop.color.library import library_of_csv
from halfdrop.practice import load_practice
from tests.color.from_art.rooms import lab, library, living, picture

PRACTICE = load_practice("us")
SWATCHES = library()


def test_the_living_room_gets_three_schemes_that_belong() -> None:
    """Each gives every open place a swatch, keeps long-lived pieces neutral, runs from dark to light, and owes the picture most."""
    places = living()
    schemes = color_schemes(places, picture(), SWATCHES, PRACTICE)
    assert [scheme.style for scheme in schemes] == ["quiet", "balanced", "bold"]
    for scheme in schemes:
        assert set(scheme.colors) == {place.key for place in places if not place.kept}
        assert scheme.score["long-lived pieces neutral"].mark == 1
        assert scheme.score["undertones"].mark == 1
        assert scheme.score["dark below, light above"].mark == 1
        assert scheme.score["values"].mark == 1
        assert scheme.score["belongs to the picture"].mark >= 0.7
        assert scheme.score.total >= 70
        assert 0 <= scheme.gap < 0.2
        assert len(scheme.working().steps) == len(scheme.worn) + len(scheme.score.marks) + 2
    chroma = [lch_of_lab(scheme.colors["surfaces/walls"])[1] for scheme in schemes]
    assert chroma == sorted(chroma)


def test_three_schemes_have_three_walls() -> None:
    """Walls differ from scheme to scheme by a family, and a quarter of what is open does."""
    schemes = color_schemes(living(), picture(), SWATCHES, PRACTICE)
    apart = PRACTICE.number("color.family_apart")
    assert all(scheme.apart for scheme in schemes)
    for n, one in enumerate(schemes):
        for two in schemes[n + 1 :]:
            assert delta_e(one.colors["surfaces/walls"], two.colors["surfaces/walls"]) >= apart


def test_one_seed_one_answer() -> None:
    """The same seed gives the same schemes; another may give others, of nearly the same worth."""
    once = [s.to_json() for s in color_schemes(living(), picture(), SWATCHES, PRACTICE, seed=3)]
    again = [s.to_json() for s in color_schemes(living(), picture(), SWATCHES, PRACTICE, seed=3)]
    assert once == again
    best = color_schemes(living(), picture(), SWATCHES, PRACTICE)
    for one, other in zip(best, once, strict=True):
        assert abs(one.score.total - other["score"]["total"]) < 20


def test_a_poor_library_is_made_do_with() -> None:
    """Of three swatches each place gets one; how far off the tone it is, is said."""
    poor = library_of_csv("name,srgb\nRed,#ff0000\nWhite,#ffffff\nBlack,#000000\n")
    for scheme in color_schemes(living(), picture(), poor, PRACTICE):
        assert {one.swatch.name for one in scheme.worn} <= {"Red", "White", "Black"}
        assert max(one.off for one in scheme.worn) > 5


def test_nothing_to_color_and_nothing_to_start_from_are_refused() -> None:
    """A room whose colors all stay, a picture without colors, a library without swatches."""
    stays = [Place("a", "walls", 1.0, "walls", ((lab("#ffffff"), 1.0),))]
    with pytest.raises(InputError, match="nothing to give a color to"):
        color_schemes(stays, picture(), SWATCHES, PRACTICE)
    with pytest.raises(InputError, match="no colors to start from"):
        color_schemes(living(), [], SWATCHES, PRACTICE)
    with pytest.raises(InputError, match="no swatches"):
        color_schemes(living(), picture(), library_of_csv("name,srgb\n"), PRACTICE)


@st.composite
def _rooms(draw: st.DrawFn) -> tuple[list[Place], list[ArtColor]]:
    number = st.integers(0, 2**24 - 1)

    def some_lab() -> tuple[float, float, float]:
        code = draw(number)
        found = lab_of_srgb(np.array([code >> 16, code >> 8 & 255, code & 255]) / 255)
        return float(found[0]), float(found[1]), float(found[2])

    count = draw(st.integers(2, 7))
    places = [
        Place(
            f"p{n}", f"thing {n}", draw(st.floats(0.1, 40)), draw(st.sampled_from(ROLES)),
            ((some_lab(), 1.0),) if n and draw(st.booleans()) else (),
        )
        for n in range(count)
    ]  # fmt: skip
    art = [ArtColor(some_lab(), 1.0 / 3) for _ in range(3)]
    return places, art


@settings(max_examples=10, deadline=None)
@given(_rooms())
def test_whatever_the_room_every_open_place_gets_one_swatch_and_kept_ones_none(
    room: tuple[list[Place], list[ArtColor]],
) -> None:
    """Any picture, any room: three schemes, each complete; what stays stays; the order of the places changes nothing but their order."""
    places, art = room
    for scheme in color_schemes(places, art, SWATCHES, PRACTICE):
        assert set(scheme.colors) == {place.key for place in places if not place.kept}
        for one in scheme.worn:
            assert delta_e(one.swatch.lab, SWATCHES.swatches[one.row].lab) == 0
        assert 0 <= scheme.score.total <= 100
