"""Which doors lead out, by the rooms they join."""

from __future__ import annotations

from typing import Any

from halfdrop.job.model import Job
from halfdrop.job.way_out import doors_of, exits, inward, steps_out

SURVEY = {"corners": "A B C D", "walls": {"AB": "5 m", "BC": "4 m", "CD": "5 m", "DA": "4 m"}}


def _job(**doors: dict[str, Any]) -> Job:
    """Make a job whose rooms have the doors given: `hall={"front": ("outside", 0.9)}`."""
    rooms = {}
    for room, ways in doors.items():
        openings = {
            key: {
                "kind": "cased opening",
                "wall": "AB",
                "along": f"{i} m",
                "width": f"{w} m",
                "height": "2 m",
            }
            | ({"to": to} if to else {})
            for i, (key, (to, w)) in enumerate(ways.items())
        }
        rooms[room] = {"name": room, "use": {"living": True}, "survey": SURVEY, "openings": openings}
    return Job.model_validate({"halfdrop": 1, "job": {"name": "Doors"}, "rooms": rooms})


def test_both_sides_are_one_door() -> None:
    """A door written down on both sides counts once, by its tighter side; a second door between the rooms is
    another.
    """
    job = _job(hall={"a": ("bed", 0.8), "b": ("bed", 1.2)}, bed={"x": ("hall", 0.75)})
    doors = doors_of(job)
    assert [(d.width, len(d.sides)) for d in doors] == [(0.75, 2), (0.8, 1)]


def test_steps_by_either_side() -> None:
    """A room is one door deeper than the room it opens on, whichever side says so; a room nobody joins has
    no steps.
    """
    job = _job(
        hall={"front": ("outside", 0.9), "a": ("bed", 0.8)}, bed={"x": (None, 0.8)}, shed={"y": (None, 0.8)}
    )
    assert steps_out(job) == {"hall": 1, "bed": 2}


def test_exits_and_doors_inward() -> None:
    """The hall is left by the front door, the bedroom by the hall; the hall's door to the bedroom leads
    inward.
    """
    job = _job(
        hall={"front": ("outside", 0.9), "a": ("bed", 0.8)},
        bed={"x": ("hall", 0.8), "en-suite": ("bath", 0.7)},
        bath={},
    )
    assert exits(job, "hall") == ("front",)
    assert inward(job, "hall") == ("a",)
    assert exits(job, "bed") == ("x",)
    assert inward(job, "bed") == ("en-suite",)


def test_unknown_way_out() -> None:
    """Where nothing joins a room to the outside, every door may be the way out and none is known to lead
    inward.
    """
    job = _job(den={"x": (None, 0.8), "y": (None, 0.8)})
    assert exits(job, "den") == ("x", "y")
    assert inward(job, "den") == ()
