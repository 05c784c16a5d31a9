"""The command line does each of its tasks, and says what is wrong in one shape with the exit codes it promises."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from halfdrop.cli import commands
from halfdrop.cli.commands import PLACES
from halfdrop.job.read import read_job
from tests.cli.conftest import Halfdrop


def test_every_command_has_help_with_an_example(halfdrop: Halfdrop) -> None:
    """Each command's help shows how it is called; the list of commands is whole."""
    assert halfdrop("--help").code == 0
    listed = " ".join(halfdrop("--help").out.split())
    for name, place in PLACES.items():
        answer = halfdrop(name, "--help")
        assert answer.code == 0
        if name != "scheme":
            assert f"halfdrop {name}" in answer.out.replace("Usage: ", "", 1)
        assert f" {name} {place.summary}" in listed  # whole, not cut short
    modules = {path.stem for path in Path(commands.__file__).parent.glob("*.py")} - {"__init__"}
    assert modules == {place.module for place in PLACES.values()}


def test_a_command_loads_only_what_it_needs() -> None:
    """`halfdrop --version` and `halfdrop new` start without the arithmetic, the drawing or the workbench."""
    for args in (["--version"], ["--help"], ["new", "--help"]):
        code = (
            "import sys; from halfdrop.cli import run; "
            f"run({args!r}); print(*sorted(m for m in ('numpy', 'shapely', 'ezdxf', 'sqlalchemy') if m in sys.modules))"
        )
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        assert done.stdout.splitlines()[-1] == ""


def test_what_new_explains_can_be_used_as_it_stands(halfdrop: Halfdrop, tmp_path: Path) -> None:
    """With the braces and the # taken away, as the file says, every example line is a thing of a whole job."""
    for units in ("imperial", "metric"):
        job = tmp_path / f"{units}.yaml"
        halfdrop("new", job, "--units", units)
        text = job.read_text(encoding="utf-8")
        for part in ("fittings", "pieces", "rugs", "treatments", "surfaces", "art"):
            text = text.replace(f"{part}: {{}}", f"{part}:")
        job.write_text(text.replace("      #   ", "      "), encoding="utf-8")
        answer = halfdrop("check", job)
        assert answer.code == 0, answer.err
        assert "2 openings, 1 fitting, 2 pieces, 1 rug, 1 treatment, 1 work of art" in answer.out
        assert "closed" in answer.out


def test_new_begins_a_job_that_checks_and_never_overwrites(halfdrop: Halfdrop, tmp_path: Path) -> None:
    """`new` writes a file that `check` finds whole; a second `new` leaves it as it is and exits with 2."""
    for units in ("imperial", "metric"):
        job = tmp_path / f"{units}.yaml"
        rooms = ["--room", "living", "--room", "bedroom", "--room", "bedroom"]
        assert halfdrop("new", job, "--units", units, "--client", 'A "quoted" client: #1', *rooms).code == 0
        answer = halfdrop("check", job)
        assert answer.code == 0, answer.err
        assert [line.split()[0] for line in answer.out.splitlines()[2:]] == ["living", "bedroom", "bedroom-2"]
        before = job.read_bytes()
        again = halfdrop("new", job)
        assert again.code == 2
        assert "exists already" in again.err
        assert job.read_bytes() == before


def test_check_of_the_demo_finds_one_blunder(halfdrop: Halfdrop, demo: Path) -> None:
    """The demo's bedroom has one located blunder, in the tie that was misread; every other survey closes."""
    answer = halfdrop("check", demo, "--json")
    assert answer.code == 0
    verdicts = {room["room"]: room["verdict"] for room in answer.json["rooms"]}
    assert verdicts.pop("bedroom") == "blunder located"
    assert set(verdicts.values()) == {"closed"}
    survey = halfdrop("survey", demo, "--room", "bedroom", "--json").json["rooms"][0]
    assert [o["id"] for o in survey["observations"] if not o["used"]] == ["ties/AD"]
    error = next(s["error"] for s in survey["suspects"] if s["id"] == "ties/AD")
    assert error == pytest.approx(4 * 0.0254, abs=0.005)
    words = halfdrop("survey", demo, "--room", "bedroom", "--working")
    assert "ties/AD" in words.out


def test_audit_prints_one_json_document_with_the_promised_parts(halfdrop: Halfdrop, demo: Path) -> None:
    """`audit --json` gives per finding: id, rule, grade, room, subjects, measured, wanted, unit, certainty, source, message, remedies."""
    answer = halfdrop("audit", demo, "--room", "dining", "--json", "--fail-on", "never")
    assert answer.code == 0
    findings = answer.json["findings"]
    assert findings
    parts = [
        "id",
        "rule",
        "grade",
        "room",
        "subjects",
        "measured",
        "wanted",
        "unit",
        "certainty",
        "source",
        "message",
        "remedies",
    ]
    for finding in findings:
        assert all(part in finding for part in parts)
        for remedy in finding["remedies"]:
            assert remedy["patch"]
            assert remedy["proof"]["cleared"]
            assert "cost" in remedy


def test_exit_codes_follow_fail_on(halfdrop: Halfdrop, demo: Path) -> None:
    """0 where nothing reaches `--fail-on`, 1 where something does."""
    args = ("audit", demo, "--room", "living", "--no-remedies", "--fail-on")
    assert halfdrop(*args, "never").code == 0
    assert halfdrop(*args, "fault").code == 1
    assert halfdrop(*args, "hazard").code == 1


def test_usage_and_input_faults(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """Wrong calls exit with 2, unreadable or invalid files with 3; each says what to do, none shows a traceback."""
    cases = [
        (("audit",), 2, "hint: run `halfdrop audit --help`"),
        (("nonsense",), 2, "hint: run `halfdrop --help`"),
        (("audit", tmp_path / "none.yaml"), 3, "none.yaml"),
        (("audit", demo, "--room", "livng"), 3, "did you mean `living`?"),
        (("audit", demo, "--scheme", "frist"), 3, "frist"),
        (("explain", "hazards.heater"), 2, "hazards.heater-clear"),
        (("practice", "rags"), 2, "rags"),
        (
            ("plan", demo, "--room", "living", "--view", "before-after", "-o", tmp_path / "x.svg"),
            2,
            "--scheme",
        ),
        (("plan", demo, "--room", "living", "-o", tmp_path / "x.jpg"), 2, "known: svg, dxf, pdf, png"),
        (("plan", demo, "--room", "living", "--paper", "a99", "-o", tmp_path / "x.svg"), 3, "a99"),
    ]
    for args, code, hint in cases:
        answer = halfdrop(*args)
        assert answer.code == code, (args, answer.err)
        assert answer.err.startswith("error: ")
        assert hint in answer.err, answer.err
        assert "Traceback" not in answer.err
        assert answer.out == ""


def test_all_faults_of_a_file_at_once_with_their_lines(halfdrop: Halfdrop, demo: Path) -> None:
    """A file with three faults reports three, each with file, line and path."""
    text = demo.read_text(encoding="utf-8")
    text = text.replace("type: sofa,", "type: sofia,").replace(
        "height: 84 in, at: {wall: AB", "hieght: 84 in, at: {wall: AB"
    )
    text = text.replace("pile: 3/8 in", "pile: 3/8")
    demo.write_text(text, encoding="utf-8")
    answer = halfdrop("check", demo)
    assert answer.code == 3
    assert answer.err.count("error: ") >= 3
    assert "rooms/living/pieces/sofa/type" in answer.err
    assert "sofa" in answer.err
    assert f"{demo}:" in answer.err or "quince.yaml:" in answer.err


def test_a_bug_of_ours_exits_with_70_and_says_so(
    halfdrop: Halfdrop, demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is not a user's fault is told apart from one."""
    monkeypatch.setattr("halfdrop.services.auditing.judged", lambda *a, **k: 1 / 0)
    answer = halfdrop("audit", demo)
    assert answer.code == 70
    assert "a bug in halfdrop" in answer.err


def test_a_remedy_of_several_words_is_accepted_by_its_id(halfdrop: Halfdrop, demo: Path) -> None:
    """The west pair made anew: the id the audit prints is the id that is taken."""
    remedy = "living/drapery.short/west-pair#make-anew"
    answer = halfdrop("scheme", "accept", demo, "print", remedy)
    assert answer.code == 0, answer.err
    assert "1 step taken" in answer.out
    assert read_job(demo).job.schemes["print"].steps[0].finding == remedy.partition("#")[0]


def test_accept_writes_a_scheme_and_leaves_the_rooms_as_found(halfdrop: Halfdrop, demo: Path) -> None:
    """Remedies go into a named scheme; the rooms, their comments and their typed lengths stay as they were."""
    before = demo.read_text(encoding="utf-8")
    found = halfdrop("audit", demo, "--room", "living", "--json", "--fail-on", "never").json["findings"]
    remedy = next(f["remedies"][0]["id"] for f in found if f["remedies"])
    answer = halfdrop("scheme", "accept", demo, "first", remedy, "--title", "As little as possible")
    assert answer.code == 0, answer.err
    after = demo.read_text(encoding="utf-8")
    head, _, _ = before.partition("schemes:")
    assert after.startswith(head)
    loaded = read_job(demo)
    scheme = loaded.job.schemes["first"]
    assert scheme.name == "As little as possible"
    assert [step.finding for step in scheme.steps] == [remedy.partition("#")[0]]
    left = halfdrop(
        "audit",
        demo,
        "--room",
        "living",
        "--scheme",
        "first",
        "--no-remedies",
        "--json",
        "--fail-on",
        "never",
    )
    assert remedy.partition("#")[0] not in {f["id"] for f in left.json["findings"]}
    listed = halfdrop("scheme", "list", demo)
    assert "As little as possible" in listed.out
    again = halfdrop("scheme", "accept", demo, "first", remedy)
    assert again.code == 3
    assert demo.read_text(encoding="utf-8") == after


def test_accept_all_leaves_less_open_and_compare_shows_it(halfdrop: Halfdrop, demo: Path) -> None:
    """Taking the least disturbing remedy of everything in a room leaves fewer hazards and faults, and no new ones."""
    answer = halfdrop("scheme", "accept", demo, "first", "--all", "--room", "dining", "--json")
    assert answer.code == 0, answer.err
    taken = answer.json["taken"]
    assert taken
    rows = {row["scheme"]: row for row in halfdrop("scheme", "compare", demo, "--json").json}
    found, first = rows["as found"], rows["first"]
    assert first["hazards"] <= found["hazards"]
    assert first["faults"] < found["faults"]
    assert first["steps"] == len(taken)
    grave = {t["finding"] for t in taken}
    assert not grave & set(first["open"])


@pytest.mark.parametrize("ending", ["svg", "dxf", "pdf", "png"])
def test_plan_writes_each_format_twice_alike(
    halfdrop: Halfdrop, demo: Path, tmp_path: Path, ending: str
) -> None:
    """A sheet is written in each format, and the same sheet is the same bytes."""
    heads = {"svg": b"<", "dxf": b"  0", "pdf": b"%PDF", "png": b"\x89PNG"}
    for view in ("plan", "survey"):
        first, second = tmp_path / f"1.{ending}", tmp_path / f"2.{ending}"
        for out in (first, second):
            answer = halfdrop("plan", demo, "--room", "bedroom", "--view", view, "-o", out)
            assert answer.code == 0, answer.err
        assert first.read_bytes() == second.read_bytes()
        assert first.read_bytes().startswith(heads[ending])


def test_book_is_written_whole_or_not_at_all(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """A book goes where it is asked; into a place that cannot be written it leaves nothing and says so."""
    out = tmp_path / "book.pdf"
    answer = halfdrop("book", demo, "--room", "bath", "-o", out)
    assert answer.code == 0, answer.err
    assert out.read_bytes().startswith(b"%PDF")
    blocked = tmp_path / "file"
    blocked.write_text("not a folder", encoding="utf-8")
    answer = halfdrop("book", demo, "--room", "bath", "-o", blocked / "book.pdf")
    assert answer.code == 2
    assert "cannot be written" in answer.err
    assert sorted(p.name for p in tmp_path.iterdir()) == ["book.pdf", "file", "quince.yaml"]


def test_schema_holds_the_demo(halfdrop: Halfdrop, demo: Path) -> None:
    """The published JSON Schema is a schema, and the demo job satisfies it."""
    schema = halfdrop("schema").json
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(read_job(demo).document, schema)


def test_explain_lists_and_tells(halfdrop: Halfdrop) -> None:
    """`explain` lists every rule; with a rule it tells its story and its practice values."""
    listed = halfdrop("explain", "--json").json
    assert "hazards.heater-clear" in {r["id"] for r in listed}
    told = halfdrop("explain", "hazards.heater-clear").out
    for part in (
        "Why:",
        "Source:",
        "Fails:",
        "Passes exactly:",
        "Silent:",
        "Caution:",
        "hazards.heater_clear",
    ):
        assert part in told


def test_practice_lists_with_a_house_file_over_it(halfdrop: Halfdrop, tmp_path: Path) -> None:
    """A house's own value shows, and where it comes from."""
    house = tmp_path / "house.toml"
    house.write_text('"hazards.heater_clear" = "14 in"\n', encoding="utf-8")
    rows = {v["key"]: v for v in halfdrop("practice", "hazards", "--house", house, "--json").json}
    assert rows["hazards.heater_clear"]["origin"].startswith("house")
    assert rows["hazards.radiator_clear"]["origin"] == "us"


def test_completion_scripts_name_the_command(halfdrop: Halfdrop) -> None:
    """Completion is there for three shells."""
    for shell in ("bash", "zsh", "fish"):
        answer = halfdrop("completion", shell)
        assert answer.code == 0
        assert "halfdrop" in answer.out


def test_json_goes_alone_to_stdout(halfdrop: Halfdrop, demo: Path) -> None:
    """With `--json`, stdout is one JSON document and nothing else."""
    for args in (("check", demo), ("survey", demo), ("scheme", "list", demo), ("explain",), ("practice",)):
        json.loads(halfdrop(*args, "--json").out)
