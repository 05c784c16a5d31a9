"""`halfdrop takeoff`: every quantity of a job with its working."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.base.units import format_money
from halfdrop.cli.options import job_argument, json_option, room_option, scheme_option
from halfdrop.cli.talk import say_json, say_table
from halfdrop.services.jobs import open_job
from halfdrop.services.takeoff import takeoff as takeoff_of


@click.command()
@job_argument
@scheme_option
@room_option
@click.option("--working", is_flag=True, help="Show how each quantity came about.")
@json_option
def takeoff(job: Path, scheme: str | None, room: str | None, working: bool, as_json: bool) -> None:
    """Count what JOB takes: paper, paint, cloth, rods, rugs and pads, each with its working.

    \b
    Examples:
      halfdrop takeoff flat.yaml
      halfdrop takeoff flat.yaml --room living --working
      halfdrop takeoff flat.yaml --scheme first --json
    """
    counted = takeoff_of(open_job(job, partly=True), scheme, room=room)
    if as_json:
        say_json(counted.to_json())
        return
    if counted.lines:
        rows = [
            [line.trade, line.name, ", ".join(line.rooms), line.said, format_money(line.total) if line.total else "no price"]
            for line in counted.lines
        ]  # fmt: skip
        say_table(rows, ("trade", "what", "rooms", "quantity", "price"))
        click.echo()
    for line in counted.lines:
        for note in line.notes:
            click.echo(f"{line.name}: {note}")
        for sum_ in line.workings if working else ():
            click.echo(f"\n{line.name}: {sum_.title}")
            for step in sum_.steps:
                click.echo(f"  {step.what}: {step.formula} = {step.values} → {step.result}")
                for said in (step.rounding, step.source):
                    if said:
                        click.echo(f"      {said}")
    for caution in counted.cautions:
        click.echo(f"check:  {caution}")
    for left in counted.left_out:
        click.echo(f"{left.said} {left.hint}".rstrip())
    click.echo(counted.verdict)
