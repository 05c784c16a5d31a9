"""Writing: what was typed stays as typed, and there is never half a file."""

from __future__ import annotations

import json
import os
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from halfdrop.base.errors import HalfdropError, InputError, InputErrors
from halfdrop.job.compose import compose, plain
from halfdrop.job.events import yaml_events
from halfdrop.job.patch import apply
from halfdrop.job.read import parse_job, read_job
from halfdrop.job.same import same
from halfdrop.job.write import changed_text, dump_job, save_text, write_job
from tests.job.documents import GOOD, documents, patches, places, scalars
from tests.job.typed import typed


def said(text: str) -> Any:
    """Return what a YAML text says."""
    return plain(compose(yaml_events(text, "x"), "x"))


def rewritten(text: str, patch: list[dict[str, Any]]) -> str:
    """Return a text with a patch written into it, having checked what it says."""
    document = apply(said(text), patch)
    written = changed_text(text, document, name="x", format="yaml")
    assert written.kept
    assert same(said(written.text), document)
    return written.text


Typed = tuple[dict[str, Any], str, list[dict[str, Any]]]


@st.composite
def typed_and_patched(draw: st.DrawFn) -> Typed:
    """Draw a document, a text that says it, and a patch on it."""
    document = draw(documents)
    return document, draw(typed(document)), draw(patches(document))


@given(typed_and_patched())
def test_a_changed_text_says_the_new_document(drawn: Typed) -> None:
    """Whatever is written how and changed to what: in place wherever one key stays, the text says the new."""
    document, text, patch = drawn
    assert same(said(text), document)
    new = apply(document, patch)
    assume(isinstance(new, dict))
    written = changed_text(text, new, name="x", format="yaml")
    assert same(said(written.text), new)
    assert written.kept or not any(key in new for key in document)


@st.composite
def typed_and_grown(draw: st.DrawFn) -> Typed:
    """Draw a document, a text that says it, and a patch that exchanges one scalar and adds one key."""
    document = draw(documents)
    text = draw(typed(document))
    leaves = [
        steps for steps in places(document) if steps and not isinstance(_at(document, steps), dict | list)
    ]
    assume(leaves)
    steps = draw(st.sampled_from(leaves))
    patch = [{"op": "replace", "path": _pointer(steps), "value": draw(scalars)}]
    maps = [steps for steps in places(document) if isinstance(_at(document, steps), dict)]
    patch.append(
        {"op": "add", "path": _pointer((*draw(st.sampled_from(maps)), "new key")), "value": {"x": [1]}}
    )
    return document, text, patch


def _at(document: Any, steps: tuple[str, ...]) -> Any:
    for step in steps:
        document = document[int(step)] if isinstance(document, list) else document[step]
    return document


def _pointer(steps: tuple[str, ...]) -> str:
    return "".join("/" + step.replace("~", "~0").replace("/", "~1") for step in steps)


@given(typed_and_grown())
def test_exchanging_and_adding_keeps_every_comment_and_every_other_line(drawn: Typed) -> None:
    """Two edits touch a few lines and those of aliases; all comments are still there, in their order."""
    document, text, patch = drawn
    new = apply(document, patch)
    written = changed_text(text, new, name="x", format="yaml")
    assert written.kept
    marks = re.compile(r"# (?:c\d+|top|end)\.")
    assert marks.findall(written.text) == marks.findall(text)
    left = [line for line in text.split("\n") if line not in written.text.split("\n")]
    assert len(left) <= 3 + text.count("*n")


def test_a_typed_length_and_all_around_it_stays() -> None:
    """Moving the sofa changes one value of one line."""
    text = rewritten(
        GOOD, [{"op": "replace", "path": "/rooms/living/pieces/sofa/at/along", "value": "3' 4 1/2\""}]
    )
    assert text == GOOD.replace("along: 3 ft", "along: 3' 4 1/2\"")


def test_nothing_changed_is_nothing_written() -> None:
    """The same document gives the same bytes, and another order of keys is no change."""
    document = said(GOOD)
    turned = dict(reversed(document.items()))
    assert changed_text(GOOD, turned, name="x", format="yaml").text == GOOD


EDITS: list[tuple[str, str, list[dict[str, Any]], str]] = [
    (
        "a comment above the next key stays with it when a key is added before",
        "a:\n  x: 1\n# about b\nb: 2\n",
        [{"op": "add", "path": "/a/y", "value": {"deep": {"er": [1]}}}],
        "a:\n  x: 1\n  y:\n    deep:\n      er: [1]\n# about b\nb: 2\n",
    ),
    (
        "a removed key takes its line and leaves the comments of others",
        "a:\n  x: 1 # of x\n  # of y\n  y: 2\n# about b\nb: 2\n",
        [{"op": "remove", "path": "/a/x"}],
        "a:\n  # of y\n  y: 2\n# about b\nb: 2\n",
    ),
    (
        "the last key of a map leaves an empty map",
        "a: # of a\n  x: 1\nb: 2\n",
        [{"op": "remove", "path": "/a/x"}],
        "a: {} # of a\nb: 2\n",
    ),
    (
        "an empty value is filled on the lines below its comment",
        "a: # of a\nb: 2\n",
        [{"op": "replace", "path": "/a", "value": {"x": {"y": {"z": 1}}}}],
        "a: # of a\n  x:\n    y: {z: 1}\nb: 2\n",
    ),
    (
        "brackets grow and shrink in place",
        "a: {x: 1, y: 2,  z: 3}  # of a\n",
        [
            {"op": "remove", "path": "/a/x"},
            {"op": "remove", "path": "/a/z"},
            {"op": "add", "path": "/a/w", "value": "q,"},
        ],
        "a: {y: 2, w: 'q,'}  # of a\n",
    ),
    (
        "a list keeps its other items as typed",
        "a:\n- 'one' # first\n# second\n- \"two\"\n- three\n",
        [{"op": "remove", "path": "/a/0"}, {"op": "add", "path": "/a/1", "value": {"k": 1}}],
        "a:\n# second\n- \"two\"\n- {k: 1}\n- three\n",
    ),
    (
        "a long text over several lines is exchanged whole",
        "a: >-\n  one\n  two\n\n# about b\nb: |\n  x\n",
        [{"op": "replace", "path": "/a", "value": "short"}, {"op": "replace", "path": "/b", "value": "y\nz"}],
        'a: short\n\n# about b\nb: "y\\nz"\n',
    ),
    (
        "a new key stands after the key it follows in the document",
        "a: 1\nc: 3\n",
        [{"op": "add", "path": "/b", "value": 2, "before": "c"}],
        "a: 1\nb: 2\nc: 3\n",
    ),
    (
        "an anchor and its alias stay while both mean the same",
        "a: &x {k: 1}\nb: *x\nc: 1\n",
        [{"op": "replace", "path": "/c", "value": 2}],
        "a: &x {k: 1}\nb: *x\nc: 2\n",
    ),
    (
        "an alias is written out when it no longer means the same",
        "a: &x {k: 1}\nb: *x\nc: *x\n",
        [{"op": "replace", "path": "/b/k", "value": 2}],
        "a: &x {k: 1}\nb: {k: 2}\nc: *x\n",
    ),
    (
        "a changed anchor leaves its aliases as they were",
        "a: &x {k: 1}\nb: *x\n",
        [{"op": "replace", "path": "/a/k", "value": 2}],
        "a: &x {k: 2}\nb: {k: 1}\n",
    ),
    (
        "a removed anchor leaves its aliases as they were",
        "a: &x 12 in\nb: *x\n",
        [{"op": "remove", "path": "/a"}],
        "b: 12 in\n",
    ),
    (
        "anchor and alias changed alike stay anchor and alias",
        "a: &x 12 in\nb: *x\n",
        [{"op": "replace", "path": "/a", "value": "1 m"}, {"op": "replace", "path": "/b", "value": "1 m"}],
        "a: &x 1 m\nb: *x\n",
    ),
    (
        "line ends stay those of the file",
        "a: 1\r\nb: 2\r\n",
        [{"op": "add", "path": "/c", "value": {"x": {"y": 1}}}],
        "a: 1\r\nb: 2\r\nc:\r\n  x: {y: 1}\r\n",
    ),
    (
        "a file without a last line end gets none in the middle",
        "a: 1",
        [{"op": "add", "path": "/b", "value": 2}],
        "a: 1\nb: 2",
    ),
    (
        "text that looks like a number is quoted",
        "a: 1\n",
        [{"op": "replace", "path": "/a", "value": "12"}],
        "a: '12'\n",
    ),
    (
        "typographic marks before a value do not shift it",
        "a: 12′ 6½″ # ½ ″ 😀\nb: 2\n",
        [{"op": "replace", "path": "/b", "value": 3}],
        "a: 12′ 6½″ # ½ ″ 😀\nb: 3\n",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("fact", "text", "patch", "wanted"), EDITS, ids=[edit[0][:40] for edit in EDITS])
def test_an_edit_changes_only_its_own_characters(
    fact: str, text: str, patch: list[dict[str, Any]], wanted: str
) -> None:
    """Each case states its fact; the whole text is compared."""
    assert rewritten(text, patch) == wanted, fact


def test_a_text_that_cannot_be_changed_in_place_is_laid_out_anew_and_says_so() -> None:
    """Where every key goes, nothing of the text can stay: the outcome is right, and it is told."""
    written = changed_text("a: 1 # gone\n", {"b": 2}, name="x", format="yaml")
    assert said(written.text) == {"b": 2}
    assert not written.kept


def test_a_dump_reads_back_in_both_formats() -> None:
    """A job laid out anew is the same job."""
    document = parse_job(GOOD, name="x").document
    for format in ("yaml", "json"):
        text = dump_job(document, format)
        assert same(parse_job(text, name="x", format=format).document, document)
        assert text.endswith("\n")
    assert dump_job(document, "json") == json.dumps(document, indent=2, ensure_ascii=False) + "\n"


def job_file(folder: Path, text: str = GOOD) -> Path:
    """Write a job file."""
    path = folder / "elm.yaml"
    path.write_bytes(text.encode())
    return path


def test_writing_a_job_changes_the_file_in_place(tmp_path: Path) -> None:
    """The file has the new value, its old permissions, and no company."""
    path = job_file(tmp_path)
    path.chmod(0o640)
    loaded = read_job(path)
    new = apply(loaded.document, [{"op": "replace", "path": "/job/name", "value": "Elm Row 5"}])
    written = write_job(path, loaded, new)
    assert written.kept
    assert path.read_text() == written.text == GOOD.replace("Elm Row 4", "Elm Row 5")
    assert path.stat().st_mode & 0o777 == 0o640
    assert [p.name for p in tmp_path.iterdir()] == ["elm.yaml"]


def test_json_is_written_with_two_spaces(tmp_path: Path) -> None:
    """A JSON job stays JSON; a YAML job written to a `.json` becomes one and tells that comments go."""
    loaded = parse_job(GOOD, name="x")
    path = tmp_path / "elm.json"
    assert not write_job(path, loaded, loaded.document).kept
    assert path.read_text() == dump_job(loaded.document, "json")
    again = read_job(path)
    assert write_job(path, again, {**again.document, "people": {}}).kept
    assert read_job(path).document["people"] == {}


def test_a_new_job_is_written_without_an_old_one(tmp_path: Path) -> None:
    """Nothing has to be there before."""
    document = parse_job(GOOD, name="x").document
    write_job(tmp_path / "new.yaml", None, document)
    assert same(read_job(tmp_path / "new.yaml").document, document)


def test_an_invalid_document_is_not_written(tmp_path: Path) -> None:
    """The faults are told and the file is untouched."""
    path = job_file(tmp_path)
    loaded = read_job(path)
    new = apply(loaded.document, [{"op": "remove", "path": "/rooms/living/survey"}])
    with pytest.raises(InputErrors) as caught:
        write_job(path, loaded, new)
    assert caught.value.errors[0].message == "`living/survey` is missing"
    assert path.read_text() == GOOD


def test_a_file_changed_meanwhile_is_not_overwritten(tmp_path: Path) -> None:
    """What someone else saved since is never lost."""
    path = job_file(tmp_path)
    loaded = read_job(path)
    path.write_text(GOOD + "# more\n")
    with pytest.raises(InputError, match="has changed since it was read"):
        write_job(path, loaded, loaded.document)
    assert path.read_text() == GOOD + "# more\n"


@pytest.mark.parametrize("broken", ["fsync", "replace", "chmod"])
def test_a_failed_write_leaves_the_old_file_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    """A full disk at any step leaves the old text and no temporary file."""
    path = job_file(tmp_path)

    def fail(*args: Any, **rest: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, broken, fail)
    with pytest.raises(HalfdropError, match="cannot be written: no space left"):
        save_text(path, "new")
    assert path.read_text() == GOOD
    assert [p.name for p in tmp_path.iterdir()] == ["elm.yaml"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    """A job reached through a symbolic link is written where it is."""
    path = job_file(tmp_path)
    link = tmp_path / "link.yaml"
    link.symlink_to(path)
    save_text(link, "new")
    assert link.is_symlink()
    assert path.read_text() == "new"
    with pytest.raises(HalfdropError, match="cannot be written: no such file"):
        save_text(tmp_path / "nowhere" / "a.yaml", "new")
