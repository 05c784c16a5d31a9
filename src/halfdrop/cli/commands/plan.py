"""`halfdrop plan`: one room on one sheet, to scale."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.cli.options import complete_rooms, job_argument, scheme_option
from halfdrop.services.elevations import wall_runs
from halfdrop.services.files import write_bytes
from halfdrop.services.jobs import open_job
from halfdrop.services.sheets import FORMATS, ViewName, as_bytes, sheet


@click.command()
@job_argument
@click.option("--room", metavar="ROOM", required=True, help="Which room.", shell_complete=complete_rooms)
@scheme_option
@click.option(
    "--view",
    type=click.Choice(["plan", "before-after", "survey", "elevation"]),
    default="plan",
    show_default=True,
    help="What to draw.",
)
@click.option(
    "--wall",
    metavar="WALL",
    help="Which wall an elevation shows: CD, or a bay by its corners; every wall, a file each, without it.",
)
@click.option(
    "--scale", help='Such as `1/4" = 1\'-0"` or 1:50; the largest standard scale that fits without it.'
)
@click.option("--paper", help="Such as letter, tabloid, a4, a3 landscape; by the job's units without it.")
@click.option("--no-notes", is_flag=True, help="Leave the findings out of the margin.")
@click.option("--dark", is_flag=True, help="On a dark ground (SVG and PNG).")
@click.option("--format", "format_", type=click.Choice(FORMATS), help="By the ending of --out without it.")
@click.option(
    "-o", "--out", type=click.Path(path_type=Path, dir_okay=False), required=True, help="The file to write."
)
def plan(
    job: Path,
    room: str,
    scheme: str | None,
    view: ViewName,
    wall: str | None,
    scale: str | None,
    paper: str | None,
    no_notes: bool,
    dark: bool,
    format_: str | None,
    out: Path,
) -> None:
    """Draw a room of JOB to scale, with its findings as margin notes.

    \b
    Examples:
      halfdrop plan flat.yaml --room living -o living.svg
      halfdrop plan flat.yaml --room living --scheme first --view before-after -o living.pdf
      halfdrop plan flat.yaml --room living --scale 1:50 --paper a3 -o living.dxf
      halfdrop plan flat.yaml --room hall --view survey -o hall-survey.png
      halfdrop plan flat.yaml --room living --view elevation --wall CD -o living-cd.pdf
      halfdrop plan flat.yaml --room living --view elevation -o walls.svg   (walls-AB.svg, walls-BC.svg ...)
    """
    format_ = format_ or out.suffix.lstrip(".").lower() or "svg"
    if format_ not in FORMATS:
        raise click.UsageError(f"sheets cannot be written as `{format_}`; known: {', '.join(FORMATS)}")
    if wall is not None and view != "elevation":
        raise click.UsageError("--wall goes with `--view elevation`")
    opened = open_job(job)
    files: dict[Path, str | None] = {out: wall}
    if view == "elevation" and wall is None:
        opened.room_ids(room)
        files = {
            out.with_name(f"{out.stem}-{name}{out.suffix}"): name
            for name, _ in wall_runs(opened.under(scheme).case(room))
        }
    for file, shown in files.items():
        made = sheet(
            opened, room, view, scheme=scheme, notes=not no_notes, paper=paper, scale=scale, wall=shown
        )
        write_bytes(file, as_bytes(made, format_, dark=dark))
        at = f" at {made.scale.name}" if made.scale else ""
        name = f"{view} {shown}" if shown else view
        click.echo(f"{name}: {file}, {made.paper.name}{at}")
