"""How a document's work hangs: its back, its mass, its hooks inside its frame."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.art.rect import Rect
from halfdrop.art.setting_out import hook_points
from halfdrop.art.way import Back, back_of, mass_of, way_of
from halfdrop.art.work import Work
from halfdrop.base.errors import InputError
from halfdrop.job.art import Art
from halfdrop.practice import load_practice

US = load_practice("us")


def _art(**more: Any) -> Art:
    return Art.model_validate({"width": "60 cm", "height": "80 cm", **more})


def test_a_sawtooth_hangs_from_one_hook_however_wide() -> None:
    """A frame 60 cm wide would have two hooks on a wire, but a sawtooth has one."""
    back = back_of(_art(hangs={"from": "sawtooth", "drop": "1 cm"}))
    way = way_of(Work("w", 0.6, 0.8), back, 5.0, US)
    assert way is not None
    assert way.offsets == (0.0,)
    assert way.drop == pytest.approx(0.01)
    two = way_of(Work("w", 0.6, 0.8), back_of(_art(hangs={"from": "wire", "drop": "6 cm"})), 5.0, US)
    assert two is not None
    assert len(two.offsets) == 2


def test_without_a_back_no_hook_is_invented() -> None:
    """Where nothing was taped, nothing is said."""
    assert way_of(Work("w", 0.6, 0.8), Back(), 5.0, US) is None
    assert way_of(Work("w", 0.6, 0.8), Back(down=0.2, hangers=0.4), 5.0, US) is None


def test_mass_as_weighed_goes_before_parts_and_parts_before_size() -> None:
    """7 lb is 7 lb; acrylic weighs less than glass; a frame of which nothing is known is taken for the heaviest of its size."""
    assert mass_of(_art(mass="7 lb", glazing="glass"), US).mass == pytest.approx(3.17515, abs=1e-4)
    glass, acrylic = (mass_of(_art(glazing=g), US).mass for g in ("glass", "acrylic"))
    assert glass - acrylic == pytest.approx(0.48 * (2500 * 0.0025 - 1190 * 0.003))
    assert mass_of(_art(), US).mass == pytest.approx(0.48 * 14.0)
    assert mass_of(_art(kind="mirror"), US).mass > glass


@given(
    width=st.floats(0.15, 2.5), height=st.floats(0.15, 2.5), drop=st.floats(0.0, 0.4), down=st.floats(0.02, 0.9),
    apart=st.floats(0.3, 0.95), slack=st.floats(1.0, 1.5), mass=st.floats(0.2, 60.0), kind=st.sampled_from(["taut", "wire", "rings"]),
    x=st.floats(0, 5), y=st.floats(0, 2),
)  # fmt: skip
def test_no_hook_is_outside_its_frame(
    width: float,
    height: float,
    drop: float,
    down: float,
    apart: float,
    slack: float,
    mass: float,
    kind: str,
    x: float,
    y: float,
) -> None:
    """However it hangs, either it is refused, or every hook is behind the frame and together they carry the work."""
    hangers = apart * width
    backs = {
        "taut": Back(drop=drop * height),
        "wire": Back(down=down * height, hangers=hangers, wire=slack * hangers),
        "rings": Back(down=down * height, hangers=hangers, rings=True),
    }
    frame = Rect(x, y, x + width, y + height)
    try:
        way = way_of(Work("w", width, height), backs[kind], mass, US)
        assert way is not None
        points = hook_points("w", frame, way)
    except InputError:
        return
    assert all(frame.holds(p.x, p.y) for p in points)
    assert way.pull * len(points) >= 1 - 1e-9
