"""Where the first strip goes, which way the others follow, and where the pattern may fail to meet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.job.part import corners_of
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.walls.chain import Chain, Placed
from halfdrop.walls.cut_length import ceil_steps

Start = Literal["strip", "seam"]


@dataclass(frozen=True)
class Column:
    """One strip's place in the run.

    Attributes
    ----------
    index : int
        0 is the first strip hung; 1, 2 … follow in walking order, −1, −2 … the other way. Neighbors differ by 1.
    start, end : float
        Where it covers the run [m]; may run past the ends of a closed run, which goes round.
    """

    index: int
    start: float
    end: float

    @property
    def width(self) -> float:
        """Width that shows [m]."""
        return self.end - self.start


@dataclass(frozen=True)
class Mismatch:
    """Where the two ways round a room meet and the pattern does not.

    Attributes
    ----------
    at : float
        In the run [m].
    where : str
        In words: `over door`, `in corner B`.
    seam : float
        Height of the seam that does not match [m].
    """

    at: float
    where: str
    seam: float


@dataclass(frozen=True)
class SettingOut:
    """The strips of one run.

    Attributes
    ----------
    chain : Chain
        The run.
    focal : str
        The wall it is centered on.
    center : float
        Where on that wall, from its start in walking order [m].
    start : {"strip", "seam"}
        Whether the middle of a strip or a seam stands there.
    ends : (float, float)
        Widths of the part strips at the focal wall's start and end [m].
    mismatch : Mismatch or None
        None on a run that is not closed.
    columns : tuple of Column
        In the order of the run.
    warnings : tuple of str
        What to look at.
    """

    chain: Chain
    focal: str
    center: float
    start: Start
    ends: tuple[float, float]
    mismatch: Mismatch | None
    columns: tuple[Column, ...]
    warnings: tuple[str, ...]
    working: Working


def set_out(
    chain: Chain,
    roll_width: float,
    practice: Practice,
    *,
    focal: str | None = None,
    center: float | None = None,
    start: Start | None = None,
    mismatch: str | None = None,
    bottom: float = 0.0,
    top: float | None = None,
) -> SettingOut:
    """Set out the strips of a run, centered on its focal wall.

    Parameters
    ----------
    chain : Chain
        The run.
    roll_width : float
        [m].
    practice : Practice
        `walls.sliver`, `walls.corner_wrap`.
    focal : str, optional
        Name of the wall to center on; the longest where not given.
    center : float, optional
        Where on it, from its start in walking order [m]; its middle where not given.
    start : {"strip", "seam"}, optional
        The one that leaves the wider part strips at the wall's ends, where not given.
    mismatch : str, optional
        Corner where the pattern may fail to meet; the least seen place where not given.
    bottom, top : float, optional
        The band that is covered [m].

    Raises
    ------
    InputError
        Where `center` does not lie on the wall, or the wall or corner is not in the run.

    Source: common practice, no source.

    Checked by: tests/walls/test_setting_out.py.
    """
    say = Words(practice)
    working = Working("Setting-out of the strips")
    wall, middle = _centered(chain, focal, center, say, working)
    kind, ends = _first(wall, middle, roll_width, start, say, working)
    origin = wall.start + middle
    forth, back, meet = chain.length - origin, origin, None
    if chain.closed:
        meet = _mismatch(chain, origin, mismatch, bottom, top)
        forth = (meet.at - origin) % chain.length
        back = chain.length - forth
        working.step(
            "where the pattern may fail to meet",
            "the shortest seam, then the farthest from the center" if mismatch is None else "as asked",
            f"{len(chain.faces)} corners, {len(chain.holes)} openings", f"{meet.where}, a seam of {say(meet.seam)}",
            source="common practice, no source",
        )  # fmt: skip
    columns = _columns(origin, forth, back, roll_width, kind)
    wraps = sum(face.inside_end for face in (chain.faces if chain.closed else chain.faces[:-1]))
    working.step(
        "run", "walls + wrap at each inside corner",
        f"{say(chain.walls)} + {wraps} × {say(chain.wrap)}", say(chain.length), source=say.cited("walls.corner_wrap"),
    )  # fmt: skip
    working.step("strips", "both ways from the center to the end", f"{say(back)} and {say(forth)} of {say(roll_width)}",
                 str(len(columns)), rounding="up: a part strip is a strip")  # fmt: skip
    name, least = wall.face.name, practice.length("walls.sliver")
    warnings = tuple(
        f"The part strip in corner {corner} of wall {name} shows {say(width)}; {say(least)} hangs well."
        for corner, width in zip(corners_of(name), ends, strict=True)
        if width < least - 1e-6
    )
    return SettingOut(chain, name, middle, kind, ends, meet, columns, warnings, working)


def _centered(
    chain: Chain, focal: str | None, center: float | None, say: Words, working: Working
) -> tuple[Placed, float]:
    """Return the focal wall where it stands in the run, and the center on it from its start [m]."""
    name = focal or max(chain.faces, key=lambda f: (round(f.length, 6), f.name)).name
    if name not in {face.name for face in chain.faces}:
        raise InputError(f"wall {name} is not papered; the run is {chain.name}", hint="name one of its walls")
    wall = chain.at(name)
    length = wall.face.length
    middle = length / 2 if center is None else center
    if not 0 <= middle <= length:
        raise InputError(f"the center is {say(middle)} along wall {name}; the wall is {say(length)} long")
    formula = "half the wall" if center is None else "as the room looks or the finish says"
    values = f"from corner {corners_of(name)[0]}, of {say(length)}"
    working.step(f"center on wall {name}", formula, values, say(middle))
    return wall, middle


def _first(
    wall: Placed, middle: float, width: float, start: Start | None, say: Words, working: Working
) -> tuple[Start, tuple[float, float]]:
    """Return whether a strip or a seam stands at the center, and the part strips at the wall's ends [m]."""
    low, high = middle, wall.face.length - middle
    strip = _rest(low - width / 2, width), _rest(high - width / 2, width)
    seam = _rest(low, width), _rest(high, width)
    kind: Start = start or ("strip" if min(strip) >= min(seam) - 1e-9 else "seam")
    working.step(
        "a strip or a seam there", "as asked" if start else "the one that leaves the wider part strips at the wall's ends",
        f"strip: {say.pair(*strip)}; seam: {say.pair(*seam)}", kind, source="common practice, no source",
    )  # fmt: skip
    return kind, strip if kind == "strip" else seam


def _rest(length: float, width: float) -> float:
    """Return the part strip left at the end of a length [m]; a whole one where none is left."""
    left = length % width
    return width if left < 1e-6 or width - left < 1e-6 else left


def _columns(origin: float, forth: float, back: float, width: float, kind: Start) -> tuple[Column, ...]:
    """Return the strips from the center both ways [m]."""
    first = origin - width / 2 if kind == "strip" else origin
    low, high = origin - back, origin + forth
    after = max(ceil_steps((high - first) / width), 1 if kind == "strip" else 0)
    before = max(ceil_steps((first - low) / width), 0)
    out = [
        Column(k, max(first + k * width, low), min(first + (k + 1) * width, high))
        for k in range(-before, after)
    ]
    return tuple(c for c in out if c.width > 1e-9)


def _mismatch(chain: Chain, origin: float, corner: str | None, bottom: float, top: float | None) -> Mismatch:
    """Return the place where a mismatch is least seen: the shortest seam, then the farthest from the center."""
    found: list[tuple[float, float, float, str]] = []

    def away(at: float) -> float:
        turn = (at - origin) % chain.length
        return min(turn, chain.length - turn)

    def roof(at: float) -> float:
        ceiling = chain.ceiling(at, at)
        return ceiling if top is None else min(ceiling, top)

    for p in chain.placed:
        name = corners_of(p.face.name)[1]
        at = p.end % chain.length
        if corner is None or corner == name:
            found.append((max(roof(p.end) - bottom, 0.0), -away(at), at, f"in corner {name}"))
    if corner is None:
        for hole, low, high in chain.holes:
            if hole.bottom <= bottom + 1e-6:
                at = (low + high) / 2
                words = f"over {hole.called}"
                found.append((max(roof(at) - hole.top, 0.0), -away(at), at, words))
    if not found:
        raise InputError(f"corner {corner} is not in the run {chain.name}", hint="name one of its corners")
    seam, _, at, words = min(found, key=lambda f: (round(f[0], 4), round(f[1], 4), f[3]))
    return Mismatch(at, words, seam)
