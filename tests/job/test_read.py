"""Reading: plain documents with their lines, limits, and every fault at once."""

from __future__ import annotations

import json
import os
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given

from halfdrop.base.errors import InputError, InputErrors
from halfdrop.job import limits
from halfdrop.job.compose import Node, compose, lines, plain
from halfdrop.job.events import json_events, yaml_events
from halfdrop.job.faults import PATTERN_HINTS
from halfdrop.job.model import Job
from halfdrop.job.read import LoadedJob, parse_job, read_job
from halfdrop.job.same import same
from tests.job.documents import GOOD, documents

DEMO = Path(__file__).parents[2] / "examples" / "quince.yaml"


def tree(text: str) -> Node:
    """Compose a YAML text."""
    return compose(yaml_events(text, "a.yaml"), "a.yaml")


def refused(text: str, format: Any = "yaml") -> InputError:
    """Return the error that a text is refused with."""
    with pytest.raises(InputError) as caught:
        parse_job(text, name="a.yaml", format=format)
    return caught.value


def faults(text: str) -> dict[str, tuple[int | None, str, str | None]]:
    """Return line, message and hint of each fault, by its path."""
    error = refused(text)
    assert isinstance(error, InputErrors)
    return {str(e.at.path): (e.at.line, e.message, e.hint) for e in error.errors if e.at}


def changed(old: str, new: str) -> str:
    """Return the good job with one change."""
    assert GOOD.count(old) == 1
    return GOOD.replace(old, new)


def test_a_good_job_keeps_texts_and_knows_its_lines() -> None:
    """The document has the texts as typed, the model the values in SI, the lines where they stand."""
    loaded = parse_job(GOOD, name="elm.yaml")
    assert isinstance(loaded, LoadedJob)
    sofa = loaded.document["rooms"]["living"]["pieces"]["sofa"]
    assert sofa["depth"] == "2,13 m"
    assert loaded.job.rooms["living"].pieces["sofa"].depth == 2.13
    assert loaded.job.rooms["living"].survey.corners == ["A", "B", "C", "D"]
    assert GOOD.splitlines()[loaded.lines["/rooms/living/pieces/sofa/depth"] - 1].strip() == "depth: 2,13 m"
    assert (
        str(loaded.at("rooms", "living", "survey", "walls", "BC"))
        == "elm.yaml:14 rooms/living/survey/walls/BC"
    )
    assert (
        loaded.at("rooms", "living", "survey", "nothing", "here").line == loaded.lines["/rooms/living/survey"]
    )


def test_json_and_yaml_say_the_same_job() -> None:
    """A job as JSON reads to the same document, with lines of its own."""
    loaded = parse_job(GOOD, name="elm.yaml")
    text = json.dumps(loaded.document, indent=2)
    again = parse_job(text, name="elm.json", format="json")
    assert same(again.document, loaded.document)
    assert again.job == loaded.job
    assert '"depth"' in text.splitlines()[again.lines["/rooms/living/pieces/sofa/depth"] - 1]


@given(documents)
def test_any_json_reads_as_json_and_as_the_reference_reader_reads_it(document: dict[str, Any]) -> None:
    """The event reader and Python's own agree, compact or indented, escaped or not."""
    for text in (json.dumps(document), json.dumps(document, indent=3, ensure_ascii=False)):
        assert same(plain(compose(json_events(text, "x"), "x")), json.loads(text))


@pytest.mark.parametrize(
    "text",
    [
        '{"a": 1,}', "[1 2]", '{"a" 1}', "[1,]", "{,}", "", "  ", "[", '{"a":', "nul", "01", "+1", ".5",
        '"\\ud800"', '{"a": 1, "a": 2}', "{1: 2}", '"a\nb"', "NaN", "Infinity", "[1.e]", '{"a": 1]', "[}",
        "// c\n1", '{"a": 1} {"b": 2}', '"\\x41"', '"open', "\ufeff1", "tru", "truefalse", "1a", "--1",
        '{"a": 1e999}', "\x0c1", "[1]]", "1.", "'a'",
    ],
)  # fmt: skip
def test_json_is_strict(text: str) -> None:
    """Trailing commas, comments, bare words, twice-given keys, half characters: refused with a line."""
    with pytest.raises(InputError) as caught:
        compose(json_events(text, "a.json"), "a.json")
    assert caught.value.at
    assert caught.value.at.line


@pytest.mark.parametrize(
    ("text", "message", "line", "hint"),
    [
        ("a: 1\nb: 2\na: 3\n", "key `a` comes twice, first on line 1", 3, "keep one of them"),
        ("a:\n  1: 2\n", "key `1` is not a text", 2, 'write "1"'),
        ("a:\n  true: 2\n", "key `true` is not a text", 2, 'write "true"'),
        ("? [a]\n: 1\n", "a key is a map or a list", 1, None),
        ("a: &x [1, *x]\n", "alias `*x` stands inside its own anchor", 1, None),
        ("a: 1\nb: *y\n", "alias `*y` has no anchor above it", 2, None),
        ("a: &x {b: 1}\nc:\n  <<: *x\n", "merge keys (`<<`) are not read", 3, "write the keys out"),
        ("a: !!python/name:os.system x\n", "is not read", 1, "remove the tag"),
        ("a: .inf\n", "`.inf` is not a finite number", 1, "write it in quotes"),
        ("%TAG ! tag:x,2000:\n---\na: 1\n", "directive `%TAG", 1, "remove the line"),
        ("a: 1\n---\nb: 2\n", "the file holds several documents", 2, "keep one job a file"),
        ("a: b: c\n", "cannot be read as YAML", 1, "put a text that holds `: ` in quotes"),
        ("a:\n\tb: 1\n", "cannot be read as YAML", 2, "indent with spaces"),
        ("a: \x00\n", "cannot be read as YAML", 1, None),
        ("a: [1,\n", "cannot be read as YAML", 2, None),
        ("", "the file is empty", None, "halfdrop new"),
        ("# only a comment\n", "the file is empty", None, "halfdrop new"),
        ("- 1\n", "a job is a map; this file is a list", 1, "begin with `halfdrop: 1`"),
        ("hello\n", "a job is a map; this is one text", 1, "begin with `halfdrop: 1`"),
    ],
)
def test_what_is_no_plain_document_is_refused_with_its_line(
    text: str, message: str, line: int | None, hint: str | None
) -> None:
    """One line says what is wrong and where, the hint what to do."""
    error = refused(text)
    assert message in error.message
    assert error.at
    assert (error.at.file, error.at.line) == ("a.yaml", line)
    assert hint is None or hint in (error.hint or "")


def test_anchors_stand_for_copies() -> None:
    """An alias is a copy of its own: changing one value later never changes the other."""
    root = tree("a: &x {b: [1]}\nc: *x\n")
    document = plain(root)
    assert document == {"a": {"b": [1]}, "c": {"b": [1]}}
    assert document["a"] is not document["c"]
    assert document["a"]["b"] is not document["c"]["b"]
    assert lines(root) == {"": 1, "/a": 1, "/a/b": 1, "/a/b/0": 1, "/c": 2}


def test_a_key_may_hold_any_sign_in_its_pointer() -> None:
    """Slash and tilde are escaped in the pointers of lines (RFC 6901)."""
    assert lines(tree("a/b: 1\nm~n: 2\n")) == {"": 1, "/a~1b": 1, "/m~0n": 2}


def bomb(levels: int) -> str:
    """Return a text whose aliases stand for 10 to the power of `levels` values."""
    rows = ["a0: &a0 [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]"]
    rows += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 10)}]" for i in range(1, levels)]
    return "\n".join(rows)


LIMITS = [
    ("a: " + "[" * 60, "nested more than 40 deep"),
    ("- " * 60 + "a", "nested more than 40 deep"),
    ("".join(" " * i + "a:\n" for i in range(60)), "nested more than 40 deep"),
    ("a: &a " + "[" * 30 + "]" * 30 + "\nb: " + "[" * 30 + "*a" + "]" * 30, "nested more than 40 deep"),
    (bomb(12), "more than 400000 values"),
    ("a: &a " + "x" * 19_000 + "\nb: [" + "*a, " * 900 + "]", "characters, aliases counted in full"),
    ("a: " + "x" * 20_001, "a text has 20001 characters; at most 20000"),
    ("a: [" + "1," * 400_001 + "]", "more than 400000 values"),
    ("%TAG !a! x\n" * 200_000 + "---\na: 1", "directive"),
    ("a: " + "9" * 50_000, "a text has 50000 characters"),
    ("a: " + "9" * 5_000, "is a number of 5000 characters"),
    ("#" * (limits.FILE_BYTES + 1), "at most 8388608 are read"),
]


@pytest.mark.parametrize(("text", "message"), LIMITS, ids=[message[:30] for _, message in LIMITS])
def test_a_hostile_file_is_refused_soon(text: str, message: str) -> None:
    """Depth, number of values, length of texts and aliases in full are bounded, and found out in seconds."""
    begun = time.process_time()
    assert message in refused(text).message
    assert time.process_time() - begun < 10


def test_what_is_within_the_limits_is_read() -> None:
    """Forty levels, long texts and many aliases are no fault in themselves."""
    assert tree("[" * 40 + "]" * 40).height == 39
    assert plain(tree("a: " + "x" * 20_000))["a"] == "x" * 20_000
    assert len(plain(tree("a: &a [1, 2]\nb: [" + "*a, " * 1000 + "]"))["b"]) == 1000


FAULTY = """\
halfdrop: 1
job:
  name: 12
  units: imperal
  date: 4 April
  budget: 12
rooms:
  Living Room: {}
  living:
    name: Living
    use: {living: maybe}
    survey:
      corners: A B C D
      walls: {AB: 12, BC: {length: 12 ft, sigme: 1 mm}, CD: [1], DAX: 12'}
    pieces:
      sofa:
        type: soffa
        widht: 84 in
        width: 12' 14"
        depth: 0
        height: 30 fet
        at: {wall: AB, alon: 3 ft, off: 0}
        seats: 41
        keep: 3
      chair: {type: armchair, width: 30 in, depth: 30 in, height: 30 in, at: here}
      table: {type: desk, width: 1', depth: 1', height: 1', at: {x: 1 ft, z: 3 ft}}
      empty:
    openings: []
people:
  a: {age: old, name: ''}
delivery: {}
schemes:
  s: {name: S, steps: [{title: x, patch: []}]}
"""

EXPECTED = [
    ("job/name", 3, "`job/name` is `12`; wanted is a text", 'write "12"'),
    ("job/units", 4, "is `imperal`, which is not known there", "did you mean `imperial`?"),
    ("job/date", 5, "is `4 April`, which cannot be read", "write the date as 2026-04-01"),
    ("job/budget", 6, "amount `12` has no currency", "write an amount as"),
    ("rooms/Living Room", 8, "cannot be read", "write `living-room`"),
    ("rooms/living/use/living", 11, "is `maybe`; wanted is true or false", None),
    ("rooms/living/survey/walls/AB", 14, "`walls/AB`: length `12` has no unit", "write 12' or 12 in"),
    ("rooms/living/survey/walls/BC/sigme", 14, "`BC/sigme` is not known", "did you mean `sigma`?"),
    (
        "rooms/living/survey/walls/CD",
        14,
        "`walls/CD` is a list; wanted is a length",
        "write it as text, such as 12' 6 1/2",
    ),
    ("rooms/living/survey/walls/DAX", 14, "cannot be read", "write two corners"),
    ("rooms/living/pieces/sofa/type", 17, "is `soffa`, which is not known there", "did you mean `sofa`?"),
    ("rooms/living/pieces/sofa/widht", 18, "`sofa/widht` is not known", "did you mean `width`?"),
    ("rooms/living/pieces/sofa/width", 19, "fewer than 12 are allowed", "write 13' 2\""),
    ("rooms/living/pieces/sofa/depth", 20, "is 0; allowed is more than 0", None),
    ("rooms/living/pieces/sofa/height", 21, "unknown unit `fet`", "did you mean `feet`?"),
    ("rooms/living/pieces/sofa/at/along", 22, "`at/along` is missing", None),
    ("rooms/living/pieces/sofa/at/alon", 22, "`at/alon` is not known", "did you mean `along`?"),
    ("rooms/living/pieces/sofa/seats", 23, "is `41`; at most 40 is allowed", None),
    ("rooms/living/pieces/sofa/keep", 24, "is `3`; wanted is true or false", None),
    ("rooms/living/pieces/chair/at", 25, "is `here`; wanted is a map", "its keys are wall, along, off, x, y"),
    ("rooms/living/pieces/table/at/y", 26, "`at/y` is missing", None),
    ("rooms/living/pieces/table/at/z", 26, "`at/z` is not known", "known: x, y"),
    ("rooms/living/pieces/empty", 27, "is empty; wanted is a map", "its keys are type"),
    ("rooms/living/openings", 28, "is a list; wanted is a map", None),
    ("people/a/name", 30, "has 0 characters; at least 1", None),
    ("people/a/age", 30, "is `old`, which is not known there", "adult, child, elder"),
    ("delivery", 31, "is a map; wanted is a list", None),
    ("schemes/s/steps/0/patch", 33, "has 0 entries; at least 1", None),
]


def test_every_fault_is_reported_at_once_with_line_path_and_hint() -> None:
    """One reading finds them all, in the order of the lines."""
    found = faults(FAULTY)
    for path, line, message, hint in EXPECTED:
        assert path in found
        assert found[path][0] == line
        assert message in found[path][1]
        assert hint is None or hint in (found[path][2] or "")
    wanted = {path for path, *_ in EXPECTED} | {
        f"rooms/Living Room/{key}" for key in ("name", "use", "survey")
    }
    assert set(found) == wanted
    error = refused(FAULTY)
    assert isinstance(error, InputErrors)
    placed = [e.at.line or 0 for e in error.errors if e.at]
    assert placed == sorted(placed)


@pytest.mark.parametrize(
    ("old", "new", "path", "message"),
    [
        ("DA: 14 ft", "DE: 14 ft", "rooms/living/survey/walls/DE", "names corner E; the corners are A B C D"),
        ("DA: 14 ft", "DB: 14 ft", "rooms/living/survey/walls/DB", "is not a wall"),
        ("wall: AB", "wall: AC", "rooms/living/pieces/sofa/at/wall", "which is no wall of this room"),
        ('at: {x: 9', 'over: none, at: {x: 9', "rooms/living/rugs/old/over", "names another rug of the room"),
    ],
)  # fmt: skip
def test_what_contradicts_itself_is_placed_at_the_very_value(
    old: str, new: str, path: str, message: str
) -> None:
    """A fault that the whole room shows is still reported on the line of the value that is wrong."""
    text = changed(old, new)
    line = next(i for i, row in enumerate(text.splitlines(), 1) if new in row)
    assert faults(text)[path][0] == line
    assert message in faults(text)[path][1]


def test_at_most_some_faults_are_listed_and_the_rest_counted() -> None:
    """A file of nothing but faults stays readable."""
    rows = "".join(f"  r{i}: 1\n" for i in range(limits.FAULTS + 50))
    error = refused(f"halfdrop: 1\njob: {{name: x}}\nrooms:\n{rows}")
    assert isinstance(error, InputErrors)
    assert len(error.errors) == limits.FAULTS
    assert error.hint == "50 more faults are not listed"


def test_every_pattern_of_the_schema_has_a_hint() -> None:
    """No pattern is shown to a person as a regular expression where words would do."""
    found: set[str] = set()

    def collect(schema: Any) -> None:
        if isinstance(schema, dict):
            if isinstance(schema.get("pattern"), str):
                found.add(schema["pattern"])
            found.update(schema.get("patternProperties", {}))
            schema = list(schema.values())
        if isinstance(schema, list):
            for item in schema:
                collect(item)

    collect(Job.model_json_schema())
    assert found == set(PATTERN_HINTS)


def test_files_are_read_by_their_ending_with_or_without_a_byte_order_mark(tmp_path: Path) -> None:
    """`.json` is JSON, the rest YAML; a byte order mark and carriage returns do no harm."""
    yaml_file, json_file = tmp_path / "a.yaml", tmp_path / "a.json"
    yaml_file.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    loaded = read_job(yaml_file)
    assert loaded.path == yaml_file
    assert loaded.lines["/halfdrop"] == 2
    json_file.write_text(json.dumps(loaded.document))
    assert read_job(json_file).job == loaded.job


def test_a_file_that_cannot_be_read_says_why(tmp_path: Path) -> None:
    """Missing, a folder, no UTF-8, too large: each is named, a near file name suggested."""
    (tmp_path / "quince.yaml").write_text("x")
    with pytest.raises(InputError, match="cannot be opened: no such file") as caught:
        read_job(tmp_path / "quinse.yaml")
    assert "quince.yaml" in (caught.value.hint or "")
    with pytest.raises(InputError, match="cannot be opened"):
        read_job(tmp_path)
    with pytest.raises(InputError, match="cannot be opened"):
        read_job("a\0b")
    latin = tmp_path / "latin.yaml"
    latin.write_bytes("a: 1\nb: 2 m\xb2\n".encode("latin-1"))
    with pytest.raises(InputError, match="byte 11 is not UTF-8") as caught:
        read_job(latin)
    assert caught.value.at
    assert caught.value.at.line == 2
    large = tmp_path / "large.yaml"
    with large.open("wb") as stream:
        os.truncate(stream.fileno(), limits.FILE_BYTES + 1)
    with pytest.raises(InputError, match="more than 8 MiB"):
        read_job(large)


@pytest.mark.parametrize(
    ("typed", "hint"),
    [
        ("type: couch", "write `sofa`"),
        ("type: Bedside table", "write `nightstand`"),
        ("type: tv", "write `screen`"),
    ],
)
def test_a_word_of_the_trade_is_told_as_a_job_calls_it(tmp_path: Path, typed: str, hint: str) -> None:
    """A couch is no typing mistake for anything near it: the hint gives our word."""
    job = tmp_path / "job.yaml"
    text = DEMO.read_text(encoding="utf-8").replace("sofa: {type: sofa", f"sofa: {{{typed}")
    job.write_text(text, encoding="utf-8")
    with pytest.raises(InputErrors) as caught:
        read_job(job)
    assert [e.hint for e in caught.value.errors] == [hint]


def test_a_decimal_comma_between_braces_is_explained(tmp_path: Path) -> None:
    """`{DA: 3,6 m}` is two entries to YAML: the message at the second says so and how to write it."""
    job = tmp_path / "job.yaml"
    job.write_text(DEMO.read_text(encoding="utf-8").replace("DA: 14'}", "DA: 3,6 m}"), encoding="utf-8")
    with pytest.raises(InputErrors) as caught:
        read_job(job)
    assert any(e.hint is not None and "3.6 m with a point" in e.hint for e in caught.value.errors)
