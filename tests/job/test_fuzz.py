"""Whatever a job file holds, the outcome is a job or an input error, soon."""

from __future__ import annotations

import time
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError, InputErrors
from halfdrop.job.read import LoadedJob, parse_job, read_job
from halfdrop.job.scalars import block, flow
from tests.job.documents import GOOD, documents, places, values

#: Longest that any input of these tests may take [s of processor time].
SOON = 5.0


def outcome(text: str, format: Any = "yaml") -> LoadedJob | InputError:
    """Read a text; anything but a job or an input error is a failure, and so is a long wait."""
    begun = time.process_time()
    found: LoadedJob | InputError
    try:
        found = parse_job(text, name="fuzz", format=format)
    except InputError as error:
        found = error
        faults = error.errors if isinstance(error, InputErrors) else (error,)
        assert all(fault.message.isprintable() for fault in faults)
        assert all(str(fault.at or "").isprintable() for fault in faults)
    assert time.process_time() - begun < SOON
    return found


@given(data=st.binary(max_size=300))
@example(data=b"\xff\xfe\x00\x00")
@example(data=b"\xef\xbb\xbf")
@example(data=b"\x00")
@example(data="halfdrop: 1\n".encode("utf-16"))
@example(data=GOOD.encode() + b"\xc3")
def test_any_bytes(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    """Bytes of no meaning, other encodings, half a character at the end."""
    path = tmp_path_factory.getbasetemp() / "fuzz.yaml"
    path.write_bytes(data)
    with pytest.raises(InputError) as caught:
        read_job(path)
    assert str(caught.value.at).startswith(str(path))


@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    """Odd Unicode, control characters, lone surrogates."""
    outcome(text)
    outcome(text, "json")


@given(st.text(alphabet="abA1 \n\t:-?,[]{}#&*!|>'\"%@`<~.\\\x85\u2028é½″", max_size=60))
def test_text_of_yaml_s_own_signs(text: str) -> None:
    """Every indicator in every order, anchors and merge keys, tags, directives, odd line breaks."""
    outcome(text)
    outcome(f"halfdrop: 1\njob: {{name: x}}\n{text}\n")
    outcome(text, "json")


@given(st.integers(0, len(GOOD) - 1), st.integers(0, 40), st.text(max_size=8))
def test_a_good_file_with_some_characters_exchanged(start: int, length: int, instead: str) -> None:
    """Cut, overwritten or grown anywhere, a good file is read or refused."""
    outcome(GOOD[:start] + instead + GOOD[start + length :])


@given(st.integers(0, 60), st.integers(0, 60))
def test_a_good_file_with_lines_moved(first: int, second: int) -> None:
    """A line in the wrong place is read or refused."""
    lines = GOOD.splitlines(keepends=True)
    line = lines.pop(first % len(lines))
    lines.insert(second % (len(lines) + 1), line)
    outcome("".join(lines))


BASE: dict[str, Any] = {}


def _base() -> dict[str, Any]:
    if not BASE:
        loaded = outcome(GOOD)
        assert isinstance(loaded, LoadedJob)
        BASE.update(loaded.document)
    return BASE


@given(st.data())
def test_a_good_document_with_one_value_of_another_kind(data: st.DataObject) -> None:
    """Numbers for texts, lists for maps, anything anywhere: read, or every fault told."""
    paths = [steps for steps in places(_base()) if steps]
    steps = data.draw(st.sampled_from(paths))
    outcome(block(_with(_base(), steps, data.draw(values))))


def _with(value: Any, steps: tuple[str, ...], new: Any) -> Any:
    if not steps:
        return new
    if isinstance(value, list):
        return [_with(item, steps[1:], new) if str(i) == steps[0] else item for i, item in enumerate(value)]
    return {key: _with(item, steps[1:], new) if key == steps[0] else item for key, item in value.items()}


@given(documents)
def test_any_document_with_a_version(document: dict[str, Any]) -> None:
    """Well-formed data of no meaning is refused with faults that each have a place."""
    found = outcome(block({"halfdrop": 1, **{k: v for k, v in document.items() if k != "halfdrop"}}))
    assert isinstance(found, InputErrors)
    assert all(error.at and error.at.line for error in found.errors)


@given(
    st.sampled_from(["width: 84 in", "keep: true", "corners: A B C D        ", "name: Elm Row 4", "off: 0"]),
    st.one_of(
        st.integers(),
        st.floats(allow_nan=False, allow_infinity=False),
        st.sampled_from([10**39, -(10**30), 1e308, 5e-324, -0.0]),
    ),
)
def test_any_number_where_a_text_or_another_number_is_wanted(entry: str, number: float) -> None:
    """Huge, tiny and negative numbers are judged, never choked on."""
    key = entry.split(":")[0]
    outcome(GOOD.replace(entry, f"{key}: {flow(number)}", 1))


@given(st.text(alphabet="&*ab: \n-[]{},<", max_size=40))
def test_anchors_and_aliases(text: str) -> None:
    """Anchors in any place, twice, inside themselves, or never meant."""
    outcome(f"x: &a {text}\ny: *a\nz: {{<<: *a}}\n")
    outcome(text)


def test_deep_and_wide_files_are_refused_or_read_soon() -> None:
    """Brackets, dashes, anchors, keys, comments, quotes and blank lines by the ten thousand."""
    n = 60_000
    for text in (
        "[" * n,
        "{a: " * n,
        "- " * n,
        "? " * n,
        "a:\n" * n,
        "&a " * n,
        "!!str " * n,
        "# c\n" * n,
        "\n" * n,
        "'" * n,
        '"' + "\\n" * n,
        "|" + "\n  x" * n,
        "a: " + "x " * n,
        "".join(f"k{i}: &k{i} {i}\n" for i in range(n // 4)),
        "- &a [x]\n" + "- *a\n" * n,
        "%YAML 1.2\n" * n + "--- a",
        "---\n" * n,
        "a" * n + ": 1",
        "[" + "a: 1, " * n + "]",
        "halfdrop: 1\nrooms: {" + ", ".join(f"r{i}: 1" for i in range(n // 4)) + "}",
    ):
        assert isinstance(outcome(text), InputError)
    for text in (
        "[" * n,
        '{"a":' * n,
        "[" + "1," * n,
        '"' + "a" * n,
        "1" * n,
        " " * n,
        "[{}" + ",{}" * n + "]",
    ):
        assert isinstance(outcome(text, "json"), InputError)
