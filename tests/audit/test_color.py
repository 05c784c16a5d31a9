"""The color rules on rooms of their own: what a change of mind costs, whose swatches are proposed, where they keep silent."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding
from halfdrop.audit.prove import remedies_for
from halfdrop.audit.rule import find_rule
from halfdrop.job.patch import apply
from tests.color.colored import document

WORKS = {
    "near": {"width": "0.8 m", "height": "0.6 m", "at": {"wall": "BC", "along": "1.6 m", "bottom": "1.2 m"}, "colors": "moss",
             "reason": "ours"},
    "far": {"width": "0.8 m", "height": "0.6 m", "at": {"wall": "DA", "along": "1.6 m", "bottom": "1.2 m"}, "colors": "violet",
            "reason": "ours"},
}  # fmt: skip


def _job(**room: Any) -> dict[str, Any]:
    job = document(**room)
    job["swatches"]["violet"] = {"name": "Violet", "lab": [30, 40, -50]}
    job["swatches"]["gray"] = {"name": "Gray", "lab": [62, 0, 3]}
    return job


def _found(job: dict[str, Any], family: str = "color.") -> list[Finding]:
    return [f for f in Auditor.of(job).findings("r") if f.rule.startswith(family)]


def test_of_two_works_only_the_one_nothing_takes_up_is_told() -> None:
    """The moss sofa takes up a moss picture; a violet one hangs alone."""
    found = _found(_job(art=WORKS), "color.art-alone")
    assert [f.subjects for f in found] == [("rooms/r/art/far",)]


def test_a_job_without_colors_hears_nothing_of_them() -> None:
    """Taken out of the document wherever they stand, colors leave no color finding behind, works or not."""
    job = _job(art=copy.deepcopy(WORKS))
    room = job["rooms"]["r"]
    for thing in (
        *room["pieces"].values(),
        *room["rugs"].values(),
        *room["art"].values(),
        *job["fabrics"].values(),
    ):
        thing.pop("colors", None)
    room["surfaces"] = {}
    assert not _found(job)


def test_remedies_name_the_job_s_own_swatches_and_hold() -> None:
    """Every swatch a remedy brings is one of the job's, and its patch, applied for good, clears the finding."""
    job = _job(art=WORKS)
    auditor = Auditor.of(job)
    every = auditor.findings("r")
    tried = 0
    for finding in [f for f in every if f.rule.startswith("color.")]:
        for remedy in remedies_for(auditor, finding, every):
            tried += 1
            after = apply(job, remedy.patch)
            again = Auditor.of(after)
            assert finding.id not in {f.id for f in again.findings("r")}
            assert after["swatches"] == job["swatches"]
    assert tried >= 2


def test_what_the_client_keeps_keeps_its_color() -> None:
    """Nothing that is kept is painted, covered or laid anew, whatever would clear the finding."""
    job = _job(art=WORKS)
    for thing in (*job["rooms"]["r"]["pieces"].values(), *job["rooms"]["r"]["rugs"].values()):
        thing["keep"] = True
    auditor = Auditor.of(job)
    every = auditor.findings("r")
    for finding in [f for f in every if f.rule.startswith("color.")]:
        for remedy in remedies_for(auditor, finding, every):
            assert not any("/pieces/" in op["path"] or "/rugs/" in op["path"] for op in remedy.patch), (
                remedy.title
            )


def _sofa(**more: Any) -> dict[str, Any]:
    job = _job()
    job["rooms"]["r"]["pieces"]["sofa"] |= {"colors": "violet", **more}
    return job


@pytest.mark.parametrize(("price", "said"), [("$2,400", "$1,440"), (None, "of each 100")])
def test_a_loud_sofa_comes_with_what_a_change_of_mind_costs(price: str | None, said: str) -> None:
    """The finding says the expected cost; the working names every assumption, with the price or of each 100 it costs."""
    job = _sofa(**({"price": price} if price else {}))
    finding = _found(job, "color.loud-large")[0]
    assert said in finding.message
    case = Auditor.of(job).case("r")
    (working,) = list(find_rule("color.loud-large").workings(case, finding))
    text = json.dumps(working.to_json())
    for key in (
        "tire_loud",
        "tire_quiet",
        "mind_horizon",
        "resale_first",
        "resale_yearly",
        "resale_loud",
        "accents_cost",
    ):
        assert f"color.{key}" in text
    assert (price or "of each 100") in text


def test_the_color_can_be_had_on_cushions_instead() -> None:
    """One remedy covers the sofa in a near-neutral and puts its color on four cushions."""
    job = _sofa()
    auditor = Auditor.of(job)
    every = auditor.findings("r")
    finding = next(f for f in every if f.rule == "color.loud-large")
    (remedy,) = [r for r in remedies_for(auditor, finding, every) if r.kind == "quiet with cushions"]
    room = apply(job, remedy.patch)["rooms"]["r"]
    cushions = next(iter(room["cushions"].values()))
    assert cushions["count"] == 4
    assert room["pieces"]["sofa"]["colors"] != "violet"


def test_a_patch_of_cloth_or_paint_leaves_the_survey_as_it_was_adjusted() -> None:
    """A patch of the job's paints resolves the rooms anew on the same adjusted surveys, and judges as from scratch."""
    job = _job(art=WORKS)
    auditor = Auditor.of(job)
    patch = [
        {"op": "add", "path": "/paints", "value": {"rust": {"name": "Rust", "swatch": "rust"}}},
        {"op": "add", "path": "/rooms/r/finishes", "value": {"walls": {"on": "walls", "paint": "rust"}}},
    ]
    after = auditor.after(patch)
    assert after.case("r").room.survey is auditor.case("r").room.survey
    fresh = Auditor.of(apply(job, patch))
    assert [f.id for f in after.findings("r")] == [f.id for f in fresh.findings("r")]
