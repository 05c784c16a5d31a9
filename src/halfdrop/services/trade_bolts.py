"""The cutting sheets: each cloth of a job drawn on its bolts, with the list its cuts are made by."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import count

from halfdrop.base.formats import Units
from halfdrop.book.trades import TradeFacts, TradeFigure, TradeSheet, TradeTable
from halfdrop.drapery import Cloth, ClothTakeoff, LaidBolt, LaidCut
from halfdrop.drawing.bolts import DrawnBolt, DrawnCut, bolt_figures
from halfdrop.drawing.figure import Figure
from halfdrop.job.model import Job
from halfdrop.job.naming import thing_name
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_words import Say, capital, plural, room_names


@dataclass(frozen=True)
class Place:
    """Where a cut lies: its bolt's name, its number on it."""

    bolt: str
    number: int


def bolt_name(counted: ClothTakeoff, bolt: LaidBolt) -> str:
    """Return what a bolt is called: its lot, and its number where there are several."""
    several = len(counted.plan.bolts) > 1
    lot = f" of lot {bolt.kind.lot}" if bolt.kind.lot else ""
    kinds = len({b.kind.id for b in counted.plan.bolts}) > 1
    named = f" {bolt.kind.id}" if kinds else ""
    return f"bolt{named}{f' {bolt.number}' if several else ''}{lot}"


def places(counted: ClothTakeoff) -> dict[str, Place]:
    """Return where each cut of a cloth lies, by its id."""
    return {
        laid.cut.id: Place(bolt_name(counted, bolt), n)
        for bolt in counted.plan.bolts
        for n, laid in enumerate(bolt.cuts, 1)
    }


def thing_of(cut: LaidCut) -> str:
    """Return the path of the thing a cut is for."""
    return cut.cut.id.rsplit("/", 1)[0]


def cut_name(job: Job, path: str) -> str:
    """Return what a cut is for: `dining pair, lining`; of an alteration what it adds: `west pair, band`."""
    base, altered, part = path.partition("/altered/")
    return f"{thing_name(job, base)}, {part}" if altered else thing_name(job, path)


def piece_number(cut: LaidCut) -> str:
    """Return which piece of its thing a cut is."""
    return cut.cut.id.rsplit("/", 1)[1]


def pieces_across(counted: ClothTakeoff, cut: LaidCut) -> tuple[tuple[float, float], ...]:
    """Return what of the cloth's width a cut's pieces take [m], from one selvage."""
    at, found = 0.0, list[tuple[float, float]]()
    for wide in cut.cut.across or (counted.cloth.width,):
        found.append((at, at + wide))
        at += wide
    return tuple(found)


def drawn_bolt(job: Job, counted: ClothTakeoff, bolt: LaidBolt, say: Say) -> DrawnBolt:
    """Return a bolt of the plan ready to be drawn."""
    cloth = counted.cloth
    cuts = tuple(_drawn(job, counted, cut, n, say) for n, cut in zip(count(1), bolt.cuts, strict=False))
    return DrawnBolt(
        name=f"{cloth.name}, {bolt_name(counted, bolt)}",
        path=f"fabrics/{cloth.id}",
        width=cloth.width,
        paid=bolt.paid,
        paid_text=say.cloth(bolt.paid),
        cuts=cuts,
        repeat=cloth.repeat,
        motif=bolt.motif,
        half_drop=cloth.match == "half-drop",
    )


def _drawn(job: Job, counted: ClothTakeoff, laid: LaidCut, number: int, say: Say) -> DrawnCut:
    path = thing_of(laid)
    lines = (
        f"{capital(cut_name(job, path))}, {piece_number(laid)}",
        say.cloth(laid.cut.length, "up"),
        room_names(job, [laid.cut.room]),
    )
    motif = laid.start + laid.cut.line if laid.cut.line is not None and counted.cloth.repeat else None
    return DrawnCut(
        number, path, lines, laid.start, laid.end, say.cloth(laid.start), pieces_across(counted, laid), motif
    )


def cloth_figures(job: Job, counted: ClothTakeoff, units: Units) -> tuple[Figure, ...]:
    """Return every bolt of a cloth drawn, in order."""
    say = Say(units)
    return tuple(
        figure
        for bolt in counted.plan.bolts
        for figure in bolt_figures(drawn_bolt(job, counted, bolt, say), units)
    )


def cloth_facts(counted: ClothTakeoff, say: Say) -> tuple[tuple[str, str], ...]:
    """Return what is bought of a cloth, against the hand rules and the least there can be."""
    plan, cloth = counted.plan, counted.cloth
    saved = counted.saved
    against = (
        f"{say.bought(counted.hand)}; the bolt plan saves {say.bought(saved)}"
        if saved > 1e-6
        else f"{say.bought(counted.hand)}; the bolt plan takes {say.bought(-saved)} more, for whole cuts on whole bolts"
        if saved < -1e-6
        else f"{say.bought(counted.hand)}, the same"
    )
    least = (
        "no plan buys less"
        if plan.gap < 1e-9
        else f"{say.bought(plan.bound)} by proof; this plan is at most {100 * plan.gap:.1f}% above it"
    )
    facts = [
        ("Bought", f"{say.bought(plan.paid)} in {plural(len(plan.bolts), 'bolt')}"),
        ("By hand", against),
        ("Least there is", least),
        ("Usable width", say.cloth(cloth.width, "down")),
        ("Pattern", pattern_of(cloth, say)),
    ]
    if cloth.nap:
        facts.append(("Nap", "every cut the same way up"))
    return tuple(facts)


def pattern_of(cloth: Cloth, say: Say) -> str:
    """Return how a cloth's pattern repeats and where its motif falls."""
    if not cloth.repeat:
        return "none to match"
    match = f", {cloth.match} match" if cloth.match else ""
    return f"repeat {say.cloth(cloth.repeat)}{match}; the full motif at the {cloth.motif}"


def cutting_sheet(counts: Counts, counted: ClothTakeoff, number: str) -> TradeSheet:
    """Return the cutting sheet of one cloth."""
    say, job, cloth = counts.say, counts.job, counted.cloth
    parts: list[TradeFacts | TradeFigure | TradeTable] = [TradeFacts("", cloth_facts(counted, say))]
    for bolt in counted.plan.bolts:
        drawn = drawn_bolt(job, counted, bolt, say)
        for figure in bolt_figures(drawn, counts.units):
            scale = f"  ·  {figure.scale.name}" if figure.scale else ""
            parts.append(TradeFigure(figure.name, figure.svg(), figure.width, figure.height,
                                     f"{capital(figure.name)}{scale}  ·  places from the bolt's beginning"))  # fmt: skip
        parts.append(_list(counts, counted, bolt))
    lead = f"{plural(sum(len(b.cuts) for b in counted.plan.bolts), 'cut')} for {_things(job, counted)}."
    if cloth.rules.place:
        lead += (
            " A bolt begins anywhere in its pattern: find its first motif line, and move all cuts back together by what it comes"
            " sooner than drawn."
        )
    rooms = room_names(job, list(dict.fromkeys(line.path.split("/")[1] for line in counted.lines)))
    return TradeSheet(
        "workroom", number, f"{cloth.name}: cutting", rooms, f"fabrics/{cloth.id}", lead, tuple(parts)
    )


def _things(job: Job, counted: ClothTakeoff) -> str:
    names = list(dict.fromkeys(cut_name(job, line.path) for line in counted.lines))
    if len(names) > 5:
        return f"{len(counted.lines)} things"
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _list(counts: Counts, counted: ClothTakeoff, bolt: LaidBolt) -> TradeTable:
    """Return the cutting list of one bolt."""
    say, patterned = counts.say, bool(counted.cloth.repeat)
    rows = []
    for n, laid in enumerate(bolt.cuts, 1):
        path = thing_of(laid)
        row = [
            str(n), capital(cut_name(counts.job, path)), piece_number(laid), room_names(counts.job, [laid.cut.room]),
            say.cloth(laid.start), say.cloth(laid.end), say.cloth(laid.cut.length, "up"),
        ]  # fmt: skip
        if patterned:
            row.append("–" if laid.cut.line is None else say.cloth(laid.start + laid.cut.line))
        rows.append(tuple(row))
    rest = (
        f"Left of what is bought: {say.cloth(bolt.offcut, 'down')} at the end" if bolt.offcut > 1e-6 else ""
    )
    head = ["Cut", "For", "Piece", "Room", "From", "To", "Length"] + (["Motif line"] if patterned else [])
    columns = [0.0, 1.6, 0.0, 1.0, 0.0, 0.0, 0.0] + ([0.0] if patterned else [])
    right = (4, 5, 6, 7) if patterned else (4, 5, 6)
    note = "Lengths to the next 1/8 in up; places to the nearest." if counts.units == "imperial" else ""
    return TradeTable(
        capital(bolt_name(counted, bolt)), tuple(head), tuple(rows), tuple(columns), right,
        ". ".join(t for t in (rest, note) if t),
    )  # fmt: skip
