"""Remedies are searched within a budget of trials, offered one of a kind, least disturbing first, and they hold."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.hung import hung_in
from halfdrop.audit.prove import Budget, remedies_for, with_remedies
from halfdrop.job.patch import apply, inverse
from halfdrop.job.read import read_job

DEMO = Path(__file__).parents[2] / "examples" / "quince.yaml"


@pytest.fixture(scope="module")
def demo() -> Auditor:
    """The demo job."""
    loaded = read_job(DEMO)
    return Auditor.of(loaded.document, loaded.job)


def test_offers_differ_in_kind_and_rise_in_disturbance(demo: Auditor) -> None:
    """A finding of the demo gets at most three remedies, no two of a kind, in the order of how much they disturb."""
    findings = with_remedies(demo, demo.findings())
    assert any(len(f.remedies) > 1 for f in findings)
    for finding in findings:
        kinds = [r.kind for r in finding.remedies]
        assert len(kinds) == len(set(kinds)) <= 3
        weights = [r.disturbance for r in finding.remedies]
        assert weights == sorted(weights)


def test_every_remedy_of_the_demo_holds_from_scratch_and_can_be_undone(demo: Auditor) -> None:
    """Each remedy of the demo, applied to the file's document and audited anew, clears its finding and brings nothing as grave;

    the state behind its patch, which keeps what the patch left alone, is judged word for word as the one made from scratch.
    """
    findings = demo.findings()
    known = {f.id for f in findings}
    for finding in with_remedies(demo, findings):
        for remedy in finding.remedies:
            document = apply(demo.document, remedy.patch)
            after = Auditor.of(document).findings()
            assert finding.id not in {f.id for f in after}, remedy.id
            assert not [f.id for f in after if f.id not in known and f.grade.rank <= finding.grade.rank], (
                remedy.id
            )
            carried = demo.after(remedy.patch).findings(finding.room)
            assert carried == tuple(f for f in after if f.room == finding.room), remedy.id
            assert apply(document, inverse(demo.document, remedy.patch)) == demo.document


def test_budget_bounds_the_search_and_answers_are_the_same_twice(demo: Auditor) -> None:
    """With no trials nothing is offered; a remedy found within a small budget is among those of a large one."""
    findings = demo.findings("living")
    finding = next(f for f in findings if f.rule == "seating.off-wall")
    assert remedies_for(demo, finding, findings, Budget(trials=0)) == ()
    few = remedies_for(demo, finding, findings, Budget(trials=4))
    assert all(r.proof.trials <= 4 for r in few)
    many = remedies_for(demo, finding, findings)
    assert many == remedies_for(demo, finding, findings)
    assert {r.patch[0]["path"] for r in few} <= {op["path"] for r in many for op in r.patch}


def test_a_patch_resolves_only_the_room_it_touches(demo: Auditor) -> None:
    """After a move in one room the other rooms' cases are the very same objects, and the document before is unchanged."""
    patch = [{"op": "replace", "path": "/rooms/living/pieces/sofa/at/off", "value": "10 in"}]
    after = demo.after(patch)
    assert after.case("dining") is demo.case("dining")
    assert after.case("living") is not demo.case("living")
    assert after.case("living").room.survey is demo.case("living").room.survey
    assert demo.document["rooms"]["living"]["pieces"]["sofa"]["at"]["off"] == 0
    assert {f.id for f in after.findings()} == {f.id for f in Auditor.of(after.document).findings()}


def test_what_a_patch_leaves_alone_keeps_its_shape(demo: Auditor) -> None:
    """Behind a patch of the sofa the other pieces, the openings and the walls are the very same; the sofa is another."""
    before = demo.case("living").room
    patch = [{"op": "replace", "path": "/rooms/living/pieces/sofa/note", "value": "covered anew"}]
    if before.pieces["sofa"].model.note is None:
        patch[0]["op"] = "add"
    after = demo.after(patch).case("living").room
    assert after.walls is before.walls
    assert all(after.openings[i] is before.openings[i] for i in before.openings)
    assert {i for i in before.pieces if after.pieces[i] is not before.pieces[i]} == {"sofa"}
    assert after.pieces["sofa"].model.note == "covered anew"


def test_what_hangs_is_worked_out_again_only_where_it_may_hang_otherwise(demo: Auditor) -> None:
    """A move of a piece keeps what hangs at the windows; a raised rod, or a fitting moved under it, does not."""
    hung = hung_in(demo.case("living"))
    moved = demo.after([{"op": "replace", "path": "/rooms/living/pieces/sofa/at/off", "value": "10 in"}])
    assert hung_in(moved.case("living")) is hung
    rod = [{"op": "replace", "path": "/rooms/living/treatments/west-pair/hardware/height", "value": "90 in"}]
    assert hung_in(demo.after(rod).case("living"))["west-pair"].height > hung["west-pair"].height
    lamp = [{"op": "replace", "path": "/rooms/living/fittings/radiator/along", "value": "24 in"}]
    assert hung_in(demo.after(lamp).case("living")) is not hung


def test_the_seating_group_is_laid_anew(demo: Auditor) -> None:
    """The demo's seating, pushed to the walls, is offered a whole arrangement that leaves no seating fault behind."""
    findings = demo.findings("living")
    finding = next(f for f in findings if f.rule == "seating.off-wall")
    arrange = next(r for r in remedies_for(demo, finding, findings) if r.kind == "arrange")
    left = demo.after(arrange.patch).findings("living")
    assert not [f.id for f in left if f.rule.startswith("seating.") and f.grade.rank <= 1]


def test_a_house_file_goes_on_counting_behind_a_patch(tmp_path: Path) -> None:
    """A house's own values, read beside the job file, still judge the room after an opening was changed."""
    (tmp_path / "house.toml").write_text('"hazards.radiator_clear" = "9 in"\n', encoding="utf-8")
    loaded = read_job(DEMO)
    document = apply(
        loaded.document, [{"op": "add", "path": "/practice", "value": {"set": "us", "file": "house.toml"}}]
    )
    found = Auditor.of(document, folder=tmp_path)
    after = found.after(
        [{"op": "replace", "path": "/rooms/living/openings/door/undercut", "value": "1/4 in"}]
    )
    for state in (found, after):
        near = next(f for f in state.findings("living") if f.rule == "hazards.heater-clear")
        assert near.wanted == pytest.approx(9 * 0.0254)
        assert near.origin.startswith("house")


def test_a_rug_that_is_kept_shows_why_each_base_does_or_does_not_do(demo: Auditor) -> None:
    """The finding on the kept rug carries two workings: the size wanted, and every base tried with its share and margins."""
    findings = demo.findings("living")
    told = with_remedies(demo, [f for f in findings if f.rule == "rugs.front-legs"])
    size, base = told[0].working
    assert size.title == "Rug under the seating group, as the furniture stands"
    assert base.title == "Base rug under the kept rug, as the furniture stands"
    tried = {step.what: step.result for step in base.steps}
    assert tried["base 6 × 9 ft lying 108 in × 72 in"] == "the kept rug is 0.74 of it, wanted at most 0.67"
    assert "does not cover what is wanted" in tried["base 8 × 10 ft lying 120 in × 96 in"]
    assert told[0].to_json()["working"][1]["steps"][0]["what"] == "sides of the base"
    assert all(
        f.working == () for f in findings
    )  # sought with the remedies only, so that judging stays quick
