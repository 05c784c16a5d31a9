"""What a work hangs from carries it.

Why: A hook that carries half of what pulls on it lets go one day, with glass; the figure on a packet is not what it may carry
    for years.
Source: practice values art.factor_printed and art.factor_ultimate (what is known of the fixing), art.plug_board,
    art.anchor_threaded, art.anchor_hollow, art.toggle, art.screw_stud and art.plug_masonry_6 (where no load is written down).
Fails: what its fixings as found may carry ÷ what pulls on one hook is less than 1. Over a bed, a seat or a crib each fixing has
    to carry the whole.
Passes exactly: at 1.
Silent: where no fixing is written down, or nothing is known of its load: a nail, an adhesive strip, a picture rail without a
    figure. Where the work was not weighed, the most that practice knows for its size is taken.
Caution: loads are for a sound wall; the maker's figure goes before, and where the wall is doubtful a builder looks at it. Look for
    cables and pipes before drilling.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.art.cautions import OVER_PEOPLE
from halfdrop.art.fixings import fixings_for, working_load
from halfdrop.art.wall_face import Unit
from halfdrop.art.way import WALLS, back_of, mass_of, way_of
from halfdrop.art.work import Work
from halfdrop.audit.art_case import units_hung
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rehang import swaps, unit_of
from halfdrop.audit.rule import rule_id
from halfdrop.base.errors import InputError
from halfdrop.base.formats import format_mass
from halfdrop.base.tolerance import at_least
from halfdrop.base.working import Working
from halfdrop.room import HungArt

GRADE = Grade.HAZARD
PRACTICE = (
    "art.factor_printed", "art.factor_ultimate", "art.plug_board", "art.anchor_threaded", "art.anchor_hollow", "art.toggle",
    "art.screw_stud", "art.plug_masonry_6",
)  # fmt: skip

#: The load of a fixing by its kind, where none is written down; a masonry plug is taken for the smaller.
_KINDS = {
    "plug": "art.plug_board", "threaded anchor": "art.anchor_threaded", "hollow-wall anchor": "art.anchor_hollow",
    "toggle": "art.toggle", "stud screw": "art.screw_stud", "masonry plug": "art.plug_masonry_6",
}  # fmt: skip
#: What a remedy writes down, by the name of the fixing.
_WRITTEN = {
    "plastic plug": "plug", "self-drilling threaded anchor": "threaded anchor", "expanding hollow-wall anchor": "hollow-wall anchor",
    "toggle bolt": "toggle", "wood screw in the stud": "stud screw", "6 mm plug and screw": "masonry plug",
    "8 mm plug and screw": "masonry plug",
}  # fmt: skip
CAUTION = (
    "Loads are for a sound wall; the maker's figure goes before, and where the wall is doubtful a builder looks at it. Look for "
    "cables and pipes before drilling; local codes and licensed practice go first."
)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each work whose fixings are too weak."""
    for _, unit in units_hung(case):
        for work in unit.works:
            may = _may_carry(case, work)
            if may is None:
                continue
            load = _pull(case, work, unit)
            share = may / load
            if at_least(share, 1.0, 1e-6):
                continue
            fixings = work.model.fixings
            assert fixings is not None
            known = work.model.mass is not None
            mass = format_mass(mass_of(work.model, case.practice).mass, case.units)
            each = "each of its fixings" if fixings.count > 1 else f"its {fixings.kind}"
            whole = (
                ", taken to hold it all since people are under it" if unit.below_kind in OVER_PEOPLE else ""
            )
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (work,),
                f"The {work.name} weighs {mass}{'' if known else ' at the most by its size'} and pulls with "
                f"{format_mass(load, case.units)} on one hook{whole}; {each} may carry {format_mass(may, case.units, round_to='down')} "
                f"with the margin wanted, {share:.0%} of that. It can come down.",
                measured=share,
                wanted=1.0,
                quantity="ratio",
                practice=_key(fixings.rating if fixings.rated is not None else None, fixings.kind),
                caution=CAUTION,
            )


def _key(rating: str | None, kind: str) -> str | None:
    if rating is None:
        return _KINDS[kind]
    return {"printed": "art.factor_printed", "ultimate": "art.factor_ultimate"}.get(rating)


def _may_carry(case: RoomCase, work: HungArt) -> float | None:
    """Return what one of its fixings may carry [kg]; None where nothing is known of it."""
    fixings = work.model.fixings
    if fixings is None or (fixings.rated is None and fixings.kind not in _KINDS):
        return None
    if fixings.rated is not None:
        return (
            working_load(float(fixings.rated), fixings.rating, case.practice)
            if float(fixings.rated) > 0
            else 0.0
        )
    return float(case.practice.mass(_KINDS[fixings.kind]))


def _pull(case: RoomCase, work: HungArt, unit: Unit) -> float:
    """Return what pulls on one hook [kg]."""
    fixings, mass = work.model.fixings, mass_of(work.model, case.practice).mass
    if unit.below_kind in OVER_PEOPLE or fixings is None:
        return mass
    try:
        way = way_of(Work(work.id, work.width, work.height), back_of(work.model), mass, case.practice)
    except InputError:
        way = None
    if way is None or len(way.offsets) != fixings.count:
        return mass / fixings.count
    return mass * way.pull


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Put a fixing in that holds, or two of it; or let a lighter work hang there."""
    _, unit = unit_of(case, finding)
    work = next(w for w in unit.works if w.path == finding.subjects[0])
    mass, wall = mass_of(work.model, case.practice).mass, WALLS[case.room.model.wall_build]
    for count in (1, 2):
        over = unit.below_kind in OVER_PEOPLE
        answer = fixings_for(mass, wall, case.practice, pull=1.0 / count, over_people=over)
        for fixing in answer.all:
            if not fixing.holds:
                continue
            kind = _WRITTEN.get(fixing.name, "picture hook")
            value: dict[str, object] = {"kind": kind, "count": count}
            if kind == "picture hook":
                value |= {"rated": case.practice.mass(fixing.key).text, "rating": "printed"}
            elif fixing.key == "art.plug_masonry_8":
                value |= {"rated": case.practice.mass(fixing.key).text, "rating": "working"}
            patch = [{"op": "replace", "path": f"/{work.path}/fixings", "value": value}]
            one = f"{'an' if fixing.name[0] in 'aeiou' else 'a'} {fixing.name}"
            many = f"{count} fixings, each {one}" if count > 1 else one
            bought = f"{fixing.name}, for the {work.name}" + (f", {count}" if count > 1 else "")
            kind_said = "fix" if count == 1 else "fix twice"
            yield Proposal(kind_said, f"Hang the {work.name} from {many}.", patch, None, (bought,))
    may = _may_carry(case, work) or 0.0
    yield from swaps(case, unit, lambda other: mass_of(other.model, case.practice).mass <= may)


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Show what it weighs and what each fixing for that wall may carry."""
    _, unit = unit_of(case, finding)
    work = next(w for w in unit.works if w.path == finding.subjects[0])
    found = mass_of(work.model, case.practice)
    yield found.working
    yield fixings_for(
        found.mass,
        WALLS[case.room.model.wall_build],
        case.practice,
        over_people=unit.below_kind in OVER_PEOPLE,
    ).working
