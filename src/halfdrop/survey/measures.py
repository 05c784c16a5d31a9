"""A room's survey as the observations of a network, with the standard errors that apply."""

from __future__ import annotations

import math
from dataclasses import dataclass

from halfdrop.base.formats import Units
from halfdrop.base.units import Length
from halfdrop.job.model import AngleMeasure, Measure, Survey, corners_of
from halfdrop.practice import Practice
from halfdrop.survey.network import Network, Observation
from halfdrop.survey.result import MeasureKind
from halfdrop.survey.snooping import BlunderTest

#: Standard errors where no practice is given: one taped length [m], one measured corner, one corner assumed
#: square [rad]. Common practice and our choice, no source.
TAPE_SIGMA = 0.003
ANGLE_SIGMA = math.radians(0.5)
SQUARE_SIGMA = math.radians(1.5)

#: The largest misclosure of ordinary work, as a share of the perimeter (common practice, no source).
ORDINARY = 0.002

_IMPERIAL = ("'", '"', "′", "″", "ft", "in")


@dataclass(frozen=True)
class Levels:
    """The standard errors and test levels of one survey, and where they come from."""

    tape: float
    angle: float
    square: float
    test: BlunderTest
    ratio: float
    source: str

    @classmethod
    def of(cls, survey: Survey, practice: Practice | None) -> Levels:
        """Take each value from the survey's own tape, else from the practice, else the module's default."""
        tape, angle, square, test = TAPE_SIGMA, ANGLE_SIGMA, SQUARE_SIGMA, BlunderTest()
        ratio = ORDINARY
        source = "common practice, no source"
        if practice is not None:
            tape = float(practice.length("survey.tape_sigma"))
            angle = float(practice.angle("survey.angle_sigma"))
            square = float(practice.angle("survey.square_sigma"))
            test = BlunderTest(practice.number("survey.alpha"), practice.number("survey.power"))
            ratio = practice.number("survey.misclosure_ratio")
            source = practice["survey.tape_sigma"].source
        own = survey.tape
        if own.sigma is not None:
            tape, source = float(own.sigma), "the survey's own tape"
        if own.angle_sigma is not None:
            angle = float(own.angle_sigma)
        if own.square_sigma is not None:
            square = float(own.square_sigma)
        return cls(tape, angle, square, test, ratio, source)


def network_of(survey: Survey, levels: Levels) -> Network:
    """Return the network of a survey, its corners counted in walking order as if walked counterclockwise.

    Walls first, then ties, measured angles, and corners assumed square.
    """
    order = survey.corners
    place = {corner: k for k, corner in enumerate(order)}
    count = len(order)
    out: list[Observation] = []
    for where, lengths in (("walls", survey.walls), ("ties", survey.ties)):
        for pair, taped in lengths.items():
            first, second = corners_of(pair)
            length, sigma = (taped.length, taped.sigma) if isinstance(taped, Measure) else (taped, None)
            error = float(sigma) if sigma is not None else levels.tape
            out.append(
                Observation(
                    f"{where}/{pair}", "distance", (place[first], place[second]), float(length), error
                )
            )
    for corner, given in survey.angles.items():
        angle, own = (given.angle, given.sigma) if isinstance(given, AngleMeasure) else (given, None)
        error = float(own) if own is not None else levels.angle
        out.append(
            Observation(f"angles/{corner}", "angle", _around(place[corner], count), float(angle), error)
        )
    for corner, assumed in survey.square.items():
        if assumed:
            points = _around(place[corner], count)
            out.append(Observation(f"square/{corner}", "square", points, math.pi / 2, levels.square))
    return Network(count, out)


def _around(k: int, count: int) -> tuple[int, int, int]:
    return ((k - 1) % count, k, (k + 1) % count)


def pair_name(survey: Survey, i: int, j: int) -> str:
    """Return two corners as a pair, the first walked first: `AC`."""
    return survey.corners[min(i, j)] + survey.corners[max(i, j)]


def wall_name(survey: Survey, k: int) -> str:
    """Return the wall that runs from corner k to the next: `DA`."""
    return survey.corners[k] + survey.corners[(k + 1) % len(survey.corners)]


def kind_of(observation: Observation) -> MeasureKind:
    """Return what a person calls an observation."""
    if observation.kind == "distance":
        return "wall" if observation.id.startswith("walls/") else "tie"
    return "angle" if observation.kind == "angle" else "square"


def units_of(survey: Survey) -> Units:
    """Return the units a survey was taped in: those of its first wall as typed."""
    for taped in survey.walls.values():
        length: Length = taped.length if isinstance(taped, Measure) else taped
        return "imperial" if any(mark in length.text for mark in _IMPERIAL) else "metric"
    return "metric"
