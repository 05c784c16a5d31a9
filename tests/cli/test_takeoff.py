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
