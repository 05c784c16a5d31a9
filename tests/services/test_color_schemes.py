"""Schemes from a work of art in a job: whole, proven, written."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Grade
from halfdrop.base.errors import InputError
from halfdrop.job.read import read_job
from halfdrop.job.scheme import with_scheme
from halfdrop.services.color_places import wearers
from halfdrop.services.color_schemes import Proposal, art_colors, propose, write_schemes
from halfdrop.services.jobs import open_job
from tests.color.from_art.rooms import library

DEMO = Path(__file__).parents[2] / "examples" / "quince.yaml"
SWATCHES = {
    "sage": "#7a8b6f",
    "bone": "#e8dcc4",
    "brick": "#b5533c",
    "deep": "#2f4858",
    "oak": "#a07850",
    "saffron": "#d9a03f",
}


def colored() -> dict[str, Any]:
    """Return the demo with a picture whose colors are recorded, an oak floor, and a sofa that stays in saffron."""
    document = copy.deepcopy(read_job(DEMO).document)
    document["swatches"] = {key: {"name": key.capitalize(), "color": code} for key, code in SWATCHES.items()}
    room = document["rooms"]["living"]
    for thing in [*room["pieces"].values(), *room["rugs"].values()]:
        thing.pop("colors", None)
    room["surfaces"] = {"walls": "bone", "floor": "oak"}
    room["pieces"]["sofa"] |= {"colors": "saffron", "keep": True}
    for other in document["rooms"].values():
        other.pop("art", None)
        if other is not room:
            other.pop("surfaces", None)
            for thing in [*(other.get("pieces") or {}).values(), *(other.get("rugs") or {}).values()]:
                thing.pop("colors", None)
    for made in [*(document.get("fabrics") or {}).values(), *(document.get("papers") or {}).values()]:
        made.pop("colors", None)
    for paint in (document.get("paints") or {}).values():
        paint.pop("swatch", None)
    room["art"] = {
        "hill": {
            "name": "Hillside", "width": "30 in", "height": "24 in",
            "colors": {"sage": 0.4, "bone": 0.3, "brick": 0.15, "deep": 0.15},
        }
    }  # fmt: skip
    room["wishes"].pop("focal", None)
    return document


@pytest.fixture(scope="module")
def made() -> tuple[Auditor, list[Proposal]]:
    """The demo's living room and three schemes from its picture."""
    state = Auditor.of(colored())
    return state, propose(state, "living", *art_colors(state.job, "living", "hill"), library(3000))


def test_each_gives_every_open_thing_a_swatch_and_leaves_what_stays(
    made: tuple[Auditor, list[Proposal]],
) -> None:
    """Under each scheme all that may change wears one swatch of the job; the client's sofa stays saffron."""
    _, proposals = made
    assert [p.scheme.style for p in proposals] == ["quiet", "balanced", "bold"]
    for one in proposals:
        after = {w.path: w for w in wearers(one.after.case("living"))}
        assert after["rooms/living/pieces/sofa"].part.colors == {"saffron": 1.0}
        for wearer in after.values():
            if not wearer.stays:
                assert list(wearer.part.colors.values()) == pytest.approx([1.0]), wearer.path
                assert set(wearer.part.colors) <= one.after.job.swatches.keys()


def test_none_brings_a_new_hazard_or_fault(made: tuple[Auditor, list[Proposal]]) -> None:
    """What the judge found before is all that it finds of those grades after."""
    state, proposals = made
    before = {f.id for f in state.findings("living")}
    for one in proposals:
        grave = [f for f in one.after.findings("living") if f.grade in (Grade.HAZARD, Grade.FAULT)]
        assert {f.id for f in grave} <= before
        assert one.brought == ()
        assert [f.message for f in one.lesser] == []


def test_written_schemes_stand_alone_and_keep_the_rooms_as_found(tmp_path: Path) -> None:
    """Each scheme applies to the job as found, gives what was proposed, and the file's comments stay."""
    path = tmp_path / "flat.yaml"
    job = open_job(Path(DEMO))
    text = DEMO.read_text(encoding="utf-8")
    path.write_text(text, encoding="utf-8")
    from halfdrop.job.write import write_job

    write_job(path, read_job(path), colored())
    job = open_job(path)
    proposals = propose(job.found, "living", *art_colors(job.found.job, "living", "hill"), library(800))
    write_schemes(job, proposals, ["quiet", "balanced", "bold"])
    document = read_job(path).document
    assert document["rooms"] == job.loaded.document["rooms"]
    assert "# Quince Court" in path.read_text(encoding="utf-8")
    for key, one in zip(("quiet", "balanced", "bold"), proposals, strict=True):
        assert with_scheme(document, key)["rooms"] == one.after.document["rooms"]
    with pytest.raises(InputError, match="is there already"):
        write_schemes(open_job(path), proposals, ["quiet", "x", "y"])


def test_the_same_cloth_in_another_room_stays(made: tuple[Auditor, list[Proposal]]) -> None:
    """A scheme of the living room leaves the job's cloths as they are, and makes others like them."""
    state, proposals = made
    for one in proposals:
        for key, fabric in state.document["fabrics"].items():
            assert one.after.document["fabrics"][key] == fabric
        for room in state.document["rooms"]:
            if room != "living":
                assert one.after.document["rooms"][room] == state.document["rooms"][room]


def test_art_without_colors_and_jobs_without_swatches_are_refused() -> None:
    """An unknown work with the near one, a work whose colors are not recorded with the command that lifts them."""
    document = colored()
    state = Auditor.of(document)
    with pytest.raises(InputError, match="no art `hil`") as caught:
        art_colors(state.job, "living", "hil")
    assert caught.value.hint == "did you mean `hill`?"
    del document["rooms"]["living"]["art"]["hill"]["colors"]
    with pytest.raises(InputError, match="are not recorded") as caught:
        art_colors(Auditor.of(document).job, "living", "hill")
    assert "halfdrop palette" in str(caught.value.hint)
