"""How the command line talks: results to stdout, talk to stderr, errors in one shape."""

from __future__ import annotations

import getpass
import json
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import click

from halfdrop.base.errors import HalfdropError, InputErrors

if TYPE_CHECKING:  # what judges is heavy to load, and an error is told without it
    from halfdrop.services.auditing import Progress

#: Talk about progress only once a task has run this long [s].
PATIENCE = 1.0


def say_error(error: HalfdropError) -> None:
    """Print an error: the thing, where, what to do."""
    errors = error.errors if isinstance(error, InputErrors) else (error,)
    for one in errors:
        click.echo(f"error: {one.message}", err=True)
        if one.at is not None and str(one.at):
            click.echo(f"  at: {one.at}", err=True)
        if one.hint:
            click.echo(f"hint: {one.hint}", err=True)
    if isinstance(error, InputErrors) and error.hint:
        click.echo(f"hint: {error.hint}", err=True)


def say_json(value: Any) -> None:
    """Print one JSON document on stdout."""
    click.echo(json.dumps(value, ensure_ascii=False, indent=2))


def say_table(rows: Sequence[Sequence[str]], head: Sequence[str] | None = None) -> None:
    """Print rows in columns as wide as they need."""
    lines = [*([list(head)] if head else []), *[list(row) for row in rows]]
    if not lines:
        return
    widths = [max(len(line[i]) for line in lines) for i in range(len(lines[0]))]
    for n, line in enumerate(lines):
        click.echo("  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip())
        if head and n == 0:
            click.echo("  ".join("─" * width for width in widths))


def user_name() -> str:
    """Return who works here, for the history of a job."""
    try:
        return getpass.getuser() or "someone"
    except (OSError, KeyError, ImportError):
        return "someone"


@contextmanager
def progress(what: str) -> Iterator[Progress]:
    """Give a progress callback that talks on a terminal once the task has run over a second."""
    start = time.monotonic()
    shown = False

    def tell(done: int, total: int, name: str) -> None:
        nonlocal shown
        if time.monotonic() - start < PATIENCE or not sys.stderr.isatty():
            return
        shown = True
        click.echo(f"\r{what} {done}/{total} {name[:60]:<60}", nl=False, err=True)

    yield tell
    if shown:
        click.echo("\r" + " " * (len(what) + 72) + "\r", nl=False, err=True)
