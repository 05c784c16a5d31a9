"""Schemes: take proven remedies into a named list of patches, leaving the rooms as found."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding, Grade, Remedy
from halfdrop.audit.prove import Budget, remedies_for
from halfdrop.base.errors import HalfdropError, InputError, did_you_mean
from halfdrop.job.patch import apply
from halfdrop.job.scheme import add_step
from halfdrop.job.write import write_job
from halfdrop.services.auditing import Progress
from halfdrop.services.jobs import OpenJob


@dataclass
class Taken:
    """What went into a scheme; `laid_anew` where the file's comments and layout could not be kept."""

    scheme: str
    steps: list[tuple[Finding, Remedy]] = field(default_factory=list)
    left: tuple[Finding, ...] = ()
    laid_anew: bool = False

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "scheme": self.scheme,
            "taken": [{"finding": f.id, "remedy": r.to_json()} for f, r in self.steps],
            "left": [f.id for f in self.left],
        }


def step_of(finding: Finding, remedy: Remedy) -> dict[str, Any]:
    """Return a remedy as a step of a scheme."""
    step: dict[str, Any] = {"title": remedy.title, "finding": finding.id, "patch": remedy.patch}
    if remedy.cost is not None:
        step["cost"] = remedy.cost.text
    return step


def _start(job: OpenJob, scheme: str, name: str | None) -> dict[str, Any]:
    """Return the document with the scheme in it, begun where it is new."""
    document = job.loaded.document
    if scheme in document.get("schemes", {}):
        return document
    patch: list[dict[str, Any]] = []
    if "schemes" not in document:
        patch.append({"op": "add", "path": "/schemes", "value": {}})
    title = name or scheme.replace("-", " ").replace("_", " ").capitalize()
    patch.append({"op": "add", "path": f"/schemes/{scheme}", "value": {"name": title, "steps": []}})
    begun: dict[str, Any] = apply(document, patch)
    return begun


def accept(
    job: OpenJob,
    scheme: str,
    remedy_ids: Iterable[str],
    *,
    name: str | None = None,
    budget: Budget = Budget(),  # noqa: B008
) -> Taken:
    """Take remedies, by their ids, into a scheme and write the job file.

    Each is proven again on the job under the scheme as it then stands, so that two remedies never spoil each other.

    Raises
    ------
    InputError
        Where an id is unknown, or the remedy no longer proves itself behind the steps before it; nothing is written.
    """
    document = _start(job, scheme, name)
    state = job.under(scheme) if document is job.loaded.document else job.found
    taken = Taken(scheme)
    for wanted in remedy_ids:
        finding_id, _, kind = wanted.partition("#")
        findings = {f.id: f for f in state.findings()}
        if finding_id not in findings:
            raise InputError(
                f"there is no finding `{finding_id}` in the job under scheme `{scheme}`",
                hint=did_you_mean(finding_id, findings) if findings else "the job is clean",
            )
        finding = findings[finding_id]
        offered = {r.id.partition("#")[2]: r for r in remedies_for(state, finding, findings.values(), budget)}
        if not kind and offered:
            kind = next(iter(offered))
        if kind not in offered:
            raise InputError(
                f"remedy `{wanted}` is not proven for the job under scheme `{scheme}`",
                hint=f"proven now: {', '.join(r.id for r in offered.values()) or 'none'}",
            )
        document, state = _take(document, state, scheme, finding, offered[kind], taken)
    taken.laid_anew = not _write(job, document)
    return taken


def accept_all(
    job: OpenJob,
    scheme: str,
    *,
    name: str | None = None,
    grade: Grade = Grade.FAULT,
    room: str | None = None,
    budget: Budget = Budget(),  # noqa: B008
    progress: Progress | None = None,
) -> Taken:
    """Take a remedy of one finding after another, gravest first, until none is left to take.

    Of a finding's remedies the one that clears most is taken, then the least disturbing; nothing is taken out of a room
    where anything else would do. A step that a later one makes idle (a chest moved, and then stood elsewhere) is dropped.

    Parameters
    ----------
    grade : Grade
        Only findings of this grade or graver.
    room : str, optional
        Only this room.
    """
    job.room_ids(room)
    document = _start(job, scheme, name)
    first = state = job.under(scheme) if document is job.loaded.document else job.found
    taken = Taken(scheme)
    hopeless: set[str] = set()
    while True:
        findings = [f for f in state.findings(room) if f.grade.rank <= grade.rank]
        open_ones = [f for f in findings if f.id not in hopeless]
        if progress is not None:
            progress(len(taken.steps) + len(hopeless), len(taken.steps) + len(hopeless) + len(open_ones), "")
        if not open_ones:
            break
        # Gravest first; of a grade the one that takes in most things: what lays a group anew clears its smaller faults.
        finding = min(open_ones, key=lambda f: (f.grade.rank, -len(f.subjects)))
        offered = remedies_for(state, finding, state.findings(finding.room), budget)
        if not offered:
            hopeless.add(finding.id)
            continue
        best = min(offered, key=lambda r: (r.kind == "remove", -_clears(r, findings), r.disturbance))
        taken.steps.append((finding, best))
        state = state.after(best.patch)
        hopeless -= {f for f in hopeless if f.split("/", 1)[0] == finding.room}
    taken.left = tuple(findings)
    taken.steps = without_idle(first.document, taken.steps)
    for finding, remedy in taken.steps:
        document = apply(document, add_step(document, scheme, step_of(finding, remedy)))
    taken.laid_anew = not _write(job, document)
    return taken


#: Remedies whose title says where a thing ends, not how far it goes from where it was.
_SAYS_WHERE = frozenset({"place", "remove", "size", "add", "anchor", "pad"})


def without_idle(
    document: dict[str, Any], steps: list[tuple[Finding, Remedy]]
) -> list[tuple[Finding, Remedy]]:
    """Return the steps less those that leave the rooms as they come out: what a step did, a later one does anew.

    A step stays where a later one tells how far it moves the same thing, for that is from where the step put it.

    Parameters
    ----------
    document : dict
        The job before the first step.
    """
    kept, n = list(steps), 0
    whole = _outcome(document, kept)
    while n < len(kept):
        things = _things(kept[n][1])
        counted_on = any(r.kind not in _SAYS_WHERE and things & _things(r) for _, r in kept[n + 1 :])
        fewer = kept[:n] + kept[n + 1 :]
        if not counted_on and _outcome(document, fewer) == whole:
            kept = fewer
        else:
            n += 1
    return kept


def _outcome(document: dict[str, Any], steps: Iterable[tuple[Finding, Remedy]]) -> dict[str, Any] | None:
    """Return the rooms behind some steps; None where one of them cannot be done."""
    for _, remedy in steps:
        try:
            document = apply(document, remedy.patch)
        except InputError:
            return None
    rooms: dict[str, Any] = document["rooms"]
    return rooms


def _things(remedy: Remedy) -> set[str]:
    """Return the pointers of the things a remedy touches: `/rooms/living/pieces/sofa`."""
    return {"/".join(op["path"].split("/")[:5]) for op in remedy.patch}


def _clears(remedy: Remedy, findings: Iterable[Finding]) -> int:
    """Return how many of these findings a remedy clears."""
    return len({f.id for f in findings} & set(remedy.proof.cleared))


def _take(
    document: dict[str, Any], state: Auditor, scheme: str, finding: Finding, remedy: Remedy, taken: Taken
) -> tuple[dict[str, Any], Auditor]:
    document = apply(document, add_step(document, scheme, step_of(finding, remedy)))
    taken.steps.append((finding, remedy))
    return document, state.after(remedy.patch)


def _write(job: OpenJob, document: dict[str, Any]) -> bool:
    """Write the job file where the document changed; return whether its comments and layout were kept."""
    if document is job.loaded.document:
        return True
    try:
        return write_job(job.path, job.loaded, document).kept
    except HalfdropError as error:
        raise job.placed(error) from error
