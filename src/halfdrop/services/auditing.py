"""Judge a job: findings with their proven remedies."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding, Grade
from halfdrop.audit.prove import Budget, with_remedies
from halfdrop.services.jobs import OpenJob

Progress = Callable[[int, int, str], None]


@dataclass(frozen=True)
class Audit:
    """What an audit found, and how much work its remedies were allowed.

    Attributes
    ----------
    findings : tuple of Finding
        Gravest first.
    scheme : str or None
        The scheme judged; None for the job as found.
    budget : Budget
        What the search for remedies was allowed.
    """

    findings: tuple[Finding, ...]
    scheme: str | None
    budget: Budget | None

    def at_least(self, grade: Grade) -> tuple[Finding, ...]:
        """Return the findings of a grade or graver."""
        return tuple(f for f in self.findings if f.grade.rank <= grade.rank)

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "scheme": self.scheme,
            "budget": None
            if self.budget is None
            else {"trials_per_finding": self.budget.trials, "remedies_per_finding": self.budget.offers},
            "count": {str(g): sum(f.grade is g for f in self.findings) for g in Grade},
            "findings": [f.to_json() for f in self.findings],
        }


def audit(
    job: OpenJob,
    *,
    scheme: str | None = None,
    room: str | None = None,
    budget: Budget | None = None,
    progress: Progress | None = None,
) -> Audit:
    """Judge a job as found or under a scheme.

    Parameters
    ----------
    job : OpenJob
        From `open_job`.
    scheme : str, optional
        Judge the job under this scheme.
    room : str, optional
        Only this room.
    budget : Budget, optional
        Allow this much work for remedies; none are sought where it is None.
    progress : callable, optional
        Called with how many findings are done, of how many, and the one at hand.
    """
    job.room_ids(room)
    state = job.under(scheme)
    return Audit(judged(state, room, budget, progress), scheme, budget)


def judged(
    state: Auditor, room: str | None, budget: Budget | None, progress: Progress | None = None
) -> tuple[Finding, ...]:
    """Return the findings of one state, with proven remedies where a budget is given."""
    findings = state.findings(room)
    if budget is None:
        return findings
    done = 0

    def count(finding: Finding) -> None:
        nonlocal done
        done += 1
        if progress is not None:
            progress(done, len(findings), finding.id)

    return with_remedies(state, findings, budget, count)
