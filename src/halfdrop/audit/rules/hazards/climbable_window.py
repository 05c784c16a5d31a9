"""Nothing that a child can climb stands under a window with a low sill.

Why: A child climbs what stands under a window and falls out of it; a screen in the sash holds no one.
Source: practice values hazards.window_fall_sill (IRC R312.2, from memory; the local code decides),
    hazards.climb_height and hazards.window_climb_gap (our choice, no source).
Fails: a bed, a crib, a seat, or a piece lower than climb_height stands nearer to the wall than
    window_climb_gap before a window that opens and has its sill lower than window_fall_sill, while a child
    lives here or the job does not say who does. How high the window is above the ground outside is not known
    to the job: the message asks for it.
Passes exactly: at the gap; with the sill at the value; with a piece at climb_height.
Silent: where the job lists people and none is a child (a visiting child is for a person to think of); for
    fixed sashes; for pieces that stand on other pieces.
Caution: the local code says where a guard or a limiter is wanted, and a limiter must still let one out in a
    fire; a licensed person fits it.
"""

from __future__ import annotations

from collections.abc import Iterator

from shapely.geometry import LineString

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import clearing_moves, removed
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least
from halfdrop.geometry.plane import closest
from halfdrop.room import StandingPiece, WallOpening
from halfdrop.room.things import BEDS, LIGHT_SEATING, SEATING

GRADE = Grade.HAZARD
PRACTICE = ("hazards.window_fall_sill", "hazards.climb_height", "hazards.window_climb_gap")
CAUTION = (
    "Where the ground outside lies deep, the local code asks for a guard or a limiter that still lets one "
    "out in a "
    "fire; a licensed person fits it."
)
_CLIMBED = BEDS | SEATING | LIGHT_SEATING | {"dining chair", "desk chair"}


def _climbable(case: RoomCase, piece: StandingPiece) -> bool:
    return piece.type in _CLIMBED or not at_least(piece.height, case.length("hazards.climb_height"))


def _sill_line(window: WallOpening) -> LineString:
    return LineString((window.start, window.end))


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each climbable piece under each low window."""
    people = case.job.people.values()
    if people and all(person.age != "child" for person in people):
        return
    who = "" if people else " The job does not say whether a child lives here; it counts as if one did."
    gap_wanted, low = case.length("hazards.window_climb_gap"), case.length("hazards.window_fall_sill")
    for window in case.room.openings.values():
        sill = float(window.model.sill or 0.0)
        if window.model.kind != "window" or window.model.sash == "fixed" or at_least(sill, low):
            continue
        for piece in case.room.floor_pieces.values():
            p, q, gap = closest(piece.footprint, _sill_line(window))
            if not _climbable(case, piece) or at_least(gap, gap_wanted):
                continue
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (piece, window),
                f"The {piece.name} stands {case.say(gap)} from the {window.name}, whose sill is "
                f"{case.say(sill)} above "
                f"the floor; {case.say(gap_wanted, 'up')} is wanted, so that no child climbs to it. Check "
                "how deep the "
                f"ground lies outside.{who}",
                measured=gap,
                wanted=gap_wanted,
                sigma=case.room.sigma(piece, window, p, q),
                practice="hazards.window_climb_gap",
                anchor=p,
                marks=((p, q),),
                caution=CAUTION,
            )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the piece away from the window, or take it out of the room."""
    piece = case.room.pieces[finding.subjects[0].split("/")[-1]]
    window = case.room.openings[finding.subjects[1].split("/")[-1]]
    for by, patch in clearing_moves(case, piece, _sill_line(window), case.length("hazards.window_climb_gap")):
        title = f"Move the {piece.name} {case.say(by, 'up')} away from the {window.name}."
        yield Proposal("move", title, patch)
    if not piece.model.keep:
        yield Proposal("remove", f"Take the {piece.name} out of the room.", removed(piece))
