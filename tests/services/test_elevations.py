"""Which elevations a room has, what they are called, which notes belong on them, which are worth a sheet of the book."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.drawing.verbs import Text
from halfdrop.services.elevation_paper import strips_of
from halfdrop.services.elevations import (
    anchored,
    elevation_drawn,
    papered,
    shown_walls,
    told_of,
    wall_runs,
    walls_named,
)
from halfdrop.services.jobs import open_job
from halfdrop.services.workbench_jobs import demo_text


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Auditor:
    """The demo job as found."""
    file: Path = tmp_path_factory.mktemp("demo") / "quince.yaml"
    file.write_text(demo_text())
    return open_job(file).found


def test_every_wall_is_on_one_elevation(demo: Auditor) -> None:
    """Each wall of each room once; those of the study's bay together."""
    for key in demo.job.rooms:
        case = demo.case(key)
        walls = [wall for _, names in wall_runs(case) for wall in names]
        assert sorted(walls) == sorted(w.name for w in case.room.walls)
    assert ("DEFG", ("DE", "EF", "FG")) in wall_runs(demo.case("study"))


@pytest.mark.parametrize(
    ("said", "name"),
    [("DEFG", "DEFG"), ("GFED", "DEFG"), ("EF", "EF"), ("FE", "EF"), ("ABC", "ABC"), ("HAB", "HAB")],
)
def test_walls_are_named_as_a_person_would(demo: Auditor, said: str, name: str) -> None:
    """A bay by its corners either way round, one wall of it, a row round a corner, a row past the last corner."""
    case = demo.case("study")
    assert shown_walls(case, walls_named(case, said)).face.name == name


def test_a_note_points_to_the_rod_or_the_hem_it_is_about(demo: Auditor) -> None:
    """What is said of the rod stands at the rod's height, what is said of the hem at the hem."""
    case = demo.case("living")
    shown = shown_walls(case, "CD")
    pair = next(h for h in shown.hangings if h.hung.id == "west-pair")
    spots = {f.rule: spot for f, spot in anchored(shown, demo.findings("living"))}
    assert spots["drapery.rod-low"][1] == pytest.approx(pair.height)
    assert spots["drapery.rod-short"][0] == pytest.approx(pair.rod[0])
    assert spots["drapery.short"][1] == pytest.approx(pair.panels()[0][2])


def test_what_the_plan_shows_better_is_not_said_on_a_wall(demo: Auditor) -> None:
    """Notes on how pieces stand to each other, on rugs and ways, belong to the plan."""
    for key in demo.job.rooms:
        case = demo.case(key)
        for _, walls in wall_runs(case):
            for finding, _ in anchored(shown_walls(case, walls), demo.findings(key)):
                assert finding.rule.split(".")[0] not in ("rugs", "circulation")


def test_a_wall_is_worth_a_sheet_where_something_hangs_or_changes(demo: Auditor) -> None:
    """As found: the window wall, not the arch's. As proposed: only where what hangs, or the wall itself, is changed."""
    found = demo.case("living")
    assert told_of(found, found, ("CD",), proposed=False)
    assert not told_of(found, found, ("BC",), proposed=False)
    assert not told_of(found, found, ("CD",), proposed=True)
    path = "/rooms/living/treatments/west-pair/hardware/height"
    later = demo.after([{"op": "replace", "path": path, "value": "94 in"}]).case("living")
    assert told_of(found, later, ("CD",), proposed=True)
    assert not told_of(found, later, ("DA",), proposed=True)
    moved = "/rooms/living/pieces/sofa/at/along"
    pulled = demo.after([{"op": "replace", "path": moved, "value": "60 in"}]).case("living")
    assert not told_of(found, pulled, ("CD",), proposed=True), "furniture is the plan's to show"


def test_a_papered_wall_shows_its_strips_from_end_to_end(demo: Auditor) -> None:
    """The bedroom's head wall is covered without a gap; the others have no paper."""
    case = demo.case("bedroom")
    assert set(strips_of(case)) == {"FA"}
    shown = papered(case, shown_walls(case, "FA"))
    edges = sorted((s.left, s.right) for s in shown.strips)
    assert edges[0][0] == pytest.approx(0.0, abs=1e-6)
    assert max(b for _, b in edges) == pytest.approx(shown.face.width, abs=1e-6)
    assert papered(case, shown_walls(case, "BC")).strips == ()


def test_a_thing_that_is_keyed_bears_no_note_s_number(demo: Auditor) -> None:
    """On a phone's sheet the key goes on after the last note of the room, though that note stands on another wall."""
    case, findings = demo.case("hall"), demo.findings("hall")
    numbers = {f.id: n for n, f in enumerate(findings, 1)}

    def key(numbers: dict[str, int]) -> list[str]:
        made = elevation_drawn(case, case, "BC", findings, numbers, proposed=False, paper="phone")
        texts = [verb.text for verb in made.verbs if isinstance(verb, Text)]
        assert "Key" in texts
        return texts[texts.index("Key") + 1 :][:2]

    assert key(numbers) == [str(len(findings) + 1), "June"]
    assert key({**numbers, "a note on another wall": 18}) == ["19", "June"]
