"""The workroom's sheets: each treatment as it is cut and made up."""

from __future__ import annotations

from itertools import accumulate, pairwise

from halfdrop.book.trades import Fact, TradeFacts, TradeFigure, TradeList, TradePart, TradeSheet, TradeTable
from halfdrop.drapery import Hung
from halfdrop.drapery.hooks import HooksAnswer, hooks_for
from halfdrop.drapery.pleats import EyeletsAnswer, PleatsAnswer
from halfdrop.drawing.heading import Stretch, heading_figure
from halfdrop.job.naming import thing_name
from halfdrop.job.treatments import Treatment
from halfdrop.room import ResolvedRoom
from halfdrop.services.trade_bolts import pattern_of, piece_number, places, thing_of
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_words import Say, capital, halves, plural

_LENGTHS = {
    "clear": "clear of the floor",
    "kiss": "to touch the floor",
    "break": "to break on the floor",
    "puddle": "to puddle",
    "apron": "below the sill",
    "sill": "to the sill",
}


def panels_sheet(
    counts: Counts, room: ResolvedRoom, key: str, treatment: Treatment, number: str
) -> TradeSheet:
    """Return the workroom's sheet for panels made in a cloth of the job.

    Raises
    ------
    InputError
        Where they cannot be worked out.
    """
    hung = counts.hung(room, key)
    hooks = hooks_for(
        treatment.heading or "pencil", finished_width(hung), counts.practice, pleats=_pleats(hung)
    )
    parts: list[TradePart] = [TradeFacts("", _facts(counts, treatment, hung))]
    parts += _heading(counts, hung, treatment)
    parts.append(TradeFacts("Heading and hooks", _hooks(counts, treatment, hung, hooks)))
    parts.append(cut_list(counts, hung.path))
    parts.append(TradeList("Order of work", tuple(_steps(counts, treatment, hung)), numbered=True))
    say, cloth = counts.say, counts.cloths[treatment.fabric or ""]
    ends = [(p.left, p.right) for p in hung.lengths.panels]
    longest = say.cloth(hung.lengths.longest)
    widths = f"{halves(hung.widths.per_panel)} {'width' if hung.widths.per_panel <= 1 else 'widths'}"
    lead = (
        f"{capital(plural(hung.panels, 'panel'))} in {cloth.name}, {widths} each, "
        f"{longest} finished, {_LENGTHS[treatment.length]}."
    )
    if any(abs(a - b) > 5e-4 for a, b in ends) or len({round(max(e), 4) for e in ends}) > 1:
        lead += " The floor runs off: the ends of a panel differ, see below."
    name = capital(thing_name(counts.job, hung.path))
    return TradeSheet("workroom", number, name, room.model.name, hung.path, lead, tuple(parts))


def finished_width(hung: Hung) -> float:
    """Return what one panel covers, its share of overlap and returns with it [m]."""
    if isinstance(hung.heading, PleatsAnswer):
        return hung.heading.finished / 1000
    return (hung.covered + hung.overlap + hung.returns) / hung.panels


def _pleats(hung: Hung) -> PleatsAnswer | None:
    return hung.heading if isinstance(hung.heading, PleatsAnswer) else None


def _facts(counts: Counts, treatment: Treatment, hung: Hung) -> tuple[Fact, ...]:
    say, cloth, job = counts.say, counts.cloths[treatment.fabric or ""], counts.job
    facts = [
        ("Cloth", f"{cloth.name}, {say.cloth(cloth.width, 'down')} usable; {pattern_of(cloth, say)}"),
        ("Widths", _widths(hung)),
        ("Cut", f"{say.cloth(hung.cut.length, 'up')}: finished, {say.cloth(hung.allowed.heading)} heading, "
                f"{say.cloth(hung.allowed.hem)} bottom hem"
                + (f", {say.cloth(hung.allowed.trim)} trimming" if hung.allowed.trim else "")),
        ("Finished length", _lengths(counts, treatment, hung)),
        ("Finished width", f"{say.cloth(finished_width(hung))} each panel, overlap and return in it"),
        ("Fullness", _fullness(hung)),
        ("Overlap, return", _ends(say, hung)),
        ("Side hems", say.cloth(_side(counts, treatment))),
    ]  # fmt: skip
    facts += _linings(counts, treatment, hung)
    seams = max(0, -(-round(2 * hung.widths.per_panel) // 2) - 1)
    weights = hung.panels * (2 + seams)
    facts.append(("Weights", f"{weights} in all: each bottom corner, and the foot of each seam"))
    facts.append(("Weighs", f"{say.mass(hung.weight.mass)} in all layers"))
    if treatment.ties is not None:
        ties = treatment.ties
        facts.append(
            (
                "Ties",
                f"{ties.count}, {say.cloth(float(ties.length))} × {say.cloth(float(ties.width))} finished",
            )
        )
    if treatment.valance is not None:
        facts.append(("Valance", f"{say.cloth(float(treatment.valance.depth))} deep, in the same cloth"))
    same: dict[str, int] = {}
    for room in job.rooms.values():
        for cushion in room.cushions.values():
            if cushion.fabric == treatment.fabric:
                size = f"{say.cloth(float(cushion.width))} × {say.cloth(float(cushion.height))}"
                same[size] = same.get(size, 0) + cushion.count
    if same:
        told = "; ".join(f"{plural(n, 'cushion')} {size}" for size, n in same.items())
        facts.append(("In the same cloth", told))
    return tuple(facts)


def _ends(say: Say, hung: Hung) -> str:
    """Return what a panel has flat at its leading edge and at the wall."""
    over, back = hung.overlap / hung.panels, hung.returns / hung.panels
    if over < 5e-4 and back < 5e-4:
        return "none"
    return f"{say.cloth(over)} at the leading edge, {say.cloth(back)} at the wall"


def _widths(hung: Hung) -> str:
    per, whole = hung.widths.per_panel, int(hung.widths.per_panel + 1e-6)
    told = f"{halves(per)} to a panel, {plural(hung.widths.cuts, 'whole width')} cut in all"
    if per - whole > 1e-6:
        told += f"; {plural(whole, 'whole width')} from the leading edge on, the half at the return"
        if hung.panels == 2:
            told += "; one width is parted down its middle for both panels"
    return told


def _lengths(counts: Counts, treatment: Treatment, hung: Hung) -> str:
    say = counts.say
    out = []
    for n, panel in enumerate(hung.lengths.panels):
        name = {1: "panel", 2: ("left panel", "right panel")[n]}[hung.panels]
        name = name if isinstance(name, str) else name[0]
        if abs(panel.left - panel.right) < 5e-4:
            out.append(f"{name} {say.cloth(panel.left)}")
        else:
            out.append(
                f"{name} {say.cloth(panel.left)} at its left edge, {say.cloth(panel.right)} at its right"
            )
    return f"{'; '.join(out)}; {_LENGTHS[treatment.length]}"


def _fullness(hung: Hung) -> str:
    if isinstance(hung.heading, PleatsAnswer):
        return f"{hung.fullness:g} wanted; whole widths come to {hung.heading.fullness:.2f}"
    return f"{hung.fullness:g} wanted"


def _side(counts: Counts, treatment: Treatment) -> float:
    side = treatment.hems.side
    return float(side if side is not None else counts.practice.length("drapery.side_hem"))


def _linings(counts: Counts, treatment: Treatment, hung: Hung) -> list[Fact]:
    say, facts = counts.say, []
    if treatment.lining is None:
        return [("Lining", "none")]
    if hung.lining is None:
        facts.append(("Lining", f"{treatment.lining.kind}; its cloth is not chosen"))
    else:
        cloth = counts.cloths[treatment.lining.fabric or ""]
        shorter = say.cloth(float(counts.practice.length("drapery.lining_shorter")))
        facts.append(("Lining", f"{treatment.lining.kind}, {cloth.name}: {plural(hung.lining.widths.cuts, 'width')} of "
                                f"{say.cloth(hung.lining.cut, 'up')}, finished {shorter} shorter than the face"))  # fmt: skip
    if treatment.lining.interlining is not None:
        inner = counts.cloths[treatment.lining.interlining]
        facts.append(
            (
                "Interlining",
                f"{inner.name}, cut to the finished length {say.cloth(hung.lengths.longest, 'up')}",
            )
        )
    return facts


def _heading(counts: Counts, hung: Hung, treatment: Treatment) -> list[TradePart]:
    """Return the heading laid flat, drawn and as chalk marks from the leading edge."""
    say, pleats = counts.say, hung.heading
    if isinstance(pleats, EyeletsAnswer):
        marks = ", ".join(say.cloth(at / 1000) for at in pleats.at)
        title = f"Eyelets of one panel: {len(pleats.at)}"
        return [
            TradeFacts(
                title, (("Centers", marks), ("From", "the leading edge, the panel hemmed and laid flat"))
            )
        ]
    if not isinstance(pleats, PleatsAnswer):
        return []
    ends = list(
        accumulate(
            [pleats.overlap]
            + [x for pair in zip(pleats.pleats, (*pleats.spaces, 0), strict=True) for x in pair]
        )
    )
    takes = [_between(say, a, b) for a, b in pairwise(ends)]
    bare = [text.removesuffix(" in").removesuffix(" mm") for text in takes]
    parts = [Stretch("flat", pleats.overlap / 1000, "overlap")] if pleats.overlap else []
    for n, pleat in enumerate(pleats.pleats):
        parts.append(Stretch("pleat", pleat / 1000, bare[2 * n]))
        if n < len(pleats.spaces):
            parts.append(Stretch("space", pleats.spaces[n] / 1000, bare[2 * n + 1]))
    if pleats.returns:
        parts.append(Stretch("flat", pleats.returns / 1000, "return"))
    figure = heading_figure(f"Heading of {thing_name(counts.job, hung.path)}", hung.path, parts, counts.units)
    scale = f", {figure.scale.name}" if figure.scale else ""
    unit = "inches" if say.units == "imperial" else "millimeters"
    caption = f"One panel laid flat, hemmed, from its leading edge{scale}; figures in {unit}. The other panel is its mirror image."
    if hung.panels == 1:
        caption = caption.removesuffix(" The other panel is its mirror image.")
    back = "return " + _between(say, 0, pleats.returns) if pleats.returns else "edge"
    rows = tuple(
        (str(n + 1), say.cloth(ends[2 * n] / 1000), say.cloth(ends[2 * n + 1] / 1000), takes[2 * n],
         takes[2 * n + 1] if n < len(pleats.spaces) else back)
        for n in range(len(pleats.pleats))
    )  # fmt: skip
    table = TradeTable(
        f"{capital(treatment.heading or '')} heading of one panel: {len(pleats.pleats)} pleats",
        ("Pleat", "Begins", "Ends", "Takes", "Then flat"), rows, (0, 1, 1, 1, 1), (1, 2, 3, 4),
        "Chalk marks from the leading edge, the panel hemmed and laid flat. Mark them all from that edge, never one from the other.",
    )  # fmt: skip
    return [TradeFigure(figure.name, figure.svg(), figure.width, figure.height, caption), table]


def _between(say: Say, a: float, b: float) -> str:
    """Return what lies between two chalk marks [mm], as the marks are printed: whole millimeters, or eighths of an inch."""
    if say.units == "metric":
        return f"{b - a:g} mm"
    eighth = 25.4 / 8
    return say.cloth((round(b / eighth) - round(a / eighth)) * eighth / 1000)


def _hooks(counts: Counts, treatment: Treatment, hung: Hung, hooks: HooksAnswer) -> tuple[Fact, ...]:
    say = counts.say
    facts: list[Fact] = [("Heading", treatment.heading or "")]
    if not hooks.at:
        facts.append(("Hooks", hooks.what))
    else:
        each = len(hooks.at)
        facts.append((f"{capital(hooks.what)}s", f"{each} to a panel, {each * hung.panels} in all"))
        if _pleats(hung) is not None:
            facts.append(("Where", "one behind each pleat, one at each edge"))
        else:
            facts.append(
                ("Where", f"evenly, {say.cloth(hooks.at[1])} apart, the first and last at the edges")
            )
    drop, bar = float(treatment.hardware.drop or 0.0), treatment.hardware.kind
    off = (
        f"level with the top of the {bar}"
        if abs(drop) < 1e-4
        else f"{say.cloth(abs(drop))} {'below' if drop > 0 else 'above'} the top of the {bar}"
    )
    facts.append(("Top of the cloth", f"{off}: set the pins to it" if hooks.at else off))
    return tuple(facts)


def cut_list(counts: Counts, path: str) -> TradeTable:
    """Return which cuts of which bolts make a treatment, its lining and ties with it."""
    say, rows = counts.say, []
    for counted in counts.takeoff.values():
        lies = places(counted)
        for bolt in counted.plan.bolts:
            for laid in bolt.cuts:
                if thing_of(laid) != path and not thing_of(laid).startswith(f"{path}/"):
                    continue
                spot = lies[laid.cut.id]
                part = thing_of(laid).removeprefix(path).removeprefix("/altered").strip("/") or "face"
                motif = laid.cut.line
                line = (
                    f"{say.cloth(motif)} from its start"
                    if motif is not None and counted.cloth.repeat
                    else "–"
                )
                across = f"parted into {len(laid.cut.across)}" if len(laid.cut.across) > 1 else "whole width"
                if len(laid.cut.across) == 1:
                    across = f"{say.cloth(laid.cut.across[0])} of the width, cloth on its side"
                rows.append((f"{counted.cloth.name}, {spot.bolt}, cut {spot.number}", f"{part} {piece_number(laid)}",
                             say.cloth(laid.cut.length, "up"), across, line))  # fmt: skip
    return TradeTable("Cuts", ("Comes from", "Piece", "Length", "Across", "Motif line"), tuple(rows), (1.6, 0, 0, 1, 1), (2,),
                      "The cutting sheet of each cloth has the bolts drawn.")  # fmt: skip


def _steps(counts: Counts, treatment: Treatment, hung: Hung) -> list[str]:
    say, cloth = counts.say, counts.cloths[treatment.fabric or ""]
    steps = [f"Unroll and look over the whole of {cloth.name} for flaws and for lots before the first cut."]
    if cloth.repeat:
        steps.append(
            f"Find the motif line and cut each width {say.cloth(hung.cut.length, 'up')} long with the full motif at the {cloth.motif}"
            f" ({say.cloth(hung.allowed.hem if cloth.motif == 'hem' else hung.allowed.heading)} from that end)"
            + (
                "; every second width of a panel half a repeat further."
                if cloth.match == "half-drop"
                else "."
            )
        )
    else:
        way = ", all the same way up" if cloth.nap else ""
        steps.append(f"Cut the widths {say.cloth(hung.cut.length, 'up')} long, square to the selvage{way}.")
    if hung.widths.per_panel > 1 + 1e-6:
        match = ", the pattern matched from the front" if cloth.repeat else ""
        steps.append(f"Join the widths of a panel{match}; press the seams open, selvages off or clipped.")
    steps.append(
        f"Bottom hem {say.cloth(hung.allowed.hem)} of cloth, double; weights in before it is closed. "
        f"Side hems {say.cloth(_side(counts, treatment))}."
    )
    if treatment.lining is not None:
        steps.append("Lay in the lining, and the interlining first where there is one; lock it to the seams.")
    steps.append(
        f"Table the panels to {say.cloth(hung.lengths.longest)} finished"
        + (
            ", each edge to its own length"
            if len({round(x, 4) for p in hung.lengths.panels for x in (p.left, p.right)}) > 1
            else ""
        )
        + ", then turn the heading."
    )
    if isinstance(hung.heading, PleatsAnswer):
        steps.append("Mark the pleats from the leading edge by the table; sew, tack, and set the pins.")
    elif isinstance(hung.heading, EyeletsAnswer):
        steps.append("Mark and set the eyelets by the table.")
    elif treatment.heading == "rod pocket":
        steps.append(
            "Sew the rod pocket to take the rod with ease; the cloth is gathered on the rod, not before."
        )
    else:
        steps.append("Sew the heading and draw it up to the finished width.")
    steps.append("Hang or table once more, dress the folds, band them for three days before they travel.")
    return steps
