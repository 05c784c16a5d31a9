"""What a thing without a name is called in a sentence."""

from __future__ import annotations

import pytest

from halfdrop.job.model import Fitting, Job, Opening, Rug
from halfdrop.job.naming import fixed_name, rug_name, thing_name, treatment_name
from halfdrop.job.treatments import Treatment


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("door", "door"),
        ("door-2", "door 2"),
        ("back-door", "back door"),
        ("entrance", "entrance door"),
        ("d1", "door d1"),
    ],
)
def test_a_door_is_never_a_door_door(key: str, said: str) -> None:
    """The word for what it is stands once: in the id, or beside it."""
    place = {"wall": "AB", "along": "1 m", "width": "80 cm", "height": "2 m"}
    door = Opening.model_validate({"kind": "door", "leaf": "sliding", **place})
    assert fixed_name(key, door) == said


def test_a_fitting_is_called_as_an_opening_is() -> None:
    """A fitting whose id says what it is needs no more words."""
    heater = Fitting.model_validate({"kind": "radiator", "wall": "AB", "along": "1 m", "width": "80 cm"})
    assert fixed_name("radiator", heater) == "radiator"
    assert fixed_name("rad-1", heater) == "radiator rad 1"


@pytest.mark.parametrize(
    ("key", "said"),
    [("small", "small rug"), ("rug", "rug"), ("hall-runner", "hall runner"), ("r2", "rug r2")],
)
def test_a_rug_without_a_name_is_called_a_rug(key: str, said: str) -> None:
    """`The small lies on the hard floor` names nothing; `the small rug` does."""
    rug = Rug.model_validate({"width": "1 m", "length": "2 m", "at": {"x": "1 m", "y": "1 m"}})
    assert rug_name(key, rug) == said
    assert rug_name(key, rug.model_copy(update={"name": "heirloom"})) == "heirloom"


@pytest.mark.parametrize(
    ("key", "hung", "said"),
    [
        ("bay", {"heading": "wave"}, "bay curtains"),
        ("west-pair", {"heading": "wave"}, "west pair"),
        ("sheers", {"heading": "wave"}, "sheers"),
        ("east", {"kind": "roman"}, "east roman shade"),
        ("shade", {"kind": "roller"}, "shade"),
    ],
)
def test_what_hangs_is_called_by_its_kind(key: str, hung: dict[str, str], said: str) -> None:
    """An id that says where a treatment hangs gets the word for what it is."""
    treatment = Treatment.model_validate({"openings": "w", **hung})
    assert treatment_name(key, treatment) == said
    assert treatment_name(key, treatment.model_copy(update={"name": "her blinds"})) == "her blinds"


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"count": 4}, "cushions in blue stripe"),
        ({}, "cushion in blue stripe"),
        ({"count": 2, "name": "bolsters"}, "bolsters"),
    ],
)
def test_cushions_are_called_by_their_cloth(given: dict[str, object], said: str) -> None:
    """Cushions without a name are told by the cloth they are made in, not by their id."""
    fabric = {"name": "blue stripe", "width": "54 in"}
    cushions = {"c1": {"fabric": "stripe", "width": "18 in", "height": "18 in", **given}}
    survey = {"corners": "A B C D", "walls": {"AB": "5 m", "BC": "4 m", "CD": "5 m", "DA": "4 m"}}
    job = Job.model_validate(
        {
            "halfdrop": 1,
            "job": {"name": "Two rooms"},
            "fabrics": {"stripe": fabric},
            "rooms": {"study": {"name": "Study", "use": {}, "survey": survey, "cushions": cushions}},
        }
    )
    assert thing_name(job, "rooms/study/cushions/c1") == said
