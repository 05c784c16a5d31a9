"""halfdrop color: the colors of a room, measured and drawn."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.cli.options import complete_rooms, job_argument, json_option, scheme_option
from halfdrop.cli.talk import say_json
from halfdrop.services.color import RoomColors, color_page, room_colors
from halfdrop.services.files import write_bytes
from halfdrop.services.jobs import open_job
from halfdrop.services.sheets import FORMATS, as_bytes


@click.command()
@job_argument
@click.option("--room", metavar="ROOM", required=True, help="The room.", shell_complete=complete_rooms)
@scheme_option
@click.option("--paper", help="Such as letter, tabloid, a4, a3 landscape; by the job's units without it.")
@click.option("--dark", is_flag=True, help="On a dark ground (SVG and PNG).")
@json_option
@click.option(
    "-o", "--out", type=click.Path(path_type=Path, dir_okay=False), help="The file of the color page."
)
def color(
    job: Path, room: str, scheme: str | None, paper: str | None, dark: bool, as_json: bool, out: Path | None
) -> None:
    """Measure the colors of a room of JOB: how much is seen of each, by day and of an evening.

    \b
    Examples:
      halfdrop color flat.yaml --room living
      halfdrop color flat.yaml --room living -o living-color.pdf
      halfdrop color flat.yaml --room living --scheme quiet -o living-quiet.svg
      halfdrop color flat.yaml --room living --json
    """
    format_ = out.suffix.lstrip(".").lower() if out is not None else "svg"
    if format_ not in FORMATS:
        raise click.UsageError(f"sheets cannot be written as `{format_}`; known: {', '.join(FORMATS)}")
    opened = open_job(job)
    opened.room_ids(room)
    measured = room_colors(opened.under(scheme).case(room))
    if out is not None:
        made = color_page(opened, room, scheme=scheme, paper=paper)
        write_bytes(out, as_bytes(made, format_, dark=dark))
        click.echo(f"color: {out}, {made.paper.name}", err=as_json)
    if as_json:
        say_json(measured.to_json())
    elif out is None:
        _told(measured)


def _told(measured: RoomColors) -> None:
    """Print the swatches by share, then what they come to."""
    data = measured.to_json()
    rows = [("", "swatch", "share", "LRV", "leans", "day", "evening", "on")]
    rows += [
        (str(n), " ".join(filter(None, (s["name"], s["code"]))), f"{100 * s['share']:.1f}%", f"{s['lrv']:.0f}", s["leans"],
         s["day"], s["evening"], ", ".join(s["on"]))
        for n, s in enumerate(data["swatches"], 1)
    ]  # fmt: skip
    wide = [max(len(row[k]) for row in rows) for k in range(7)]
    for row in rows:
        click.echo("  ".join(cell.ljust(w) for cell, w in zip(row, (*wide, 0), strict=True)).rstrip())
    for step in measured.inventory.workings()[-1].steps:
        click.echo(f"{step.what}: {step.values}: {step.result}")
    for light, why in ((measured.day, measured.day_why), (measured.evening, measured.evening_why)):
        click.echo(f"{light.name}: {light.what}; {why}")
    click.echo(f"recorded: {100 * measured.inventory.recorded:.0f}% of what is seen")
