"""Arguments and options that several commands share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click
from click.shell_completion import CompletionItem

F = TypeVar("F", bound=Callable[..., Any])


def _keys(collection: str) -> Callable[[click.Context, click.Parameter, str], list[CompletionItem]]:
    """Complete the ids of a collection of the job file already typed."""

    def complete(ctx: click.Context, param: click.Parameter, typed: str) -> list[CompletionItem]:
        from halfdrop.base.errors import HalfdropError
        from halfdrop.job.read import read_job

        try:
            document = read_job(Path(ctx.params["job"])).document
        except (HalfdropError, OSError, KeyError):
            return []
        return [CompletionItem(key) for key in document.get(collection, {}) if key.startswith(typed)]

    return complete


complete_rooms = _keys("rooms")
complete_schemes = _keys("schemes")

job_argument = click.argument("job", type=click.Path(path_type=Path, dir_okay=False))
room_option = click.option("--room", metavar="ROOM", help="Only this room.", shell_complete=complete_rooms)
scheme_option = click.option(
    "--scheme",
    metavar="SCHEME",
    help="The job under this scheme; as found without it.",
    shell_complete=complete_schemes,
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print one JSON document on stdout.")
store_option = click.option(
    "--store",
    "place",
    metavar="FILE|URL",
    help="Where jobs are kept; without it $HALFDROP_STORE, else the user's data folder.",
)
