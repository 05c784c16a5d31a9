"""What was white in a photograph."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image

from halfdrop.base.errors import InputError
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.lab import lab_of_xyz
from halfdrop.color.picture import Picture, picture_of_bytes
from halfdrop.color.reference_white import Patch, as_recorded, estimated_white, under_daylight, white_of_patch
from tests.color.pictures import blocks, encoded


def _cast(gains: tuple[float, float, float], noise: float = 2.0) -> Picture:
    """Return the blocks with a color cast."""
    values = np.asarray(blocks(800, 600, noise), dtype=float) * gains
    return picture_of_bytes(encoded(Image.fromarray(values.clip(0, 255).astype(np.uint8))))


WALL = Patch(10, 10, 60, 60)


def test_a_patch_pointed_out_comes_out_neutral_and_takes_the_cast_off() -> None:
    """Under a warm cast the wall is made neutral by its patch; given the card's own value it is as light as that."""
    picture = _cast((1.0, 0.88, 0.70))
    white = white_of_patch(picture, WALL)
    wall = np.median(lab_of_xyz(under_daylight(picture, white))[2:30, 2:30].reshape(-1, 3), axis=0)
    assert white.how == "given"
    assert white.shifts > 5
    assert np.hypot(wall[1], wall[2]) < 0.5
    card = white_of_patch(picture, Patch(10, 10, 60, 60, lrv=70.0))
    wall = np.median(under_daylight(picture, card)[2:30, 2:30].reshape(-1, 3), axis=0)
    assert wall[1] == pytest.approx(70, abs=0.1)


def test_an_estimate_says_so_and_finds_the_wall() -> None:
    """A slight cast on a pale wall is found within 2 (CIEDE2000) of the patch pointed out."""
    picture = _cast((1.0, 0.98, 0.95))
    guess, known = estimated_white(picture), white_of_patch(picture, WALL)
    assert guess.how == "estimated"
    assert "estimate" in guess.why
    assert float(delta_e(lab_of_xyz(guess.xyz), lab_of_xyz(known.xyz))) < 2


@pytest.mark.parametrize("color", [(200, 120, 40), (40, 42, 45), (255, 255, 255)])
def test_where_nothing_is_near_white_nothing_is_changed(color: tuple[int, int, int]) -> None:
    """All orange, all dark, all burnt out: as recorded, and why."""
    white = estimated_white(picture_of_bytes(encoded(Image.new("RGB", (50, 50), color))))
    assert white.how == "as recorded"
    assert white.shifts == 0
    assert white.why


def test_as_recorded_changes_nothing() -> None:
    """The picture's own XYZ comes back."""
    picture = _cast((1, 1, 1))
    assert as_recorded().shifts == 0
    assert np.isfinite(under_daylight(picture, as_recorded())).all()


@pytest.mark.parametrize(
    ("patch", "fault"),
    [
        (Patch(-1, 0, 10, 10), "lies outside"), (Patch(0, 0, 0, 10), "lies outside"), (Patch(795, 0, 10, 10), "lies outside"),
        (Patch(0, 0, 10, 10, lrv=0), "allowed is above 0"), (Patch(0, 0, 10, 10, lrv=101), "allowed is above 0"),
    ],
)  # fmt: skip
def test_a_patch_that_cannot_be_is_refused(patch: Patch, fault: str) -> None:
    """Outside the picture, empty, or lighter than white."""
    with pytest.raises(InputError, match=fault):
        white_of_patch(_cast((1, 1, 1)), patch)


def test_a_patch_that_tells_nothing_is_refused() -> None:
    """Burnt out, or too dark."""
    for level, fault in ((255, "burnt out"), (20, "too dark")):
        picture = picture_of_bytes(encoded(Image.new("RGB", (50, 50), (level, level, level))))
        with pytest.raises(InputError, match=fault):
            white_of_patch(picture, Patch(5, 5, 20, 20))
    one = picture_of_bytes(encoded(Image.new("RGB", (4000, 3000), (180, 170, 160))))
    assert white_of_patch(one, Patch(7, 7, 1, 1)).how == "given"
