"""`halfdrop shopping`: what a scheme buys, moves and lets go."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.base.units import format_money
from halfdrop.cli.options import job_argument, json_option, room_option, scheme_option
from halfdrop.cli.talk import say_json, say_table
from halfdrop.services.jobs import open_job
from halfdrop.services.shopping import shopping as shopping_of


@click.command()
@job_argument
@scheme_option
@room_option
@json_option
def shopping(job: Path, scheme: str | None, room: str | None, as_json: bool) -> None:
    """List what a scheme of JOB buys, with sizes, quantities and known prices; what moves and what leaves.

    \b
    Examples:
      halfdrop shopping flat.yaml --scheme first
      halfdrop shopping flat.yaml --scheme first --json
    """
    listed = shopping_of(open_job(job), scheme, room=room)
    if as_json:
        say_json(listed.to_json())
        return
    lines = [*listed.bought, *listed.coming]
    if lines:
        rows = [
            [
                line.room,
                line.name,
                line.size,
                line.amount,
                format_money(line.total) if line.total is not None else line.price_from,
            ]
            for line in lines
        ]
        say_table(rows, ("room", "what", "size", "quantity", "price"))
        click.echo()
    for moved in listed.moved:
        click.echo(f"moves:  {moved.room}: {moved.name}, from {moved.before} to {moved.after}")
    for gone in listed.leaves:
        click.echo(f"leaves: {gone.room}: {gone.name}, {gone.size}")
    for work in listed.works:
        click.echo(f"work:   {work.room}: {work.what}")
    for caution in listed.cautions:
        click.echo(f"check:  {caution}")
    click.echo(listed.verdict)
