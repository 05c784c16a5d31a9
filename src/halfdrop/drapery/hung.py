"""One treatment worked out: rod, lengths, widths, cuts, weight, brackets, heading."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.drapery.brackets import BracketsAnswer
from halfdrop.drapery.cut_length import Allowances, CutLength
from halfdrop.drapery.lengths import LengthsAnswer
from halfdrop.drapery.lining import LiningAnswer
from halfdrop.drapery.pleats import EyeletsAnswer, PleatsAnswer
from halfdrop.drapery.rod import RodAnswer
from halfdrop.drapery.rod_height import RodHeight
from halfdrop.drapery.run import Run
from halfdrop.drapery.stack import StackAnswer
from halfdrop.drapery.weight import WeightAnswer
from halfdrop.drapery.widths import WidthsAnswer


@dataclass(frozen=True)
class Place:
    """Where the hardware goes.

    Attributes
    ----------
    run : Run
        The openings as one.
    stack : StackAnswer or None
        None for fixed panels.
    rod : RodAnswer
        As given, or as designed where the document leaves it open.
    height : float
        Floor, at the left, to the rod's top [m].
    span : RodHeight
        Where it may be.
    designed : bool
        Whether height or length is ours.
    """

    run: Run
    stack: StackAnswer | None
    rod: RodAnswer
    height: float
    span: RodHeight
    designed: bool


@dataclass(frozen=True)
class Hung:
    """Panels worked out.

    Attributes
    ----------
    path : str
        `rooms/<id>/treatments/<id>`.
    place : Place
        Run, rod, height, stack.
    panels : int
        1 or 2.
    covered : float
        What all panels cover: the rod, or what fixed ones take of it [m].
    fullness : float
        As wanted; the heading says what it comes to.
    overlap, returns : float
        In all [m].
    flat : float
        Flat width of all panels [m].
    widths : WidthsAnswer
        Of the face cloth.
    lengths : LengthsAnswer
        Finished, at each panel's edges.
    allowed : Allowances
        Hem and heading.
    cut : CutLength
        Plain cut.
    lining : LiningAnswer or None
        Where its cloth is named.
    weight : WeightAnswer
        Of all layers.
    brackets : BracketsAnswer
        By span and load.
    sizes : Working
        Fullness to plain cut: the steps that the cloth rests on.
    heading : PleatsAnswer or EyeletsAnswer or None
        One panel's heading; None where a tape gathers it, or where there is no cloth to pleat.
    """

    path: str
    place: Place
    panels: int
    covered: float
    fullness: float
    overlap: float
    returns: float
    flat: float
    widths: WidthsAnswer
    lengths: LengthsAnswer
    allowed: Allowances
    cut: CutLength
    lining: LiningAnswer | None
    weight: WeightAnswer
    brackets: BracketsAnswer
    sizes: Working
    heading: PleatsAnswer | EyeletsAnswer | None

    @property
    def workings(self) -> tuple[Working, ...]:
        """Every working, in the order a workroom and an installer go through them."""
        found = [
            self.place.span.working,
            self.place.rod.working,
            self.sizes,
            self.weight.working,
            self.brackets.working,
        ]
        if self.lining is not None:
            found.append(self.lining.working)
        if self.heading is not None:
            found.append(self.heading.working)
        return tuple(found)
