"""The store against a plain model in memory: whatever is done in whatever order, both say the same."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from halfdrop.base.errors import InputError
from halfdrop.store import Conflict, Store
from tests.store.conftest import Place
from tests.store.samples import begin, good

#: Places of the model, each with the pointer it stands for; none is above another.
PLACES = {
    "off": "/rooms/living/pieces/sofa/at/off",
    "along": "/rooms/living/pieces/sofa/at/along",
    "width": "/rooms/living/rugs/old/width",
    "name": "/job/name",
}


class Model:
    """A job as four values, its states in order, and which revision changed what."""

    def __init__(self) -> None:
        at = good()["rooms"]["living"]
        sofa = at["pieces"]["sofa"]["at"]
        first = {
            "off": sofa["off"],
            "along": sofa["along"],
            "width": at["rugs"]["old"]["width"],
            "name": "Elm Row 4",
        }
        self.states: list[dict[str, Any]] = [first]
        self.what: list[tuple[str, str, str | None, int | None]] = [("begun", "Ann", None, None)]

    def live(self, number: int) -> bool:
        """Whether a revision stands: no later one that stands takes it back."""
        later = range(number + 1, len(self.what) + 1)
        return not any(self.what[k - 1][3] == number and self.live(k) for k in later)

    def touched_since(self, base: int, place: str) -> bool:
        """Whether the value was changed since, things done and undone since left out."""
        since = list(range(base + 1, len(self.what) + 1))
        gone: set[int] = set()
        for k in reversed(since):
            target = self.what[k - 1][3]
            if k not in gone and target in since:
                gone |= {k, target}  # type: ignore[arg-type]
        return any(self.what[k - 1][2] == place for k in since if k not in gone)

    def keep(self, kind: str, author: str, place: str, value: Any, undoes: int | None = None) -> None:
        """Add a revision."""
        self.states.append({**self.states[-1], place: value})
        self.what.append((kind, author, place, undoes))


class Machine(RuleBasedStateMachine):
    """What two people do to one job."""

    opened: Store

    @initialize()
    def _begin(self) -> None:
        self.id = begin(self.opened).id
        self.model = Model()

    def teardown(self) -> None:
        """Leave the store as it was."""
        if hasattr(self, "id"):
            self.opened.remove(self.id)

    people = st.sampled_from(["Ann", "Bob"])

    @rule(author=people, place=st.sampled_from(list(PLACES)), value=st.integers(1, 9), back=st.integers(0, 4))
    def change(self, author: str, place: str, value: int, back: int) -> None:
        """Change a value on the latest or an older revision."""
        head = len(self.model.what)
        base = max(1, head - back)
        patch = [{"op": "replace", "path": PLACES[place], "value": f"{value} in"}]
        asked = {"base": base, "author": author, "message": place}
        if base < head and self.model.touched_since(base, place):
            with pytest.raises(Conflict) as caught:
                self.opened.append(self.id, patch, **asked)
            assert caught.value.meets == (PLACES[place],)
            return
        done = self.opened.append(self.id, patch, **asked)
        assert done.merged == (base < head)
        self.model.keep("edit", author, place, f"{value} in")

    def _take_back(self, kind: str, number: int, author: str, *, named: bool) -> None:
        """Take a revision back, by its number or as the one the store must choose by itself."""
        act = self.opened.undo if kind == "undo" else self.opened.redo
        asked = number if named else None
        was, _, place, _ = self.model.what[number - 1]
        if was == "begun" or (was == "undo") != (kind == "redo") or not self.model.live(number):
            with pytest.raises(InputError):
                act(self.id, asked, author=author)
        elif self.model.touched_since(number, place or ""):
            with pytest.raises(Conflict):
                act(self.id, asked, author=author)
        else:
            assert act(self.id, asked, author=author).undoes == number
            self.model.keep(kind, author, place or "", self.model.states[number - 2][place or ""], number)

    @rule(author=people, kind=st.sampled_from(["undo", "redo"]), back=st.integers(0, 6))
    def take_back(self, author: str, kind: str, back: int) -> None:
        """Undo or redo a revision by its number."""
        self._take_back(kind, max(1, len(self.model.what) - back), author, named=True)

    @rule(author=people, kind=st.sampled_from(["undo", "redo"]), times=st.integers(1, 3))
    def step(self, author: str, kind: str, times: int) -> None:
        """Undo the author's latest that stands; redo the latest undo, if nothing was done since."""
        for _ in range(times):
            own = [
                (k, was)
                for k, (was, by, _, _) in enumerate(self.model.what, 1)
                if by == author and was != "begun" and self.model.live(k)
            ]
            if kind == "undo":
                choice = [k for k, was in own if was != "undo"][-1:]
            else:
                choice = [k for k, was in [one for one in own if one[1] != "redo"][-1:] if was == "undo"]
            if choice:
                self._take_back(kind, choice[0], author, named=False)
                continue
            act = self.opened.undo if kind == "undo" else self.opened.redo
            with pytest.raises(InputError, match="nothing"):
                act(self.id, author=author)

    @rule(author=people, times=st.integers(1, 4), place=st.sampled_from(list(PLACES)))
    def there_and_back(self, author: str, times: int, place: str) -> None:
        """Changes of one's own taken back one after the other, brought again one after the other, and taken back again."""
        for n in range(times):
            self.change(author, place, n + 1, 0)
        last = self.model.states[-1]
        for kind in ("undo", "redo", "undo", "redo"):
            for _ in range(times):
                self.step(author, kind, 1)
            assert kind == "undo" or self._values(self.opened.job(self.id).document) == last

    @precondition(lambda self: hasattr(self, "model"))
    @rule(back=st.integers(0, 12))
    def look_back(self, back: int) -> None:
        """Read an older revision."""
        number = max(1, len(self.model.what) - back)
        assert self._values(self.opened.document(self.id, number)) == self.model.states[number - 1]

    @invariant()
    def opened_matches(self) -> None:
        """The head, its number and the list of jobs are those of the model."""
        if hasattr(self, "model"):
            head = self.opened.job(self.id)
            assert head.revision == len(self.model.what)
            assert self._values(head.document) == self.model.states[-1]
            entry = next(entry for entry in self.opened.jobs() if entry.id == self.id)
            assert (entry.name, entry.revision) == (self.model.states[-1]["name"], head.revision)

    def _values(self, document: dict[str, Any]) -> dict[str, Any]:
        living = document["rooms"]["living"]
        sofa = living["pieces"]["sofa"]["at"]
        values = {"off": sofa["off"], "along": sofa["along"], "width": living["rugs"]["old"]["width"]}
        rest = copy.deepcopy(document)
        for pointer in PLACES.values():
            *steps, last = pointer.strip("/").split("/")
            inner, first = rest, good()
            for step in steps:
                inner, first = inner[step], first[step]
            inner[last] = first[last]
        assert json.dumps(rest) == json.dumps(good())
        return {**values, "name": document["job"]["name"]}


def test_the_store_does_what_the_model_does(place: Place) -> None:
    """Changes on old and new revisions, undo and redo by two people: merged, refused and kept as the model says."""

    class Here(Machine):
        opened = Store.open(place())

    try:
        run_state_machine_as_test(Here, settings=settings(max_examples=15, stateful_step_count=25))
    finally:
        Here.opened.close()
