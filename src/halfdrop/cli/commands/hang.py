"""`halfdrop hang`: where a work or a group hangs and where its hooks go, from numbers alone."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar, get_args

import click
from click.core import ParameterSource

from halfdrop.art import Below, Rect, Work
from halfdrop.art.fixings import Rating, Wall
from halfdrop.art.mass import Glazing
from halfdrop.art.setting_out import Edge
from halfdrop.base.errors import InputError, UsageError, did_you_mean
from halfdrop.base.units import Length, Mass, parse_size
from halfdrop.cli.options import complete_rooms, json_option, scheme_option
from halfdrop.cli.talk import say_json, say_table
from halfdrop.practice import SETS, load_practice
from halfdrop.services.files import write_bytes
from halfdrop.services.hanging import hang as hang_works
from halfdrop.services.hanging_job import hang_of, hung_walls, take_hanging
from halfdrop.services.hanging_room import RoomAsk
from halfdrop.services.hanging_sheet import hanging_sheet
from halfdrop.services.hanging_types import Ask, Hanging, HangReport, Layout, hung_said
from halfdrop.services.jobs import OpenJob, open_job

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
        _of_job(click.get_current_context(), job, room, art, scheme, on, over, take, out, as_json, edge, rest)
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
    _say_report(report)


#: Options that say what a job file says itself.
_IN_FILE = ("frames", "above", "piece_width", "seated", "wall_width", "ceiling", "obstacles", "wire_drop", "hangers",
            "hangers_down", "wire", "rings", "hooks", "hook_spacing", "mass", "glazing", "wall", "rated", "set_")  # fmt: skip


def _of_job(
    ctx: click.Context,
    path: Path,
    room: str | None,
    art: str | None,
    scheme: str | None,
    on: str | None,
    over: str | None,
    take: int | None,
    out: Path | None,
    as_json: bool,
    edge: str,
    rest: dict[str, Any],
) -> None:
    """Hang works of a job, say how those hang that do, or draw their sheet."""
    for name in _IN_FILE:
        if ctx.get_parameter_source(name) is ParameterSource.COMMANDLINE:
            said = name.rstrip("_").replace("_", "-")
            raise click.UsageError(f"--{said} stands in the job file; leave it out, or leave the file out")
    if room is None:
        raise click.UsageError("of a job, `--room` says which room")
    if take is not None and scheme is None:
        raise click.UsageError("--take writes a step: name its `--scheme`")
    if out is not None and art is not None:
        raise click.UsageError("a sheet is drawn of what hangs: take a way first, then draw it without --art")
    opened = open_job(path)
    taped: Edge = "right" if edge == "right" else "left"
    if art is None:
        if out is not None:
            data, count = hanging_sheet(
                opened, room, out.suffix.lstrip(".").lower() or "pdf", scheme=scheme, wall=on, edge=taped
            )
            write_bytes(out, data)
            click.echo(f"hanging sheets: {out}, {count}")
            return
        _as_hung(opened, room, scheme, taped, as_json)
        return
    asked = RoomAsk(
        tuple(a.strip() for a in art.split(",") if a.strip()), form=rest["layout"], wall=on, over=over, at=rest["at"],
        center=rest["center"], gap_over=rest["gap_over"], gap=rest["gap"], columns=rest["columns"],
        candidates=rest["candidates"], seed=rest["seed"], edge=taped,
    )  # fmt: skip
    if take is not None and scheme is not None:
        taken = take_hanging(opened, scheme, room, asked, take)
        click.echo(f"written: {taken.title} Scheme `{scheme}` of {path}.", err=True)
        if not as_json:
            return
    else:
        taken = hang_of(opened, room, asked, scheme)
    if as_json:
        say_json(taken.to_json())
        return
    click.echo(taken.title)
    click.echo()
    _say_report(taken.report)
    if take is None:
        click.echo("\nTo write one of them down: --take 1 --scheme NAME.")


def _as_hung(opened: OpenJob, room: str, scheme: str | None, edge: Edge, as_json: bool) -> None:
    walls = hung_walls(opened, room, scheme, edge)
    if as_json:
        say_json({"walls": [w.to_json() for w in walls]})
        return
    if not walls:
        click.echo(f"Nothing hangs in room `{room}`.")
    for n, wall in enumerate(walls):
        click.echo(("" if n == 0 else "\n") + f"Wall {wall.wall}, from the {wall.edge}")
        say_table([hung_said(w, wall.practice) for w in wall.works], _COLUMNS)
        hooks = [[h.name, h.said_edge, h.said_floor] for w in wall.works for h in w.hooks]
        if hooks:
            click.echo()
            say_table(hooks, ("hook", f"from the {wall.edge}", "from the floor"))
        for note in wall.notes:
            click.echo(click.wrap_text(f"note:   {note}", 100, subsequent_indent="        "))
        for caution in wall.cautions if n == len(walls) - 1 else ():
            click.echo(click.wrap_text(f"check:  {caution}", 100, subsequent_indent="        "))


_COLUMNS = ("work", "frame", "left side", "bottom", "mass", "fixing")


def _say_report(report: HangReport) -> None:
    for n, answer in enumerate(report.answers, 1):
        if len(report.answers) > 1:
            click.echo(f"{'' if n == 1 else chr(10)}Way {n} of {len(report.answers)}")
        _say(report, answer, whole=n == 1)
    if len(report.answers) > 1:
        click.echo("\nThe working above is of way 1; `--json` has it of each.")
    click.echo()
    for caution in report.cautions:
        click.echo(click.wrap_text(f"check:  {caution}", 100, subsequent_indent="        "))


def _say(report: HangReport, answer: Hanging, whole: bool) -> None:
    """Print one answer: the works, the two numbers of each hook, what is to know; where `whole`, the working."""
    say_table(
        [hung_said(w, report.practice) for w in answer.works],
        _COLUMNS,
    )
    hooks = [[h.name, h.said_edge, h.said_floor] for w in answer.works for h in w.hooks]
    if hooks:
        click.echo()
        say_table(hooks, ("hook", f"from the {report.edge}", "from the floor"))
    for note in answer.notes:
        click.echo(click.wrap_text(f"note:   {note}", 100, subsequent_indent="        "))
    for working in answer.workings if whole else ():
        click.echo(f"\n{working.title}")
        for step in working.steps:
            made = " = ".join(part for part in (step.formula, step.values) if part)
            click.echo(f"  {step.what}: {made} → {step.result}")
            for said in (step.rounding, step.source):
                if said:
                    click.echo(f"      {said}")
