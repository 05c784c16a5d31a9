"""Hang one work or a group from numbers alone: no job, no room, only the frame, the wall and what stands below."""

from __future__ import annotations

import math
from dataclasses import replace

from halfdrop.art import (
    Group,
    Hang,
    HangHeight,
    Rect,
    TwoNumbers,
    Work,
    built_up,
    cluster,
    fixings_for,
    framed_all_in,
    grid,
    hang_above,
    hang_at_eye,
    hang_tall,
    hanging_cautions,
    hook_points,
    is_tall,
    place_clear,
    row,
    stack,
    two_numbers,
    width_share,
    zone_notes,
)  # fmt: skip
from halfdrop.art.above_piece import gap_keys
from halfdrop.art.cautions import OVER_PEOPLE
from halfdrop.art.way import way_of
from halfdrop.base.errors import UsageError
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.services.hanging_types import Ask, Hanging, HangReport, HungWork

#: A wall of which only the needed part is known reaches this far [m]; no wall of a home does.
_WIDE, _HIGH = 12.0, 6.0
_SHARE, _ASPECT = "art.over_width_high", "art.group_aspect"
_NO_NUMBERS: tuple[TwoNumbers, ...] = ()


def hang(ask: Ask, practice: Practice) -> HangReport:
    """Return where the works hang and where their hooks go.

    Raises
    ------
    UsageError
        For what is asked for half: a piece without its height, a wire without its hangers.
    InputError
        For what cannot hang so.

    Checked by: tests/cli/test_hang.py.
    """
    if not ask.works:
        raise UsageError("nothing is to hang", hint="give `--frame '24x30 in'`")
    wall, middle, along, named = _wall(ask)
    answers = []
    for group, height, steps in _laid(ask, wall, middle, practice):
        answers.append(_answer(ask, group, height, steps, (along, named), practice))
    mass = sum(w.mass for w in answers[0].works)
    said = hanging_cautions(mass, practice, below=ask.below, glass=ask.glazing != "acrylic" and ask.glazing != "none",
                            estimated=ask.mass is None)  # fmt: skip
    return HangReport(tuple(answers), said, f"{ask.edge} end of the {named}", practice)


def _wall(ask: Ask) -> tuple[Rect, float, float | None, str]:
    """Return the free wall, where the middle is wanted, what is taped along, and its name."""
    high = ask.ceiling or _HIGH
    if ask.wall_width is not None:
        middle = ask.at if ask.at is not None else ask.wall_width / 2
        return Rect(0.0, 0.0, ask.wall_width, high), middle, ask.wall_width, "wall"
    if ask.at is not None and ask.edge == "left":
        return Rect(0.0, 0.0, _WIDE, high), ask.at, None, "wall"
    if ask.at is None and ask.piece_width is not None:
        middle = ask.piece_width / 2
        return Rect(-_WIDE, 0.0, _WIDE, high), middle, ask.piece_width, ask.below or "piece"
    raise UsageError(
        "the width of the wall is not known",
        hint="give `--wall-width '12 ft'`; or `--piece-width '84 in'`, and the numbers run from the end of the piece",
    )


def _height(ask: Ask, height: float, practice: Practice) -> HangHeight:
    """Return the height of a work or group by the method that fits."""
    if ask.below is not None and ask.top is None:
        raise UsageError(
            f"the height of the {ask.below} is not known", hint=f"give `--above '34 in {ask.below}'`"
        )
    if is_tall(height, practice) and ask.center is None and ask.gap_over is None:
        return hang_tall(height, practice, base=ask.top or 0.0, seated=ask.seated)
    if ask.top is not None and ask.center is None:
        return hang_above(
            height, ask.top, practice, below=ask.below or "sofa", gap=ask.gap_over, seated=ask.seated
        )
    found = hang_at_eye(height, practice, seated=ask.seated, center=ask.center)
    if ask.top is None:
        return found
    say, gap = Words(practice), found.bottom - ask.top
    if gap < 0:
        raise UsageError(
            f"a middle at {say(found.center)} puts the frame {say(-gap)} into the {ask.below}, whose top is at {say(ask.top)}",
            hint="leave `--center` out, and the gap over the piece decides",
        )
    return replace(found, gap=gap)


def _laid(
    ask: Ask, wall: Rect, middle: float, practice: Practice
) -> list[tuple[Group, HangHeight, list[Working]]]:
    """Return the works in their places, one way or several."""
    if len(ask.works) > 1 and ask.layout == "cluster":
        return _clusters(ask, wall, middle, practice)
    at = (middle, 0.0)
    if len(ask.works) == 1 or ask.layout == "row":
        flat = row(ask.works, at, practice, gap=ask.gap)
    elif ask.layout == "grid":
        flat = grid(ask.works, at, practice, columns=ask.columns, gap=ask.gap)
    else:
        flat = stack(ask.works, at, practice, gap=ask.gap)
    height = _height(ask, flat.box.height, practice)
    group = place_clear(
        flat.moved(0.0, height.center), _free(ask, height, wall, practice), practice, obstacles=ask.obstacles
    )
    return [(group, height, [height.working, *([group.working] if len(ask.works) > 1 else [])])]


def _free(ask: Ask, height: HangHeight, wall: Rect, practice: Practice) -> Rect:
    """Return the wall above the piece and its least gap, or the gap that is kept where that is less."""
    if ask.top is None:
        return wall
    least = float(practice.length(gap_keys(ask.below or "sofa")[0]))
    return Rect(wall.x0, ask.top + min(least, least if height.gap is None else height.gap), wall.x1, wall.y1)


def _clusters(
    ask: Ask, wall: Rect, middle: float, practice: Practice
) -> list[tuple[Group, HangHeight, list[Working]]]:
    """Return several clusters; the height is settled on a first packing, then each is brought to its own."""
    width = practice.number(_SHARE) * ask.piece_width if ask.piece_width else None
    tall = math.sqrt(sum(w.width * w.height for w in ask.works) / practice.number(_ASPECT))
    made: list[Group] = []
    for _ in range(2 if ask.obstacles else 1):
        height = _height(ask, tall, practice)
        found = cluster(ask.works, (middle, height.center), practice, wall=_free(ask, height, wall, practice),
                        obstacles=ask.obstacles, gap=ask.gap, width=width, candidates=ask.candidates,
                        seed=ask.seed)  # fmt: skip
        made = [c.group for c in found]
        tall = made[0].box.height
    answers = []
    for group in made:
        height = _height(ask, group.box.height, practice)
        x, y = group.box.center
        group = place_clear(group.moved(middle - x, height.center - y), _free(ask, height, wall, practice), practice,
                            obstacles=ask.obstacles)  # fmt: skip
        answers.append((group, height, [height.working, group.working]))
    return answers


def _answer(
    ask: Ask,
    group: Group,
    height: HangHeight,
    steps: list[Working],
    along: tuple[float | None, str],
    practice: Practice,
) -> Hanging:
    """Return one answer: hooks, fixings and what is to know."""
    say = Words(practice)
    notes = [*height.conflicts, *group.notes]
    workings = list(steps)
    top = group.box.y1
    if ask.ceiling is not None and top > ask.ceiling:
        notes.append(f"The top is at {say(top)}, the ceiling at {say(ask.ceiling)}.")
    for over, kind in ((ask.piece_width, "piece"), (ask.wall_width if ask.below is None else None, "wall")):
        if over:
            share = width_share(group.box.width, over, practice, kind="piece" if kind == "piece" else "wall")
            workings.append(share.working)
            if share.verdict != "as wanted":
                what = ask.below or kind
                notes.append(
                    f"It is {say(group.box.width)} wide, {share.share:.2f} of the {what}: {share.verdict}; wanted "
                    f"{say(share.wanted[0])} to {say(share.wanted[1])}."
                )
    works = []
    told: dict[str, list[str]] = {}
    for hung in group.hung:
        one, said, more = hooks_of(ask, hung.work, hung.rect, along, practice)
        works.append(one)
        for note in said:
            told.setdefault(note, []).append(hung.work.name)
        workings += more
    notes += [n if len(who) == len(works) else f"{', '.join(who)}: {n}" for n, who in told.items()]
    return Hanging(
        tuple(works),
        height,
        group if len(group.hung) > 1 else None,
        tuple(dict.fromkeys(notes)),
        tuple(workings),
    )


def hooks_of(
    ask: Ask, work: Work, frame: Rect, along: tuple[float | None, str], practice: Practice
) -> tuple[HungWork, list[str], list[Working]]:
    """Return one work with its hooks and its fixing."""
    weighed = ask.mass
    workings: list[Working] = []
    if work.name in ask.own:
        found = ask.own[work.name].mass
        weighed = found.mass
        workings.append(found.working)
    elif weighed is None:
        found = (
            framed_all_in(work.width, work.height, practice)
            if ask.glazing is None
            else built_up(work.width, work.height, practice, glazing=ask.glazing)
        )
        weighed = found.mass
        workings.append(found.working)
    way = _way(ask, work, weighed, practice)
    pull = way.pull if way else 1.0
    fixing = fixings_for(
        weighed, ask.wall, practice, pull=pull, rated=ask.rated, over_people=ask.below in OVER_PEOPLE
    )
    notes, numbers = list(fixing.notes), _NO_NUMBERS
    if way is None:
        notes.insert(0, "Where the hooks go is not known yet: give the drop of the wire, or the hangers.")
    else:
        points = hook_points(work.name, frame, way)
        numbers, set_out = two_numbers(points, practice, edge=ask.edge, wall=along[0], of=along[1])
        notes = [
            *way.notes,
            *zone_notes(points, ask.obstacles if ask.wired is None else ask.wired, practice),
            *notes,
        ]
        workings += [way.working, set_out]
    workings.append(fixing.working)
    return HungWork(work, frame, numbers, way, weighed, fixing.load, fixing.choice), notes, workings


def _way(ask: Ask, work: Work, mass: float, practice: Practice) -> Hang | None:
    """Return how a frame hangs, by what is known of its wire; None where nothing is."""
    back = ask.own[work.name].back if work.name in ask.own else ask.back
    if (back.rings or back.wire is not None) and (back.down is None or back.hangers is None):
        raise UsageError(
            "where the rings are is not known"
            if back.rings
            else "where the hangers of the wire are is not known",
            hint="give `--hangers '18 in'` between them and `--hangers-down '8 in'` below the top",
        )
    if back.hangers is not None and back.hangers >= work.width:
        raise UsageError(f"the hangers are as far apart as the frame of `{work.name}` is wide")
    return way_of(work, back, mass, practice)
