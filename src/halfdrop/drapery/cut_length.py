"""The plain cut: finished length with heading and hem, before any pattern."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.job.treatments import FabricKind, Heading, LengthStyle
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_TURN, _EASE, _TRIM = "drapery.pocket_turn", "drapery.pocket_ease", "drapery.trim_drop"
_PLEATED = ("pencil", "single pinch", "double pinch", "triple pinch", "goblet", "cartridge", "box")


@dataclass(frozen=True)
class Allowances:
    """Cloth taken by the bottom hem, the heading, and trimming [m], with the practice keys they rest on."""

    hem: float
    heading: float
    trim: float = 0.0
    keys: tuple[str, ...] = ()

    @property
    def total(self) -> float:
        """Together [m]."""
        return self.hem + self.heading + self.trim


@dataclass(frozen=True)
class CutLength:
    """A plain cut [m] and the steps."""

    length: float
    working: Working


def allowances(
    heading: Heading,
    style: LengthStyle,
    practice: Practice,
    *,
    kind: FabricKind = "medium",
    diameter: float = 0.0,
    hem: float | None = None,
    head: float | None = None,
    trim: bool = False,
) -> Allowances:
    """Return what hem and heading take.

    Parameters
    ----------
    heading, style, kind : str
        Heading, where the hem lies, what the cloth is.
    practice : Practice
        Hems, headings, the rod pocket's turn-under and ease.
    diameter : float
        Of the rod in a rod pocket [m]: the pocket takes half round it on each face, and its turn-under.
    hem, head : float, optional
        The treatment's own [m].
    trim : bool
        Whether each drop is trimmed, as UK makers do.

    Source: common practice. Checked by: tests/drapery/test_lengths.py.
    """
    hem_key = "drapery.hem_sheer" if kind in ("sheer", "light") else "drapery.hem_floor"
    if style in ("apron", "sill"):
        hem_key = "drapery.hem_short"
    keys = [] if hem is not None else [hem_key]
    bottom = float(practice.length(hem_key)) if hem is None else hem
    if head is not None:
        top = head
    elif heading == "rod pocket":
        top = diameter + float(practice.length(_TURN)) + float(practice.length(_EASE))
        keys += [_TURN, _EASE]
    else:
        key = (
            "drapery.heading_pleated"
            if heading in _PLEATED and heading != "pencil"
            else "drapery.heading_tape"
        )
        top = float(practice.length(key))
        keys.append(key)
    more = float(practice.length(_TRIM)) if trim else 0.0
    return Allowances(bottom, top, more, (*keys, _TRIM) if trim else tuple(keys))


def cut_length(finished: float, allowed: Allowances, practice: Practice) -> CutLength:
    """Return finished length + heading + hem + trimming.

    Source: common practice. Checked by: tests/published/drapery_cuts.csv.
    """
    say = Words(practice)
    length = finished + allowed.total
    working = Working("Cut length")
    trim = f" + {say(allowed.trim)}" if allowed.trim else ""
    working.step("cut", "finished + heading + hem" + (" + trimming" if trim else ""),
                 f"{say(finished)} + {say(allowed.heading)} + {say(allowed.hem)}{trim}", say(length),
                 source=say.cited(*allowed.keys) if allowed.keys else "the treatment's own hems")  # fmt: skip
    return CutLength(length, working)
