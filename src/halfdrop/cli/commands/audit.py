"""`halfdrop audit`: what is wrong, and what is proven to put it right."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.audit.finding import Finding, Grade
from halfdrop.audit.prove import Budget
from halfdrop.base.units import format_money
from halfdrop.cli.options import job_argument, json_option, room_option, scheme_option
from halfdrop.cli.talk import progress, say_json
from halfdrop.services.auditing import audit as audit_job
from halfdrop.services.jobs import open_job

MARKS = {Grade.HAZARD: "((%s))", Grade.FAULT: "(%s)", Grade.TASTE: "%s"}


@click.command()
@job_argument
@room_option
@scheme_option
@json_option
@click.option("--no-remedies", is_flag=True, help="Only judge; seek no remedies.")
@click.option(
    "--working", is_flag=True, help="Print how what is bought was sized, or why nothing made suits."
)
@click.option(
    "--trials",
    type=click.IntRange(1, 1000),
    default=Budget().trials,
    show_default=True,
    help="How many candidates may be tried for one finding.",
)
@click.option(
    "--fail-on",
    type=click.Choice([*map(str, Grade), "never"]),
    default="fault",
    show_default=True,
    help="Exit with 1 where a finding of this grade or graver is found.",
)
def audit(
    job: Path,
    room: str | None,
    scheme: str | None,
    as_json: bool,
    no_remedies: bool,
    working: bool,
    trials: int,
    fail_on: str,
) -> int:
    """Judge the rooms of JOB and offer proven remedies.

    \b
    Examples:
      halfdrop audit flat.yaml
      halfdrop audit flat.yaml --room living --json
      halfdrop audit flat.yaml --scheme first --fail-on hazard
    """
    opened = open_job(job)
    budget = None if no_remedies else Budget(trials=trials)
    with progress("auditing") as tell:
        result = audit_job(opened, scheme=scheme, room=room, budget=budget, progress=tell)
    if as_json:
        say_json(result.to_json())
    else:
        for n, finding in enumerate(result.findings, 1):
            show(n, finding, working=working)
        counts = ", ".join(f"{sum(f.grade is g for f in result.findings)} {g}" for g in Grade)
        click.echo(f"{len(result.findings)} findings: {counts}")
    return int(fail_on != "never" and bool(result.at_least(Grade(fail_on))))


def show(number: int, finding: Finding, *, working: bool = False) -> None:
    """Print one finding with its remedies and, where asked for, how they were sized."""
    tape = " · within tape error" if finding.within_tape else ""
    click.echo(f"{MARKS[finding.grade] % number:>7} {finding.grade!s:<6} {finding.id}{tape}")
    click.echo(f"        {finding.message}")
    if finding.practice:
        click.echo(f"        wanted by {finding.practice} ({finding.origin}): {finding.source}")
    if finding.caution:
        click.echo(f"        caution: {finding.caution}")
    for remedy in finding.remedies:
        cost = f" · {format_money(remedy.cost)}" if remedy.cost else ""
        unpriced = f" · price not known: {', '.join(remedy.unpriced)}" if remedy.unpriced else ""
        click.echo(f"        → {remedy.title}{cost}{unpriced}")
        click.echo(f"          {remedy.id}")
    for calculation in finding.working if working else ():
        click.echo(f"        {calculation.title}")
        for step in calculation.steps:
            click.echo(f"          {step.what}: {step.formula}: {step.values} = {step.result}")
    click.echo()
