"""`halfdrop install`: the sheets that go to the trades."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.cli.options import job_argument, json_option, room_option, scheme_option
from halfdrop.cli.talk import say_json, say_table
from halfdrop.services.files import write_bytes
from halfdrop.services.jobs import open_job
from halfdrop.services.trade_sheets import bind_sheets, install_sheets, no_sheets, sheets_json


@click.command()
@job_argument
@click.option(
    "--trade",
    type=click.Choice(["installer", "workroom", "hanger", "painter", "art"]),
    help="Only for this trade.",
)
@scheme_option
@room_option
@click.option("--of", "thing", metavar="ID", help="Only the sheets of this treatment, finish or cloth.")
@click.option("-o", "--out", type=click.Path(path_type=Path, dir_okay=False),
              help="The PDF to write; without it the sheets are listed.")  # fmt: skip
@json_option
def install(
    job: Path,
    trade: str | None,
    scheme: str | None,
    room: str | None,
    thing: str | None,
    out: Path | None,
    as_json: bool,
) -> None:
    """Write the install sheets of JOB: for the installer, the workroom, the paper hanger, the painter and the art.

    \b
    Examples:
      halfdrop install flat.yaml
      halfdrop install flat.yaml --trade workroom -o workroom.pdf
      halfdrop install flat.yaml --scheme first --room living --of west-pair -o west-pair.pdf
    """
    opened = open_job(job, partly=True)
    sheets = install_sheets(opened, scheme, room=room, trade=trade, thing=thing)
    left_out = opened.left_out if room is None else ()
    for left in () if as_json else left_out:
        click.echo(f"{left.said} {left.hint}".rstrip())
    if as_json:
        say_json(sheets_json(sheets, left_out))
    elif not sheets:
        click.echo(no_sheets(trade))
    elif out is None:
        say_table([(s.number, s.trade, s.name, s.room) for s in sheets], ("sheet", "for", "what", "room"))
    if out is not None and sheets:
        write_bytes(out, bind_sheets(opened, sheets))
        click.echo(f"install sheets: {out}, {len(sheets)}", err=as_json)
