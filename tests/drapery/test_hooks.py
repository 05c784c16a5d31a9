"""Hooks of a panel."""

from __future__ import annotations

import pytest

from halfdrop.base.errors import InputError
from halfdrop.drapery.hooks import hooks_for
from halfdrop.drapery.pleats import pleats_spaced
from halfdrop.practice import load_practice

US = load_practice("us")


def test_a_pleated_panel_has_a_hook_behind_each_pleat_and_at_both_edges() -> None:
    """Overlap and return stand flat, so the two edges carry hooks of their own."""
    pleats = pleats_spaced(2.6, 1.19, US, overlap=0.0762, returns=0.1397)
    hooks = hooks_for("double pinch", 1.19, US, pleats=pleats)
    assert len(hooks.at) == len(pleats.pleats) + 2
    assert hooks.at[0] == 0.0
    assert hooks.at[1] == pytest.approx(pleats.overlap / 1000)
    assert hooks.at[-1] == pytest.approx(pleats.finished / 1000)
    assert list(hooks.at) == sorted(hooks.at)


def test_a_pleat_at_the_very_edge_shares_its_hook() -> None:
    """Without overlap and return the first and last pleat stand at the edges: no second hook there."""
    pleats = pleats_spaced(2.6, 1.19, US)
    assert len(hooks_for("triple pinch", 1.19, US, pleats=pleats).at) == len(pleats.pleats)


def test_a_tape_takes_hooks_evenly_no_farther_apart_than_practice() -> None:
    """47 in of pencil heading at 3 in: 16 spaces, 17 hooks, the last at the edge."""
    hooks = hooks_for("pencil", 47 * 0.0254, US)
    assert len(hooks.at) == 17
    assert hooks.at[-1] == pytest.approx(47 * 0.0254)
    assert max(b - a for a, b in zip(hooks.at, hooks.at[1:], strict=False)) <= 3 * 0.0254 + 1e-9


@pytest.mark.parametrize("heading", ["eyelet", "tab", "rod pocket", "wave"])
def test_what_rides_on_the_rod_takes_none_and_says_why(heading: str) -> None:
    """Eyelets, tabs, pockets and waves have no hooks to count."""
    hooks = hooks_for(heading, 1.0, US)  # type: ignore[arg-type]
    assert hooks.at == ()
    assert hooks.what


def test_a_panel_without_width_is_refused() -> None:
    """Nothing to hang takes no hooks."""
    with pytest.raises(InputError):
        hooks_for("pencil", 0.0, US)
