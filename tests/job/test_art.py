"""Art in the document: what is read, what is refused and how it is said."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from halfdrop.job.art import Art
from halfdrop.job.model import Job
from halfdrop.job.naming import art_name

WORK: dict[str, Any] = {"width": "24 in", "height": "30 in"}


def _job(art: dict[str, Any], **room: Any) -> Job:
    survey = {"corners": "A B C D", "walls": {"AB": "5 m", "BC": "4 m", "CD": "5 m", "DA": "4 m"}}
    whole = {"name": "Room", "use": {"living": True}, "survey": survey, "art": art, **room}
    return Job.model_validate({"halfdrop": 1, "job": {"name": "Art"}, "rooms": {"r": whole}})


def _refusal(art: dict[str, Any], **room: Any) -> str:
    with pytest.raises(ValidationError) as refused:
        _job(art, **room)
    return str(refused.value.errors()[0]["msg"])


def test_a_work_may_wait_for_its_place() -> None:
    """Only its size is needed; one without a place is a painting that hangs nowhere yet."""
    work = _job({"heron": WORK}).rooms["r"].art["heron"]
    assert (work.kind, work.at, work.glass) == ("painting", None, False)


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"at": {"wall": "AC", "along": "1 m", "bottom": "1 m"}}, "art/heron/at/wall is AC, which is no wall of this room"),
        ({"above": "sofa"}, "art/heron/above is sofa; it names a piece of the room"),
        ({"frame": "6 in", "mat": {"width": "6 in"}}, "frame and mat leave no picture: the work is 24 in by 30 in"),
        ({"hangs": {"from": "wire", "drop": "30 in"}}, "hangs/drop is 30 in; the frame is 30 in high"),
        ({"hangs": {"from": "rings", "down": "4 in", "apart": "24 in"}}, "hangs/apart is 24 in; the frame is 24 in wide"),
        ({"hangs": {"from": "rings", "down": "4 in"}}, "two rings need `down` below the top and how far `apart` they are"),
        ({"hangs": {"from": "sawtooth"}}, "a sawtooth needs its `drop` below the top of the frame"),
        ({"hangs": {"from": "wire", "wire": "20 in"}}, "a wire's length needs `from: wire`, and `down` and `apart` of its hangers"),
        ({"hangs": {"from": "wire", "down": "8 in", "apart": "18 in", "wire": "17 in"}}, "the wire is 17 in long"),
    ],
)  # fmt: skip
def test_what_cannot_hang_is_refused_in_words(more: dict[str, Any], says: str) -> None:
    """Each fault names the value and what is allowed."""
    assert says in _refusal({"heron": {**WORK, **more}})


def test_the_room_may_look_at_a_work() -> None:
    """A work is a focal point; one that is not there is not."""
    assert _job({"heron": WORK}, wishes={"focal": "art/heron"}).rooms["r"].wishes.focal == "art/heron"
    assert "wishes/focal is art/gull" in _refusal({"heron": WORK}, wishes={"focal": "art/gull"})


@pytest.mark.parametrize(
    ("work", "glass", "paper"),
    [
        ({"kind": "print"}, True, True),
        ({"kind": "print", "glazing": "acrylic"}, False, True),
        ({"kind": "mirror"}, True, False),
        ({"kind": "mirror", "glazing": "none"}, True, False),
        ({"kind": "textile"}, False, True),
        ({"kind": "painting", "glazing": "glass"}, True, False),
    ],
)
def test_what_has_glass_and_what_light_harms(work: dict[str, Any], glass: bool, paper: bool) -> None:
    """Where nothing is said, what is on paper is behind glass, and cloth is not; a mirror is glass whatever is said."""
    art = Art.model_validate({**WORK, **work})
    assert (art.glass, art.on_paper) == (glass, paper)


def test_a_work_is_called_by_its_name_or_its_id_with_its_kind() -> None:
    """`harbor` is the harbor painting; an id that says what it is needs no more."""
    art = Art.model_validate(WORK)
    assert art_name("harbor", art) == "harbor painting"
    assert art_name("still-life", art) == "still life"
    assert art_name("x", Art.model_validate({**WORK, "name": "low water"})) == "low water"
