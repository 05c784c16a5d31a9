"""Paper of a room from the document: centered on what it looks at, laid on rolls, compared with the rough methods."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import InputError
from halfdrop.job.finishes import Batch
from halfdrop.practice import load_practice
from halfdrop.room import ResolvedRoom
from halfdrop.walls import PaperRoom, batch_for, faces_of, focal_of, paper_job, paper_room, roll_of
from tests.walls.jobs import document, job

METRIC = load_practice("metric")


def _room(changed: dict[str, Any] | None = None, **finishes: Any) -> ResolvedRoom:
    made = document(**finishes)
    made["rooms"]["snug"].update(changed or {})
    return Auditor.of(made).case("snug").room


def _paper(paper: str = "fern", changed: dict[str, Any] | None = None, **finish: Any) -> PaperRoom:
    room = _room(changed, walls={"on": "walls", "paper": paper, **finish})
    focal, center = focal_of(room) or (None, None)
    return paper_room(
        "rooms/snug/finishes/walls", room.model.finishes["walls"], job().papers[paper], faces_of(room), METRIC,
        focal=focal, center=center,
    )  # fmt: skip


def test_the_roll_is_the_made_one_or_the_label_s() -> None:
    """EN 233 is 53 cm by 10.05 m; a width and length typed win."""
    papers = job().papers
    assert roll_of(papers["fern"], METRIC) == (0.53, 10.05)
    assert roll_of(papers["stripe"], METRIC) == (0.52, 10.0)
    assert roll_of(papers["fern"].model_copy(update={"length": papers["stripe"].length}), METRIC) == (
        0.53,
        10.0,
    )


def test_the_room_s_focal_point_is_the_center() -> None:
    """The hearth's middle is 0.9 + 0.6 m from B, so 2.5 m along AB; the first strip or seam stands there."""
    (run,) = _paper().runs
    assert (run.focal, run.center) == ("AB", pytest.approx(2.5))


def test_the_finish_may_say_otherwise_from_either_corner() -> None:
    """`focal: CB, center: 1 m` is 2 m along BC."""
    (run,) = _paper(focal="CB", center="1 m", set_out="seam", mismatch="D").runs
    assert (run.focal, run.center, run.start) == ("BC", pytest.approx(2.0), "seam")
    assert run.mismatch is not None
    assert run.mismatch.where == "in corner D"


def test_a_focal_wall_must_be_papered() -> None:
    """CD is named as focal and only AB is papered."""
    with pytest.raises(InputError, match="the focal wall CD is not among the walls papered"):
        _paper(walls=["AB"], focal="CD")


def test_one_wall_by_half_steps() -> None:
    """A wall of 4 m in a half-drop of 64 cm, strips of 2.6 m with trim: cut at 2.88 m, three on a roll of 10.05 m."""
    room = _paper(walls=["AB"])
    assert (room.strip.cut.step, room.strip.per_roll) == ("half step", 3)
    assert room.strip.cut.length == pytest.approx(2.88)
    assert {round(c.length, 6) for c in room.cuts} == {2.6}


def test_the_height_that_was_not_taped_is_the_greatest() -> None:
    """Nothing is taped at D; a ceiling of 2.6 m at A makes D 2.6 m too, so that no strip is short."""
    taped = _room(
        {"survey": {**document()["rooms"]["snug"]["survey"], "heights": {"A": "2.6 m", "B": "2.5 m"}}}
    )
    heights = {f.name: (f.height_start, f.height_end) for f in faces_of(taped)}
    assert heights == {"AB": (2.6, 2.5), "BC": (2.5, 2.6), "CD": (2.6, 2.6), "DA": (2.6, 2.6)}


def test_a_room_without_a_height_cannot_be_counted() -> None:
    """The hint says what to write."""
    with pytest.raises(InputError, match="room `snug` has no ceiling height") as caught:
        faces_of(
            _room(
                {"survey": {k: v for k, v in document()["rooms"]["snug"]["survey"].items() if k != "heights"}}
            )
        )
    assert "heights:" in (caught.value.hint or "")


def test_an_opening_higher_than_its_ceiling_is_refused() -> None:
    """A window from 0.9 m up, 1.8 m high, under a ceiling of 2.5 m."""
    openings = document()["rooms"]["snug"]["openings"]
    openings["window"]["height"] = "1.8 m"
    with pytest.raises(
        InputError, match="window `window` reaches 2700 mm above the floor; the ceiling over it is at 2500 mm"
    ):
        faces_of(_room({"openings": openings}))


def test_openings_lie_where_they_were_taped_from() -> None:
    """Along 0.6 m from B the window starts 0.6 m along BC; the door, 0.4 m from D, starts 0.4 m along DA."""
    holes = {f.name: [(h.start, h.end, h.bottom, h.top) for h in f.holes] for f in faces_of(_room())}
    assert holes["BC"] == [pytest.approx((0.6, 2.4, 0.9, 2.1))]
    assert holes["DA"] == [pytest.approx((0.4, 1.2, 0.0, 2.0))]


def test_what_is_bought_is_the_plan_and_a_spare_in_whole_sale_units() -> None:
    """Rolls used, one spare, and up to an even number where rolls are sold in pairs."""
    room = _paper()
    paper = job().papers["fern"]
    answer = paper_job(paper, [room], METRIC)
    assert answer.rolls == answer.plan.count + 1
    pairs = paper_job(paper.model_copy(update={"sold_in": 2}), [room], METRIC)
    assert pairs.rolls == 2 * -(-answer.rolls // 2)


def test_two_rooms_share_their_rolls() -> None:
    """Laid together, two rooms take no more rolls than apart."""
    one = _paper(walls=["BC"])
    other = PaperRoom(
        **{**vars(one), "cuts": tuple(c.__class__(**{**vars(c), "id": f"x/{c.id}"}) for c in one.cuts)}
    )
    paper = job().papers["fern"]
    together, alone = paper_job(paper, [one, other], METRIC), paper_job(paper, [one], METRIC)
    assert together.plan.count <= 2 * alone.plan.count


def test_a_method_that_runs_short_is_told() -> None:
    """An L-shaped long end on every roll: the area method counts it, strips cannot use it."""
    answer = paper_job(job().papers["stripe"], [_paper("stripe", walls=["AB", "CD"], bottom="0 m")], METRIC)
    area = answer.rooms[0].area.rolls
    assert area < answer.plan.count
    assert any(f"The area method gives {area} rolls and runs" in note for note in answer.notes)


def test_the_smallest_batch_that_has_all_is_taken() -> None:
    """Of 3, 9 and 6 rolls: six with the spare come from the batch of six; eight hang, nine want the batch of nine;
    nine hang and the spare is short; ten come from none.
    """
    batches = {k: Batch.model_validate({"number": k, "rolls": n}) for k, n in (("a", 3), ("b", 9), ("c", 6))}
    assert batch_for(5, 6, batches) == (batches["c"], "Batch c has 6 rolls; 6 are taken, all of one batch.")
    assert batch_for(8, 9, batches)[0] is batches["b"]
    found, said = batch_for(9, 10, batches)
    assert found is batches["b"]
    assert said == "Batch b has 9 rolls, all 9 that hang; it is 1 short for the spare."
    none, said = batch_for(10, 11, batches)
    assert none is None
    assert (
        said
        == "No batch at hand has 10 rolls (a: 3, b: 9, c: 6). Order all of one batch; batches differ in color."
    )
    assert batch_for(0, 0, batches) == (None, "")


def test_a_dado_of_paper_is_cut_to_its_band() -> None:
    """From a rail at 0.9 m to the ceiling, strips are 1.6 m and trim; nothing hangs under the window's sill."""
    cuts = _paper("stripe", bottom="0.9 m").cuts
    assert {(c.where, round(c.length, 4)) for c in cuts} == {("whole", 1.7), ("above", 0.5)}


def test_the_turn_of_the_survey_changes_nothing() -> None:
    """The mirrored room, walked clockwise, takes as many strips and rolls."""
    survey = {**document()["rooms"]["snug"]["survey"], "round": "clockwise"}
    here, there = _paper(), _paper(changed={"survey": survey})
    assert sorted(round(c.length, 6) for c in here.cuts) == sorted(round(c.length, 6) for c in there.cuts)
    assert [r.mismatch and r.mismatch.where for r in here.runs] == [
        r.mismatch and r.mismatch.where for r in there.runs
    ]


def test_a_narrow_roll_that_costs_a_strip_is_told() -> None:
    """Eight strips of 53 cm cover 4.2 m with 4 cm to spare; rolls 1.5 % narrower cover 4.18 m and take nine."""
    survey = {
        **document()["rooms"]["snug"]["survey"],
        "walls": {"AB": "4.2 m", "BC": "3 m", "CD": "4.2 m", "DA": "3 m"},
    }
    survey["ties"] = {"AC": "5.161 m", "BD": "5.161 m"}
    room = _paper(walls=["AB"], changed={"survey": survey}, set_out="seam", focal="AB")
    answer = paper_job(job().papers["fern"], [room], METRIC)
    assert any("1.5% narrower than their label would take 9 strips, not 8" in note for note in answer.notes)


def test_an_l_shaped_room_has_one_outside_corner() -> None:
    """Five corners take a wrap of paper, the sixth, D, stands out into the room and takes none."""
    survey = {
        "corners": "A B C D E F",
        "walls": {"AB": "5 m", "BC": "2 m", "CD": "2 m", "DE": "2 m", "EF": "3 m", "FA": "4 m"},
        "square": dict.fromkeys("ABCDEF", True),
        "heights": {"A": "2.5 m"},
    }
    room = _room({"survey": survey, "openings": {}, "fittings": {}, "wishes": {}})
    assert [face.name for face in faces_of(room) if not face.inside_end] == ["CD"]
