"""`halfdrop jobs`, `halfdrop backup` and `halfdrop restore`: the store that the workbench keeps jobs in."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from halfdrop.cli.options import json_option, store_option
from halfdrop.cli.talk import say_json, say_table
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


@click.command()
@store_option
@json_option
def jobs(place: str | None, as_json: bool) -> None:
    """List the jobs in the store, the last changed first.

    \b
    Example:
      halfdrop jobs
    """
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
