"""Set schemes side by side: what each leaves open, changes and costs."""

from __future__ import annotations

from typing import Any

from halfdrop.audit.finding import Grade
from halfdrop.base.units import format_money
from halfdrop.services.jobs import OpenJob
from halfdrop.services.shopping import shopping


def compare_schemes(job: OpenJob) -> list[dict[str, Any]]:
    """Return a row for the job as found and for each scheme: findings by grade, steps, known cost, unpriced steps."""
    rows = []
    for key in (None, *job.found.job.schemes):
        state = job.under(key)
        findings = state.findings()
        listed = shopping(job, key, after=state)
        rows.append(
            {
                "scheme": key or "as found",
                "hazards": sum(f.grade is Grade.HAZARD for f in findings),
                "faults": sum(f.grade is Grade.FAULT for f in findings),
                "tastes": sum(f.grade is Grade.TASTE for f in findings),
                "steps": len(job.found.job.schemes[key].steps) if key is not None else 0,
                "known cost": format_money(listed.total) if listed.bought or listed.coming else "—",
                "unpriced": listed.unpriced,
                "open": [f.id for f in findings],
            }
        )
    return rows
