"""What is seen at a window: rod ends, panels shut and drawn, hems over a floor that runs off, shades."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from halfdrop.drapery import AsHung, as_hung, cloth_of
from halfdrop.job.model import Job
from tests.drapery.homes import US, job, panels, resolved, window
from tests.drapery.tables import IN

LINEN = {"name": "linen", "width": "54 in"}


def _seen(treatment: dict[str, Any], opening: dict[str, Any] | None = None, **room: Any) -> AsHung:
    openings = room.pop("openings", None) or {"w": opening or window()}
    whole: Job = job({"r": {"openings": openings, "treatments": {"t": treatment}, **room}}, {"linen": LINEN})
    cloths = {i: cloth_of(i, f, US) for i, f in whole.fabrics.items()}
    hung = as_hung(resolved(whole)["r"], "t", cloths, US)
    assert hung is not None
    return hung


def test_what_is_given_is_as_found() -> None:
    """Rod ends, heights and the hem of a pair that hangs are those of the document; the panels meet in the middle."""
    hung = _seen(
        panels(
            fullness=1.5,
            drop="70 in",
            hardware={"height": "82 in", "left": "2 in", "right": "4 in", "drop": "1 in"},
        )
    )
    assert (hung.left / IN, hung.right / IN, hung.height / IN, hung.top / IN) == pytest.approx(
        (-2, 64, 82, 81)
    )
    assert [p.shut[0] / IN for p in hung.panels] == pytest.approx([-2, 31])
    assert hung.panels[1].shut[1] / IN == pytest.approx(64)
    assert [p.hem[0] / IN for p in hung.panels] == pytest.approx([11, 11])
    assert hung.fullness == 1.5
    assert hung.given == {"height", "left", "right", "drop", "fullness"}


def test_what_is_left_out_is_designed() -> None:
    """Without a word on hardware the rod clears the glass by its stack, and the hem is 3/8 in off the floor."""
    hung = _seen(panels())
    assert hung.given == frozenset()
    assert hung.fullness is None
    assert hung.panels[0].drawn[1] == pytest.approx(0.0, abs=1e-9)
    assert hung.panels[1].drawn[0] == pytest.approx(hung.run.width)
    assert hung.panels[0].hem[0] / IN == pytest.approx(0.375)


def test_the_gap_is_where_the_floor_falls_off() -> None:
    """A level hem over a floor 1 in lower at the right hangs 1 in farther off it there."""
    floor = {"left": "82 in", "center": "82 1/2 in", "right": "83 in"}
    hung = _seen(
        panels(
            drop="80 in", hardware={"height": "82 in", "left": "0", "right": "0"}, measured={"floor": floor}
        )
    )
    (left, _), (right, at) = (hung.gap(p) for p in hung.panels)
    assert (left / IN, right / IN, at / IN) == pytest.approx((2.5, 3.0, 60.0))


def test_cloth_made_for_the_floor_follows_it() -> None:
    """Where no drop is given each panel is cut to the floor below its edges: 3/8 in clear all along."""
    floor = {"left": "82 in", "center": "82 1/2 in", "right": "83 in"}
    hung = _seen(panels(hardware={"left": "0", "right": "0"}, measured={"floor": floor}))
    assert [hung.gap(p)[0] / IN for p in hung.panels] == pytest.approx([0.375, 0.375])


def test_widths_of_a_named_cloth_are_its_fullness() -> None:
    """Two widths of 54 in over a rod of 60 in with 6 in overlap and 8 in returns come to 108 ÷ 74."""
    hung = _seen(panels(widths=2, hardware={"left": "0", "right": "0", "overlap": "3 in", "returns": "4 in"}))
    assert hung.fullness == pytest.approx(108 / 74)
    assert hung.panels[0].flat == pytest.approx(54 * IN)


def test_fixed_panels_stay() -> None:
    """Panels that stay are as wide drawn as shut, one at each end of the rod."""
    hung = _seen(panels(draw="fixed", panel="20 in", hardware={"left": "6 in", "right": "6 in"}))
    assert [p.shut for p in hung.panels] == [p.drawn for p in hung.panels]
    assert [p.shut[0] / IN for p in hung.panels] == pytest.approx([-6, 46])


@pytest.mark.parametrize(("side", "edges"), [("left", (-6, 14)), ("right", (46, 66))])
def test_one_fixed_panel_hangs_at_its_side(side: str, edges: tuple[float, float]) -> None:
    """A side names the end of the rod where the one panel hangs, 20 in wide, drawn as shut."""
    hung = _seen(panels(draw="fixed", side=side, panel="20 in", hardware={"left": "6 in", "right": "6 in"}))
    (panel,) = hung.panels
    assert panel.shut == panel.drawn
    assert [x / IN for x in panel.shut] == pytest.approx(edges)


def test_a_roman_inside_takes_the_smallest_width() -> None:
    """Taped 60, 59 13/16 and 59 7/8 in, a roman is 59 3/4 in wide; lowered it ends at the sill, raised it is a few folds."""
    taped = {"top": "60 in", "middle": "59 13/16 in", "bottom": "59 7/8 in"}
    shade = _seen({"kind": "roman", "openings": "w", "mount": "inside", "measured": {"width": taped}}).panels[
        0
    ]
    assert (shade.shut[1] - shade.shut[0]) / IN == pytest.approx(59.75)
    assert shade.hem[0] / IN == pytest.approx(24)
    assert shade.raised is not None
    assert 24 * IN < shade.raised < 80 * IN


@pytest.mark.parametrize("round_", ["counterclockwise", "clockwise"])
def test_a_point_of_the_run_lies_on_its_wall(round_: str) -> None:
    """Left edge, right edge and the plan agree, whichever way the room was walked."""
    from tests.drapery.homes import PLAIN

    hung = _seen(panels(), survey={**PLAIN["survey"], "round": round_})
    wall = hung.run.walls[0]
    assert np.allclose(wall.off(np.array((hung.at(0.0), hung.center))), 0.0)
    edges = sorted(float(wall.along(hung.at(x))) / IN for x in (0.0, hung.run.width))
    assert edges == pytest.approx([72, 132], abs=0.02)


def test_nothing_is_said_without_a_height() -> None:
    """Neither ceiling nor rod height taped: nothing is seen, and nothing is made up."""
    from tests.drapery.homes import PLAIN

    survey = {k: v for k, v in PLAIN["survey"].items() if k != "heights"}
    whole = job(
        {"r": {"survey": survey, "openings": {"w": window()}, "treatments": {"t": panels()}}},
        {"linen": LINEN},
    )
    assert as_hung(resolved(whole)["r"], "t", {}, US) is None
