"""Set schemes side by side: what each leaves open, changes and costs."""

from __future__ import annotations

from typing import Any

from halfdrop.audit.finding import Grade
from halfdrop.base.units import format_money, sum_money
from halfdrop.services.jobs import OpenJob


def compare_schemes(job: OpenJob) -> list[dict[str, Any]]:
    """Return a row for the job as found and for each scheme: findings by grade, steps, known cost, unpriced steps."""
    rows = []
    for key in (None, *job.found.job.schemes):
        state = job.under(key)
        findings = state.findings()
        steps = job.found.job.schemes[key].steps if key is not None else []
        costs = [s.cost for s in steps if s.cost is not None]
        unpriced = sum(
            s.cost is None and any(op.op == "add" and "/rugs/" in op.path or "/pieces/" in op.path and op.op == "add"
                                   for op in s.patch)
            for s in steps
        )
        rows.append(
            {
                "scheme": key or "as found",
                "hazards": sum(f.grade is Grade.HAZARD for f in findings),
                "faults": sum(f.grade is Grade.FAULT for f in findings),
                "tastes": sum(f.grade is Grade.TASTE for f in findings),
                "steps": len(steps),
                "known cost": format_money(sum_money(costs)) if costs else "—",
                "unpriced": unpriced,
                "open": [f.id for f in findings],
            }
        )
    return rows
