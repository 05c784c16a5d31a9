"""The list of jobs with what each waits for, and how a job is begun."""

from __future__ import annotations

import time
from importlib.resources import files
from pathlib import Path
from typing import Any, Literal

from halfdrop.audit.finding import Grade
from halfdrop.base.errors import At, InputError
from halfdrop.job.patch import apply
from halfdrop.job.read import LoadedJob, format_of, parse_job
from halfdrop.practice import load_practice
from halfdrop.services.starting import new_job_text
from halfdrop.services.workbench import Workbench
from halfdrop.services.workbench_state import State
from halfdrop.store import JobHead
from halfdrop.store.records import JobEntry

#: How long one list of jobs may spend judging those it has not judged yet [s].
PATIENCE = 0.4


class JobList:
    """Lists jobs; what each waits for is worked out once a revision, some at a time."""

    def __init__(self, bench: Workbench) -> None:
        self._bench = bench
        self._known: dict[str, tuple[int, str, list[str]]] = {}

    def all(self, patience: float = PATIENCE) -> list[dict[str, Any]]:
        """Return a line for each job, the last changed first; `waits` is empty where there was no time for it."""
        end = time.monotonic() + patience
        out = []
        entries = self._bench.store.jobs()
        self._known = {e.id: self._known[e.id] for e in entries if e.id in self._known}
        for entry in entries:
            known = self._known.get(entry.id)
            if (known is None or known[0] != entry.revision) and time.monotonic() < end:
                head = self._bench.store.job(entry.id)
                known = (head.revision, *self._look(head))
                self._known[entry.id] = known
            fresh = known is not None and known[0] == entry.revision
            out.append(_line(entry, known[1] if known and fresh else "", known[2] if known else []))
        return out

    def _look(self, head: JobHead) -> tuple[str, list[str]]:
        rooms = [str(room.get("name", i)) for i, room in head.document.get("rooms", {}).items()]
        try:
            return self._waits(head), rooms
        except InputError as error:
            return error.message, rooms

    def _waits(self, head: JobHead) -> str:
        _, found = self._bench.state(head.id, head=head)
        measures = survey_waits(found)
        if measures:
            return measures
        if not found.auditor.cases:
            return "no room yet"
        schemes = list(found.auditor.job.schemes)
        best: tuple[int, int, str] | None = None
        for scheme in (*schemes,) or (None,):
            _, state = self._bench.state(head.id, scheme, head=head)
            grades = [f.grade for room in state.auditor.cases for f in state.findings(room)]
            hazards, faults = grades.count(Grade.HAZARD), grades.count(Grade.FAULT)
            name = found.auditor.job.schemes[scheme].name if scheme else ""
            best = min(best or (hazards, faults, name), (hazards, faults, name))
        assert best is not None
        return _open(best, bool(schemes))


def _open(best: tuple[int, int, str], proposed: bool) -> str:
    hazards, faults, name = best
    under = f" under {name}" if name else ""
    if hazards:
        return f"{hazards} hazard{'s' if hazards != 1 else ''} open{under}"
    if not proposed:
        return "no scheme yet"
    if faults:
        return f"{faults} fault{'s' if faults != 1 else ''} open{under}"
    return "ready to print"


def survey_waits(state: State) -> str:
    """Return what the surveys of a job wait for, or nothing."""
    for i in state.refused:
        return f"survey of the {_named(state, i)} is not whole"
    for i, case in state.auditor.cases.items():
        if case.room.survey.verdict == "blunder detected":
            return f"survey of the {_named(state, i)} does not close"
    for i, case in state.auditor.cases.items():
        if case.room.survey.excluded:
            again = " and ".join(_measure(m) for m in case.room.survey.excluded)
            return f"{again} of the {_named(state, i)} to be taped again"
    for i, case in state.auditor.cases.items():
        if case.room.survey.verdict == "unchecked":
            return f"nothing checks the survey of the {_named(state, i)}"
    return ""


def _measure(name: str) -> str:
    """Return what a measure is called: `walls/AB` is wall AB."""
    kind, _, what = name.partition("/")
    return f"{kind.removesuffix('s')} {what}" if what else name


def _named(state: State, room: str) -> str:
    name = state.auditor.job.rooms[room].name
    return name[:1].lower() + name[1:]


def _line(entry: JobEntry, waits: str, rooms: list[str]) -> dict[str, Any]:
    return {
        "id": entry.id,
        "name": entry.name,
        "client": entry.client,
        "revision": entry.revision,
        "begun": entry.begun,
        "changed": entry.changed,
        "origin": entry.origin,
        "rooms": rooms,
        "waits": waits,
    }


def demo_text() -> str:
    """Return the demo job's file: shipped in the package, or in the checkout that is run."""
    shipped = files("halfdrop.services") / "demo" / "quince.yaml"
    if shipped.is_file():
        return shipped.read_text(encoding="utf-8")
    return (Path(__file__).parents[3] / "examples" / "quince.yaml").read_text(encoding="utf-8")


def begin_demo(bench: Workbench, *, author: str) -> JobHead:
    """Begin the demo job."""
    return begin_text(bench, demo_text(), name="quince.yaml", author=author)


def begin_new(
    bench: Workbench,
    *,
    name: str,
    client: str | None,
    units: Literal["imperial", "metric"],
    rooms: list[str],
    author: str,
) -> JobHead:
    """Begin a job with rooms to type over."""
    text = new_job_text("job.yaml", name=name, client=client, units=units, rooms=rooms or ["living"])
    return begin_text(bench, text, name=None, author=author)


def begin_text(
    bench: Workbench, text: str, *, name: str | None, author: str, folder: Path | None = None
) -> JobHead:
    """Begin a job from the text of a job file.

    Parameters
    ----------
    name : str or None
        The file's name, by whose ending the format is known.
    folder : Path, optional
        Where a house practice file is looked for: only for a file that the user of this machine named. Its values
        are taken into the job, for no path is opened later.

    Raises
    ------
    InputError
        Where the text is no valid job.
    """
    format = format_of(Path(name)) if name else "yaml"
    loaded = parse_job(text, name=name or "the job", format=format)
    document = with_house(loaded, folder)
    return bench.store.create(document, author=author, text=text, format=format, origin=name)


def with_house(loaded: LoadedJob, folder: Path | None) -> dict[str, Any]:
    """Return a job file's document with the values of its house practice file in it.

    Raises
    ------
    InputError
        Where it names such a file and there is no folder to look in, or the file cannot be read.
    """
    choice = loaded.job.practice
    if choice.file is None:
        return loaded.document
    if folder is None:
        raise InputError(
            f"the job names a house practice file, `{choice.file}`, which did not come with it",
            at=At(path="practice/file"),
            hint="run `halfdrop open JOB.yaml` where both files are, or write its values under `practice/values`",
        )
    practice = load_practice(choice.set, house=choice.values, house_file=folder / choice.file)
    values: dict[str, Any] = {key: practice[key].text for key in practice.house_keys()}
    values |= dict(choice.values)
    return dict(
        apply(
            loaded.document,
            [
                {"op": "remove", "path": "/practice/file"},
                {"op": "add", "path": "/practice/values", "value": values},
            ],
        )
    )


def open_file(
    bench: Workbench, path: Path, *, author: str
) -> tuple[JobHead, Literal["new", "same", "changed"]]:
    """Bring a job file into the store, once: the same file again gives the same job.

    Returns
    -------
    (JobHead, str)
        The job, and whether it is new, was there already, or was there and says something else than the file now:
        then the job is left as it is, and what the file says is in no danger either.
    """
    from halfdrop.job.read import read_job

    loaded = read_job(path)
    origin = str(path.resolve())
    document = with_house(loaded, path.parent)
    for entry in bench.store.jobs():
        if entry.origin == origin:
            first = bench.store.document(entry.id, 1)
            head = bench.store.job(entry.id)
            return head, "same" if document in (first, head.document) else "changed"
    head = bench.store.create(document, author=author, text=loaded.text, format=loaded.format, origin=origin)
    return head, "new"
