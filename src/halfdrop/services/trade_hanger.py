"""The paper hanger's sheets: one for each finish in paper, wall by wall, with the cut list of the rolls."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from halfdrop.base.errors import At, HalfdropError
from halfdrop.book.trades import (
    Fact,
    TradeCautions,
    TradeFacts,
    TradeFigure,
    TradeList,
    TradePart,
    TradeSheet,
    TradeTable,
)
from halfdrop.job.finishes import Paper
from halfdrop.job.part import corners_of
from halfdrop.room import ResolvedRoom
from halfdrop.room.elevation import runs_right
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_strips import hanging_order, paper_figures, plumb_of
from halfdrop.services.trade_words import Say, capital, cautions_by_id, plural
from halfdrop.walls import PaperAnswer, PaperRoom, SettingOut, paper_job, roll_of
from halfdrop.walls.cuts import Cut

CAUTIONS = ("plates", "lead", "asbestos", "ladders")


def answer_of(counts: Counts, paper: str) -> PaperAnswer:
    """Return a paper over the whole job, on rolls.

    Raises
    ------
    InputError
        Where a strip lies on no roll: with file and line.
    """
    try:
        return paper_job(counts.job.papers[paper], counts.finishes[0][paper], counts.practice)
    except HalfdropError as error:
        raise counts.opened.placed(error.placed(At(path=f"papers/{paper}"))) from error


def hanger_sheets(counts: Counts, letter: str) -> Iterator[TradeSheet]:
    """Give a sheet for each finish in paper."""
    n = 0
    for key, finishes in counts.finishes[0].items():
        answer = answer_of(counts, key)
        for finish in finishes:
            n += 1
            yield _sheet(counts, key, answer, finish, f"{letter}{n}")


def _sheet(counts: Counts, key: str, answer: PaperAnswer, counted: PaperRoom, number: str) -> TradeSheet:
    say, paper = counts.say, counts.job.papers[key]
    room = counts.rooms[counted.path.split("/")[1]]
    whole = sum(cut.where == "whole" for cut in counted.cuts)
    short = len(counted.cuts) - whole
    strips = sum(len(run.columns) for run in counted.runs)
    names = ", ".join(f"{wall}" for run in counted.runs for wall in (f.name for f in run.chain.faces))
    parts: list[TradePart] = [TradeFacts("", _facts(counts, paper, answer, counted, len(counted.cuts)))]
    several = len(counted.runs) > 1
    parts += [
        TradeFacts(f"Setting-out, {run.chain.name}" if several else "Setting-out", _setting(run, say, room))
        for run in counted.runs
    ]
    for figure in paper_figures(room, paper, counted, say):
        scale = figure.scale.name if figure.scale else ""
        parts.append(
            TradeFigure(figure.name, figure.svg(), figure.width, figure.height, f"{figure.name}  ·  {scale}")
        )
    parts.append(_lengths(counts, paper, counted, say))
    parts.append(_rolls(counts, answer, say, counted.path))
    parts.append(TradeFacts("Against the rough methods", (
        ("Roll plan", f"{plural(answer.plan.count, 'roll')} for the job"
                      + (", no plan takes fewer" if answer.plan.gap == 0 else f"; no plan takes fewer than {answer.plan.bound}")),
        ("By strips", f"{plural(counted.strip.rolls, 'roll')} for this room: {counted.strip.strips} strips, openings not taken off"),
        ("By area", f"{plural(counted.area.rolls, 'roll')} for this room: {say.area(counted.area.net)} of {say.area(counted.area.gross)}"),
    )))  # fmt: skip
    parts.append(TradeList("Order of work", tuple(_steps(paper, counted, room, say)), numbered=True))
    parts.append(TradeCautions(cautions_by_id(*CAUTIONS)))
    on = f"walls {names}" if ", " in names else f"wall {names}"
    extra = f" and {plural(short, 'length')} over or under openings" if short else ""
    lead = f"{plural(strips, 'strip')} of {paper.name} on {on}: {plural(whole, 'whole length')}{extra}."
    return TradeSheet(
        "hanger",
        number,
        f"{paper.name}, {room.model.name}",
        room.model.name,
        counted.path,
        lead,
        tuple(parts),
    )


def _facts(
    counts: Counts, paper: Paper, answer: PaperAnswer, counted: PaperRoom, lengths: int
) -> tuple[Fact, ...]:
    say = counts.say
    width, length = roll_of(paper, counts.practice)
    match = "free match" if paper.match == "free" else f"{paper.match} match"
    if paper.repeat:
        match += f", repeat {say.cloth(float(paper.repeat))}"
    off = float(counts.practice.length("walls.match_tolerance"))
    batch = (
        f"{answer.batch.number}; read it on every roll"
        if answer.batch is not None
        else "one for all rolls; read it on every roll before the first is cut"
    )
    spare = f", {plural(answer.spare, 'spare')} with them" if answer.spare else ""
    facts = [
        ("Paper", f"{paper.name}, roll {say.cloth(width)} × {say.fix(length)}"),
        ("Match", match),
        (
            "Rolls",
            f"{plural(answer.rolls, 'roll')} for the job{spare}; {plural(lengths, 'length')} hang here",
        ),
        ("Batch", batch),
        ("At a seam", f"the pattern may be off by {say.fix(off)} at eye level, no more"),
        (
            "Paste",
            "as the paper's label has it: on the wall or on the paper, and booked as long as it says, each strip alike",
        ),
    ]
    ticks = "; ticks where the pattern's mark falls" if paper.repeat else ""
    facts.append(("Drawn", f"each wall as faced from the room, strips numbered in hanging order{ticks}"))
    facts += [("Look at", note) for run in counted.runs for note in run.warnings]
    return tuple(facts)


def _setting(run: SettingOut, say: Say, room: ResolvedRoom) -> tuple[Fact, ...]:
    plumb = plumb_of(room, run)
    focal_first = corners_of(run.focal)[0]
    middle = "the middle of a strip" if run.start == "strip" else "a seam"
    forth_right = runs_right(room.wall(run.focal))
    way = ("right", "left") if forth_right else ("left", "right")
    order = hanging_order(run)
    forth = max(order[c.index] for c in run.columns if c.index >= 0)
    rest = f"; then strip {forth + 1} and on to the {way[1]} of the plumb line" if len(order) > forth else ""
    facts = [
        ("Plumb line", f"wall {plumb.wall}, {say.fix(plumb.off)} from corner {plumb.corner}; strip 1 hangs to the {way[0]} of it"),
        ("Center", f"{middle} stands {say.fix(run.center)} from corner {focal_first} on wall {run.focal}"),
        ("Order", f"strips 1 to {forth} to the {way[0]}{rest}" if forth > 1 else f"strip 1{rest}"),
        ("At the ends", f"wall {run.focal}: {say.cloth(run.ends[0])} shows at corner {focal_first}, "
                        f"{say.cloth(run.ends[1])} at corner {corners_of(run.focal)[1]}"),
    ]  # fmt: skip
    if run.mismatch is not None:
        facts.append(("May not match", f"{run.mismatch.where}, along {say.fix(run.mismatch.seam)} of seam"))
    wrap = run.chain.wrap
    if wrap > 0 and len(run.chain.faces) > 1:
        facts.append(
            (
                "Inside corners",
                f"wrap {say.cloth(wrap)}, part the strip, and hang the rest to a new plumb line",
            )
        )
    return tuple(facts)


def _strip_of(counts: Counts, cut: Cut) -> str:
    """Return a length's strip in hanging order, with where it hangs: `4`, `7 above door`."""
    for rooms in counts.finishes[0].values():
        for room in rooms:
            for run in room.runs:
                lead = f"{room.path}/{run.chain.name}/"
                if cut.id.startswith(lead):
                    part = cut.id.removeprefix(lead).partition("/")[2]
                    return f"{hanging_order(run)[cut.column]}{f' {part}' if part else ''}"
    return str(cut.column)


def _lengths(counts: Counts, paper: Paper, counted: PaperRoom, say: Say) -> TradeTable:
    """Return every length with the drop it covers, neighbors that print alike together."""
    patterned = bool(paper.repeat)
    told = sorted(counted.cuts, key=lambda c: (int(_strip_of(counts, c).split(" ")[0]), -c.top))
    groups: dict[tuple[str, ...], list[str]] = {}
    for cut in told:
        low = "floor" if cut.bottom < 1e-4 else say.fix(cut.bottom)
        turned = ", head down" if cut.turned else ""
        phase = say.cloth(cut.phase) if patterned else "–"
        row = (f"{low} to {say.fix(cut.top)}", say.cloth(cut.length, "up") + turned, phase)
        groups.setdefault(row, []).append(_strip_of(counts, cut))
    rows = [(_span(names), *row) for row, names in groups.items()]
    note = "Each cut has its trim at both ends. The mark is the line of the pattern that stands at the highest ceiling."
    head = ("Strip", "Covers, above the floor", "Cut", "Top edge below the mark")
    return TradeTable("Lengths", head, tuple(rows), (1, 1.2, 0, 1), (2, 3), note)


def _span(names: list[str]) -> str:
    """Return strips that are cut alike as one text: `2 to 5, 8, 9 above door`."""
    out: list[str] = []
    run: list[int] = []
    for name in [*names, ""]:
        here = int(name) if name.isdigit() else None
        if run and here == run[-1] + 1:
            run.append(here)
            continue
        if run:
            out.append(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)))
        run = [] if here is None else [here]
        if name and here is None:
            out.append(name)
    return ", ".join(out)


def _rolls(counts: Counts, answer: PaperAnswer, say: Say, path: str) -> TradeTable:
    """Return what comes off each roll, in order."""
    rows = []
    others = 0
    for n, roll in enumerate(answer.plan.rolls, 1):
        if not any(laid.cut.id.startswith(f"{path}/") for laid in roll):
            others += 1
            continue
        lengths = []
        for laid in roll:
            other = not laid.cut.id.startswith(f"{path}/")
            where = f" ({counts.job.rooms[laid.cut.id.split('/')[1]].name})" if other else ""
            turned = ", head down" if laid.cut.turned else ""
            lengths.append(
                f"{_strip_of(counts, laid.cut)}{where}: {say.cloth(laid.cut.length, 'up')}{turned}"
            )
        waste = sum(max(0.0, b.start - a.end) for a, b in pairwise(roll))
        rows.append(
            (str(n), "; ".join(lengths), say.cloth(waste) if waste > 1e-4 else "–", say.cloth(roll[-1].end))
        )
    notes = []
    if answer.plan.held_back:
        held = capital(say.cloth(answer.plan.held_back))
        notes.append(
            f"{held} at the head of each roll is kept to come into phase: a roll may begin anywhere in its pattern."
        )
    if others:
        notes.append(
            f"{plural(others, 'roll')} of the job {'hangs' if others == 1 else 'hang'} in other rooms."
        )
    return TradeTable(
        "Cut list",
        ("Roll", "Strip and length, in order", "Lost between", "Used"),
        tuple(rows),
        (0, 1, 0, 0),
        (2, 3),
        " ".join(notes),
    )


def _steps(paper: Paper, counted: PaperRoom, room: ResolvedRoom, say: Say) -> list[str]:
    run = counted.runs[0]
    plumb = plumb_of(room, run)
    one = counted.cuts[0]
    trim = say.cloth((one.length - (one.top - one.bottom)) / 2)
    steps = [
        "Power off at the breaker for this room, tried with a tester; plates off and kept with their screws.",
        "Read the batch number on every roll; unroll one and compare repeat and width with this sheet before the first cut.",
        "Old paper off, walls sound, dry, filled and sized as the paper's label asks.",
        f"Draw the plumb line on wall {plumb.wall}, {say.fix(plumb.off)} from corner {plumb.corner}, by a level or a bob.",
        "Cut by the list, number each length on its back at the top, an arrow up.",
        f"Hang strip 1 to the line, {trim} over at top and bottom; then the others in their order, seams butted, not overlapped.",
    ]  # fmt: skip
    if len(run.chain.faces) > 1:
        steps.append(
            f"At an inside corner wrap {say.cloth(run.chain.wrap)} and begin the next wall to a new plumb line; "
            "never carry a full strip round."
        )
    if any(cut.where != "whole" for cut in counted.cuts):
        steps.append(
            "Hang the lengths over and under openings in their turn, in line with their neighbors' pattern; trim to the casing."
        )
    if paper.match == "reverse-hung":
        steps.append("Every second strip hangs head down, as the list says.")
    steps.append(
        "Trim with a fresh blade at ceiling and baseboard, wipe paste off at once, look along the seams in side light."
    )
    if run.mismatch is not None:
        steps.append(
            f"The two ways round meet {run.mismatch.where}: overlap and cut there, where it is least seen."
        )
    steps.append("Plates back when the paper is dry. Keep the spare and every label for mending.")
    return steps
