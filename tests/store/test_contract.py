"""What a store promises, on SQLite and on PostgreSQL alike: jobs, revisions, merging, undo and redo."""

from __future__ import annotations

import json
from typing import Any

import pytest

from halfdrop.base.errors import InputError, InputErrors
from halfdrop.job.patch import apply
from halfdrop.store import Conflict, Missing, Store, TooLarge
from halfdrop.store.documents import EACH
from tests.job.documents import GOOD
from tests.store.conftest import Place
from tests.store.samples import ALONG, NAME, OFF, RUG, begin, change, good, put


def ordered(document: dict[str, Any]) -> str:
    """Return a document as text, so that the order of keys counts."""
    return json.dumps(document)


def test_a_job_comes_out_as_it_went_in(store: Store) -> None:
    """Document, name, client and origin are those given; its id is made of its name; its first revision is `begun`."""
    head = begin(store)
    assert head.id == "elm-row-4-1"
    assert (head.revision, head.name, head.client, head.origin) == (1, "Elm Row 4", None, "good.yaml")
    assert ordered(store.document(head.id)) == ordered(good())
    assert store.job(head.id) == head
    (first,) = store.revisions(head.id)
    assert (first.number, first.kind, first.author, first.patch, first.inverse) == (1, "begun", "Ann", [], [])


def test_the_list_of_jobs_has_the_last_changed_first(store: Store) -> None:
    """Two jobs of one name get two ids; the list follows name, client and revision of the documents."""
    a, b = begin(store), begin(store)
    assert a.id != b.id
    assert [entry.id for entry in store.jobs()] == [b.id, a.id]
    change(store, a.id, NAME, "Elm Row 5")
    store.append(
        a.id,
        [{"op": "add", "path": "/job/client", "value": "Ó Néill"}],
        base=2,
        author="Ann",
        message="client",
    )
    entries = store.jobs()
    assert [entry.id for entry in entries] == [a.id, b.id]
    assert (entries[0].name, entries[0].client, entries[0].revision) == ("Elm Row 5", "Ó Néill", 3)
    assert entries[0].changed > entries[0].begun


def test_a_change_is_a_revision(store: Store, place: Place) -> None:
    """A change on the latest revision is applied; its patch leads from the one before, its inverse back."""
    head = begin(store)
    done = change(store, head.id, OFF, "4 in")
    assert (done.revision, done.merged) == (2, False)
    assert done.document == apply(good(), put(OFF, "4 in"))
    assert store.document(head.id) == done.document
    assert ordered(store.document(head.id, 1)) == ordered(good())
    last = store.revisions(head.id, since=1)[0]
    assert last.patch == put(OFF, "4 in")
    assert ordered(apply(done.document, last.inverse)) == ordered(good())
    assert (last.author, last.base, last.undoes, last.merged) == ("Ann", 1, None, False)


def test_changes_of_different_things_merge(store: Store) -> None:
    """Two people change two things on the same revision: both changes stand, in either order the same."""
    head = begin(store)
    change(store, head.id, OFF, "4 in")
    done = change(store, head.id, RUG + "/width", "9'", author="Bob", base=1)
    assert (done.revision, done.merged) == (3, True)
    assert done.document == apply(apply(good(), put(OFF, "4 in")), put(RUG + "/width", "9'"))
    other = begin(store)
    change(store, other.id, RUG + "/width", "9'", author="Bob")
    assert change(store, other.id, OFF, "4 in", base=1).document == done.document
    assert store.revisions(head.id)[-1].base == 1


def test_changes_of_the_same_thing_conflict(store: Store) -> None:
    """The second is shown the first, with the place where they meet; nothing is changed."""
    head = begin(store)
    change(store, head.id, OFF, "4 in")
    change(store, head.id, RUG + "/width", "9'", author="Cy")
    with pytest.raises(Conflict) as caught:
        change(store, head.id, OFF, "6 in", author="Bob", base=1)
    assert [revision.number for revision in caught.value.revisions] == [2]
    assert caught.value.meets == (OFF,)
    assert "revision 2 by Ann" in caught.value.message
    assert "`rooms/living/pieces/sofa/at/off`" in caught.value.message
    with pytest.raises(Conflict) as caught:
        store.append(
            head.id,
            [{"op": "remove", "path": "/rooms/living/pieces/sofa"}, {"op": "remove", "path": RUG}],
            base=1,
            author="Bob",
            message="cleared",
        )
    assert [revision.number for revision in caught.value.revisions] == [2, 3]
    assert store.job(head.id).revision == 3


def test_changes_that_touch_nothing_alike_but_together_are_no_job_conflict(store: Store) -> None:
    """One takes a room out while the other lets a door lead to it: the paths never meet, the job would not be valid."""
    head = begin(store)
    room = good()["rooms"]["living"]
    store.append(
        head.id,
        [{"op": "add", "path": "/rooms/hall", "value": room}],
        base=1,
        author="Ann",
        message="hall added",
    )
    store.append(head.id, [{"op": "remove", "path": "/rooms/hall"}], base=2, author="Ann", message="hall out")
    door = {
        "wall": "AB",
        "along": "1 ft",
        "kind": "cased opening",
        "width": "30 in",
        "height": "80 in",
        "to": "hall",
    }
    patch = [{"op": "add", "path": "/rooms/living/openings", "value": {"d": door}}]
    with pytest.raises(Conflict) as caught:
        store.append(head.id, patch, base=2, author="Bob", message="door to the hall")
    assert [revision.number for revision in caught.value.revisions] == [3]
    assert caught.value.meets == ()
    assert "no valid job" in caught.value.message
    with pytest.raises(InputErrors):
        store.append(head.id, patch, base=1, author="Bob", message="door to nowhere")


def test_what_was_done_and_undone_since_meets_nothing(store: Store) -> None:
    """A change made before another's change and its undo goes through."""
    head = begin(store)
    change(store, head.id, OFF, "4 in")
    store.undo(head.id, author="Ann")
    done = change(store, head.id, OFF, "6 in", author="Bob", base=1)
    assert done.merged
    assert done.document == apply(good(), put(OFF, "6 in"))


def test_a_change_that_is_no_job_is_refused(store: Store) -> None:
    """A patch that cannot be applied, or gives no valid job, changes nothing; nor does one on no revision."""
    head = begin(store)
    with pytest.raises(InputErrors):
        change(store, head.id, OFF, "four")
    with pytest.raises(InputError, match="has no"):
        change(store, head.id, "/rooms/living/pieces/sofe/turn", "90°")
    for base in (0, 2, -1):
        with pytest.raises(InputError, match="no revision"):
            change(store, head.id, OFF, "4 in", base=base)
    with pytest.raises(InputErrors):
        store.create({"halfdrop": 1}, author="Ann")
    assert store.job(head.id) == head
    assert [entry.id for entry in store.jobs()] == [head.id]


@pytest.mark.parametrize(
    ("value", "error"),
    [
        ("x" * 30_000, TooLarge),
        ("a\0b", InputError),
        ("a\ud800b", InputError),
        (float("nan"), InputError),
        (10**50, TooLarge),
        ({1: "x"}, InputError),
        (object(), InputError),
        ([0] * 500_000, TooLarge),
    ],
    ids=lambda value: type(value).__name__,
)
def test_what_no_file_can_hold_is_refused(store: Store, value: Any, error: type[InputError]) -> None:
    """NUL, half characters, not-a-numbers and what exceeds the limits of a job file never come in."""
    head = begin(store)
    with pytest.raises(error):
        change(store, head.id, NAME, value)
    deep: Any = "x"
    for _ in range(2000):
        deep = [deep]
    with pytest.raises(TooLarge):
        change(store, head.id, NAME, deep)
    assert store.job(head.id).revision == 1


def test_a_patch_cannot_grow_a_job_without_bound(store: Store) -> None:
    """Copies of copies are stopped at the limits of a job file, soon."""
    head = begin(store)
    growing = [{"op": "add", "path": "/practice", "value": {"values": {}}}]
    growing += [{"op": "copy", "from": "/rooms", "path": f"/rooms/x{i}"} for i in range(40)]
    with pytest.raises(InputError):
        store.append(head.id, growing, base=1, author="Ann", message="copies")
    assert store.job(head.id).revision == 1


def test_empty_and_oversized_words_are_refused(store: Store) -> None:
    """A patch without operations, an author without a name, a message too long: each says so."""
    head = begin(store)
    with pytest.raises(InputError, match="patch is empty"):
        store.append(head.id, [], base=1, author="Ann", message="nothing")
    with pytest.raises(InputError, match="author is empty"):
        store.append(head.id, put(OFF, "4 in"), base=1, author="  ", message="x")
    with pytest.raises(TooLarge, match="message has 501"):
        store.append(head.id, put(OFF, "4 in"), base=1, author="Ann", message="x" * 501)
    with pytest.raises(TooLarge, match="operations"):
        store.append(head.id, put(OFF, "4 in") * 6000, base=1, author="Ann", message="x")


def test_a_change_sent_twice_is_kept_once(store: Store) -> None:
    """Sent again under its mark after a lost answer, it gives the first answer; another change may not take the mark."""
    head = begin(store)
    first = store.append(head.id, put(OFF, "4 in"), base=1, author="Ann", message="off", change="a1")
    change(store, head.id, OFF, "5 in")
    again = store.append(head.id, put(OFF, "4 in"), base=1, author="Ann", message="off", change="a1")
    assert again == first
    assert store.job(head.id).revision == 3
    with pytest.raises(InputError, match="another change, revision 2"):
        store.append(head.id, put(OFF, "7 in"), base=3, author="Ann", message="off", change="a1")
    other = begin(store)
    assert (
        store.append(other.id, put(OFF, "4 in"), base=1, author="Ann", message="off", change="a1").revision
        == 2
    )


def _step(store: Store, job: str, path: str, value: str, base: int, author: str) -> Any:
    step = {"title": f"{author} {value}", "patch": [{"op": "replace", "path": path, "value": value}]}
    patch = [{"op": "add", "path": "/schemes/first/steps/-", "value": step}]
    return store.append(job, patch, base=base, author=author, message=step["title"])


def _titles(document: Any) -> list[str]:
    return [step["title"] for step in document["schemes"]["first"]["steps"]]


def test_two_people_add_steps_to_one_scheme(store: Store) -> None:
    """Made on the same revision, steps of different things are both kept; each takes back its own, in any order."""
    head = begin(store)
    begun = [{"op": "add", "path": "/schemes", "value": {"first": {"name": "First", "steps": []}}}]
    store.append(head.id, begun, base=1, author="Ann", message="scheme begun")
    ann = _step(store, head.id, OFF, "1 in", 2, "Ann")
    bob = _step(store, head.id, RUG + "/width", "9'", 2, "Bob")
    cas = _step(store, head.id, ALONG, "2 ft", 2, "Cas")
    assert (ann.merged, bob.merged, cas.merged) == (False, True, True)
    assert _titles(cas.document) == ["Ann 1 in", "Bob 9'", "Cas 2 ft"]
    with pytest.raises(Conflict) as caught:
        _step(store, head.id, OFF, "3 in", 2, "Bob")
    assert [r.author for r in caught.value.revisions] == ["Ann"]
    assert caught.value.meets == (OFF,)
    assert _titles(store.undo(head.id, author="Ann").document) == ["Bob 9'", "Cas 2 ft"]
    assert _titles(store.undo(head.id, author="Cas").document) == ["Bob 9'"]
    assert _titles(store.undo(head.id, author="Bob").document) == []
    for author in ("Cas", "Ann", "Bob"):
        done = store.redo(head.id, author=author)
    assert sorted(_titles(done.document)) == ["Ann 1 in", "Bob 9'", "Cas 2 ft"]
    assert _titles(store.undo(head.id, ann.revision, author="Cas").document) == [
        title for title in _titles(done.document) if title != "Ann 1 in"
    ]


def test_a_step_that_another_builds_on_stays(store: Store) -> None:
    """Taking back a step whose thing a later step moves on is refused, and names that step."""
    head = begin(store)
    begun = [{"op": "add", "path": "/schemes", "value": {"first": {"name": "First", "steps": []}}}]
    store.append(head.id, begun, base=1, author="Ann", message="scheme begun")
    _step(store, head.id, OFF, "1 in", 2, "Ann")
    _step(store, head.id, OFF, "2 in", 3, "Bob")
    with pytest.raises(Conflict) as caught:
        store.undo(head.id, author="Ann")
    assert [r.message for r in caught.value.revisions] == ["Bob 2 in"]


def test_an_undo_sent_twice_takes_back_once(store: Store) -> None:
    """Under its mark an undo or redo sent again gives the first answer; the mark is no other change's."""
    head = begin(store)
    for value in ("1 in", "2 in"):
        change(store, head.id, OFF, value)
    first = store.undo(head.id, author="Ann", change="u1")
    assert store.undo(head.id, author="Ann", change="u1") == first
    assert store.job(head.id).revision == 4
    assert store.undo(head.id, author="Ann", change="u2").document == good()
    redo = store.redo(head.id, author="Ann", change="r1")
    assert store.redo(head.id, author="Ann", change="r1") == redo
    assert store.job(head.id).revision == 6
    with pytest.raises(InputError, match="another change, revision 4"):
        store.redo(head.id, author="Ann", change="u1")
    with pytest.raises(InputError, match="another change, revision 4"):
        store.undo(head.id, 2, author="Ann", change="u1")
    with pytest.raises(InputError, match="another change, revision 6"):
        store.append(head.id, put(OFF, "7 in"), base=6, author="Ann", message="off", change="r1")


def test_undo_steps_back_and_redo_forward(store: Store) -> None:
    """Undo after undo leads back to the start, redo after redo to the end; each is a revision of its own."""
    head = begin(store)
    values = ("1 in", "2 in", "3 in", "4 in")
    states = [ordered(good())] + [ordered(change(store, head.id, OFF, value).document) for value in values]
    for i in (3, 2, 1, 0):
        done = store.undo(head.id, author="Ann")
        assert ordered(done.document) == states[i]
        assert done.message == f"{OFF} is {values[i]}"
    with pytest.raises(InputError, match="nothing of Ann's to undo"):
        store.undo(head.id, author="Ann")
    for i in (1, 2, 3, 4):
        assert ordered(store.redo(head.id, author="Ann").document) == states[i]
    with pytest.raises(InputError, match="nothing of Ann's to redo"):
        store.redo(head.id, author="Ann")
    for i in (3, 2, 1, 0):
        assert ordered(store.undo(head.id, author="Ann").document) == states[i]
    assert store.job(head.id).revision == 17
    kinds = [revision.kind for revision in store.revisions(head.id)]
    assert kinds == ["begun"] + ["edit"] * 4 + ["undo"] * 4 + ["redo"] * 4 + ["undo"] * 4


def test_a_new_change_ends_the_redo(store: Store) -> None:
    """After a change of one's own there is nothing to redo; a colleague's change elsewhere does not end it."""
    head = begin(store)
    change(store, head.id, OFF, "1 in")
    store.undo(head.id, author="Ann")
    change(store, head.id, RUG + "/width", "9'", author="Bob")
    assert (
        store.redo(head.id, author="Ann").document["rooms"]["living"]["pieces"]["sofa"]["at"]["off"] == "1 in"
    )
    store.undo(head.id, author="Ann")
    change(store, head.id, ALONG, "2 ft")
    with pytest.raises(InputError, match="nothing of Ann's to redo"):
        store.redo(head.id, author="Ann")


def test_undo_takes_back_ones_own(store: Store) -> None:
    """Undo leaves a colleague's later change elsewhere as it is."""
    head = begin(store)
    change(store, head.id, OFF, "1 in")
    change(store, head.id, RUG + "/width", "9'", author="Bob")
    done = store.undo(head.id, author="Ann")
    assert done.undoes == 2
    assert done.document == apply(good(), put(RUG + "/width", "9'"))


def test_an_undo_that_meets_later_changes_names_them(store: Store) -> None:
    """A revision whose thing was changed since is not taken back; the later changes are named."""
    head = begin(store)
    change(store, head.id, OFF, "1 in")
    change(store, head.id, OFF, "2 in", author="Bob")
    with pytest.raises(Conflict) as caught:
        store.undo(head.id, author="Ann")
    assert [revision.author for revision in caught.value.revisions] == ["Bob"]
    assert caught.value.meets == (OFF,)
    store.undo(head.id, author="Bob")
    assert store.undo(head.id, author="Ann").document == good()


def test_undo_by_number(store: Store) -> None:
    """Any revision that stands may be taken back once; the first never, an undo only by redo."""
    head = begin(store)
    change(store, head.id, OFF, "1 in")
    change(store, head.id, ALONG, "2 ft")
    undo = store.undo(head.id, 2, author="Bob")
    assert undo.document == apply(good(), put(ALONG, "2 ft"))
    with pytest.raises(InputError, match="taken back already"):
        store.undo(head.id, 2, author="Bob")
    for number in (1, undo.revision):
        with pytest.raises(InputError, match="nothing to undo"):
            store.undo(head.id, number, author="Bob")
    with pytest.raises(InputError, match="nothing to redo"):
        store.redo(head.id, 3, author="Bob")
    redo = store.redo(head.id, undo.revision, author="Bob")
    assert redo.undoes == undo.revision
    assert store.undo(head.id, 2, author="Bob").document == undo.document
    with pytest.raises(Missing, match="no revision 99"):
        store.undo(head.id, 99, author="Bob")


def test_a_removed_thing_comes_back_where_it_stood(store: Store) -> None:
    """Undoing a removal restores the order of keys too, so that the file is the same again."""
    head = begin(store)
    store.append(
        head.id, [{"op": "remove", "path": "/rooms/living/pieces"}], base=1, author="Ann", message="cleared"
    )
    assert ordered(store.undo(head.id, author="Ann").document) == ordered(good())
    assert store.export(head.id).text == GOOD


def test_every_revision_can_be_read_again(place: Place) -> None:
    """Beyond two snapshots, each revision's document is the replay of the patches, here and in another process's view."""
    where = place()
    store = Store.open(where)
    head = begin(store)
    state, states = good(), [ordered(good())]
    for i in range(1, 2 * EACH + 3):
        state = change(store, head.id, (OFF, ALONG)[i % 2], f"{i} in", base=i).document
        states.append(ordered(state))
    other = Store.open(where)
    for number in (1, 2, EACH - 1, EACH, EACH + 1, 2 * EACH, 2 * EACH + 3):
        assert ordered(store.document(head.id, number)) == states[number - 1]
        assert ordered(other.document(head.id, number)) == states[number - 1]
    assert ordered(other.document(head.id)) == states[-1]
    change(store, head.id, OFF, "9 in")
    assert other.job(head.id).document == store.document(head.id)
    for opened in (store, other):
        opened.close()


def test_the_history_comes_in_pages(store: Store) -> None:
    """From a revision on, oldest first; or newest first, page by page."""
    head = begin(store)
    for i in range(9):
        change(store, head.id, OFF, f"{i} in")
    assert [r.number for r in store.revisions(head.id, since=4, limit=3)] == [5, 6, 7]
    assert [r.number for r in store.history(head.id, limit=4)] == [10, 9, 8, 7]
    assert [r.number for r in store.history(head.id, before=4)] == [3, 2, 1]
    times = [r.time for r in store.revisions(head.id)]
    assert times == sorted(times)
    assert store.job(head.id).changed == times[-1]


def test_what_is_not_there_is_missing(store: Store) -> None:
    """An unknown job is said with a near match, an unknown revision with those there are."""
    head = begin(store)
    with pytest.raises(Missing) as caught:
        store.job("elm-row-4-2")
    assert caught.value.hint == f"did you mean `{head.id}`?"
    with pytest.raises(Missing) as caught:
        store.document(head.id, 7)
    assert caught.value.hint == "it has revisions 1 to 1"
    for act in (store.revisions, store.remove, store.files, store.export):
        with pytest.raises(Missing):
            act("none")


def test_a_removed_job_is_gone_and_its_id_is_not_given_again(store: Store) -> None:
    """Removal takes document, history and text; a new job of the same name gets another id."""
    head = begin(store)
    change(store, head.id, OFF, "1 in")
    store.remove(head.id)
    assert store.jobs() == []
    with pytest.raises(Missing):
        store.document(head.id)
    assert begin(store).id != head.id


def test_the_file_comes_out_with_its_comments(store: Store) -> None:
    """Unchanged it is the same text; changed, only what was changed differs; JSON and YAML both ways."""
    head = begin(store)
    assert store.export(head.id).text == GOOD
    change(store, head.id, OFF, "4 in")
    out = store.export(head.id)
    assert (out.format, out.kept) == ("yaml", True)
    assert out.text == GOOD.replace("along: 3 ft, off: 0}", "along: 3 ft, off: 4 in}")
    assert store.export(head.id, revision=1).text == GOOD
    as_json = store.export(head.id, format="json")
    assert json.loads(as_json.text) == store.document(head.id)
    back = store.create(json.loads(as_json.text), author="Bob", text=as_json.text, format="json")
    assert store.export(back.id) == type(as_json)(as_json.text, "json", True)
    with pytest.raises(InputError):
        store.create(good(), author="Ann", text="a: [", format="yaml")


def test_a_job_begun_here_comes_out_as_yaml(store: Store) -> None:
    """Without an original text the document is laid out as YAML and reads back the same."""
    from halfdrop.job.read import parse_job

    head = store.create(good(), author="Ann")
    assert parse_job(store.export(head.id).text, name="out.yaml").document == good()


def test_the_document_given_may_be_changed_afterwards(store: Store) -> None:
    """What the caller does to the document or the patch it gave does not reach the store."""
    document, patch = good(), [{"op": "add", "path": "/people", "value": {"a": {"name": "Ada"}}}]
    head = store.create(document, author="Ann")
    document["job"]["name"] = "Other"
    store.append(head.id, patch, base=1, author="Ann", message="people")
    patch[0]["value"]["a"]["name"] = "Other"  # type: ignore[index]
    assert store.document(head.id)["job"]["name"] == "Elm Row 4"
    assert store.document(head.id)["people"]["a"]["name"] == "Ada"
