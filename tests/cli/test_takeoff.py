"""`halfdrop takeoff`: quantities on the terminal and as JSON."""

from __future__ import annotations

import json
from pathlib import Path

from tests.cli.conftest import Halfdrop
from tests.walls.jobs import document

FINISHES = {"walls": {"on": "walls", "paper": "stripe"}, "ceiling": {"on": "ceiling", "paint": "white"}}


def test_takeoff_prints_a_table_its_workings_and_json(halfdrop: Halfdrop, tmp_path: Path) -> None:
    """A line each for paper and paint; `--working` shows the sums; `--json` is one document with both."""
    path = tmp_path / "job.json"
    path.write_text(json.dumps(document(**FINISHES)), encoding="utf-8")
    answer = halfdrop("takeoff", path)
    assert answer.code == 0, answer.err
    assert [line.split()[:2] for line in answer.out.splitlines()[2:4]] == [
        ["paper", "Stripe"],
        ["paint", "White"],
    ]
    assert "where the pattern may fail to meet" not in answer.out
    assert "where the pattern may fail to meet" in halfdrop("takeoff", path, "--working").out
    lines = halfdrop("takeoff", path, "--json").json["lines"]
    assert [line["item"] for line in lines] == ["papers/stripe", "paints/white"]
    assert all(line["workings"] for line in lines)


def test_takeoff_of_the_demo_counts_each_trade_and_shares_the_print(halfdrop: Halfdrop, demo: Path) -> None:
    """The demo papers one room, paints one and sews for several; its print is cut for three rooms at once."""
    answer = halfdrop("takeoff", demo, "--json")
    assert answer.code == 0, answer.err
    lines = {line["item"]: line for line in answer.json["lines"]}
    assert {"paper", "paint", "cloth"} <= {line["trade"] for line in lines.values()}
    assert lines["papers/small-leaf"]["rooms"] == ["bedroom"]
    assert lines["paints/clay"]["rooms"] == ["study"]
    assert {"living", "dining", "study"} <= set(lines["fabrics/quince"]["rooms"])
    assert halfdrop("takeoff", demo, "--room", "attic").code == 3


def test_takeoff_sets_the_hand_formula_beside_the_bolt_plan(halfdrop: Halfdrop, demo: Path) -> None:
    """In the unit of sale: what is saved, what is the same, and where the hand formula would run short."""
    notes = " ".join(n for line in halfdrop("takeoff", demo, "--json").json["lines"] for n in line["notes"])
    assert "yd less" in notes
    assert "the dining sheers" in notes
    short = demo.read_text(encoding="utf-8").replace("repeat: 27 in,", "repeat: 25.2 in,")
    demo.write_text(short, encoding="utf-8")
    lines = {line["item"]: line for line in halfdrop("takeoff", demo, "--json").json["lines"]}
    print_ = lines["fabrics/quince"]
    assert print_["detail"]["by_hand"] < print_["detail"]["bound"] <= print_["detail"]["on_bolts"]
    assert any("run short" in note for note in print_["notes"])
