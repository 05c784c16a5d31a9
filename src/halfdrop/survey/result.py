"""What an adjusted survey says. Everything above this layer reads these names."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.base.working import Working
from halfdrop.survey.height import HeightResult
from halfdrop.survey.network import Floats
from halfdrop.survey.traverse import Closure

Verdict = Literal["closed", "unchecked", "blunder located", "blunder detected"]
MeasureKind = Literal["wall", "tie", "angle", "square"]


@dataclass(frozen=True)
class ObservationResult:
    """One measure after the adjustment. Lengths in [m], angles in [rad].

    Attributes
    ----------
    id : str
        Its place in the survey: `walls/AB`, `ties/AC`, `angles/B`, `square/C`.
    kind : "wall", "tie", "angle" or "square"
        What it is.
    measured, adjusted : float
        As taped, and as adjusted.
    v : float
        The residual: adjusted minus measured.
    sigma : float
        Its standard error, a priori.
    r : float
        Its redundancy number; 0 where nothing checks it, and where it was set aside.
    w : float
        Baarda's statistic; 0 where nothing checks it. Of a measure set aside: against all that were kept.
    mdb : float or None
        The least error in it that the test would find; None where no error would show.
    used : bool
        False where it was set aside as a located blunder.
    """

    id: str
    kind: MeasureKind
    measured: float
    adjusted: float
    v: float
    sigma: float
    r: float
    w: float
    mdb: float | None
    used: bool = True


@dataclass(frozen=True)
class Suspect:
    """A measure that may be the blunder.

    Attributes
    ----------
    id : str
        Which.
    error : float
        By how much it would be wrong: measured minus true [m, rad].
    w : float
        Its test statistic, with the sign of the residual.
    """

    id: str
    error: float
    w: float


@dataclass(frozen=True)
class ExpectedReading:
    """What the extra measure reads if `suspect` is the blunder: `length` and its `sigma` [m]."""

    suspect: str
    length: float
    sigma: float


@dataclass(frozen=True)
class ExtraMeasure:
    """The one more measure that helps most.

    Attributes
    ----------
    pair : str
        From corner to corner: `BD`.
    repeat : bool
        Whether that span was taped before.
    purpose : "locate" or "check"
        To tell which suspect is the blunder; or, where nothing is redundant, to check the most measures.
    chance : float
        Chance that it locates the blunder (locate), or the share of the measures that it checks (check).
    separation : float
        The least distance between two suspects' tests after it [standard errors] (locate); the least
        redundancy that it brings to a measure it checks (check).
    readings : tuple of ExpectedReading
        What it should read, suspect by suspect; empty for a check.
    words : str
        What to tape and what the reading means.
    """

    pair: str
    repeat: bool
    purpose: Literal["locate", "check"]
    chance: float
    separation: float
    readings: tuple[ExpectedReading, ...]
    words: str


@dataclass(frozen=True)
class SurveyResult:
    """An adjusted survey.

    Attributes
    ----------
    corners : tuple of str
        In walking order.
    xy : array, shape (n, 2)
        The corners on the plan, seen from above, y up [m]. The first corner is (0, 0), the first wall lies on
        the x axis, the room at y > 0 next to it: a counterclockwise survey runs along +x, a clockwise one
        along -x.
    covariance : array, shape (2n, 2n)
        Of x and y of each corner in turn, from the standard errors a priori [m²].
    observations : tuple of ObservationResult
        Every measure, those set aside too.
    freedom : int
        Measures used less unknowns; the sum of their redundancy numbers.
    s0 : float
        Standard error of unit weight; 0 where nothing is redundant.
    chi_square, chi_limit : float
        The weighted square sum of the residuals, and the largest that passes.
    verdict : str
        "closed": the measures agree. "unchecked": nothing checks anything. "blunder located": a measure was
        set aside and the rest agree. "blunder detected": something is wrong, the measures cannot say which.
    suspects : tuple of Suspect
        The located blunders, or everything that alone could be the blunder.
    excluded : tuple of str
        Measures set aside as located blunders; the adjustment is done without them.
    extra : ExtraMeasure or None
        The one more measure to take.
    heights : HeightResult
        Ceiling heights, floor level, plumb of the walls.
    closure : Closure or None
        The walls alone as a loop with the stated angles, where every wall is taped and its angles are known.
    misclosure : str
        How the survey closes, in words.
    working : Working
        The steps.
    round : str
        "clockwise" or "counterclockwise", as walked.
    """

    corners: tuple[str, ...]
    xy: Floats
    covariance: Floats
    observations: tuple[ObservationResult, ...]
    freedom: int
    s0: float
    chi_square: float
    chi_limit: float
    verdict: Verdict
    suspects: tuple[Suspect, ...]
    excluded: tuple[str, ...]
    extra: ExtraMeasure | None
    heights: HeightResult
    closure: Closure | None
    misclosure: str
    working: Working
    round: str
