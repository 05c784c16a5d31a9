"""`halfdrop scheme`: proposals as named lists of patches on the rooms as found."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.audit.finding import Grade
from halfdrop.base.units import format_money
from halfdrop.cli.options import complete_rooms, complete_schemes, job_argument, json_option, room_option
from halfdrop.cli.talk import progress, say_json, say_table
from halfdrop.services.jobs import open_job
from halfdrop.services.schemes import accept as accept_remedies
from halfdrop.services.schemes import accept_all


@click.group()
def scheme() -> None:
    """Take remedies into a scheme; list and compare schemes. The rooms as found stay as they are."""


@scheme.command("list")
@job_argument
@json_option
def list_schemes(job: Path, as_json: bool) -> None:
    """List the schemes of JOB and their steps."""
    opened = open_job(job)
    schemes = opened.found.job.schemes
    if as_json:
        say_json({key: s.model_dump(mode="json", by_alias=True) for key, s in schemes.items()})
        return
    if not schemes:
        click.echo("no schemes yet")
        click.echo(f"hint: run `halfdrop scheme accept {job} first --all`", err=True)
    for key, one in schemes.items():
        click.echo(f"{key}: {one.name} ({len(one.steps)} steps)")
        for n, step in enumerate(one.steps, 1):
            click.echo(f"  {n:>2}. {step.title}" + (f" · {format_money(step.cost)}" if step.cost else ""))


@scheme.command()
@job_argument
@click.argument("name", metavar="SCHEME", shell_complete=complete_schemes)
@click.argument("remedies", metavar="[REMEDY]...", nargs=-1)
@click.option(
    "--all", "everything", is_flag=True, help="Take a remedy of every finding, what clears most first."
)
@click.option("--title", help="A name for people, where the scheme is new.")
@room_option
@click.option(
    "--grade",
    type=click.Choice(list(map(str, Grade))),
    default="fault",
    show_default=True,
    help="With --all: findings of this grade or graver.",
)
@json_option
def accept(
    job: Path,
    name: str,
    remedies: tuple[str, ...],
    everything: bool,
    title: str | None,
    room: str | None,
    grade: str,
    as_json: bool,
) -> None:
    """Take proven remedies, by the ids that `audit` prints, into SCHEME of JOB.

    Each is proven again behind the steps already taken; the file is written only when all of them hold.

    \b
    Examples:
      halfdrop scheme accept flat.yaml first 'living/rugs.front-legs/rug#layer'
      halfdrop scheme accept flat.yaml first --all --title "As little as possible"
    """
    if everything == bool(remedies):
        raise click.UsageError("give remedies by their ids, or --all")
    opened = open_job(job)
    with progress("proving") as tell:
        if everything:
            taken = accept_all(opened, name, name=title, grade=Grade(grade), room=room, progress=tell)
        else:
            taken = accept_remedies(opened, name, remedies, name=title)
    if as_json:
        say_json(taken.to_json())
        return
    for finding, remedy in taken.steps:
        click.echo(f"taken: {remedy.title}" + (f" · {format_money(remedy.cost)}" if remedy.cost else ""))
        click.echo(f"       clears {finding.id}")
    for finding in taken.left:
        click.echo(f"left:  {finding.id} ({finding.grade}): no proven remedy; it is for you to decide")
    if taken.laid_anew:
        click.echo(f"{job} was laid out anew: its comments could not be kept", err=True)
    count = len(taken.steps)
    click.echo(f"scheme `{name}` of {job}: {count} step{'' if count == 1 else 's'} taken")


@scheme.command()
@job_argument
@json_option
def compare(job: Path, as_json: bool) -> None:
    """Set the schemes of JOB side by side: what each leaves open, moves, buys and costs."""
    from halfdrop.services.compare import compare_schemes

    rows = compare_schemes(open_job(job))
    if as_json:
        say_json(rows)
        return
    head = ("scheme", "hazards", "faults", "tastes", "steps", "known cost", "unpriced")
    say_table([[str(row[key]) for key in head] for row in rows], head)


@scheme.command("from-art")
@job_argument
@click.option("--room", required=True, metavar="ROOM", help="The room.", shell_complete=complete_rooms)
@click.option("--art", metavar="ID", help="A work of the room whose colors are recorded.")
@click.option(
    "--picture",
    metavar="FILE",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Or a picture, its colors as recorded.",
)
@click.option(
    "--library",
    metavar="FILE",
    type=click.Path(path_type=Path, dir_okay=False),
    help="A swatch library to choose from; without it the job's own swatches.",
)
@click.option("--under", metavar="SCHEME", help="On top of this scheme.", shell_complete=complete_schemes)
@click.option(
    "--seed",
    metavar="N",
    type=click.IntRange(0, 10**6),
    default=0,
    show_default=True,
    help="Another N, other choices.",
)
@click.option(
    "--keep", metavar="NAME", help="Write them into JOB as schemes NAME-quiet, NAME-balanced and NAME-bold."
)
@click.option("--working", is_flag=True, help="Show what each color was taken from, and every mark.")
@json_option
def from_art(
    job: Path,
    room: str,
    art: str | None,
    picture: Path | None,
    library: Path | None,
    under: str | None,
    seed: int,
    keep: str | None,
    working: bool,
    as_json: bool,
) -> None:
    """Start from the art: a quiet, a balanced and a bold scheme for a room of JOB, each thing in a color of the picture.

    \b
    Examples:
      halfdrop scheme from-art flat.yaml --room living --art hillside --library paints.csv
      halfdrop scheme from-art flat.yaml --room living --picture hillside.jpg --library paints.csv --keep hill
    """
    from halfdrop.services.color_schemes import art_colors, picture_colors, propose, write_schemes
    from halfdrop.services.swatch_library import library_at

    if (art is None) == (picture is None):
        raise click.UsageError("say what to start from: --art ID or --picture FILE")
    if keep is not None and under is not None:
        raise click.UsageError("--keep writes schemes on the rooms as found: leave --under out")
    opened = open_job(job)
    opened.room_ids(room)
    state = opened.under(under)
    if picture is not None:
        colors, source = picture_colors(picture), picture.stem.replace("-", " ").replace("_", " ")
    else:
        assert art is not None
        colors, source = art_colors(state.job, room, art)
    read = library_at(library) if library is not None else None
    proposals = propose(state, room, colors, source, read, seed=seed)
    ids = [f"{keep}-{p.scheme.style}" for p in proposals]
    if keep is not None and not write_schemes(opened, proposals, ids):
        click.echo(f"{job} was laid out anew: its comments could not be kept", err=True)
    if as_json:
        say_json({"room": room, "schemes": [p.to_json() for p in proposals], "kept": ids if keep else []})
        return
    for p in proposals:
        click.echo(f"{p.name}: {p.scheme.score.total:.0f} of 100")
        rows = [
            [one.place.what, one.swatch.name, one.swatch.code, one.hex, p.scheme.said(one)]
            for one in p.scheme.worn
        ]
        say_table([[f"  {row[0]}", *row[1:]] for row in rows])
        if working:
            for mark in p.scheme.score.marks:
                click.echo(f"  {mark.name}: {mark.measured}; wanted {mark.wanted}")
            click.echo(f"  search: {p.scheme.sureness}")
        if p.cost is not None:
            click.echo(f"  known cost: {format_money(p.cost)}")
        if p.unpriced:
            click.echo(f"  no price for {'; '.join(p.unpriced)}")
        for finding in (*p.brought, *p.lesser):
            click.echo(f"  brings: {finding.grade}: {finding.message}")
        click.echo()
    if keep is not None:
        click.echo(f"{job}: schemes {', '.join(ids)}")
