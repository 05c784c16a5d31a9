"""`halfdrop hang`: where a work or a group hangs and where its hooks go, from numbers alone."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar, get_args

import click

from halfdrop.art import Below, Rect, Work
from halfdrop.art.fixings import Rating, Wall
from halfdrop.art.mass import Glazing
from halfdrop.base.errors import InputError, UsageError, did_you_mean
from halfdrop.base.units import Length, Mass, parse_size
from halfdrop.cli.hanging import hang_of_job, say_report
from halfdrop.cli.options import complete_rooms, json_option, scheme_option
from halfdrop.cli.talk import say_json
from halfdrop.practice import SETS, load_practice
from halfdrop.services.hanging import hang as hang_works
from halfdrop.services.hanging_types import Ask, Layout

_BELOW = get_args(Below)
T = TypeVar("T")


def _typed(name: str, read: Callable[[str], T]) -> Callable[[str], T]:
    """Return a reader for an option: what cannot be read is a fault of the call, with its hint."""

    def convert(text: str) -> T:
        try:
            return read(text)
        except InputError as error:
            raise UsageError(error.message, hint=error.hint) from None

    convert.__name__ = name
    return convert


def _piece(text: str) -> tuple[float, str]:
    """Read `34 in sofa`: how high the top of what stands below is."""
    measure, _, kind = text.strip().rpartition(" ")
    if kind not in _BELOW:
        raise InputError(f"`{text}` does not end in what stands below", hint=did_you_mean(kind, _BELOW))
    return Length.parse(measure), kind


def _frame(text: str) -> Work:
    """Read `24x30 in` or `heron 24x30 in`: a name, where there is one, and width x height."""
    found = re.fullmatch(r"\s*(?:([^\W\d][^=]*?)\s+)?(\d.*)", text)
    if found is None:
        raise InputError(f"`{text}` is no frame", hint="write it like 24x30 in, or heron 24x30 in")
    width, height = parse_size(found[2])
    return Work(found[1] or "", float(width), float(height))


def _obstacle(text: str) -> tuple[str, Rect]:
    """Read `thermostat 5x5 in at 62x56 in`: its size, and where its middle is: from the left, above the floor."""
    found = re.fullmatch(r"\s*([^\W\d][^\d]*?)\s+(\d.*?)\s+at\s+(.+)", text)
    if found is None:
        raise InputError(f"`{text}` is not clear", hint="write it like thermostat 5x5 in at 62x56 in")
    (width, height), (x, y) = parse_size(found[2]), parse_size(found[3])
    return found[1], Rect.about((float(x), float(y)), float(width), float(height))


def _rated(text: str) -> tuple[float, Rating]:
    """Read `50 lb printed`: the load of a fixing and what that figure is."""
    measure, _, what = text.strip().rpartition(" ")
    for rating in get_args(Rating):
        if what == rating:
            return Mass.parse(measure), rating
    raise InputError(
        f"`{text}` does not say what its load is",
        hint="write it like 50 lb printed, 50 lb working or 200 lb ultimate",
    )


_LENGTH, _MASS = _typed("length", Length.parse), _typed("mass", Mass.parse)


@click.command()
@click.argument("job", type=click.Path(path_type=Path, dir_okay=False), required=False)
@click.option("--room", metavar="ROOM", help="Of JOB.", shell_complete=complete_rooms)
@click.option(
    "--art", metavar="A,B,…", help="Works of that room to hang, in order; those that hang, without it."
)
@scheme_option
@click.option("--on", metavar="WALL", help="Of JOB: the wall by its corners, such as CD.")
@click.option("--over", metavar="PIECE", help="Of JOB: what they hang over, by its id.")
@click.option(
    "--take", type=click.IntRange(1), help="Write that way into the scheme as a step; needs --scheme."
)
@click.option(
    "-o", "--out", type=click.Path(path_type=Path, dir_okay=False), help="Of JOB: draw the hanging sheet."
)
@click.option(
    "--frame",
    "frames",
    type=_typed("frame", _frame),
    multiple=True,
    metavar="[NAME] SIZE",
    help="Width x height of a frame; once for each work.",
)
@click.option(
    "--layout",
    "--form",
    "layout",
    type=click.Choice(get_args(Layout)),
    default="row",
    show_default=True,
    help="How several works hang.",
)
@click.option("--columns", type=click.IntRange(1), help="Of a grid.")
@click.option("--gap", type=_LENGTH, help="Between frames; practice's without it.")
@click.option(
    "--candidates",
    type=click.IntRange(1, 12),
    default=3,
    show_default=True,
    help="How many clusters to show.",
)
@click.option("--seed", type=int, default=0, show_default=True, help="Another seed, other clusters.")
@click.option(
    "--above",
    type=_typed("piece", _piece),
    metavar="HEIGHT PIECE",
    help=f"Top of what stands below: {', '.join(_BELOW)}.",
)
@click.option("--piece-width", "--sofa", type=_LENGTH, help="Width of what stands below.")
@click.option("--gap-over", type=_LENGTH, help="From its top to the frame; practice's without it.")
@click.option("--center", type=_LENGTH, help="Height of the middle; practice's without it.")
@click.option("--seated", is_flag=True, help="People mostly sit in this room.")
@click.option("--wall-width", type=_LENGTH, help="Of the free wall; numbers then run from its end.")
@click.option(
    "--at", type=_LENGTH, help="Middle of the group from the wall's left end; the wall's middle without it."
)
@click.option(
    "--from",
    "edge",
    type=click.Choice(["left", "right"]),
    default="left",
    show_default=True,
    help="The end taped from.",
)
@click.option("--ceiling", type=_LENGTH, help="Height of the ceiling.")
@click.option(
    "--clear-of",
    "obstacles",
    type=_typed("fitting", _obstacle),
    multiple=True,
    metavar="NAME SIZE at X x Y",
    help="A switch, thermostat or sconce; once for each.",
)
@click.option("--wire-drop", type=_LENGTH, help="Top of the frame to the wire, pulled up taut.")
@click.option("--hangers", type=_LENGTH, help="Between the two hangers or rings.")
@click.option("--hangers-down", type=_LENGTH, help="Hangers below the top of the frame.")
@click.option("--wire", type=_LENGTH, help="Length of the wire from hanger to hanger, taut.")
@click.option("--rings", is_flag=True, help="Two rings straight on two hooks, without a wire.")
@click.option("--hooks", type=click.IntRange(1, 2), help="One or two; by width and mass without it.")
@click.option("--hook-spacing", type=_LENGTH, help="Between two hooks.")
@click.option("--mass", type=_MASS, help="Of each work; estimated from its size without it.")
@click.option("--glazing", type=click.Choice(get_args(Glazing)), help="For the mass, where it is not given.")
@click.option(
    "--wall",
    type=click.Choice(get_args(Wall)),
    default="plasterboard",
    show_default=True,
    help="What the hooks go into.",
)
@click.option(
    "--rated",
    type=_typed("load", _rated),
    metavar="LOAD WHAT",
    help="The fixing at hand: `50 lb printed`, `working` or `ultimate`.",
)
@click.option(
    "--set",
    "set_",
    type=click.Choice(list(SETS)),
    default="us",
    show_default=True,
    help="Which practice values.",
)
@json_option
def hang(
    job: Path | None,
    room: str | None,
    art: str | None,
    scheme: str | None,
    on: str | None,
    over: str | None,
    take: int | None,
    out: Path | None,
    frames: tuple[Work, ...],
    above: tuple[float, str] | None,
    edge: str,
    wire_drop: float | None,
    hangers_down: float | None,
    set_: str,
    as_json: bool,
    **rest: Any,
) -> None:
    """Say how high a work or a group hangs and where its hooks go, with the working.

    Two numbers a hook: from a fixed end, and from the floor. With JOB the works, the wall and what is on it are the job's; without
    it, nothing is read from a file and `--frame` says what hangs.

    \b
    Examples:
      halfdrop hang --frame '24x30 in' --wire-drop '3 in' --wall-width '12 ft'
      halfdrop hang --frame '56x36 in' --above '34 in sofa' --sofa '84 in' --rings --hangers '40 in' --hangers-down '4 in'
      halfdrop hang --frame '24x24 in' --hangers '18 in' --hangers-down '8 in' --wire '20 in' --hooks 1 --at '5 ft'
      halfdrop hang --layout cluster --frame 'heron 24x30 in' --frame '16x20 in' --frame '11x14 in' \\
          --wall-width '12 ft' --clear-of 'thermostat 5x5 in at 72x57 in'
      halfdrop hang flat.yaml --room living --art heron,harbor --over sofa
      halfdrop hang flat.yaml --room hall --art a,b,c,d,e --form cluster --on BC --take 2 --scheme first
      halfdrop hang flat.yaml --room living --scheme first -o hanging.pdf
    """  # fmt: skip
    if job is not None:
        hang_of_job(
            click.get_current_context(), job, room, art, scheme, on, over, take, out, as_json, edge, rest
        )
        return
    for name, given in (
        ("room", room),
        ("art", art),
        ("scheme", scheme),
        ("on", on),
        ("over", over),
        ("take", take),
        ("out", out),
    ):
        if given is not None:
            raise click.UsageError(f"--{name} is of a job: name the file")
    if not frames:
        raise click.UsageError(
            "nothing is to hang: give a job file with --room and --art, or --frame '24x30 in'"
        )
    top, below = above if above else (None, None)
    works = tuple(
        Work(w.name or (f"work {n}" if len(frames) > 1 else "work"), w.width, w.height)
        for n, w in enumerate(frames, 1)
    )
    asked = Ask(works, top=top, below=below, edge="right" if edge == "right" else "left", drop=wire_drop,
                down=hangers_down, **rest)  # fmt: skip
    report = hang_works(asked, load_practice(set_))
    if as_json:
        say_json(report.to_json())
        return
    say_report(report)
