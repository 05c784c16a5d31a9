"""What another color buys: a sofa covered anew stays, a rug in another color is another rug, recording a color is nothing."""

from __future__ import annotations

from typing import Any

from tests.buying.jobs import document, listed, put, step

SOFA, RUG = "/rooms/living/pieces/sofa", "/rooms/living/rugs/rug"


def _colored() -> dict[str, Any]:
    job = document()
    job["swatches"] = {
        k: {"name": k.capitalize(), "color": c} for k, c in (("coral", "#d8574a"), ("oat", "#cdbfa6"))
    }
    living = job["rooms"]["living"]
    living["pieces"]["sofa"]["colors"] = living["rugs"]["rug"]["colors"] = "coral"
    return job


def test_a_sofa_covered_anew_stays_and_is_worked_on() -> None:
    """Another cover is a work on the sofa that is there; nothing leaves, nothing is bought."""
    found = listed(step("Re-cover the sofa in Oat.", put(f"{SOFA}/colors", "oat")), job=_colored())
    assert found.bought == found.leaves == ()
    assert "sofa" in {s.name for s in found.stays}
    (work,) = found.works
    assert work.what == "The sofa is covered anew in Oat."
    assert work.why == "Re-cover the sofa in Oat."


def test_a_rug_in_another_color_is_another_rug() -> None:
    """A rug of the same size in another color is bought, and the old one leaves."""
    step_of = step("Lay a rug in Oat.", put(f"{RUG}/colors", "oat"), put(f"{RUG}/arrives", True, "add"))
    found = listed(step_of, job=_colored())
    assert next(b.kind for b in found.bought) == "rug"
    assert [left.name for left in found.leaves] == ["rug"]


def test_a_color_recorded_is_no_change() -> None:
    """To write down what a piece wears buys nothing and works on nothing."""
    job = _colored()
    del job["rooms"]["living"]["pieces"]["sofa"]["colors"]
    found = listed(step("Record the sofa's color.", put(f"{SOFA}/colors", "oat", "add")), job=job)
    assert found.bought == found.leaves == found.works == ()
