"""`halfdrop check` and `halfdrop survey`: is the file whole, do the measures close?"""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.cli.options import job_argument, json_option, room_option
from halfdrop.cli.talk import say_json, say_table
from halfdrop.services.jobs import open_job
from halfdrop.services.surveying import report


@click.command()
@job_argument
@json_option
def check(job: Path, as_json: bool) -> None:
    """Read JOB, report every fault of the file at once, and say of each room whether its measures close.

    \b
    Example:
      halfdrop check flat.yaml
    """
    opened = open_job(job)
    reports = report(opened)
    if as_json:
        say_json({"job": opened.found.job.job.name, "rooms": [r.to_json(brief=True) for r in reports]})
        return
    say_table(
        [[r.room, r.verdict, r.area, r.things, r.misclosure] for r in reports],
        ("room", "survey", "floor", "holds", "misclosure"),
    )
    for one in reports:
        for line in one.advice:
            click.echo(f"{one.room}: {line}", err=True)


@click.command()
@job_argument
@room_option
@json_option
@click.option("--working", is_flag=True, help="Print the calculation step by step.")
def survey(job: Path, room: str | None, as_json: bool, working: bool) -> None:
    """Adjust the taped measures of JOB: corners, residuals, the likely blunder, the one extra measure to take.

    \b
    Examples:
      halfdrop survey flat.yaml --room hall
      halfdrop survey flat.yaml --json
    """
    opened = open_job(job)
    reports = report(opened, room)
    if as_json:
        say_json({"rooms": [r.to_json() for r in reports]})
        return
    for one in reports:
        click.echo(f"{one.room}: {one.verdict} · {one.misclosure} · floor {one.area}")
        say_table(one.measures, ("measure", "taped", "adjusted", "off by", "checked", "w"))
        for line in one.advice:
            click.echo(f"  {line}")
        if working:
            for step in one.working:
                click.echo(f"  {step}")
        click.echo()
