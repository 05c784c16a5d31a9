"""`halfdrop open`: the workbench in a browser."""

from __future__ import annotations

import webbrowser
from pathlib import Path
from threading import Timer
from urllib.parse import quote

import click

from halfdrop.cli.options import store_option
from halfdrop.cli.talk import user_name

_SAID = {
    "new": "taken into the store",
    "same": "in the store already",
    "changed": "in the store already, and the two differ: the store's is opened, the file is left as it is",
}


@click.command("open")
@click.argument("job", required=False, type=click.Path(path_type=Path, dir_okay=False))
@click.option("--port", type=click.IntRange(0, 65535), help="Port to listen on; a free one without it.")
@click.option(
    "--host",
    default="127.0.0.1",
    show_default=True,
    help="Address to listen on. With any but loopback a one-time address lets each browser in.",
)
@store_option
@click.option("--no-browser", is_flag=True, help="Only print the address.")
def open_(job: Path | None, port: int | None, host: str, place: str | None, no_browser: bool) -> None:
    """Open the workbench in a browser, at JOB where one is given. Ctrl-C stops it; everything is kept.

    JOB is taken into the store once: the same file again opens the same job.

    \b
    Examples:
      halfdrop open
      halfdrop open flat.yaml
      halfdrop open --host 0.0.0.0          for a tablet in the same network
    """
    # What serves is loaded only here: the other commands start without it.
    from halfdrop.services.workbench import Workbench
    from halfdrop.services.workbench_jobs import open_file
    from halfdrop.store import Store
    from halfdrop.web.serve import is_loopback, serve

    store = Store.open(place)
    try:
        path = ""
        if job is not None:
            head, how = open_file(Workbench(store), job, author=user_name())
            path = f"#/{quote(head.id)}"
            click.echo(f"{job}: {_SAID[how]}", err=True)
            if how == "changed":
                hint = f"`halfdrop jobs take {head.id} {job}` takes what differs in as a revision"
                click.echo(f"hint: {hint}; add --dry-run to see it first", err=True)

        def ready(url: str) -> None:
            click.echo(f"workbench: {url}")
            if not is_loopback(host):
                click.echo(
                    "hint: the address lets one browser in; the next is printed when it is used", err=True
                )
                click.echo(
                    "caution: the connection is not encrypted; use it only in a network you trust", err=True
                )
            if not no_browser:
                timer = Timer(0.5, webbrowser.open, (url,))
                timer.daemon = True
                timer.start()

        serve(
            store, host=host, port=port, path=path, ready=ready,
            again=lambda url: click.echo(f"next: {url}"),
        )  # fmt: skip
        click.echo("stopped; everything is kept", err=True)
    finally:
        store.close()
