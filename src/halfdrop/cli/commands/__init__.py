"""The commands, in the order of a job; each is loaded only when it is called, so that it starts at once."""

from __future__ import annotations

from importlib import import_module
from typing import NamedTuple

import click


class Place(NamedTuple):
    """Where a command is (its module in this package, and its name there), and what the list of commands says of it."""

    module: str
    name: str
    summary: str


PLACES = {
    "new": Place("new", "new", "Begin JOB: a file that explains itself, to type over."),
    "open": Place("open", "open_", "Open the workbench in a browser, at JOB where one is given."),
    "check": Place("check", "check", "Read JOB, report every fault at once; do the measures close?"),
    "survey": Place("check", "survey", "Adjust the taped measures of JOB and find the likely blunder."),
    "audit": Place("audit", "audit", "Judge the rooms of JOB and offer proven remedies."),
    "scheme": Place("scheme", "scheme", "Take remedies into a scheme; list and compare schemes."),
    "shopping": Place(
        "shopping", "shopping", "List what a scheme of JOB buys, moves and lets go, with prices."
    ),
    "takeoff": Place("takeoff", "takeoff", "Count what JOB takes: paper, paint, cloth, rods, rugs and pads."),
    "install": Place(
        "install", "install", "Write the sheets of JOB for installer, workroom, paper hanger and painter."
    ),
    "hang": Place("hang", "hang", "Say how high art hangs and where its hooks go, from numbers alone."),
    "plan": Place("plan", "plan", "Draw a room of JOB to scale, with its findings as margin notes."),
    "book": Place("book", "book", "Bind JOB into one PDF for the client."),
    "jobs": Place("store", "jobs", "List the jobs in the store, the last changed first."),
    "backup": Place("store", "backup", "Write the whole store into one new file, while work goes on."),
    "restore": Place("store", "restore", "Fill an empty store with all that is in a backup."),
    "palette": Place(
        "palette",
        "palette",
        "Lift the colors of a PICTURE and how much of each; the picture stays where it is.",
    ),
    "color": Place(
        "color",
        "color",
        "Measure the colors of a room of JOB and draw its color page, by day and of an evening.",
    ),
    "swatches": Place("swatches", "swatches", "Search a LIBRARY of swatches by nearness."),
    "explain": Place("reference", "explain", "Tell the story of a rule; without one, list them all."),
    "practice": Place("reference", "practice", "List the values a decorator works to, each with its source."),
    "schema": Place("reference", "schema", "Print the JSON Schema of the job document."),
    "completion": Place("reference", "completion", "Print the completion script for a shell."),
}


class Commands(click.Group):
    """The group of all commands: listing them loads none, calling one loads its own module."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names, in the order of a job."""
        return list(PLACES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command by its name, or None."""
        if cmd_name not in PLACES:
            return None
        place = PLACES[cmd_name]
        command: click.Command = getattr(import_module(f"{__name__}.{place.module}"), place.name)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the list of commands, each whole on its line."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, place.summary) for name, place in PLACES.items()])
