"""What both put at the end of one list is no meeting; an undo finds its item again behind later changes."""

from __future__ import annotations

import copy
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from halfdrop.job.merging import carried, in_list, meetings
from halfdrop.job.patch import apply, inverse


def end(value: Any, path: str = "/delivery/-") -> list[dict[str, Any]]:
    return [{"op": "add", "path": path, "value": value}]


def step(path: str, value: str = "x") -> dict[str, Any]:
    return {"title": "t", "patch": [{"op": "replace", "path": path, "value": value}]}


def test_two_items_put_at_the_end_of_one_list_do_not_meet() -> None:
    """Both are kept whichever comes first; only their order tells which that was."""
    one, two = end("hall"), end("stairs")
    assert meetings(one, two) == []
    document = {"delivery": ["street"]}
    assert apply(apply(document, one), two) == {"delivery": ["street", "hall", "stairs"]}


def test_an_item_put_at_the_end_meets_any_other_write_of_the_list() -> None:
    """The list replaced, an item taken out or changed, and a place in the list that counts on its length."""
    for other in (
        [{"op": "replace", "path": "/delivery", "value": []}],
        [{"op": "remove", "path": "/delivery/0"}],
        [{"op": "add", "path": "/delivery/0", "value": "gate"}],
        [{"op": "test", "path": "/delivery", "value": []}],
    ):
        assert meetings(end("hall"), other) == [("/delivery", other[0]["path"].replace("/0", ""))]
    assert meetings([*end("a"), {"op": "replace", "path": "/delivery/1", "value": "b"}], end("c"))


def test_steps_of_a_scheme_meet_where_they_do_the_same_thing() -> None:
    """Of different things, or in different schemes, they merge; of the same they do not, and the thing is named."""
    sofa, lamp = "/rooms/living/pieces/sofa/at/along", "/rooms/living/pieces/lamp/at/along"
    first = end(step(sofa), "/schemes/first/steps/-")
    assert meetings(end(step(lamp), "/schemes/first/steps/-"), first) == []
    assert meetings(end(step(sofa), "/schemes/other/steps/-"), first) == []
    assert meetings(end(step(sofa), "/schemes/first/steps/-"), first) == [(sofa, sofa)]


def test_a_step_that_is_none_is_left_to_be_refused_by_others() -> None:
    """A step without a patch, or with operations that are none, is no reason to fail here."""
    first = end(step("/job/name"), "/schemes/first/steps/-")
    for odd in (
        7,
        {},
        {"patch": 3},
        {"patch": [4]},
        {"patch": [{"op": "add"}]},
        {"patch": [{"op": "move", "path": "x"}]},
    ):
        assert meetings(end(odd, "/schemes/first/steps/-"), first) == []


@given(
    st.lists(st.tuples(st.sampled_from(["end", "out", "in"]), st.integers(0, 9)), max_size=9),
    st.integers(0, 5),
)
def test_an_undo_takes_out_its_own_item_wherever_it_went(doings: list[tuple[str, int]], before: int) -> None:
    """Whatever is put in and taken out beside it, the item that was put in is the one that goes."""
    document: Any = {"list": [f"old {n}" for n in range(before)]}
    mine = end("mine", "/list/-")
    undo = inverse(document, mine)
    assert in_list(undo)
    document = apply(document, mine)
    later = []
    for n, (what, spot) in enumerate(doings, 2):
        held = document["list"]
        at = spot % (len(held) + (what == "in"))
        if what == "out" and held[at] == "mine":
            continue
        patch = {
            "end": end(f"new {n}", "/list/-"),
            "out": [{"op": "remove", "path": f"/list/{at}"}],
            "in": end(f"new {n}", f"/list/{at}"),
        }[what]
        document = apply(document, patch)
        later.append((n, None, patch))
    moved, left, gone = carried(undo, later)
    assert (gone, [ops for ops in left if ops]) == (None, [])
    wanted = copy.deepcopy(document)
    wanted["list"].remove("mine")
    assert apply(document, moved) == wanted


def test_an_item_that_another_took_out_is_gone_until_it_is_brought_back() -> None:
    """The revision that took it out is named; where that was undone, the item is found at its new place."""
    undo = [{"op": "remove", "path": "/list/2"}]
    out = (5, None, [{"op": "remove", "path": "/list/2"}])
    assert carried(undo, [out])[2] == 5
    back = (6, 5, [{"op": "add", "path": "/list/2", "value": "mine"}])
    first = (7, None, [{"op": "remove", "path": "/list/0"}])
    moved, _, gone = carried(undo, [out, back, first])
    assert (moved[0]["path"], gone) == ("/list/1", None)
