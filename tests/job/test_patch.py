"""Patches: as RFC 6902 has it, on copies of the touched branches, undone exactly."""

from __future__ import annotations

import copy
import json
from typing import Any

import jsonpatch
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.job.patch import apply, conflicts, diff, inverse, touched
from halfdrop.job.places import equal
from halfdrop.job.same import same
from tests.job.documents import documents, patched, patches

Drawn = tuple[dict[str, Any], list[dict[str, Any]]]


@given(patched())
def test_a_patch_does_what_an_independent_implementation_does(drawn: Drawn) -> None:
    """All six operations agree with another library; the input and the patch stay as they were."""
    document, patch = drawn
    before, patch_before = copy.deepcopy(document), copy.deepcopy(patch)
    result = apply(document, patch)
    assert same(result, jsonpatch.apply_patch(document, patch))
    assert json.dumps(document) == json.dumps(before)
    assert json.dumps(patch) == json.dumps(patch_before)


@given(patched())
def test_the_inverse_undoes_a_patch_to_the_byte(drawn: Drawn) -> None:
    """After patch and inverse the document is the same again, order of keys included."""
    document, patch = drawn
    undo = inverse(document, patch)
    assert json.dumps(apply(apply(document, patch), undo)) == json.dumps(document)


@given(patched())
def test_an_inverse_has_an_inverse(drawn: Drawn) -> None:
    """Redoing is undoing the undoing."""
    document, patch = drawn
    after = apply(document, patch)
    undo = inverse(document, patch)
    assert same(apply(document, inverse(after, undo)), after)


@given(patched())
def test_other_readers_may_pass_over_our_own_member(drawn: Drawn) -> None:
    """An inverse is a plain RFC 6902 patch: another library applies it to the same document."""
    document, patch = drawn
    undo = inverse(document, patch)
    assert same(jsonpatch.apply_patch(apply(document, patch), undo), document)


@given(documents, documents)
def test_a_difference_leads_from_one_document_to_the_other(a: dict[str, Any], b: dict[str, Any]) -> None:
    """Applied to the first it gives the second; between equals it is empty."""
    patch = diff(a, b)
    assert same(apply(a, patch), b)
    assert same(jsonpatch.apply_patch(a, patch), b)
    assert diff(a, copy.deepcopy(a)) == []


@given(documents.flatmap(lambda d: st.tuples(st.just(d), patches(d), patches(d))))
def test_patches_without_conflict_go_in_either_order(
    drawn: tuple[dict[str, Any], list[dict[str, Any]], list[dict[str, Any]]],
) -> None:
    """Where no conflict is named, p then q and q then p are both possible and end alike."""
    document, p, q = drawn
    if not conflicts(p, q):
        assert same(apply(apply(document, p), q), apply(apply(document, q), p))
    assert conflicts(p, q) == sorted((b, a) for a, b in conflicts(q, p))


@given(patched())
def test_operations_that_cannot_be_done_are_input_errors(drawn: Drawn) -> None:
    """A patch meant for another document either applies, undoably, or is refused; nothing else happens."""
    other = {"a": [1, {"b": 2}], "sofa": "x", "b": {"y": {"no": 1}}}
    try:
        undo = inverse(other, drawn[1])
    except InputError:
        return
    assert same(apply(apply(other, drawn[1]), undo), other)


def test_only_touched_branches_are_copied() -> None:
    """Moving one sofa leaves every other room the very same object."""
    job = {"rooms": {str(i): {"pieces": {"sofa": {"x": 1}, "bed": {"x": 2}}} for i in range(5)}}
    moved = apply(job, [{"op": "replace", "path": "/rooms/2/pieces/sofa/x", "value": 9}])
    assert job["rooms"]["2"]["pieces"]["sofa"]["x"] == 1
    assert moved["rooms"]["2"]["pieces"]["sofa"]["x"] == 9
    assert moved["rooms"]["1"] is job["rooms"]["1"]
    assert moved["rooms"]["2"]["pieces"]["bed"] is job["rooms"]["2"]["pieces"]["bed"]
    assert moved["rooms"]["2"]["pieces"]["sofa"] is not job["rooms"]["2"]["pieces"]["sofa"]


def test_a_value_put_in_is_no_longer_the_patch_s() -> None:
    """Later operations of the patch change the document, not the value in the patch."""
    patch = [
        {"op": "add", "path": "/a", "value": {"x": []}},
        {"op": "add", "path": "/a/x/-", "value": 1},
        {"op": "copy", "from": "/a", "path": "/b"},
        {"op": "add", "path": "/b/x/-", "value": 2},
    ]
    assert apply({}, patch) == {"a": {"x": [1]}, "b": {"x": [1, 2]}}
    assert patch[0]["value"] == {"x": []}


DOCUMENT = {"rooms": {"living": {"pieces": {"sofa": {"width": "84 in"}}, "walls": ["AB", "BC"]}}, "n": 1}
REFUSED: list[tuple[Any, str, str | None, str | None]] = [
    (
        {"op": "replace", "path": "/rooms/living/pieces/sfoa/width", "value": 1},
        "`rooms/living/pieces` has no `sfoa`",
        "rooms/living/pieces/sfoa/width",
        "did you mean `sofa`?",
    ),
    ({"op": "remove", "path": "/rooms/hall"}, "`rooms` has no `hall`", "rooms/hall", "known: living"),
    ({"op": "remove", "path": ""}, "whole document cannot be removed", None, "name a path in it"),
    (
        {"op": "add", "path": "/rooms/living/walls/3", "value": 1},
        "has 2 items; there is no place 3",
        None,
        None,
    ),
    ({"op": "add", "path": "/rooms/living/walls/01", "value": 1}, "`01` is no place in it", None, None),
    ({"op": "remove", "path": "/rooms/living/walls/-"}, "`-` is no place in it", None, None),
    ({"op": "add", "path": "/n/x", "value": 1}, "`n` is `1`, which has nothing in it", None, None),
    ({"op": "test", "path": "/n", "value": 2}, "`/n` is `1`; wanted is `2`", "n", None),
    ({"op": "test", "path": "/n", "value": True}, "wanted is `True`", "n", None),
    ({"op": "move", "from": "/rooms", "path": "/rooms/x"}, "cannot move into itself", None, None),
    (
        {"op": "replase", "path": "/n", "value": 2},
        "`replase` is no operation",
        "n",
        "did you mean `replace`?",
    ),
    ({"op": "add", "path": "/x"}, "`add` has no `value`", "x", "`add` needs path and value"),
    ({"op": "move", "path": "/x"}, "`move` has no `from`", "x", None),
    ({"op": "add", "path": 3, "value": 1}, "`path` is not a text", None, None),
    ({"op": "add", "path": "rooms", "value": 1}, "`rooms` is not a path", "rooms", "begin a path with `/`"),
    ({"op": "add", "path": "/a~2", "value": 1}, "is not a path", None, None),
    ("add", "an operation is a map", None, None),
]


@pytest.mark.parametrize(("op", "message", "path", "hint"), REFUSED)
def test_a_refused_operation_is_named_with_its_path(
    op: Any, message: str, path: str | None, hint: str | None
) -> None:
    """The error has the operation's number, what is not there, and a near match; the document stays."""
    before = copy.deepcopy(DOCUMENT)
    with pytest.raises(InputError) as caught:
        apply(DOCUMENT, [{"op": "add", "path": "/n", "value": 1}, op])
    assert caught.value.message.startswith("operation 2 of 2 (")
    assert message in caught.value.message
    assert path is None or (caught.value.at and caught.value.at.path == path)
    assert hint is None or hint in (caught.value.hint or "")
    assert before == DOCUMENT
    with pytest.raises(InputError, match="operation 1 of 1"):
        inverse(DOCUMENT, [op])


def test_a_test_compares_numbers_but_never_numbers_with_truth() -> None:
    """`1` is `1.0`, `1` is not `true` (RFC 6902, section 4.6)."""
    assert equal({"a": [1]}, {"a": [1.0]})
    assert not equal(1, True)
    assert not equal([0], [False])
    assert not equal({"a": 1}, {"b": 1})


def test_a_removed_key_comes_back_to_its_place() -> None:
    """Undoing the removal of the middle key puts it between its neighbors, by the member `before`."""
    document = {"a": 1, "b": 2, "c": 3}
    undo = inverse(document, [{"op": "remove", "path": "/b"}])
    assert undo == [{"op": "add", "path": "/b", "value": 2, "before": "c"}]
    assert list(apply({"a": 1, "c": 3}, undo)) == ["a", "b", "c"]


def test_touched_places_and_conflicts() -> None:
    """Two moves of one sofa meet, moves of two pieces do not; a place in a list stands for the list."""
    sofa = [{"op": "replace", "path": "/pieces/sofa/at/x", "value": 1}]
    whole = [{"op": "replace", "path": "/pieces/sofa/at", "value": {}}]
    chair = [{"op": "move", "from": "/pieces/chair", "path": "/pieces/stool"}]
    seen = [{"op": "test", "path": "/pieces/chair", "value": {}}]
    assert touched(sofa) == {"/pieces/sofa/at/x"}
    assert touched(chair) == {"/pieces/chair", "/pieces/stool"}
    assert touched(seen) == set()
    assert conflicts(sofa, whole) == [("/pieces/sofa/at/x", "/pieces/sofa/at")]
    assert conflicts(sofa, chair) == []
    assert conflicts(seen, chair) == [("/pieces/chair", "/pieces/chair")]
    assert conflicts(seen, seen) == []
    first = [{"op": "add", "path": "/corners/0", "value": "A"}]
    later = [{"op": "replace", "path": "/corners/2", "value": "B"}]
    assert conflicts(first, later) == [("/corners", "/corners/2")]


def test_copies_of_copies_are_stopped() -> None:
    """Each copy of the whole into itself doubles it: the patch is refused at the limit of a file, by its operation."""
    growing = [{"op": "copy", "from": "", "path": f"/x{i}"} for i in range(60)]
    for act in (apply, inverse):
        with pytest.raises(
            InputError, match=r"operation \d\d of 60 \(`copy`\): the patch copies more than 400,000"
        ):
            act({"a": {"b": 1}}, growing)
