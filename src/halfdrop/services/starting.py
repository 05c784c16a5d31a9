"""Begin a job: a file that explains itself, with a room to type over."""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from pathlib import Path

from halfdrop.base.errors import At, UsageError

_HEAD = """\
# A halfdrop job. Lengths are written as they are read off the tape: {lengths}
# Nothing computed is kept here; run `halfdrop check {file}` after typing.
halfdrop: 1

job:
  name: {name}
{client}  units: {units}
  currency: {currency}

practice:
  set: {set}

# Colors by name and code, to be worn by what follows: `surfaces` of a room, `colors: chalk` on a piece or a rug. Then run
# `halfdrop color`. As it stands here it is only an example.
swatches:
  chalk: {{name: Chalk, color: "#efe9dc"}}

rooms:
"""

_ROOM = """\
  {id}:
    name: {name}
    use: {{{use}: true}}
    survey:
      # Letter the corners as you walk round, counterclockwise as seen on the plan (else add `round: clockwise`).
      corners: A B C D
      walls: {{AB: {long}, BC: {short}, CD: {long}, DA: {short}}}
      # Ties check the walls: both diagonals, and any other corner-to-corner length you can tape.
      ties: {{AC: {tie}, BD: {tie}}}
      heights: {{center: {height}}}
    openings:
      # `along` runs from the wall's first-named corner to the near jamb.
      door: {{kind: door, wall: AB, along: {jamb}, width: {leaf}, height: {head}, leaf: hinged, hinge: A, opens: in}}
      #   window: {{kind: window, wall: CD, along: {in_}, width: {win}, height: {winh}, sill: {sill}}}
    # What stands in the room: take the braces away, and the # before what you use.
    fittings: {{}}
      #   radiator: {{kind: radiator, wall: CD, along: {in_}, width: {win}, depth: {rad}, height: {radh}}}
    # Against a wall: `along` from its first-named corner to the near side, `off` the gap behind. Free: the middle, x along AB
    # from A, y off AB, and `turn` where it is not square. The client keeps it: `keep: true`. `halfdrop schema` has every word.
    pieces: {{}}
      #   sofa: {{type: sofa, width: {sofaw}, depth: {sofad}, height: {sofah}, at: {{wall: CD, along: {in_}, off: {off}}}}}
      #   table: {{type: coffee table, width: {tabw}, depth: {tabd}, height: {tabh}, at: {{x: {midx}, y: {midy}}}}}
    rugs: {{}}
      #   rug: {{width: {rugw}, length: {rugl}, at: {{x: {midx}, y: {midy}}}, pile: {pile}}}
    # What hangs at the windows, as it hangs now: heights off the floor, `left` and `right` past the opening as one faces it,
    # `drop` the cloth's length. What is left out is designed when it is made anew (`arrives: true`, and a `fabric` of the job).
    treatments: {{}}
      #   pair: {{openings: window, heading: wave, fullness: 1.5, drop: {cloth}, hardware: {{height: {rod}, left: {past}, right: {past}}}}}
    # What walls, ceiling, trim and floor wear: a swatch of the job, or shares of several.
    surfaces: {{}}
      #   walls: chalk
    # Pictures and mirrors, frame and all; without `at` they wait for a place, and `halfdrop hang` finds one.
    art: {{}}
      #   picture: {{width: {picw}, height: {pich}, hangs: {{from: wire, drop: {drop}}}, at: {{wall: CD, along: {in_}, bottom: {picb}}}}}
"""

_TEXTS = {
    "imperial": {
        "lengths": "12' 6 1/2\", 150.5 in",
        "long": "16'",
        "short": "12'",
        "tie": "20'",
        "height": "8'",
        "jamb": "10 in",
        "leaf": "32 in",
        "head": "80 in",
        "in_": "5'",
        "win": "48 in",
        "winh": "54 in",
        "sill": "28 in",
        "rad": "4 in",
        "radh": "22 in",
        "sofaw": "7'",
        "sofad": "38 in",
        "sofah": "32 in",
        "off": "6 in",
        "tabw": "48 in",
        "tabd": "24 in",
        "tabh": "17 in",
        "midx": "7' 6\"",
        "midy": "6'",
        "rugw": "10'",
        "rugl": "8'",
        "pile": "1/4 in",
        "cloth": "84 in",
        "rod": "88 in",
        "past": "6 in",
        "picw": "24 in",
        "pich": "30 in",
        "picb": "42 in",
        "drop": "3 in",
    },
    "metric": {
        "lengths": "3.81 m, 381 cm, 3810 mm",
        "long": "4.80 m",
        "short": "3.60 m",
        "tie": "6.00 m",
        "height": "2.45 m",
        "jamb": "25 cm",
        "leaf": "83 cm",
        "head": "2.04 m",
        "in_": "1.50 m",
        "win": "1.20 m",
        "winh": "1.35 m",
        "sill": "70 cm",
        "rad": "10 cm",
        "radh": "55 cm",
        "sofaw": "2.10 m",
        "sofad": "95 cm",
        "sofah": "80 cm",
        "off": "15 cm",
        "tabw": "1.20 m",
        "tabd": "60 cm",
        "tabh": "42 cm",
        "midx": "2.40 m",
        "midy": "1.80 m",
        "rugw": "3 m",
        "rugl": "2.50 m",
        "pile": "8 mm",
        "cloth": "2.10 m",
        "rod": "2.20 m",
        "past": "15 cm",
        "picw": "60 cm",
        "pich": "80 cm",
        "picb": "105 cm",
        "drop": "8 cm",
    },
}


def new_job_text(file: str, *, name: str | None, client: str | None, units: str, rooms: Sequence[str]) -> str:
    """Return the text of a new job file.

    Parameters
    ----------
    file : str
        What the file is called in its own remarks, and without a name the job too.
    units : {"imperial", "metric"}
        Of the job; the practice set and the currency follow.
    rooms : sequence of str
        Uses of the rooms to begin with; a second room of the same use is numbered.
    """
    metric = units == "metric"
    title = name or Path(file).stem.replace("-", " ").replace("_", " ").capitalize()
    text = _HEAD.format(
        lengths=_TEXTS[units]["lengths"],
        file=file,
        name=json.dumps(title, ensure_ascii=False),
        client=f"  client: {json.dumps(client, ensure_ascii=False)}\n" if client else "",
        units=units,
        currency="EUR" if metric else "USD",
        set="metric" if metric else "us",
    )
    for n, use in enumerate(rooms):
        before = rooms[:n].count(use)
        key = f"{use}-{before + 1}" if before else use
        title = f"{use.capitalize()} room" if use in ("living", "dining") else use.capitalize()
        text += _ROOM.format(
            id=key, name=f"{title} {before + 1}" if before else title, use=use, **_TEXTS[units]
        )
    return text


def new_job(path: Path, *, name: str | None, client: str | None, units: str, rooms: Sequence[str]) -> None:
    """Write a new job file: the text of `new_job_text`.

    Parameters
    ----------
    path : Path
        Where; must not exist.

    Raises
    ------
    UsageError
        Where the file exists (it is left as it is), or its folder does not.
    """
    text = new_job_text(path.name, name=name, client=client, units=units, rooms=rooms)
    try:
        with open(path, "x", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
    except FileExistsError:
        raise UsageError(
            f"{path} exists already and is left as it is", at=At(str(path)), hint="choose another name"
        ) from None
    except OSError as error:
        raise UsageError(f"{path} cannot be written: {error.strerror}", at=At(str(path))) from None
