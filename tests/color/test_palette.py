"""Palettes of pictures."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from PIL import Image

from halfdrop.base.errors import InputError
from halfdrop.cli.commands.palette import palette as command
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.lab import lab_of_srgb
from halfdrop.color.palette import Palette, palette
from halfdrop.color.picture import picture_of_bytes
from tests.color.pictures import BLOCKS, blocks, encoded


def _of(image: Image.Image, **more: object) -> Palette:
    return palette(picture_of_bytes(encoded(image)), recorded=True, **more)  # type: ignore[arg-type]


def _alike(one: Palette, two: Palette, color: float, share: float) -> bool:
    """Return whether two palettes have the same colors in the same order, within tolerances."""
    if len(one.colors) != len(two.colors):
        return False
    pairs = zip(one.colors, two.colors, strict=True)
    return all(float(delta_e(a.lab, b.lab)) < color and abs(a.share - b.share) < share for a, b in pairs)


WHOLE = _of(blocks())


def test_the_blocks_come_out_with_their_shares() -> None:
    """Four blocks with noise: each color within 1.5 (CIEDE2000), each share within one point; shares add to 1."""
    assert len(WHOLE.colors) == 4
    for found, (srgb, share) in zip(WHOLE.colors, BLOCKS, strict=True):
        assert float(delta_e(found.lab, lab_of_srgb(np.array(srgb) / 255))) < 1.5
        assert found.share == pytest.approx(share, abs=0.01)
    assert sum(c.share for c in WHOLE.colors) == pytest.approx(1)


@pytest.mark.parametrize("size", [(1200, 900), (800, 600), (517, 388), (300, 225)])
def test_resizing_changes_next_to_nothing(size: tuple[int, int]) -> None:
    """From 1600 to 300 pixels wide: the same colors within 1, the same shares within a point and a half."""
    assert _alike(WHOLE, _of(blocks(*size)), 1.0, 0.015)


@pytest.mark.parametrize("turn", list(Image.Transpose))
def test_turning_and_mirroring_change_nothing(turn: Image.Transpose) -> None:
    """All eight ways of laying it."""
    assert _alike(WHOLE, _of(blocks().transpose(turn)), 0.05, 0.001)


def test_the_same_picture_gives_the_same_bytes() -> None:
    """Nothing is drawn at random."""
    assert json.dumps(_of(blocks()).to_json()) == json.dumps(WHOLE.to_json())


def test_colors_are_as_many_and_as_far_apart_as_asked() -> None:
    """Of a smooth run of hues: at most so many, and none nearer than asked; one color is the mean."""
    hues = np.zeros((60, 360, 3), dtype=np.uint8)
    hues[..., 0], hues[..., 1], hues[..., 2] = np.linspace(0, 255, 360), 140, 180
    image = Image.fromarray(hues)
    for most, apart in ((8, 8.0), (3, 8.0), (24, 20.0), (1, 0.0)):
        labs = np.array([c.lab for c in _of(image, most=most, apart=apart).colors])
        assert 1 <= len(labs) <= most
        between = delta_e(labs[:, None], labs[None])[np.triu_indices(len(labs), 1)]
        assert (between >= apart).all()
    with pytest.raises(InputError, match="allowed is 1 to 24"):
        _of(image, most=0)


def test_a_plain_picture_is_one_color() -> None:
    """One color, the whole of it."""
    (only,) = _of(Image.new("RGB", (64, 48), (138, 154, 91))).colors
    assert (only.hex, only.share) == ("#8a9a5b", 1.0)


def test_the_command_prints_colors_and_says_what_was_white(tmp_path: Path) -> None:
    """A table for people, one JSON document with --json, a patch with --white; wrong options are told."""
    path = tmp_path / "room.png"
    blocks(800, 600).save(path)
    run = CliRunner().invoke
    table = run(command, [str(path)])
    assert table.exit_code == 0
    assert "estimated" in table.output
    assert table.output.count("#") == 4
    found = json.loads(run(command, [str(path), "--white", "10,10,60,60", "--lrv", "70", "--json"]).stdout)
    assert found["white"]["how"] == "given"
    assert len(found["colors"]) == 4
    assert (
        json.loads(run(command, [str(path), "--as-recorded", "--json"]).stdout)["white"]["how"]
        == "as recorded"
    )
    for wrong in (["--white", "1,2,3"], ["--lrv", "18"], ["--white", "1,2,3,4", "--as-recorded"]):
        assert run(command, [str(path), *wrong]).exit_code == 2
