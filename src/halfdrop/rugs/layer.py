"""Layering: a rug that is kept, laid over a larger plain base of natural fiber that does what it cannot."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.rugs.box import Box, lay
from halfdrop.rugs.sizes import Laid, made_sizes

_SHARES = ("rugs.layer_share_min", "rugs.layer_share_max")
_MARGINS = ("rugs.layer_margin_min", "rugs.layer_margin_max")


@dataclass(frozen=True)
class LayerAnswer:
    """The base rug for a kept one.

    Attributes
    ----------
    base : Laid or None
        The made size and which way round it lies; None where none does it.
    lies : Box or None
        Where the base lies, in the caller's frame [m].
    top : Box or None
        Where the kept rug lies: in the middle of the base [m].
    share : float or None
        Area of the kept rug over the base's.
    margins : (float, float) or None
        Base showing at the sides (along x) and at the ends (along y) [m].
    limited : tuple of str
        Why each made size that is larger than the kept rug does not do, where none does.
    working : Working
        The steps.
    """

    base: Laid | None
    lies: Box | None
    top: Box | None
    share: float | None
    margins: tuple[float, float] | None
    limited: tuple[str, ...]
    working: Working


def layer_base(
    top: Box,
    practice: Practice,
    *,
    needed: Box | None = None,
    room: Box | None = None,
    movable: bool = True,
    shape: str = "rectangle",
) -> LayerAnswer:
    """Return the base rug to lay under a kept rug.

    Parameters
    ----------
    top : Box
        The kept rug as it lies (for a round one its box), square to the base's frame [m].
    practice : Practice
        `rugs.layer_share_min`, `_max`, `rugs.layer_margin_min`, `_max`, made sizes.
    needed : Box, optional
        What the base has to cover: the `wanted` of a `RugAnswer` [m].
    room : Box, optional
        Where the base may lie: the floor less its bare border [m].
    movable : bool
        Whether the kept rug may move with the base; if not, the base lies centered under it as it is.
    shape : {"rectangle", "round", "oval"}
        The kept rug's.

    Returns
    -------
    LayerAnswer
        Of the bases that do, the one whose margins are evenest all round, then the smallest.

    Source: common practice: the top 1/2 to 2/3 of the base, 10 to 24 in of it showing.

    Checked by: tests/rugs/test_layer.py.
    """
    working = Working("Base rug under the kept rug")
    say = Words(practice)
    top_area = top.area * (1.0 if shape == "rectangle" else pi / 4)
    low, high = (practice.length(k) for k in _MARGINS)
    working.step("sides of the base", "kept rug + 2 × margin",
                 f"{say.pair(top.across, top.along)} + 2 × {say(low)} to {say(high)}",
                 f"{say.pair(top.across + 2 * low, top.along + 2 * low)} to "
                 f"{say.pair(top.across + 2 * high, top.along + 2 * high)}",
                 source=say.cited(*_MARGINS))  # fmt: skip
    choices: list[tuple[float, float, Laid, Box, float]] = []
    refused: list[str] = []
    for laid in _bases(top, top_area, practice):
        share = top_area / laid.size.area
        place, why = _place(laid, top, needed, room, movable, say)
        why = _why_share(share, practice) or _why_margins(laid, top, say) or why
        name = f"{laid.size.name(say.units)} lying {say.pair(laid.across, laid.along)}"
        working.step(f"base {name}", "kept area ÷ base area; (base − kept) ÷ 2",
                     f"{say.area(top_area)} ÷ {say.area(laid.size.area)}; {_said_margins(laid, top, say)}",
                     why or f"does: share {share:.2f}", source=say.cited(*_SHARES))  # fmt: skip
        if why or place is None:
            refused.append(f"{name}: {why}")
        else:
            side, end = _margins(laid, top)
            choices.append((abs(side - end), laid.size.area, laid, place, share))
    if not choices:
        none = () if refused else ("no made size is larger than the kept rug on all sides",)
        return LayerAnswer(None, None, None, None, None, (*refused, *none), working)
    _, _, best, lies, share = min(choices, key=lambda c: (round(c[0], 4), round(c[1], 6)))
    chosen = f"{best.size.name(say.units)}, plain, natural fiber; {_said_margins(best, top, say)}"
    working.step("base chosen", "evenest margins, then the smallest", f"{len(choices)} that do", chosen)
    return LayerAnswer(
        best, lies, Box.sized(top.across, top.along, lies.center), share, _margins(best, top), (), working
    )


def _bases(top: Box, top_area: float, practice: Practice) -> list[Laid]:
    """Return the made rectangles, both ways round, that show on all sides of the kept rug.

    The first that is too large for it is the last: all after it are larger still.
    """
    least = practice.number(_SHARES[0]) - 1e-9
    ways: list[Laid] = []
    for size in made_sizes(practice):
        turns = ((size.width, size.length), (size.length, size.width))
        ways += [Laid(size, a, b) for a, b in dict.fromkeys(turns) if a > top.across and b > top.along]
        if ways and top_area / size.area < least:
            break
    return ways


def _margins(laid: Laid, top: Box) -> tuple[float, float]:
    return (laid.across - top.across) / 2, (laid.along - top.along) / 2


def _said_margins(laid: Laid, top: Box, say: Words) -> str:
    side, end = _margins(laid, top)
    return f"{say(side)} at the sides and {say(end)} at the ends"


def _why_share(share: float, practice: Practice) -> str:
    """Return why the kept rug's share of the base does not do; empty where it does."""
    least, most = (practice.number(k) for k in _SHARES)
    if share < least - 1e-9:
        return f"the kept rug is {share:.2f} of it, wanted at least {least:g}"
    return f"the kept rug is {share:.2f} of it, wanted at most {most:g}" if share > most + 1e-9 else ""


def _why_margins(laid: Laid, top: Box, say: Words) -> str:
    """Return why the visible margins do not do; empty where they do."""
    practice = say.practice
    least, most = (practice.length(k) for k in _MARGINS)
    for where, margin in zip(("sides", "ends"), _margins(laid, top), strict=True):
        if margin < least - 1e-6:
            return f"{say(margin)} shows at the {where}, wanted at least {say(least)}"
        if margin > most + 1e-6:
            return f"{say(margin)} shows at the {where}, wanted at most {say(most)}"
    return ""


def _place(
    laid: Laid, top: Box, needed: Box | None, room: Box | None, movable: bool, say: Words
) -> tuple[Box | None, str]:
    """Return where the base lies, or why it cannot."""
    asked = needed or top
    if movable:
        place = lay(asked, laid.across, laid.along, room, top.center if needed is None else None)
        return place, "" if place else "it does not cover what is wanted where the room lets it lie"
    place = Box.sized(laid.across, laid.along, top.center)
    if not place.covers(asked):
        return (
            None,
            f"centered under the kept rug it does not cover {say.pair(asked.across, asked.along)}",
        )
    if room is not None and not room.covers(place):
        return None, "centered under the kept rug it runs into the bare floor"
    return place, ""
