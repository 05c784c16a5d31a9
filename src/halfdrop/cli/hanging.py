"""How `halfdrop hang` speaks of a job, and prints what it found."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click
from click.core import ParameterSource

from halfdrop.art.setting_out import Edge
from halfdrop.cli.talk import say_json, say_table
from halfdrop.services.files import write_bytes
from halfdrop.services.hanging_job import hang_of, hung_walls, take_hanging
from halfdrop.services.hanging_room import RoomAsk
from halfdrop.services.hanging_sheet import hanging_sheet
from halfdrop.services.hanging_types import Hanging, HangReport, hung_said
from halfdrop.services.jobs import OpenJob, open_job

#: Options that say what a job file says itself.
_IN_FILE = ("frames", "above", "piece_width", "seated", "wall_width", "ceiling", "obstacles", "wire_drop", "hangers",
            "hangers_down", "wire", "rings", "hooks", "hook_spacing", "mass", "glazing", "wall", "rated", "set_")  # fmt: skip


def hang_of_job(
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
    say_report(taken.report)
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
    for caution in dict.fromkeys(c for wall in walls for c in wall.cautions):
        click.echo(click.wrap_text(f"check:  {caution}", 100, subsequent_indent="        "))


_COLUMNS = ("work", "frame", "left side", "bottom", "mass", "fixing")


def say_report(report: HangReport) -> None:
    """Print every answer, and the cautions."""
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
