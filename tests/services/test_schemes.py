"""A scheme holds the steps that count, and comes out as all that were taken."""

from __future__ import annotations

from typing import Any

from halfdrop.audit.finding import Finding, Grade, Proof, Remedy
from halfdrop.services.schemes import without_idle

FOUND = {"rooms": {"r": {"pieces": {"chest": {"at": {"x": "1 m"}}, "table": {"at": {"x": "2 m"}}}}}}


def _step(kind: str, path: str, value: Any, op: str = "replace") -> tuple[Finding, Remedy]:
    patch = [{"op": op, "path": f"/rooms/r/pieces/{path}"} | ({} if op == "remove" else {"value": value})]
    finding = Finding("r/x/y", "x", Grade.FAULT, "r", ("rooms/r/pieces/chest",), "It stands wrong.")
    return finding, Remedy(f"r/x/y#{kind}", kind, kind, patch, None, (), 1.0, Proof((), (), 1))


def _kinds(*steps: tuple[Finding, Remedy]) -> list[str]:
    return [remedy.title for _, remedy in without_idle(FOUND, list(steps))]


def test_a_move_before_a_place_is_idle() -> None:
    """A chest moved and then stood against another wall is stood there once; its strap stays."""
    moved, strapped = _step("move", "chest/at/x", "3 m"), _step("anchor", "chest/anchored", True, "add")
    placed = _step("place", "chest/at", {"wall": "AB"})
    assert _kinds(moved, strapped, placed) == ["anchor", "place"]


def test_what_is_done_to_a_thing_that_leaves_is_idle() -> None:
    """A table moved and then taken out of the room is only taken out."""
    assert _kinds(_step("move", "table/at/x", "3 m"), _step("remove", "table", None, "remove")) == ["remove"]


def test_a_move_counted_on_by_the_next_stays() -> None:
    """Two moves of one table: the second says how far from where the first put it, so both stay."""
    first, second = _step("move", "table/at/x", "3 m"), _step("move", "table/at/x", "4 m")
    assert len(_kinds(first, second)) == 2


def test_what_counts_stays() -> None:
    """Steps of different things are all needed."""
    assert _kinds(_step("move", "chest/at/x", "3 m"), _step("place", "table/at/x", "1 m")) == [
        "move",
        "place",
    ]
