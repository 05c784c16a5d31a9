"""Works of a job hung on a wall of its room: clear of what is there, and written as a patch that the audit passes."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from halfdrop.art.wall_face import art_wall
from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import InputError, UsageError
from halfdrop.drawing.elevation import shown_of
from halfdrop.job.patch import apply
from halfdrop.services.elevation_moves import lift_patch
from halfdrop.services.hanging_room import RoomAsk, hang_in
from tests.art.walls import FACE, SOFA, US, at, case_of, document

THERMOSTAT = {
    "kind": "thermostat",
    "wall": "CD",
    "along": "2.4 m",
    "width": "10 cm",
    "bottom": "1.45 m",
    "height": "12 cm",
}
SIZES = {
    "a": ("60 cm", "76 cm"),
    "b": ("40 cm", "50 cm"),
    "c": ("50 cm", "40 cm"),
    "d": ("30 cm", "30 cm"),
    "e": ("35 cm", "45 cm"),
}


def _five() -> dict[str, Any]:
    return {
        k: {"width": w, "height": h, "hangs": {"from": "wire", "drop": "5 cm"}} for k, (w, h) in SIZES.items()
    }


def _findings(doc: dict[str, Any], patch: Any, *rules: str) -> list[str]:
    after = Auditor.of(apply(doc, patch))
    return [f.message for f in after.findings("r") if f.rule in rules]


def test_five_round_a_thermostat_are_one_group_clear_of_it() -> None:
    """Each of three clusters keeps 2 in from the thermostat, has even gaps and the height of the eye, and differs from the others."""
    doc = document(_five(), fittings={"t": THERMOSTAT})
    found = hang_in(Auditor.of(doc).case("r"), RoomAsk(tuple(SIZES), form="cluster", wall="CD"))
    assert len(found.patches) == 3
    assert len({str(p) for p in found.patches}) == 3
    for patch in found.patches:
        assert _findings(doc, patch, "art.clear", "art.gaps", "art.eye-height", "art.one-line") == []
        hung = Auditor.of(apply(doc, patch)).case("r").room
        assert {w.model.group for w in hung.art.values()} == {"cd-group"}


def test_over_a_sofa_the_gap_and_the_middle_are_practice_s() -> None:
    """One wide work over a sofa has no finding of gap, middle or width; the patch says what it hangs over."""
    doc = document({"heron": {**FACE, "width": "1.3 m"}}, pieces={"sofa": SOFA})
    found = hang_in(Auditor.of(doc).case("r"), RoomAsk(("heron",), over="sofa"))
    assert (found.wall, found.over) == ("CD", "sofa")
    assert {"op": "add", "path": "/rooms/r/art/heron/above", "value": "sofa"} in found.patches[0]
    assert _findings(doc, found.patches[0], "art.over-piece", "art.belongs", "art.width") == []


def test_from_the_sofa_to_a_bare_wall_it_forgets_the_sofa() -> None:
    """Hung elsewhere, a work no longer says that it hangs over the sofa, nor that it is of a group."""
    art = {"heron": {**FACE, "above": "sofa", "group": "old", "at": at("2.2 m")}}
    case = case_of(art, pieces={"sofa": SOFA})
    (patch,) = hang_in(case, RoomAsk(("heron",), wall="AB")).patches
    assert {"op": "remove", "path": "/rooms/r/art/heron/above"} in patch
    assert {"op": "remove", "path": "/rooms/r/art/heron/group"} in patch


@pytest.mark.parametrize(
    ("ask", "kind", "says"),
    [
        (RoomAsk(("heron",)), UsageError, "where they are to hang is not said"),
        (RoomAsk(("heorn",), wall="CD"), InputError, "there is no work `heorn` in this room"),
        (RoomAsk(("heron", "heron"), wall="CD"), UsageError, "each work is hung once"),
        (RoomAsk(("heron",), wall="AC"), InputError, "`AC` is no wall of this room"),
        (RoomAsk(("heron",), wall="wall"), InputError, "`wall` is no wall of this room"),
        (RoomAsk(("heron",), over="sfa"), InputError, "nothing called `sfa` stands at a wall"),
        (RoomAsk(("heron",), over="sofa", wall="AB"), InputError, "nothing called `sofa` stands on wall AB"),
    ],
)
def test_what_is_asked_wrongly_is_said(ask: RoomAsk, kind: type[Exception], says: str) -> None:
    """Each fault names what is not there; a near name is offered."""
    case = case_of({"heron": FACE}, pieces={"sofa": SOFA})
    with pytest.raises(kind, match=says):
        hang_in(case, ask)


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    sizes=st.lists(st.tuples(st.integers(20, 60), st.integers(20, 70)), min_size=2, max_size=5),
    form=st.sampled_from(["row", "stack", "cluster"]),
    fitting=st.tuples(st.integers(20, 460), st.integers(90, 170)),
    wall=st.sampled_from(["AB", "CD"]),
)  # fmt: skip
def test_a_group_is_clear_of_all_obstacles(
    sizes: list[tuple[int, int]], form: Any, fitting: tuple[int, int], wall: str
) -> None:
    """Wherever a fitting is, a group that is hung keeps clear of it and even, to the millimeter; or it is refused."""
    art = {f"w{n}": {"width": f"{w} cm", "height": f"{h} cm"} for n, (w, h) in enumerate(sizes)}
    x, y = fitting
    fittings = {
        "t": {
            "kind": "switch",
            "wall": wall,
            "along": f"{x} cm",
            "width": "9 cm",
            "bottom": f"{y} cm",
            "height": "9 cm",
        }
    }
    doc = document(art, fittings=fittings)
    try:
        found = hang_in(Auditor.of(doc).case("r"), RoomAsk(tuple(art), form=form, wall=wall))
    except InputError:
        return
    for patch in found.patches:
        room = Auditor.of(apply(doc, patch)).case("r").room
        (unit,) = art_wall(room, wall, US).units
        for n, a in enumerate(unit.rects):
            marks = art_wall(room, wall, US).marks
            assert all(a.gap(m.rect) >= 0.0508 - 6e-4 for m in marks)
            assert all(a.gap(b) >= 0.0635 - 1.1e-3 for b in unit.rects[n + 1 :])


def test_a_hand_takes_a_whole_group_along() -> None:
    """Of a group of two on a wall one is moved 10 cm to the right: with `group` both go, without it that one alone."""
    art = {k: {**FACE, "group": "pair", "at": at(along)} for k, along in (("one", "1.5 m"), ("two", "2.2 m"))}
    case = case_of(art)
    shown = shown_of(case.room, "CD", {}, US)
    alone = lift_patch(case, shown, "rooms/r/art/one", (0.1, 0.0), exact=True)
    both = lift_patch(case, shown, "rooms/r/art/one", (0.1, 0.0), "group", exact=True)
    assert [op["value"] for op in alone] == ["1400 mm"]
    assert {op["path"]: op["value"] for op in both} == {
        "/rooms/r/art/one/at/along": "1400 mm",
        "/rooms/r/art/two/at/along": "2100 mm",
    }
