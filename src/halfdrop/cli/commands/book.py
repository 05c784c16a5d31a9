"""`halfdrop book`: the bound set of sheets."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.audit.prove import Budget
from halfdrop.cli.options import job_argument, room_option, scheme_option
from halfdrop.cli.talk import progress
from halfdrop.services.book import LEFT, Left, make_job_book
from halfdrop.services.files import write_bytes
from halfdrop.services.jobs import open_job


@click.command()
@job_argument
@scheme_option
@room_option
@click.option(
    "-o", "--out", type=click.Path(path_type=Path, dir_okay=False), help="The PDF; JOB.pdf without it."
)
@click.option(
    "--paper", default=None, help="Paper of the sheets, such as letter or a3; by the job's units without it."
)
@click.option(
    "--without",
    multiple=True,
    type=click.Choice(LEFT),
    help="Leave a part out; may be given more than once.",
)
@click.option("--trials", type=click.IntRange(1, 1000), default=Budget().trials, show_default=True,
              help="How many candidates may be tried for one finding.")  # fmt: skip
def book(
    job: Path,
    scheme: str | None,
    room: str | None,
    out: Path | None,
    paper: str | None,
    without: tuple[Left, ...],
    trials: int,
) -> None:
    """Bind JOB into one PDF: brief, surveys, plans as found and as proposed, findings, shopping list, cautions, workings.

    \b
    Examples:
      halfdrop book flat.yaml
      halfdrop book flat.yaml --scheme first -o flat-first.pdf
      halfdrop book flat.yaml --scheme first --without workings --without values --without trades   (a client's copy)
    """
    opened = open_job(job)
    opened.room_ids(room)
    with progress("binding") as tell:
        pdf = make_job_book(
            opened,
            scheme=scheme,
            room=room,
            paper=paper,
            budget=Budget(trials=trials),
            progress=tell,
            without=without,
        )
    out = out or job.with_suffix(".pdf")
    write_bytes(out, pdf)
    click.echo(f"book: {out}")
