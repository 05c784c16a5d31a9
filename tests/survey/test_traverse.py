"""A closed loop and the compass rule."""

from __future__ import annotations

import math

import pytest

from halfdrop.base.errors import InputError
from halfdrop.survey.traverse import Leg, close_traverse

from .rooms import table


def test_the_worked_loop_closes_as_published() -> None:
    """Four legs at right angles: misclosure, ratio and each leg's correction, to the printed digit."""
    rows = table("survey_traverse.csv")
    legs = [
        Leg(r["name"], math.radians(float(r["value"])), float(r["second"]))
        for r in rows
        if r["what"] == "leg"
    ]
    result = close_traverse(legs)
    got = {"ex": result.ex, "ey": result.ey, "e": result.error, "perimeter": result.perimeter}
    shares = {name: (dx, dy) for name, dx, dy in result.corrections}
    for row in rows:
        if row["what"] in got:
            assert round(got[row["what"]], int(row["places"])) == float(row["value"])
        elif row["what"] == "correction":
            printed = (float(row["value"]), float(row["second"]))
            assert shares[row["name"]] == pytest.approx(printed, abs=0.5001e-3)
    assert round(result.ratio) == 2130
    assert len(shares) == 4


def test_the_corrected_corners_close() -> None:
    """The corrections add up to the misclosure taken back, so the corrected loop ends where it began."""
    legs = [Leg("AB", 1.6, 4.51), Leg("BC", 0.0, 3.6), Leg("CA", 3.9, 5.8)]
    result = close_traverse(legs)
    assert math.fsum(c[1] for c in result.corrections) == pytest.approx(-result.ex, abs=1e-12)
    assert math.fsum(c[2] for c in result.corrections) == pytest.approx(-result.ey, abs=1e-12)
    assert result.points[0] == (0.0, 0.0)


def test_two_legs_are_no_loop() -> None:
    """A loop has three legs or more, each longer than nothing."""
    with pytest.raises(InputError, match="at least 3"):
        close_traverse([Leg("AB", 0.0, 1.0), Leg("BA", math.pi, 1.0)])
    with pytest.raises(InputError, match="leg BC is 0 m long"):
        close_traverse([Leg("AB", 0.0, 1.0), Leg("BC", math.pi, 0.0), Leg("CA", 2.0, 1.0)])
