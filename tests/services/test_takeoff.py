"""The take-off: every quantity in one place, each with its working, the same every time."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from halfdrop.base.errors import InputError
from halfdrop.cli.commands.install import install as install_command
from halfdrop.cli.commands.takeoff import takeoff as takeoff_command
from halfdrop.services.jobs import open_job
from halfdrop.services.takeoff import TakeOff, takeoff
from halfdrop.services.trade_sheets import install_sheets
from halfdrop.services.workbench_takeoff import counted as counted_for_page
from tests.walls.jobs import document

FINISHES = {
    "walls": {"on": "walls", "walls": ["AB"], "paper": "fern"},
    "rest": {"on": "walls", "walls": ["BC", "CD", "DA"], "paint": "white", "change": "strong"},
    "ceiling": {"on": "ceiling", "paint": "white"},
    "trim": {"on": "trim", "paint": "white", "substrate": "glossy"},
}
RUG = {"width": "2 m", "length": "3 m", "at": {"x": "2 m", "y": "1.5 m"}, "arrives": True, "price": "€900",
       "pad": {"thickness": "6 mm", "price": "€60"}}  # fmt: skip


def _count(folder: Path, made: dict[str, Any], **how: Any) -> TakeOff:
    path = folder / "job.json"
    path.write_text(json.dumps(made), encoding="utf-8")
    return takeoff(open_job(path), **how)


def test_every_trade_is_there_with_its_working(tmp_path: Path) -> None:
    """Paper, paint, the primer nobody named, the rug that arrives: each line has quantity, working and what it costs."""
    made = document(**FINISHES)
    made["rooms"]["snug"]["rugs"] = {"new": RUG}
    counted = _count(tmp_path, made)
    assert [(line.trade, line.name) for line in counted.lines[:3]] == [
        ("paper", "Fern"),
        ("paint", "White"),
        ("paint", "primer, not yet chosen"),
    ]
    assert "rug" in {line.trade for line in counted.lines}
    assert all(
        line.workings and line.workings[0].steps for line in counted.lines if line.trade in ("paper", "paint")
    )
    paper, white, primer = counted.lines[:3]
    assert paper.total is not None
    assert paper.total.amount == 80 * paper.quantity
    assert white.total is not None
    assert primer.total is None
    assert counted.unpriced == sum(line.total is None for line in counted.lines)
    assert counted.total.amount == sum(line.total.amount for line in counted.lines if line.total is not None)


def test_one_paint_on_three_surfaces_is_bought_once(tmp_path: Path) -> None:
    """Walls in three coats, ceiling and trim in two: one sum, one choice of cans, three finishes told."""
    white = next(line for line in _count(tmp_path, document(**FINISHES)).lines if line.name == "White")
    parts = white.detail["finishes"]
    assert [(p["on"], p["coats"]) for p in parts] == [("walls", 3), ("ceiling", 2), ("trim", 2)]
    assert sum(p["wanted_l"] for p in parts) == pytest.approx(white.detail["wanted_l"], abs=3e-4)
    assert white.detail["bought_l"] >= white.detail["with_reserve_l"]


def test_the_paper_tells_seams_from_corners_and_rolls_in_order(tmp_path: Path) -> None:
    """Each strip has its place from its wall's corner; every length wanted lies on one roll, from start to end."""
    paper = _count(tmp_path, document(**FINISHES)).lines[0]
    finish = paper.detail["finishes"][0]
    strips = finish["runs"][0]["strips"]
    assert strips[0]["from"] == {"wall": "AB", "along": 0.0}
    assert strips[-1]["to"] == {"wall": "AB", "along": 4.0}
    laid = [one["cut"] for roll in paper.detail["rolls"] for one in roll]
    assert sorted(laid) == sorted(cut["cut"] for cut in finish["cuts"])


def test_the_cautions_of_old_walls_are_said(tmp_path: Path) -> None:
    """Lead, asbestos and ladders where walls are covered, nothing where nothing is."""
    said = _count(tmp_path, document(**FINISHES)).cautions
    assert [c.split(":")[0] for c in said] == ["Old paint", "Asbestos", "Ladders"]
    assert _count(tmp_path, document()).cautions == ()


def test_workings_are_told_in_the_units_of_the_job(tmp_path: Path) -> None:
    """A job in meters that works to the US set is counted by that set and told in centimeters; a job in inches in inches."""
    for units, mine, other in (("metric", " cm", " in"), ("imperial", " in", " cm")):
        made = document(**FINISHES)
        made["job"]["units"], made["practice"] = units, {"set": "us"}
        steps = [s for line in _count(tmp_path, made).lines for w in line.workings for s in w.steps]
        told = " ".join(f"{step.values} {step.result}" for step in steps)
        assert mine in told
        assert not re.search(rf"\d{other}\b", told)


def test_a_room_that_is_not_whole_is_left_out_and_named(tmp_path: Path) -> None:
    """A study with a corner that floats keeps nobody from the snug's paint: the same lines, and a note why the study is missing."""
    made = document(**FINISHES)
    alone = _count(tmp_path, made)
    study = json.loads(json.dumps(made["rooms"]["snug"]))
    study["name"] = "Study"
    study["rugs"] = {"new": RUG}
    study["survey"] = {"corners": "A B C D", "walls": {"AB": "4 m", "BC": "3 m"}}
    made["rooms"]["study"] = study
    path = tmp_path / "two.json"
    path.write_text(json.dumps(made), encoding="utf-8")
    with pytest.raises(InputError):
        open_job(path)
    opened = open_job(path, partly=True)
    counted = takeoff(opened)
    assert [line.said for line in counted.lines] == [line.said for line in alone.lines]
    assert "at least" in counted.verdict
    (left,) = counted.left_out
    assert (left.room, left.name) == ("study", "Study")
    assert left.said.startswith("Study is left out: ")
    assert counted.to_json()["left_out"][0]["said"] == left.said
    assert {sheet.room for sheet in install_sheets(opened)} == {"Snug"}
    with pytest.raises(InputError) as asked:
        takeoff(opened, room="study")
    assert left.why in str(asked.value)
    out = CliRunner().invoke(takeoff_command, [str(path)])
    assert out.exit_code == 0, out.output
    assert left.said in out.output
    listed = CliRunner().invoke(install_command, [str(path), "--json"])
    assert json.loads(listed.output)["left_out"][0]["room"] == "study"


def test_the_page_counts_the_other_rooms_too() -> None:
    """The worker that counts for the page leaves the same room out, under its name, and draws the sheets of the other."""
    made = document(**FINISHES)
    study = {
        **made["rooms"]["snug"],
        "name": "Study",
        "survey": {"corners": "A B C D", "walls": {"AB": "4 m"}},
    }
    made["rooms"]["study"] = study
    answer = counted_for_page(json.dumps(made), None)
    assert [one["room"] for one in answer["takeoff"]["left_out"]] == ["study"]
    assert answer["takeoff"]["lines"]
    assert {sheet["room"] for sheet in answer["sheets"]} == {"Snug"}


def test_where_no_room_is_whole_the_fault_is_told(tmp_path: Path) -> None:
    """There is nothing to count without a room: the survey's fault is the answer, with its line."""
    made = document(**FINISHES)
    made["rooms"]["snug"]["survey"] = {"corners": "A B C D", "walls": {"AB": "4 m", "BC": "3 m"}}
    path = tmp_path / "none.json"
    path.write_text(json.dumps(made), encoding="utf-8")
    with pytest.raises(InputError):
        open_job(path, partly=True)


def test_nothing_to_count_is_said(tmp_path: Path) -> None:
    """A room without finishes and nothing bought."""
    counted = _count(tmp_path, document())
    assert (counted.lines, counted.verdict) == (
        (),
        "Nothing is counted: no room has a finish or a treatment, and nothing is bought.",
    )


def test_a_scheme_is_counted_as_it_would_be(tmp_path: Path) -> None:
    """As found nothing is papered; under the scheme wall AB is."""
    made = document()
    value = FINISHES["walls"]
    patch = [{"op": "add", "path": "/rooms/snug/finishes/walls", "value": value}]
    made["schemes"] = {"first": {"name": "First", "steps": [{"title": "Paper", "patch": patch}]}}
    assert _count(tmp_path, made).lines == ()
    assert [line.trade for line in _count(tmp_path, made, scheme="first").lines] == ["paper"]


def test_a_fault_has_its_line(tmp_path: Path) -> None:
    """A room without a height: the error names file and path."""
    made = document(**FINISHES)
    del made["rooms"]["snug"]["survey"]["heights"]
    with pytest.raises(InputError, match="has no ceiling height") as caught:
        _count(tmp_path, made)
    assert caught.value.at is not None
    assert caught.value.at.file is not None
    assert caught.value.at.path == "rooms/snug/survey"


def test_a_roll_too_short_names_its_paper(tmp_path: Path) -> None:
    """A remnant of 2 m: no strip of 2.6 m comes off it."""
    made = document(**FINISHES)
    made["papers"]["fern"]["length"] = "2 m"
    with pytest.raises(InputError, match="longer than a roll"):
        _count(tmp_path, made)


def test_the_same_job_gives_the_same_bytes(tmp_path: Path) -> None:
    """Two counts of one file are one JSON text, and it is JSON."""
    first, second = (json.dumps(_count(tmp_path, document(**FINISHES)).to_json()) for _ in range(2))
    assert first == second
    assert json.loads(first)["verdict"].startswith("The take-off comes to at least €")


def _curtained(**more: Any) -> dict[str, Any]:
    made = document()
    made["fabrics"] = {
        "linen": {"name": "Linen", "width": "1.4 m", "price": "€40.10", "sale": "meter", **more}
    }
    panels = {"openings": ["window"], "heading": "double pinch", "fabric": "linen"}
    made["rooms"]["snug"]["treatments"] = {"curtains": panels}
    return made


def test_cloth_and_its_rod_are_lines_of_their_own(tmp_path: Path) -> None:
    """Metres of linen as the bolt plan buys them, priced to the cent; the rod with its brackets and their load."""
    cloth, rod = _count(tmp_path, _curtained()).lines
    assert (cloth.trade, cloth.item, cloth.unit) == ("cloth", "fabrics/linen", "meter")
    assert cloth.quantity == pytest.approx(cloth.detail["on_bolts"], abs=1e-4)
    assert (
        cloth.quantity >= sum(c["end"] - c["start"] for b in cloth.detail["bolts"] for c in b["cuts"]) - 1e-3
    )
    assert cloth.total is not None
    assert float(cloth.total.amount) == pytest.approx(40.10 * cloth.quantity, abs=0.006)
    assert (rod.trade, rod.item, rod.unit) == ("hardware", "rooms/snug/treatments/curtains", "piece")
    assert rod.detail["length"] > 1.8
    assert len(rod.detail["brackets_at"]) >= 2
    assert all(line.workings for line in (cloth, rod))


def test_the_json_says_where_the_motif_falls_on_the_bolt(tmp_path: Path) -> None:
    """With the bolt's first motif line and each cut's own, a workroom can lay the plan out without the drawing."""
    cloth = _count(tmp_path, _curtained(repeat="64 cm", match="half-drop")).lines[0]
    for bolt in cloth.detail["bolts"]:
        assert 0 <= bolt["motif"] < 0.64
        steps = [(cut["line"] - bolt["motif"]) / 0.32 for cut in bolt["cuts"]]
        assert steps == pytest.approx([round(step) for step in steps], abs=1e-3)
        assert all(cut["start"] <= cut["line"] <= cut["end"] for cut in bolt["cuts"])


def test_cloth_sold_by_the_bolt_is_counted_in_bolts(tmp_path: Path) -> None:
    """Whole bolts of 30 m at their price."""
    bolts = {"sale": "bolt", "bolts": {"b": {"length": "30 m"}}, "price": "€900"}
    cloth = _count(tmp_path, _curtained(**bolts)).lines[0]
    assert (cloth.quantity, cloth.said) == (1, "1 bolt")
    assert cloth.total is not None
    assert cloth.total.amount == 900


def test_what_the_client_keeps_takes_no_cloth(tmp_path: Path) -> None:
    """Curtains that stay are neither cut nor hung anew."""
    made = _curtained()
    made["rooms"]["snug"]["treatments"]["curtains"]["keep"] = True
    assert _count(tmp_path, made).lines == ()
