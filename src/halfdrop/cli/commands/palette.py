"""`halfdrop palette`: the colors of a photograph."""

from __future__ import annotations

from pathlib import Path

import click

from halfdrop.cli.options import json_option
from halfdrop.cli.talk import say_json, say_table

#: Side of the patch round a single point [pixels].
_SIDE = 16


def _patch(ctx: click.Context, param: click.Parameter, typed: str | None) -> tuple[int, int, int, int] | None:
    """Read a patch written as left,top,width,height, or a point x,y with a small patch round it."""
    if typed is None:
        return None
    try:
        parts = [int(part) for part in typed.split(",")]
        if len(parts) == 2:
            x, y = parts
            return max(x - _SIDE // 2, 0), max(y - _SIDE // 2, 0), _SIDE, _SIDE
        x, y, width, height = parts
    except ValueError:
        raise click.BadParameter(
            "write it in pixels, as a point x,y or left,top,width,height: 120,80 or 120,80,40,40"
        ) from None
    return x, y, width, height


@click.command()
@click.argument("picture", type=click.Path(path_type=Path, dir_okay=False))
@click.option(
    "--white", metavar="X,Y[,W,H]", callback=_patch, help="Where white paper or a grey card is, in pixels."
)
@click.option("--lrv", metavar="PERCENT", type=float, help="How light that patch is: 18 for a grey card.")
@click.option("--as-recorded", is_flag=True, help="Take the picture's colors as they are.")
@click.option("--most", metavar="N", type=int, default=8, show_default=True, help="Most colors.")
@click.option(
    "--into",
    "job",
    metavar="JOB",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Put them into this job's swatches.",
)
@click.option("--art", metavar="ROOM/ID", help="With --into: they are the colors of this work.")
@json_option
def palette(
    picture: Path,
    white: tuple[int, int, int, int] | None,
    lrv: float | None,
    as_recorded: bool,
    most: int,
    job: Path | None,
    art: str | None,
    as_json: bool,
) -> None:
    """Lift the colors of a PICTURE and how much of each; the picture stays where it is.

    \b
    Examples:
      halfdrop palette painting.jpg
      halfdrop palette room.jpg --white 120,80
      halfdrop palette room.jpg --white 120,80,40,40 --lrv 18
      halfdrop palette cloth.png --json
      halfdrop palette hillside.jpg --as-recorded --into flat.yaml --art living/hillside
    """
    from halfdrop.color.palette import palette_of_file
    from halfdrop.color.reference_white import Patch

    if white and as_recorded:
        raise click.UsageError("--white and --as-recorded do not go together")
    if lrv is not None and not white:
        raise click.UsageError("--lrv is of the patch: give --white too")
    room, _, work = (art or "").partition("/")
    if art is not None and (job is None or not work):
        raise click.UsageError(
            "--art is a work of the job given with --into, written ROOM/ID: living/hillside"
        )
    patch = Patch(*white, lrv=lrv) if white else None
    found = palette_of_file(picture, white=patch, recorded=as_recorded, most=most)
    taken: tuple[str, ...] = ()
    if job is not None:
        from halfdrop.services.jobs import open_job
        from halfdrop.services.taking_swatches import take_palette

        name = picture.stem.replace("-", " ").replace("_", " ") or "picture"
        took = take_palette(open_job(job), found, name, room=room or None, art=work or None)
        taken = took.ids
        if not took.kept:
            click.echo(f"{job} was laid out anew: its comments could not be kept", err=True)
    if as_json:
        say_json({**found.to_json(), **({"taken": list(taken)} if job is not None else {})})
        return
    rows = [[c.hex, *(f"{v:.1f}" for v in c.lab), f"{100 * c.share:.1f}%"] for c in found.colors]
    say_table(rows, ("hex", "L*", "a*", "b*", "share"))
    click.echo()
    click.echo(
        f"white: {found.white.how}, {found.white.why}; a white moves by {found.white.shifts:.1f} (dE00)"
    )
    click.echo(f"colors: {found.profile}")
    if job is not None:
        click.echo(f"{job}: {', '.join(taken)}" + (f", the colors of {art}" if art else ""))
    if found.white.how == "estimated":
        click.echo(
            "hint: point out a white or grey patch with --white, or take --as-recorded where nothing in it is white",
            err=True,
        )
