"""Wire, rings and hooks: geometry by the published rows, and by statics worked out apart."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.art import (
    Hang,
    HookPoint,
    Rect,
    hook_points,
    hooks_wanted,
    length_for,
    one_hook,
    spacing_wanted,
    taut_wire,
    tension_of,
    two_hooks,
    two_numbers,
    two_rings,
)
from halfdrop.base.errors import InputError
from halfdrop.practice import load_practice
from tests.walls.published import rows

US, METRIC = load_practice("us"), load_practice("metric")
IN = 0.0254

#: A frame, its hangers and its wire: width, hangers as a share of it, wire over hangers, height.
FRAMES = st.tuples(st.floats(0.2, 2.0), st.floats(0.4, 0.95), st.floats(1.01, 1.6), st.floats(0.6, 2.0))


def _hang(frame: tuple[float, float, float, float], share: float | None) -> tuple[Hang, float, float, float]:
    """Hang a frame whose hangers are as low as its wire wants; share is the hooks' spacing over the hangers'."""
    width, part, longer, height = frame
    hangers = width * part
    length = hangers * longer
    down = min(length, height * 0.9)
    if share is None:
        return one_hook(height, down, hangers, length, US), down, hangers, length
    return two_hooks(height, down, hangers, length, hangers * share, US), down, hangers, length


@pytest.mark.parametrize("row", rows("art_wire.csv"), ids=lambda row: row["case"])
def test_the_published_rows_come_out_to_the_printed_digit(row: dict[str, str]) -> None:
    """The worked hook is at 65.359 in with 1.147 of the weight in its wire; the multiples by angle are as printed."""
    if not row["length"]:
        assert f"{tension_of(math.radians(float(row['angle']))):.3f}" == row["tension"]
        return
    values = {k: float(row[k]) * IN for k in ("center", "frame_height", "down", "hangers", "length")}
    found = one_hook(values["frame_height"], values["down"], values["hangers"], values["length"], US)
    assert f"{found.drop / IN:.3f}" == row["drop"]
    assert found.angle is not None
    assert f"{math.degrees(found.angle):.2f}" == row["angle"]
    assert f"{found.tension:.3f}" == row["tension"]
    hook = values["center"] + values["frame_height"] / 2 - found.drop
    assert f"{hook / IN:.3f}" == row["hook"]


@given(FRAMES, st.one_of(st.none(), st.floats(0.1, 0.8)))
def test_the_forces_on_frame_and_hooks_are_in_balance(
    frame: tuple[float, float, float, float], share: float | None
) -> None:
    """Forces from the wire's true directions lift exactly the weight, turn nothing, and pull each hook as said."""
    try:
        hang, down, hangers, length = _hang(frame, share)
    except InputError:
        return
    assert hang.tension is not None
    hooks = [np.array((x, -hang.drop)) for x in hang.offsets]
    ends = [np.array((-hangers / 2, -down)), np.array((hangers / 2, -down))]
    path = [ends[0], *hooks, ends[1]]
    assert sum(float(np.linalg.norm(b - a)) for a, b in pairwise(path)) == pytest.approx(length)
    up = [
        (hook - end) / np.linalg.norm(hook - end) * hang.tension
        for hook, end in zip((hooks[0], hooks[-1]), ends, strict=True)
    ]
    assert sum(up) == pytest.approx(np.array((0.0, 1.0)), abs=1e-9)
    turn = sum(float(e[0] * f[1] - (e[1] + down) * f[0]) for e, f in zip(ends, up, strict=True))
    assert turn == pytest.approx(0.0, abs=1e-9)
    on_hook = -up[0]
    if len(hooks) == 2:
        on_hook = on_hook + np.array((hang.tension, 0.0))
        assert -on_hook[1] == pytest.approx(0.5)
    else:
        on_hook = on_hook - up[1]
    assert float(np.linalg.norm(on_hook)) == pytest.approx(hang.pull)


@given(FRAMES)
def test_the_frame_hangs_at_its_lowest(frame: tuple[float, float, float, float]) -> None:
    """Of all places on the wire where the hook could bear, the middle is where the frame hangs lowest: it stays there."""
    try:
        hang, down, hangers, length = _hang(frame, None)
    except InputError:
        return
    t = np.linspace(0.05, math.pi - 0.05, 401)
    across, rise = length / 2 * np.cos(t), math.sqrt((length / 2) ** 2 - (hangers / 2) ** 2) * np.sin(t)
    assert np.hypot(across - hangers / 2, rise) + np.hypot(across + hangers / 2, rise) == pytest.approx(
        length
    )
    assert float((down - rise).min()) == pytest.approx(hang.drop)
    assert abs(float(across[np.argmax(rise)])) < 0.01 * length


@given(FRAMES, st.floats(1.001, 1.3))
def test_a_longer_wire_pulls_less_and_a_flatter_angle_more(
    frame: tuple[float, float, float, float], longer: float
) -> None:
    """Tension falls as the wire grows, rises as it flattens; so does the drop fall."""
    width, part, ratio, _ = frame
    hangers, length = width * part, width * part * ratio
    short = one_hook(9.0, 4.0, hangers, length, US)
    long = one_hook(9.0, 4.0, hangers, length * longer, US)
    assert short.tension is not None
    assert long.tension is not None
    assert long.tension < short.tension
    assert long.drop < short.drop
    assert tension_of(math.radians(20)) > tension_of(math.radians(20.1))


@given(FRAMES, st.one_of(st.none(), st.floats(0.1, 0.8)), st.floats(0.5, 5.0), st.floats(1.0, 2.0))
def test_no_hook_stands_outside_its_frame_and_mirroring_mirrors_them(
    frame: tuple[float, float, float, float], share: float | None, x: float, y: float
) -> None:
    """Whatever the wire: hooks are behind the frame, or it is refused; the mirrored wall has them mirrored."""
    width, height = frame[0], frame[3]
    try:
        hang = _hang(frame, share)[0]
    except InputError:
        return
    rect = Rect.about((x, y), width, height)
    points = hook_points("work", rect, hang)
    assert all(rect.x0 < p.x < rect.x1 and rect.y0 < p.y <= rect.y1 for p in points)
    seen = hook_points("work", rect.mirrored(3.0), hang)
    assert [6.0 - p.x for p in reversed(seen)] == pytest.approx([p.x for p in points])
    assert [p.y for p in seen] == pytest.approx([p.y for p in points])
    right, _ = two_numbers(seen, US, edge="right", wall=6.0)
    left, _ = two_numbers(points, US)
    assert [n.said_edge for n in right][::-1] == [n.said_edge for n in left]


@given(FRAMES, st.floats(math.radians(5), math.radians(80)), st.floats(0.05, 0.7))
def test_the_wire_for_an_angle_stands_at_it(
    frame: tuple[float, float, float, float], angle: float, share: float
) -> None:
    """The length offered for an angle gives that angle back, with one hook and with two."""
    hangers = frame[0]
    assert one_hook(99.0, 50.0, hangers, length_for(angle, hangers), US).angle == pytest.approx(angle)
    c = share * hangers
    assert two_hooks(99.0, 50.0, hangers, length_for(angle, hangers, c), c, US).angle == pytest.approx(angle)


def test_two_hooks_closing_up_become_one() -> None:
    """With the hooks a hair apart the drop is that of one hook, and each carries half."""
    one, two = one_hook(1.0, 0.3, 0.5, 0.6, US), two_hooks(1.0, 0.3, 0.5, 0.6, 1e-9, US)
    assert two.drop == pytest.approx(one.drop)
    assert two.tension == pytest.approx(one.tension)


def test_what_cannot_hang_is_refused_and_what_shows_is_said() -> None:
    """A wire shorter than its span, a hook over the frame, hooks outside the hangers; a wire near the top is noted."""
    with pytest.raises(InputError, match="20 in long between hangers 20 in apart; it has to be longer"):
        one_hook(0.6, 0.2, 20 * IN, 20 * IN, US)
    with pytest.raises(InputError, match="above the top of a frame"):
        one_hook(0.6, 0.05, 0.4, 0.6, US)
    with pytest.raises(InputError, match="hooks stand closer than hangers"):
        two_hooks(0.6, 0.2, 0.4, 0.5, 0.4, US)
    with pytest.raises(InputError, match="they have to be on the frame"):
        two_rings(0.6, 0.5, 0.1, 0.6, US)
    with pytest.raises(InputError, match=r"allowed is 0\.5° to 90°"):
        tension_of(0.0)
    assert taut_wire(0.6, 0.5, 0.01, US).notes[0].endswith("wanted ½ in, or the hook shows.")
    assert len(taut_wire(0.6, 0.5, 0.0127, US).notes) == 1


def test_one_hook_or_two() -> None:
    """Two from 18 in wide or 20 lb on, a millimeter less is one; 0.4 of the width apart."""
    assert hooks_wanted(18 * IN, 1.0, US) == 2
    assert hooks_wanted(18 * IN - 0.001, 1.0, US) == 1
    assert hooks_wanted(0.3, 20 * 0.45359237, US) == 2
    assert spacing_wanted(0.5, US) == pytest.approx(0.2)


@given(st.floats(0.0, 9.0), st.floats(0.0, 3.0))
def test_the_two_numbers_are_to_a_sixteenth(x: float, y: float) -> None:
    """What is printed is within half a sixteenth (or half a millimeter) of the truth, and a whole count of them."""
    for practice, step in ((US, IN / 16), (METRIC, 0.001)):
        (one,), working = two_numbers((HookPoint("a", x, y),), practice)
        for printed, true in ((one.from_edge, x), (one.from_floor, y)):
            assert abs(printed - true) <= step / 2 + 1e-9
            assert printed / step == pytest.approx(round(printed / step), abs=1e-6)
        assert working.steps[0].result == f"{one.said_edge}; {one.said_floor}"


def test_the_right_end_needs_its_wall() -> None:
    """Numbers from the right are the wall less those from the left, and refused without a wall."""
    point = (HookPoint("a", 60 * IN, 65.359 * IN),)
    (one,), _ = two_numbers(point, US, edge="right", wall=144 * IN)
    assert (one.said_edge, one.said_floor) == ("84 in", "65⅜ in")
    with pytest.raises(InputError, match="need the width of the wall"):
        two_numbers(point, US, edge="right")
