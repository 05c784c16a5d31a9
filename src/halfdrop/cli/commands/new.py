"""`halfdrop new`: begin a job file."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.services.starting import new_job


@click.command()
@click.argument("job", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--name", help="What the job is called.")
@click.option("--client", help="For whom it is.")
@click.option(
    "--units",
    type=click.Choice(["imperial", "metric"]),
    default="imperial",
    show_default=True,
    help="Units to work and print in; the practice set follows.",
)
@click.option(
    "--room",
    "rooms",
    metavar="USE",
    multiple=True,
    type=click.Choice(["living", "dining", "bedroom", "kitchen", "bath", "hall", "study"]),
    help="A room to begin with; may be given more than once.",
)
def new(job: Path, name: str | None, client: str | None, units: str, rooms: tuple[str, ...]) -> None:
    """Begin JOB: a file with one room to type over, every line explained. An existing file is never overwritten.

    \b
    Examples:
      halfdrop new flat.yaml --client "A. Client"
      halfdrop new flat.yaml --units metric --room living --room bedroom
    """
    new_job(job, name=name, client=client, units=units, rooms=rooms or ("living",))
    click.echo(f"begun: {job}")
    click.echo(f"hint: type in the measures, then run `halfdrop check {job}`", err=True)
