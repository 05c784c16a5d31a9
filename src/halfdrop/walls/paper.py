"""Paper for a room, and for a job: set out, cut, laid on rolls, and checked against the two rough methods."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from halfdrop.base.errors import At, InputError
from halfdrop.base.working import Working
from halfdrop.job.finishes import Batch, Finish, Paper
from halfdrop.job.part import corners_of
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.walls.area_method import AreaMethodAnswer, area_method
from halfdrop.walls.chain import chains_of
from halfdrop.walls.cut_length import ceil_steps
from halfdrop.walls.cuts import Cut, cuts_of
from halfdrop.walls.faces import Face, chosen
from halfdrop.walls.rolls import RollPlan, plan_rolls
from halfdrop.walls.setting_out import SettingOut, set_out
from halfdrop.walls.strip_method import StripAnswer, strip_method
from halfdrop.walls.wall_areas import wall_areas

_MADE = {
    "EN 233": "walls.roll_en_233",
    "US 20.5 in": "walls.roll_us_20",
    "US 27 in": "walls.roll_us_27",
}
#: A US single roll, 28.2 sq ft [m²]: what the area method's yields are of.
_SINGLE = 28.2 * 0.3048**2


@dataclass(frozen=True)
class PaperRoom:
    """One finish in paper.

    Attributes
    ----------
    path : str
        Of the finish in the document.
    runs : tuple of SettingOut
        Each run of walls, set out.
    cuts : tuple of Cut
        Every length it wants, ids led by the finish's path.
    strip, area : StripAnswer, AreaMethodAnswer
        The same walls by the two rough methods.
    workings : tuple of Working
        Setting-out of each run, and the two methods.
    """

    path: str
    runs: tuple[SettingOut, ...]
    cuts: tuple[Cut, ...]
    strip: StripAnswer
    area: AreaMethodAnswer
    workings: tuple[Working, ...]


@dataclass(frozen=True)
class PaperAnswer:
    """One paper over the whole job.

    Attributes
    ----------
    rooms : tuple of PaperRoom
        Where it hangs.
    plan : RollPlan
        Every length on its roll.
    spare, rolls : int
        Rolls for mending, and rolls to buy, spare and sale unit counted.
    batch : Batch or None
        The batch at hand that has enough; None where a new one is ordered.
    notes : tuple of str
        What to know before it is ordered.
    """

    rooms: tuple[PaperRoom, ...]
    plan: RollPlan
    spare: int
    rolls: int
    batch: Batch | None
    notes: tuple[str, ...]
    working: Working


def roll_of(paper: Paper, practice: Practice) -> tuple[float, float]:
    """Return width and length of a paper's roll [m]: its own, else the made roll's."""
    width, length = practice.size_list(_MADE[paper.roll])[0] if paper.roll else (paper.width, paper.length)
    return float(cast(float, paper.width or width)), float(cast(float, paper.length or length))


def paper_room(
    path: str,
    finish: Finish,
    paper: Paper,
    faces: Sequence[Face],
    practice: Practice,
    *,
    focal: str | None = None,
    center: float | None = None,
) -> PaperRoom:
    """Set out and cut the paper of one finish.

    Parameters
    ----------
    path, finish, paper
        The finish, where it is, and its paper.
    faces : sequence of Face
        All walls of the room, from `faces_of`.
    practice : Practice
        `walls.trim_each_end`, `walls.corner_wrap` and what the methods read.
    focal : str, optional
        Wall to center on where the finish names none.
    center : float, optional
        Where on `focal`, from its start in walking order [m].

    Checked by: tests/walls/test_paper.py.
    """
    covered = chosen(faces, finish.walls)
    width, length = roll_of(paper, practice)
    repeat, trim = float(paper.repeat or 0.0), float(practice.length("walls.trim_each_end"))
    bottom = float(finish.bottom or 0.0)
    top = float(finish.top) if finish.top is not None else None
    if finish.focal is not None:
        focal, center = _focal(finish, faces)
    chains = chains_of(faces, covered, float(practice.length("walls.corner_wrap")))
    names = {face.name for face in covered}
    if finish.focal is not None and focal not in names:
        raise InputError(
            f"the focal wall {finish.focal} is not among the walls papered",
            at=At(path=f"{path}/focal"), hint="name it under `walls` too",
        )  # fmt: skip
    runs, cuts = [], []
    for chain in chains:
        here = focal in {face.name for face in chain.faces}
        run = set_out(
            chain, width, practice, focal=focal if here else None, center=center if here else None,
            start=finish.set_out, mismatch=finish.mismatch, bottom=bottom, top=top,
        )  # fmt: skip
        runs.append(run)
        found = cuts_of(run, match=paper.match, repeat=repeat, trim=trim, bottom=bottom, top=top)
        cuts += [Cut(**{**vars(cut), "id": f"{path}/{cut.id}"}) for cut in found]
    walls = sum(face.length for face in covered)
    high = max(face.highest for face in covered)
    high = max((high if top is None else min(high, top)) - bottom, 0.0)
    strips = strip_method(
        walls, high, (width, length), practice, match=paper.match, repeat=repeat, trim=2 * trim
    )
    openings = wall_areas(covered, practice, bottom=bottom, top=top)
    by_area = area_method(
        walls, high, practice, deduct=openings.gross - openings.net, repeat=repeat,
        singles_per_roll=max(round(width * length / _SINGLE), 1),
    )  # fmt: skip
    workings = (*(run.working for run in runs), strips.working, openings.working, by_area.working)
    return PaperRoom(path, tuple(runs), tuple(cuts), strips, by_area, workings)


def _focal(finish: Finish, faces: Sequence[Face]) -> tuple[str, float | None]:
    """Return a finish's focal wall by its name in walking order, and its center from the wall's start [m]."""
    pair = cast(str, finish.focal)
    face = next(f for f in faces if set(corners_of(f.name)) == set(corners_of(pair)))
    if finish.center is None:
        return face.name, None
    along = float(finish.center)
    return face.name, along if face.name == pair else face.length - along


def paper_job(paper: Paper, rooms: Sequence[PaperRoom], practice: Practice) -> PaperAnswer:
    """Lay every length of one paper on rolls and say what to buy.

    Parameters
    ----------
    paper : Paper
    rooms : sequence of PaperRoom
        Every finish in this paper.
    practice : Practice
        `walls.roll_start`, `walls.spare_rolls`, `walls.roll_tolerance`.

    Source: common practice, no source: one batch for all, a spare roll, whole sale units.

    Checked by: tests/walls/test_paper.py.
    """
    say = Words(practice)
    width, length = roll_of(paper, practice)
    repeat = float(paper.repeat or 0.0)
    cuts = [cut for room in rooms for cut in room.cuts]
    aligned = practice.text("walls.roll_start") == "aligned"
    plan = plan_rolls(cuts, length, repeat=repeat, aligned=aligned)
    working = Working("Rolls")
    whole = sum(cut.where == "whole" for cut in cuts)
    working.step(
        "lengths", "whole strips + short ones at openings", f"{whole} + {len(cuts) - whole}", str(len(cuts))
    )
    working.step(
        "rolls used", "every length laid on a roll in phase", f"rolls of {say(length)}, {say(plan.held_back)} held back each",
        f"{plan.count}, no plan takes fewer than {plan.bound}", rounding="lengths up, rolls down",
        source=say.cited("walls.roll_start"),
    )  # fmt: skip
    spare = practice.count("walls.spare_rolls") if plan.count else 0
    wanted = plan.count + spare
    rolls = -(-wanted // paper.sold_in) * paper.sold_in
    working.step(
        "rolls to buy", "used + spare, up to the sale unit", f"{plan.count} + {spare}, sold in {paper.sold_in}", str(rolls),
        rounding="up to whole sale units", source=say.cited("walls.spare_rolls"),
    )  # fmt: skip
    batch, batch_note = batch_for(plan.count, rolls, paper.batches)
    over = rolls - plan.count
    hang = f"{plan.count} roll{'s' if plan.count != 1 else ''} hang{'' if plan.count != 1 else 's'}"
    kept = f"{hang}; {over} {'is' if over == 1 else 'are'} kept for mending." if plan.count and over else ""
    notes = [
        kept,
        batch_note,
        *_compared(rooms, plan),
        *_tolerance(cuts, plan, length, repeat, aligned, practice),
    ]
    notes += _narrow(rooms, width, practice.number("walls.roll_tolerance"))
    notes += [warning for room in rooms for run in room.runs for warning in run.warnings]
    return PaperAnswer(
        tuple(rooms), plan, spare, rolls, batch, tuple(n for n in notes if n), working
    )  # fmt: skip


def batch_for(used: int, bought: int, batches: Mapping[str, Batch]) -> tuple[Batch | None, str]:
    """Return the batch to take, and what to know about batches.

    The smallest that has all the rolls bought, spare and all; else the largest that has those used. Rolls of two
    batches differ in color, so a batch that is short of the rolls used is no help.

    Parameters
    ----------
    used, bought : int
        Rolls that hang, and rolls with the spare.
    batches : mapping
        What is at hand, by id.
    """
    if not used:
        return None, ""
    ordered = [batch for _, batch in sorted(batches.items())]
    whole = [batch for batch in ordered if batch.rolls >= bought]
    if whole:
        best = min(whole, key=lambda b: b.rolls)
        return best, f"Batch {best.number} has {best.rolls} rolls; {bought} are taken, all of one batch."
    enough = [batch for batch in ordered if batch.rolls >= used]
    if enough:
        best = max(enough, key=lambda b: b.rolls)
        short = bought - best.rolls
        return (
            best,
            f"Batch {best.number} has {best.rolls} rolls, all {used} that hang; it is {short} short for the spare.",
        )
    if ordered:
        held = ", ".join(f"{b.number}: {b.rolls}" for b in ordered)
        return (
            None,
            f"No batch at hand has {used} rolls ({held}). Order all of one batch; batches differ in color.",
        )
    return None, "All rolls come from one batch; check the number on each before it is cut."


def _compared(rooms: Sequence[PaperRoom], plan: RollPlan) -> list[str]:
    """Say where a rough method differs from the plan."""
    strip = sum(room.strip.rolls for room in rooms)
    area = sum(room.area.rolls for room in rooms)
    notes = []
    for name, count in (("strip formula", strip), ("area method", area)):
        if count < plan.count:
            notes.append(
                f"The {name} gives {count} rolls and runs {plan.count - count} short of the plan's {plan.count}."
            )
        elif count > plan.count:
            notes.append(
                f"The {name} gives {count} rolls, {count - plan.count} more than the plan's {plan.count}."
            )
    return notes


def _tolerance(
    cuts: Sequence[Cut], plan: RollPlan, length: float, repeat: float, aligned: bool, practice: Practice
) -> list[str]:
    """Say where rolls at the short end of their tolerance would not do."""
    share = practice.number("walls.roll_tolerance")
    try:
        least = plan_rolls(cuts, length * (1 - share), repeat=repeat, aligned=aligned).count
    except InputError:
        return [
            f"Rolls {share:.1%} shorter than their label would not give one whole strip: measure the first."
        ]
    if least <= plan.count:
        return []
    return [f"Rolls {share:.1%} shorter than their label would take {least}: measure the first roll."]


def _narrow(rooms: Sequence[PaperRoom], width: float, share: float) -> list[str]:
    """Say where rolls at the narrow end of their tolerance would take more strips."""
    notes = []
    for room in rooms:
        here = sum(len(run.columns) for run in room.runs)
        least = sum(ceil_steps(run.chain.length / (width * (1 - share))) for run in room.runs)
        if least > here:
            notes.append(
                f"{room.path}: rolls {share:.1%} narrower than their label would take {least} strips, not {here}: "
                "measure the first roll."
            )
    return notes
