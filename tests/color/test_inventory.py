"""The room's color inventory: areas by hand, shares that add up, nothing that hangs on names or on the axes."""

from __future__ import annotations

import ast
import copy

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.colors import colored, inventory_in
from halfdrop.base.errors import InputError
from halfdrop.color.job_swatches import swatch_of, swatches_of
from halfdrop.color.lab import lab_of_srgb
from halfdrop.color.srgb import srgb_of_hex
from halfdrop.job.colors import Swatch
from tests.color.colored import JOB, area, document, of


def test_a_swatch_is_read_from_code_coordinates_or_spectrum() -> None:
    """A hex code is taken as sRGB; L* a* b* under another white is brought to D65; a flat spectrum is a gray."""
    code = swatch_of(Swatch(name="a", color="#6f7d52"))
    assert code.lab == pytest.approx(lab_of_srgb(srgb_of_hex("#6f7d52")))
    white = swatch_of(Swatch(name="b", lab=[100, 0, 0], white="D50"))
    assert white.lab == pytest.approx((100, 0, 0), abs=1e-6)
    gray = swatch_of(Swatch(name="c", spectrum={str(nm): 0.2 for nm in range(400, 701, 10)}))
    assert gray.how == "measured"
    assert gray.lab[1:] == pytest.approx((0, 0), abs=0.05)


def test_a_bad_spectrum_is_told_by_its_swatch() -> None:
    """A spectrum of two wavelengths is no reflectance; the fault says whose it is."""
    with pytest.raises(InputError) as caught:
        swatches_of({"odd": Swatch(name="odd", spectrum={"400": 0.1, "700": 0.2})})
    assert caught.value.at is not None
    assert caught.value.at.path == "swatches/odd"


def test_areas_of_surfaces_by_hand() -> None:
    """Floor, rug and what stands on them make up the floor; the ceiling is the floor's; walls are 45 m² less what hides them."""
    found = of(document())
    assert area(found, "surfaces/ceiling") == pytest.approx(20.0, abs=1e-3)
    assert area(found, "rugs/rug") == pytest.approx(6 - 1.8, abs=1e-3)
    assert area(found, "surfaces/floor") == pytest.approx(20 - 6 - 0.5, abs=1e-3)
    bare = of(document(pieces={}, rugs={}, treatments={}, openings={}))
    high = 2.5 - float(bare.practice.length("walls.baseboard_height"))
    assert area(bare, "surfaces/walls") == pytest.approx(18 * high, abs=1e-3)
    glazed = of(document(pieces={}, rugs={}, treatments={}))
    assert area(bare, "surfaces/walls") - area(glazed, "surfaces/walls") == pytest.approx(1.2 * 1.4, abs=1e-3)


def test_a_cabinet_hides_the_wall_behind_it_and_its_own_back() -> None:
    """1 m × 0.9 m of wall stands behind the cabinet, its baseboard counted with the trim; its back is not seen at a wall."""
    found, moved = of(document()), document()
    moved["rooms"]["r"]["pieces"]["cabinet"]["at"]["off"] = "0.9 m"
    away = of(moved)
    base = float(found.practice.length("walls.baseboard_height"))
    gained = area(away, "surfaces/walls") - area(found, "surfaces/walls")
    assert gained == pytest.approx(1.0 * (0.9 - base), abs=1e-3)
    assert area(away, "pieces/cabinet") - area(found, "pieces/cabinet") == pytest.approx(0.9, abs=1e-3)
    assert area(found, "pieces/cabinet") == pytest.approx(1 * 0.9 + 2 * 0.5 * 0.9 + 0.5, abs=1e-3)


def test_upholstery_by_its_shape() -> None:
    """A free sofa shows its outlines from front, back, above and both sides, and the insides of its arms."""
    found = of(document())
    arm = 0.4 + float(found.practice.length("seating.arm_above_seat"))
    sides = 2 * (0.75 * 0.9 * arm + 0.25 * 0.9 * 0.8)
    inner = 2 * 0.75 * 0.9 * (arm - 0.4)
    assert area(found, "pieces/sofa") == pytest.approx(2 * 2 * 0.8 + 2 * 0.9 + sides + inner, abs=1e-3)


def test_fuller_curtains_show_more_cloth_and_more_still_drawn_shut() -> None:
    """What is seen of a pair rises with its fullness, and when it is drawn shut."""
    seen = []
    for full in (1.0, 1.5, 2.0, 2.5):
        job = document()
        job["rooms"]["r"]["treatments"]["pair"]["fullness"] = full
        seen.append(area(of(job, shut=True), "treatments/pair"))
        assert area(of(job), "treatments/pair") < seen[-1]
    assert seen == sorted(seen)
    ends = (seen[0] / 2.2 - 1.4) * 2  # returns and overlap, of which half is seen
    assert 0 < ends < 0.5
    assert seen[2] - seen[0] == pytest.approx(2.2 * 0.5 * (1.4 + ends), abs=1e-2)


def test_paint_on_one_wall_takes_it_from_the_rest() -> None:
    """Walls as found and a wall painted since have together what the walls had; a later finish covers an earlier one."""
    whole = area(of(document()), "surfaces/walls")
    job = document(finishes={"one": {"on": "walls", "paint": "p", "walls": ["BC"]}})
    job["paints"] = {"p": {"name": "P", "swatch": "rust"}}
    found = of(job)
    assert area(found, "surfaces/walls") + area(found, "finishes/one") == pytest.approx(whole, abs=1e-3)
    job["rooms"]["r"]["finishes"]["two"] = {"on": "walls", "paint": "p"}
    again = of(job)
    assert area(again, "finishes/two") == pytest.approx(whole, abs=1e-3)
    assert area(again, "finishes/one") == 0


def test_turning_and_mirroring_the_survey_change_no_area() -> None:
    """The same room walked the other way round has the same areas."""
    job = document()
    job["rooms"]["r"]["survey"]["round"] = "clockwise"
    for a, b in zip(of(document()).parts, of(job).parts, strict=True):
        assert a.area == pytest.approx(b.area, abs=1e-6), a.path


def test_other_ids_change_no_measure() -> None:
    """Swatches called otherwise, in another order, come to the same measures."""
    job = document()
    text = repr(job)
    for key in JOB["swatches"]:
        text = text.replace(f"'{key}'", f"'z{key[::-1]}'")
    other = ast.literal_eval(text)
    other["swatches"] = dict(reversed(list(other["swatches"].items())))
    a, b = of(job), of(other)
    assert [round(s.share, 9) for s in a.shares] == [round(s.share, 9) for s in b.shares]
    assert a.proportions.dominant == pytest.approx(b.proportions.dominant)
    assert a.values == b.values
    assert a.temperature == b.temperature
    assert a.template == b.template


@given(st.lists(st.floats(0.05, 1.0), min_size=3, max_size=3), st.integers(0, 5))
@settings(max_examples=20, deadline=None)
def test_shares_add_to_one(shares: list[float], seed: int) -> None:
    """Whatever is worn, the shares of the swatches and of the families add to 1, and parts lighter than that are not recorded."""
    total = sum(shares)
    rng = np.random.default_rng(seed)
    keys = rng.permutation(list(JOB["swatches"]))[:3]
    colors = {str(k): s / total * 0.99 for k, s in zip(keys, shares, strict=True)}
    found = of(document(surfaces={"walls": colors, "floor": "oak"}))
    assert sum(s.share for s in found.shares) == pytest.approx(1.0)
    assert sum(f.share for f in found.proportions.families) == pytest.approx(1.0)
    assert 0 < found.recorded < 1


def test_a_room_without_colors_has_none_to_judge() -> None:
    """Where no color is recorded the rules see nothing, and the inventory still gives the areas."""
    job = copy.deepcopy(document())
    room = job["rooms"]["r"]
    room.pop("surfaces")
    for thing in (*room["pieces"].values(), *room["rugs"].values()):
        thing.pop("colors")
    job["fabrics"]["linen"].pop("colors")
    case = Auditor.of(job).case("r")
    assert not colored(case)
    assert inventory_in(case) is None
    assert of(job).recorded == 0
    assert of(job).seen > 60


def test_every_part_has_a_working() -> None:
    """Each part stands in the working with its area; the measures in a second one."""
    found = of(document())
    areas, measures = found.workings()
    assert len(areas.steps) == len(found.parts) + 1
    assert [s.what for s in measures.steps] == [
        "families",
        "values",
        "temperature",
        "hues",
        "least harmony of two",
    ]
    assert {p["path"] for p in found.to_json()["parts"]} == {p.path for p in found.parts}
