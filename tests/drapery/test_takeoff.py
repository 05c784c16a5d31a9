"""A treatment worked out in its room, and the cloth of whole jobs, by hand and on bolts."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.drapery import Hung, cloth_of, hang
from halfdrop.drapery.bolts import faults
from halfdrop.drapery.pleats import PleatsAnswer
from halfdrop.job.treatments import Fabric
from halfdrop.practice import load_practice
from tests.drapery.homes import US, job, panels, resolved, takeoff, window
from tests.drapery.tables import IN, YARD

LINEN: dict[str, Any] = {"name": "Linen", "width": "54 in"}
SPRIG: dict[str, Any] = {"name": "Sprig", "width": "54 in", "repeat": "27 in", "match": "half-drop"}


def _hung(treatment: dict[str, Any], fabric: dict[str, Any] = LINEN, practice: Any = US, **more: Any) -> Hung:
    made = job(
        {"living": {"openings": {"w": window(**more)}, "treatments": {"t": treatment}}}, {"linen": fabric}
    )
    cloths = {i: cloth_of(i, f, practice) for i, f in made.fabrics.items()}
    return hang(resolved(made, practice)["living"], "t", cloths, practice)


def test_what_the_document_leaves_open_is_designed() -> None:
    """A 60 in window, head at 80, ceiling at 96: the rod at 88 in, 91 in long, floor-length panels 3/8 in clear of the floor."""
    hung = _hung(panels())
    assert hung.place.designed
    assert hung.place.height / IN == pytest.approx(88)
    assert hung.place.rod.length / IN == pytest.approx(91)
    assert hung.lengths.longest / IN == pytest.approx(87.625)
    assert hung.cut.length / IN == pytest.approx(103.625)
    assert hung.flat / IN == pytest.approx((91 + 6 + 8) * 2.25)
    assert (hung.widths.widths, hung.widths.per_panel) == (5, 2.5)
    assert isinstance(hung.heading, PleatsAnswer)
    assert hung.heading.finished == round((91 + 6 + 8) / 2 * 25.4)


def test_joined_widths_give_whole_repeats_across_so_that_seams_match() -> None:
    """54 in of a cloth with 20 in across give 40 in where widths are joined: 236.25 in take 6 of them, not 5; 27 in across lose none."""
    loses = _hung(panels(), {**LINEN, "repeat_across": "20 in"})
    assert loses.widths.widths == 6
    assert loses.sizes.steps[2].what == "a width, joined"
    assert loses.sizes.steps[2].result == "40 in"
    assert _hung(panels(), {**LINEN, "repeat_across": "27 in"}).widths.widths == 5
    narrow = {**panels(), "hardware": {"height": "88 in", "left": "0", "right": "0"}, "fullness": 1.05}
    alone = _hung(narrow, {**LINEN, "repeat_across": "40 in"}, width="30 in")
    assert (alone.widths.per_panel, len([s for s in alone.sizes.steps if s.what == "a width, joined"])) == (
        0.5,
        0,
    )


def test_every_size_has_its_steps() -> None:
    """From fullness to brackets and pleats a person can follow the figures, and each value names its source."""
    hung = _hung(panels())
    titles = [w.title for w in hung.workings]
    assert titles == ["Rod height", "Rod length", "Sizes", "Weight of the cloth", "Brackets", "Pleats"]
    steps = {s.what: s for s in hung.sizes.steps}
    assert list(steps) == ["fullness", "flat width", "widths", "panel 1", "panel 2", "floor", "cut"]
    assert steps["fullness"].result == "2.25"
    assert "common practice" in steps["fullness"].source
    assert (steps["flat width"].values, steps["flat width"].result) == (
        "(91 in + 6 in + 8 in) × 2.25",
        "236¼ in",
    )
    assert (steps["widths"].result, steps["cut"].result) == ("5, 2.5 to a panel", "103⅝ in")


def test_what_the_document_says_is_taken() -> None:
    """A pole at 90 in, 8 in past each side, hooks 1 in down, eyelets without returns, no overlap, own hems."""
    hung = _hung(panels(heading="eyelet", fullness=2.0, hems={"bottom": "6 in", "heading": "3 in"},
                        hardware={"kind": "pole", "height": "90 in", "left": "8 in", "right": "8 in", "drop": "1 in"}))  # fmt: skip
    assert not hung.place.designed
    assert hung.place.rod.length / IN == pytest.approx(76)
    assert (hung.overlap, hung.returns) == (0, 0)
    assert hung.flat / IN == pytest.approx(152)
    assert hung.cut.length / IN == pytest.approx(89 - 0.375 + 9)


def test_an_uneven_floor_makes_panels_of_unequal_length() -> None:
    """The floor falls ½ in under the window from left to right; all are cut to the longest."""
    floor = {"left": "60 in", "center": "60 1/4 in", "right": "60 1/2 in"}
    hung = _hung(panels(measured={"floor": floor}, hardware={"height": "88 in"}))
    left, right = hung.lengths.panels
    assert left.left / IN == pytest.approx(87.625)
    assert right.right / IN == pytest.approx(88.125)
    assert hung.cut.length / IN == pytest.approx(88.125 + 16)


def test_a_head_out_of_level_lifts_the_rod_by_its_highest_point() -> None:
    """The level line lies 40 in above the floor at the left; the head is 40, 41 and 40 in above it: 81 in is what counts."""
    measured = {
        "floor": {"left": "40 in", "center": "40 in", "right": "40 in"},
        "head": {"left": "40 in", "center": "41 in", "right": "40 in"},
    }
    assert _hung(panels(measured=measured)).place.span.low / IN == pytest.approx(85)


def test_fixed_panels_take_what_they_cover() -> None:
    """Side panels of 20 in: two of them, returns, no overlap, at 2.25."""
    hung = _hung(panels(draw="fixed", panel="20 in"))
    assert hung.place.stack is None
    assert hung.flat / IN == pytest.approx((40 + 8) * 2.25)


def test_fixed_panels_of_no_given_width_are_one_width_each() -> None:
    """Two widths of 54 in at 2.25, both returns of 4 in in them: 20 in covered by each panel."""
    hung = _hung(panels(draw="fixed"))
    assert (hung.widths.widths, hung.flat / IN) == (2, pytest.approx(108))
    assert isinstance(hung.heading, PleatsAnswer)
    assert hung.heading.finished == round(54 / 2.25 * 25.4)


def test_one_fixed_panel_at_a_side_is_half_of_two() -> None:
    """One side panel of 20 in with its one return of 4 in takes half the cloth of two; of no given width it is one width."""
    hung = _hung(panels(draw="fixed", side="right", panel="20 in"))
    assert (hung.panels, hung.overlap, len(hung.lengths.panels)) == (1, 0, 1)
    assert hung.returns / IN == pytest.approx(4)
    assert hung.flat / IN == pytest.approx((20 + 4) * 2.25)
    alone = _hung(panels(draw="fixed", side="left"))
    assert (alone.widths.widths, alone.flat / IN) == (1, pytest.approx(54))
    assert isinstance(alone.heading, PleatsAnswer)
    assert alone.heading.finished == round(54 / 2.25 * 25.4)


def test_a_side_panel_is_cut_to_the_floor_under_it() -> None:
    """The floor falls ½ in to the right: the panel at the right is longer than the one at the left would be."""
    floor = {"left": "60 in", "center": "60 1/4 in", "right": "60 1/2 in"}
    more = {"draw": "fixed", "panel": "20 in", "measured": {"floor": floor}, "hardware": {"height": "88 in"}}
    (left,), (right,) = (_hung(panels(side=s, **more)).lengths.panels for s in ("left", "right"))
    assert right.right / IN == pytest.approx(88.125)
    assert left.longest < right.longest


def test_the_motif_of_a_heading_is_found_from_the_heading() -> None:
    """Where the hem is hidden the full motif goes to the heading: the line lies 8 in from the cut's start, the heading's cloth."""
    linen = {**SPRIG, "motif": "heading"}
    rooms = {
        "living": {
            "openings": {"w": window()},
            "treatments": {"t": panels(length="apron", valance={"depth": "14 in"})},
        }
    }
    panel, valance = takeoff(job(rooms, {"linen": linen}))["linen"].lines
    assert {round((p.line or 0) / IN, 3) for p in panel.pieces} == {8}
    assert {round((p.line or 0) / IN, 3) for p in valance.pieces} == {4}


def test_a_sheer_behind_is_fuller_and_shorter() -> None:
    """Three times full, 3/8 in shorter than cloth that is as clear of the floor."""
    openings = {"w": window()}
    made = job({"living": {"openings": openings, "treatments": {
        "front": panels(hardware={"height": "88 in"}),
        "sheer": panels(fabric="voile", heading="rod pocket", behind="front", hardware={"height": "88 in", "diameter": "1 in"}),
    }}}, {"linen": LINEN, "voile": {"name": "Voile", "kind": "sheer", "width": "118 in"}})  # fmt: skip
    cloths = {i: cloth_of(i, f, US) for i, f in made.fabrics.items()}
    room = resolved(made)["living"]
    front, sheer = hang(room, "front", cloths, US), hang(room, "sheer", cloths, US)
    assert sheer.fullness == 3.0
    assert (front.lengths.longest - sheer.lengths.longest) / IN == pytest.approx(0.375)
    assert (sheer.allowed.hem / IN, sheer.allowed.heading / IN) == pytest.approx((10, 2))


@pytest.mark.parametrize(
    ("method", "flat"), [("as built", 210), ("lump", 206), ("after", 208), ("uk", 197.3992)]
)
def test_overlap_and_returns_come_in_by_the_house_s_method(method: str, flat: float) -> None:
    """A 91 in rod at 2: as built 14 in made full; 12 in made full; 14 in and four side hems added flat; by the pole."""
    house = load_practice("us", {"drapery.allow_method": method})
    hung = _hung(
        panels(fullness=2.0, hardware={"height": "88 in", "left": "15.5 in", "right": "15.5 in"}),
        practice=house,
    )
    assert hung.flat / IN == pytest.approx(flat)


def test_too_little_cloth_is_worked_out_as_it_is() -> None:
    """One width over 91 in is counted, weighed and hung; there is nothing to pleat, so no heading is told."""
    hung = _hung(panels(widths=1))
    assert hung.widths.widths == 1
    assert hung.heading is None
    assert hung.weight.mass > 0


def test_what_cannot_be_worked_out_says_where() -> None:
    """No fabric; no height without a ceiling."""
    with pytest.raises(InputError, match="names no fabric") as caught:
        _hung({"openings": "w", "heading": "pencil"})
    assert str(caught.value.at) == "rooms/living/treatments/t"
    survey = {
        "corners": "A B C D",
        "walls": {"AB": "20 ft", "BC": "14 ft", "CD": "20 ft", "DA": "14 ft"},
        "square": {"A": True},
    }
    made = job(
        {"living": {"survey": survey, "openings": {"w": window()}, "treatments": {"t": panels()}}},
        {"linen": LINEN},
    )
    with pytest.raises(InputError, match="no ceiling height"):
        takeoff(made)


def _three(fabric: dict[str, Any]) -> Any:
    """One cloth shared by three windows of different heights in two rooms."""
    rooms = {
        "living": {
            "openings": {"a": window(along="2 ft"), "b": window("CD", along="2 ft", height="40 in")},
            "treatments": {"a": panels("a"), "b": panels("b", length="apron")},
        },
        "study": {
            "openings": {"c": window(width="36 in", height="44 in")},
            "treatments": {"c": panels("c", length="sill")},
        },
    }
    return job(rooms, {"linen": fabric})


def test_half_drop_panels_alternate_and_pairs_are_in_phase() -> None:
    """Widths of each panel alternate from the same half; all in one phase on the bolts; the plan is judged sound."""
    found = takeoff(_three(SPRIG))["linen"]
    pieces = [p for line in found.lines for p in line.pieces]
    assert faults(found.plan, pieces) == []
    for line in found.lines:
        assert len({p.line for p in line.pieces}) == 1
        odd = sum(p.half for p in line.pieces)
        assert abs(len(line.pieces) - 2 * odd) <= 2
    first = found.lines[0].pieces
    assert [p.half for p in first] == [False, True, False, True, False]


def test_the_plan_saves_on_the_hand_rule_and_says_so() -> None:
    """Half-drop cloth by the textbook's panel rule against the bolt: less is bought, and the working ends with what is saved."""
    book = load_practice("us", {"drapery.half_drop_method": "per panel"})
    found = takeoff(_three(SPRIG), book)["linen"]
    assert found.saved > 1.0
    assert found.working.steps[-1].what == "saved"
    assert found.plan.gap < 0.02
    assert found.hand / (0.25 * YARD) == pytest.approx(round(found.hand / (0.25 * YARD)))


def test_wide_cloth_is_turned_where_that_saves() -> None:
    """118 in voile: the drop lies across it, so a pair takes its flat width along the bolt instead of whole widths."""
    voile = {"name": "Voile", "kind": "sheer", "width": "118 in", "railroad": True}
    rooms = {
        "living": {
            "openings": {"w": window()},
            "treatments": {"t": panels(heading="rod pocket", fabric="voile")},
        }
    }
    found = takeoff(job(rooms, {"voile": voile}))["voile"]
    assert found.turned == ("rooms/living/treatments/t",)
    assert found.plan.cut_length / IN == pytest.approx(91 * 3)
    upright = takeoff(job(rooms, {"voile": {**voile, "railroad": False}}))["voile"]
    assert upright.turned == ()
    assert upright.plan.paid > found.plan.paid


def test_a_drop_too_long_for_the_cloth_s_width_is_not_turned() -> None:
    """87 5/8 in and its hems do not lie across 90 in of cloth."""
    narrow = {"name": "Voile", "kind": "sheer", "width": "90 in", "railroad": True}
    rooms = {"living": {"openings": {"w": window()}, "treatments": {"t": panels(fabric="voile")}}}
    assert takeoff(job(rooms, {"voile": narrow}))["voile"].turned == ()


def test_everything_of_a_cloth_is_counted() -> None:
    """Panels, ties, valance, a roman shade, cushions, lining and interlining; not a roller shade, not what is kept."""
    lining = {"kind": "interlined", "fabric": "sateen", "interlining": "bump"}
    rooms = {"living": {
        "openings": {"w": window(), "v": window("CD", width="36 in"), "u": window("BC", along="2 ft", width="30 in")},
        "treatments": {
            "t": panels(lining=lining, ties={"length": "24 in", "width": "4 in"}, valance={"depth": "14 in"}),
            "kept": panels("v", keep=True),
            "roman": {"kind": "roman", "openings": "v", "mount": "inside", "fabric": "linen"},
            "roller": {"kind": "roller", "openings": "u", "mount": "inside", "fabric": "linen"},
        },
        "cushions": {"seat": {"fabric": "linen", "width": "20 in", "height": "20 in", "count": 2}},
    }}  # fmt: skip
    fabrics = {"linen": SPRIG, "sateen": {"name": "Sateen", "kind": "lining", "width": "54 in"},
               "bump": {"name": "Bump", "kind": "interlining", "width": "54 in"}}  # fmt: skip
    found = takeoff(job(rooms, fabrics))
    base = "rooms/living/"
    assert [line.path for line in found["linen"].lines] == [
        base + p
        for p in (
            "treatments/t",
            "treatments/t/ties",
            "treatments/t/valance",
            "treatments/roman",
            "cushions/seat",
        )
    ]
    assert [line.path for line in found["sateen"].lines] == [base + "treatments/t/lining"]
    assert [line.path for line in found["bump"].lines] == [base + "treatments/t/interlining"]
    roman = found["linen"].lines[3].pieces
    assert [round(p.length / IN) for p in roman] == [61]


def test_a_cloth_of_the_job_is_filled_from_practice() -> None:
    """A repeat without a match is straight; no bolts are bolts of 50 yd; a quarter yard is sold; metres by the quarter metre."""
    plain = cloth_of("x", Fabric.model_validate({**LINEN, "repeat": "27 in"}), US)
    assert (plain.match, plain.bolts[0].length, plain.rules.place) == (
        "straight",
        pytest.approx(50 * YARD),
        pytest.approx(27 * IN),
    )
    assert plain.rules.step == pytest.approx(0.25 * YARD)
    assert cloth_of("x", Fabric.model_validate({**LINEN, "sale": "meter"}), US).rules.step == pytest.approx(
        0.25
    )
    assert cloth_of("x", Fabric.model_validate(LINEN), US).rules.place == 0


@settings(max_examples=25, deadline=None, derandomize=True, database=None)
@given(
    st.lists(
        st.tuples(st.integers(24, 110), st.integers(30, 60), st.sampled_from(["sill", "apron", "clear", "break"]),
                  st.sampled_from(["pair", "left", "fixed"])),
        min_size=1, max_size=3,
    ),
    st.sampled_from(["pencil", "triple pinch", "eyelet", "wave", "rod pocket"]),
    st.sampled_from([None, "straight", "half-drop"]),
    st.integers(4, 36),
)  # fmt: skip
def test_cloth_is_never_short_at_any_window(
    windows: list[tuple[int, int, str, str]], heading: str, match: str | None, repeat: int
) -> None:
    """Whatever the windows: every panel gets its flat width and its length, and the bolts hold all of it in phase."""
    walls = ("AB", "BC", "CD")
    openings = {
        f"w{i}": window(walls[i], "2 ft", f"{w} in", f"{h} in") for i, (w, h, _, _) in enumerate(windows)
    }
    treatments = {
        f"w{i}": panels(f"w{i}", heading=heading, length=style, draw=draw)
        for i, (_, _, style, draw) in enumerate(windows)
    }
    fabric = {**LINEN, "match": match, "repeat": f"{repeat} in" if match else None}
    made = job({"living": {"openings": openings, "treatments": treatments}}, {"linen": fabric})
    found = takeoff(made, effort=0.3)["linen"]
    assert faults(found.plan, [p for line in found.lines for p in line.pieces]) == []
    cloths = {"linen": found.cloth}
    room = resolved(made)["living"]
    for line in found.lines:
        hung = hang(room, line.path.rsplit("/", 1)[-1], cloths, US)
        assert len(line.pieces) * found.cloth.width >= hung.flat - 1e-4
        assert all(p.length >= hung.lengths.longest + hung.allowed.total - 1e-9 for p in line.pieces)
