"""colour-science as the independent reference for what is our own."""

from __future__ import annotations

import numpy as np

from halfdrop.color.adapt import adapted
from halfdrop.color.lab import lab_of_xyz, xyz_of_lab
from halfdrop.color.science import science
from halfdrop.color.srgb import xyz_of_srgb
from halfdrop.color.white import D65, white_point

RGB = np.random.default_rng(7).random((5000, 3))


def test_srgb_to_xyz_agrees() -> None:
    """To 1 in 2000 of white: it uses the four-digit matrix that the standard prints, ours is derived."""
    assert np.abs(xyz_of_srgb(RGB) - 100 * science().sRGB_to_XYZ(RGB)).max() < 0.05


def test_lab_agrees() -> None:
    """Lab both ways, against the same white, to ten digits."""
    xyz = xyz_of_srgb(RGB)
    xy = D65[:2] / D65.sum()
    theirs = science().XYZ_to_Lab(xyz / 100, xy)
    assert np.abs(lab_of_xyz(xyz) - theirs).max() < 1e-9
    assert np.abs(xyz_of_lab(theirs) - 100 * science().Lab_to_XYZ(theirs, xy)).max() < 1e-9


def test_adaptation_agrees() -> None:
    """CAT16 and Bradford from incandescent to daylight, to eight digits."""
    xyz = xyz_of_srgb(RGB)
    for ours, theirs in (("CAT16", "CAT16"), ("Bradford", "Bradford")):
        expected = science().adaptation.chromatic_adaptation_VonKries(
            xyz, white_point("A"), D65, transform=theirs
        )
        assert np.abs(adapted(xyz, white_point("A"), transform=ours) - expected).max() < 1e-6  # type: ignore[arg-type]
