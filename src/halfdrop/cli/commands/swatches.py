"""`halfdrop swatches`: a library of colors, searched by nearness."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from halfdrop.cli.options import json_option
from halfdrop.cli.talk import say_json, say_table

if TYPE_CHECKING:
    from halfdrop.color.library import Library


@click.command()
@click.argument("library", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--near", metavar="COLOR", help="The color looked for: '#7a8b6f', or L*,a*,b*: '61.5,-8,21'.")
@click.option(
    "--named", metavar="WORDS", default="", help="Only swatches whose name or code has these words."
)
@click.option(
    "--count", metavar="N", type=click.IntRange(1, 500), default=8, show_default=True, help="Most swatches."
)
@click.option("--take", "wanted", metavar="CODE", multiple=True, help="Take the swatch of this code or name.")
@click.option(
    "--into",
    "job",
    metavar="JOB",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Into this job's swatches.",
)
@json_option
def swatches(
    library: Path,
    near: str | None,
    named: str,
    count: int,
    wanted: tuple[str, ...],
    job: Path | None,
    as_json: bool,
) -> None:
    """Search a LIBRARY of swatches (CSV: name, code, srgb or L a b or a spectrum, price) by nearness.

    \b
    Examples:
      halfdrop swatches paints.csv --near '#7a8b6f'
      halfdrop swatches paints.csv --named sage --near '61.5,-8,21' --count 20
      halfdrop swatches paints.csv --take F1 --take B1 --into flat.yaml
    """
    from halfdrop.services.swatch_library import lab_of_text, library_at, search

    if bool(wanted) != (job is not None):
        raise click.UsageError("--take and --into go together: a swatch of the library into a job")
    if near is None and not named and not wanted:
        raise click.UsageError("say what is looked for: --near COLOR, --named WORDS, or both")
    read = library_at(library)
    if job is not None:
        _take(job, read, wanted, as_json)
        return
    found = search(read, near=lab_of_text(near) if near else None, words=named, count=count)
    if as_json:
        say_json(
            {"library": str(library), "swatches": len(read.swatches), "found": [f.to_json() for f in found]}
        )
        return
    rows = []
    for one in found:
        told = one.to_json()
        off = "" if one.off is None else f"{one.off:.1f}"
        rows.append([told["name"], told["code"], told["hex"], f"{told['lrv']:.0f}", off, told["price"] or ""])
    say_table(rows, ("name", "code", "color", "LRV", "off (dE00)", "price"))
    if not found:
        click.echo(f"none of {len(read.swatches)} swatches has these words in its name or code")


def _take(job: Path, library: Library, wanted: tuple[str, ...], as_json: bool) -> None:
    from halfdrop.services.jobs import open_job
    from halfdrop.services.taking_swatches import take_from_library

    took = take_from_library(open_job(job), library, wanted)
    if as_json:
        say_json({"job": str(job), "taken": list(took.ids)})
        return
    if not took.kept:
        click.echo(f"{job} was laid out anew: its comments could not be kept", err=True)
    for key in took.ids:
        click.echo(f"taken: {key}")
