"""`halfdrop jobs` (and `jobs file`, `jobs take`), `halfdrop backup` and `halfdrop restore`: the store that the workbench keeps jobs in."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path

import click

from halfdrop.base.errors import At, UsageError
from halfdrop.cli.options import json_option, store_option
from halfdrop.cli.talk import say_json, say_table, user_name
from halfdrop.job.read import format_of, read_text
from halfdrop.store import Store


@contextmanager
def _opened(place: str | None) -> Iterator[Store]:
    store = Store.open(place)
    try:
        yield store
    finally:
        store.close()


def _jobs(count: int) -> str:
    return f"{count} job{'' if count == 1 else 's'}"


@click.group(invoke_without_command=True)
@store_option
@json_option
@click.pass_context
def jobs(ctx: click.Context, place: str | None, as_json: bool) -> None:
    """List the jobs in the store, the last changed first; take a job's file out, and an edited one in again.

    \b
    Examples:
      halfdrop jobs
      halfdrop jobs file elm-row-4-1 -o elm.yaml
      halfdrop jobs take elm-row-4-1 elm.yaml
    """
    if ctx.invoked_subcommand is not None:
        ctx.obj = place
        return
    with _opened(place) as store:
        entries, name = store.jobs(), store.name
    if as_json:
        keys = ("id", "name", "client", "revision", "origin")
        times = ("begun", "changed")
        say_json(
            {
                "store": name,
                "jobs": [
                    {key: getattr(entry, key) for key in keys}
                    | {key: getattr(entry, key).isoformat() for key in times}
                    for entry in entries
                ],
            }
        )
        return
    rows = [
        [e.id, e.name, e.client or "", str(e.revision), f"{e.changed.astimezone():%Y-%m-%d %H:%M}"]
        for e in entries
    ]
    if rows:
        say_table(rows, ("job", "name", "client", "revision", "changed"))
    click.echo(f"{_jobs(len(entries))} in {name}", err=True)


@jobs.command("file")
@click.argument("job", metavar="ID")
@click.option(
    "-o", "--out", type=click.Path(path_type=Path, dir_okay=False), help="Where to; stdout without it."
)
@click.option("--revision", type=click.IntRange(1), help="As it was then; the latest without it.")
@store_option
@click.pass_obj
def file_(outer: str | None, job: str, out: Path | None, revision: int | None, place: str | None) -> None:
    """Take the file of job ID out of the store, comments and all.

    A file that is there is not overwritten.

    \b
    Example:
      halfdrop jobs file elm-row-4-1 -o elm.yaml
    """
    with _opened(place or outer) as store:
        format = format_of(out) if out is not None else None
        written = store.export(job, revision, format)
        if out is None:
            click.echo(written.text, nl=False)
            return
        number = revision or store.job(job).revision
    try:
        with out.open("x", encoding="utf-8", newline="") as stream:
            stream.write(written.text)
    except FileExistsError:
        raise UsageError("the file is there already", at=At(str(out)), hint="name a new file") from None
    except OSError as error:
        raise UsageError(
            f"the file cannot be written: {(error.strerror or 'unknown').lower()}", at=At(str(out))
        ) from None
    click.echo(f"{out}: {job} at revision {number}", err=True)


@jobs.command()
@click.argument("job", metavar="ID")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option(
    "--base",
    type=click.IntRange(1),
    help="The revision FILE was taken out at; without it as FILE's name says (-r12), else the nearest.",
)
@click.option("--over", is_flag=True, help="Where others changed the same things, FILE's word counts.")
@click.option("--dry-run", is_flag=True, help="Only say what it would change.")
@store_option
@json_option
@click.pass_obj
def take(
    outer: str | None,
    job: str,
    file: Path,
    base: int | None,
    over: bool,
    dry_run: bool,
    place: str | None,
    as_json: bool,
) -> None:
    """Take what was edited in FILE into job ID, as one revision that can be undone.

    What others changed since FILE was taken out stays; where they changed the same thing, nothing is taken in.

    \b
    Examples:
      halfdrop jobs take elm-row-4-1 elm.yaml --dry-run
      halfdrop jobs take elm-row-4-1 elm.yaml
    """
    from halfdrop.services.workbench import Workbench
    from halfdrop.services.workbench_files import look_in, take_in

    text, name, folder = read_text(file), str(file), file.resolve().parent
    with _opened(place or outer) as store:
        bench = Workbench(store)
        done = (
            look_in(bench, job, text, name=name, base=base, folder=folder)
            if dry_run
            else take_in(bench, job, text, name=name, base=base, folder=folder, author=user_name(), over=over)
        )
    if as_json:
        say_json(asdict(done))
        return
    for one in done.changes:
        click.echo(f"{one.path}: {one.was if one.was is not None else 'nothing'} → {one.now or 'nothing'}")
    count = f"{len(done.changes)} change{'' if len(done.changes) == 1 else 's'} since revision {done.base}"
    if done.revision is not None:
        merged = ", beside what others changed since" if done.merged else ""
        click.echo(f"{job}: {count}, kept as revision {done.revision}{merged}", err=True)
    else:
        click.echo(
            f"{job}: {count}; nothing is kept" if done.changes else f"{file}: says what {job} says", err=True
        )


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@store_option
def backup(file: Path, place: str | None) -> None:
    """Write the whole store into FILE, as it is at one moment; the workbench may go on meanwhile.

    FILE must be new. It can be restored into a store of either kind.

    \b
    Examples:
      halfdrop backup friday.halfdrop
      halfdrop backup friday.halfdrop --store postgresql://ann@studio/jobs
    """
    with _opened(place) as store:
        count = store.backup(file)
        click.echo(f"{file}: {_jobs(count)} from {store.name}", err=True)


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@store_option
def restore(file: Path, place: str | None) -> None:
    """Fill an empty store with all that is in a backup: jobs, their history, files and original texts.

    \b
    Examples:
      halfdrop restore friday.halfdrop
      halfdrop restore friday.halfdrop --store other.db
    """
    with _opened(place) as store:
        count = store.restore(file)
        click.echo(f"{store.name}: {_jobs(count)} from {file}", err=True)
