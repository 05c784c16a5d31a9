"""The installer's sheets: one for each window, or for several that read as one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from halfdrop.art import fixings_for
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
from halfdrop.drapery import brackets_for
from halfdrop.drapery.as_hung import AsHung
from halfdrop.drapery.weight import cloth_weight
from halfdrop.drawing.brackets import DrawnBracket, bracket_figure
from halfdrop.drawing.elevation import Hanging, Shown, shown_of
from halfdrop.job.naming import thing_name
from halfdrop.job.treatments import Treatment
from halfdrop.room import ResolvedRoom
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_words import capital, cautions_by_id, plural

CAUTIONS = ("drilling", "ladders", "loops", "lead", "asbestos")
_INTO = {
    "stud": ("stud", "plasterboard"),
    "masonry": ("brick",),
    "unknown": ("stud", "plasterboard", "brick"),
}
_NAMES = {"stud": "into a stud", "plasterboard": "into the board between studs", "brick": "into solid wall"}


@dataclass(frozen=True)
class Carried:
    """Where brackets stand on the rod [m], what the fullest carries and may carry [kg], and whether the weight is known."""

    at: tuple[float, ...]
    load: float
    allowed: float
    span: float
    known: bool
    mass: float


def carried(counts: Counts, room: ResolvedRoom, hung: AsHung) -> Carried:
    """Return the brackets of what hangs: by its cloth where that is named, else by a cloth of middling weight."""
    treatment, practice = hung.treatment, counts.practice
    long = hung.right - hung.left
    if treatment.fabric is not None:
        made = counts.hung(room, hung.id)
        mass, per = made.weight.mass, made.weight.per_area
    else:
        per = cloth_weight("medium", practice)
        flat = sum(p.flat if p.flat is not None else (p.shut[1] - p.shut[0]) * 2 for p in hung.panels)
        mass = per * flat * max(hung.top - min(h for p in hung.panels for h in p.hem), 0.1)
    capacity = None if treatment.hardware.capacity is None else float(treatment.hardware.capacity)
    stacks = _stacks(hung)
    found = brackets_for(long, mass, per, practice, stacks=stacks, capacity=capacity)
    count = treatment.hardware.brackets
    at = found.at
    if count is not None and count != len(at):
        at = tuple(0.05 + (long - 0.1) * k / (count - 1) for k in range(count))
    spans = [b - a for a, b in pairwise(at)]
    return Carried(at, found.load, found.allowed, max(spans), treatment.fabric is not None, mass)


def _stacks(hung: AsHung) -> tuple[float, float]:
    """Return the widths of the stacks at the left and right end [m]."""
    left = sum(p.drawn[1] - p.drawn[0] for p in hung.panels if p.drawn[0] - hung.left < 1e-6)
    right = sum(p.drawn[1] - p.drawn[0] for p in hung.panels if hung.right - p.drawn[1] < 1e-6)
    return (left, 0.0) if len(hung.panels) == 1 and left and right else (left, right)


def installer_sheet(
    counts: Counts, room: ResolvedRoom, key: str, treatment: Treatment, number: str
) -> TradeSheet | None:
    """Return the installer's sheet of one treatment; None where nothing can be said of where it hangs."""
    walls = list(dict.fromkeys(room.openings[i].wall.name for i in treatment.openings))
    shown = shown_of(room, walls, counts.cloths, counts.practice)
    path = f"{room.path}/treatments/{key}"
    hanging = next((h for h in shown.hangings if h.path == path), None)
    if hanging is None:
        return None
    parts: list[TradePart] = []
    if treatment.kind == "panels" and treatment.mount != "inside":
        parts += _panels(counts, room, shown, hanging)
    else:
        parts += _inside(counts, shown, hanging)
    parts.append(TradeList("Order of work", tuple(_steps(hanging)), numbered=True))
    parts.append(TradeList("Tools", _tools(room, hanging)))
    parts.append(TradeCautions(cautions_by_id(*CAUTIONS)))
    say, name = counts.say, capital(thing_name(counts.job, path))
    where = f"on wall {' '.join(walls)}" if len(walls) == 1 else f"on walls {', '.join(walls)}"
    bar = treatment.hardware.kind if treatment.kind == "panels" else f"{treatment.kind} shade"
    long, high = say.fix(hanging.hung.right - hanging.hung.left), say.fix(hanging.hung.height)
    lead = f"{capital(bar)} {long} long {where}, its top {high} over the finished floor."
    return TradeSheet("installer", number, name, room.model.name, path, lead, tuple(parts))


def bracket_places(
    counts: Counts, shown: Shown, hanging: Hanging, along: tuple[float, ...]
) -> list[tuple[DrawnBracket, str]]:
    """Return brackets, given from the rod's left end [m], each with the corner it is measured from."""
    say, out = counts.say, []
    taped = hanging.hung.treatment.measured.floor is not None
    for n, at in enumerate(along, 1):
        x = hanging.rod[0] + at
        stretch = shown.face.stretch_at(x)
        left = x - stretch.left <= stretch.right - x or len(shown.face.stretches) == 1
        edge, corner = (stretch.left, stretch.left_corner) if left else (stretch.right, stretch.right_corner)
        floor = hanging.hung.floor(x - hanging.dx) + hanging.dy if taped else shown.face.floor(x)
        up = hanging.height - floor
        out.append((DrawnBracket(n, x, edge, floor, say.fix(abs(x - edge)), say.fix(up)), corner))
    return out


def _panels(counts: Counts, room: ResolvedRoom, shown: Shown, hanging: Hanging) -> list[TradePart]:
    hung = hanging.hung
    found = carried(counts, room, hung)
    brackets = bracket_places(counts, shown, hanging, found.at)
    placed = replace(hanging, supports=tuple(b.x for b, _ in brackets))
    drawn = replace(shown, hangings=tuple(placed if h.path == placed.path else h for h in shown.hangings))
    figure = bracket_figure(drawn, placed, [b for b, _ in brackets], counts.units)
    scale = figure.scale.name if figure.scale else ""
    bar = hung.treatment.hardware.kind
    caption = f"Faced from the room  ·  {scale}  ·  over the wall, centers from the corner; on it, floor to the top of the {bar}"
    rows = tuple(
        (
            str(b.number),
            f"{b.off} from corner {corner}",
            b.up,
            "end" if b.number in (1, len(brackets)) else "support",
        )
        for b, corner in brackets
    )
    note = (
        "Heights are to the top of the rod over the floor under each bracket, so that it hangs level: strike one level line and "
        "set all from it. A bracket's own screw holes follow its maker's template."
    )
    return [
        TradeFigure(figure.name, figure.svg(), figure.width, figure.height, caption),
        TradeTable("Brackets", ("Bracket", "Center", "Floor to top", "What"), rows, (0, 1.4, 1, 1), (), note),
        TradeFacts("Hardware", _hardware(counts, hung, found)),
        TradeFacts("Fixing", _fixing(counts, room, found) + _cables(counts, shown, [b for b, _ in brackets])),
    ]


def _hardware(counts: Counts, hung: AsHung, found: Carried) -> tuple[Fact, ...]:
    say, hardware = counts.say, hung.treatment.hardware
    bar = hardware.kind
    facts: list[Fact] = [
        (capital(bar), f"{say.fix(hung.right - hung.left)} end to end"
                       + (f", {say.fix(hung.diameter)} thick" if bar in ("rod", "pole") else "")
                       + (", finials besides" if hung.finial else "")),
        ("Past the glass", f"{say.fix(-hung.left)} at the left, {say.fix(hung.right - hung.run.width)} at the right"),
        ("Top", f"{say.fix(hung.height)} over the finished floor at the left of the window"),
        ("Projection", f"{say.fix(hung.projection)} from the wall to its center line"),
    ]  # fmt: skip
    if hung.finial:
        room_left, room_right = hung.run.left + hung.left, hung.run.right + hung.run.width - hung.right
        facts.append(
            (
                "Finials",
                f"{say.fix(hung.finial)} each; the corners are {say.fix(room_left)} and {say.fix(room_right)} past the ends",
            )
        )
    if hung.run.bends:
        facts.append(
            (
                "Turns",
                f"{plural(len(hung.run.bends), 'corner')} of the wall: {bar} bent or jointed to the angle taped in place",
            )
        )
    supports = max(0, len(found.at) - 2)
    facts.append(("Brackets", f"{len(found.at)}: one at each end" + (f", {plural(supports, 'center support')}" if supports else "")
                  + f"; widest span {say.fix(found.span)}"))  # fmt: skip
    weight = (
        f"{say.mass(found.mass)} of cloth"
        if found.known
        else f"about {say.mass(found.mass)}, reckoned as a cloth of middling weight: weigh it"
    )
    facts.append(
        (
            "Load",
            f"{weight}; drawn back, the fullest bracket carries {say.mass(found.load)}; one may carry {say.mass(found.allowed)}",
        )
    )
    if found.load > found.allowed + 1e-9:
        facts.append(
            (
                "Too much",
                "these brackets may not carry it: ask the maker for stronger ones, or hang it from more",
            )
        )
    control = hung.treatment.control
    if control != "none":
        facts.append(("Control", _CONTROL[control]))
    return tuple(facts)


_CONTROL = {
    "wand": "wand",
    "fixed loop": "loop, held taut to the wall by its device, screwed on, before anyone draws it",
    "free loop": "a free loop: not put up where a child may come; the maker's tension device first",
    "cord": "cord: not put up where a child may come; a cordless or wand control in its place",
    "motor": "motor: its supply is a licensed electrician's",
}


def _fixing(counts: Counts, room: ResolvedRoom, found: Carried) -> tuple[Fact, ...]:
    """Return what goes into the wall, by how it is built."""
    say, build = counts.say, room.model.wall_build
    facts: list[Fact] = []
    told = {
        "stud": "studs behind board",
        "masonry": "solid",
        "unknown": "not known: try it before anything is drilled",
    }
    facts.append(("Wall", told[build]))
    for wall in _INTO[build]:
        answer = fixings_for(max(found.load, 0.1), wall, counts.practice)
        good = [f for f in answer.all if f.holds and not f.key.startswith("art.picture_hook")]
        text = "none carries it: a board screwed to the studs first, or a stud"
        if good:
            text = f"{good[0].name}, carries {good[0].said} times the load"
        facts.append((capital(_NAMES[wall]), text))
    if build != "masonry":
        facts.append(
            (
                "Studs",
                "where they stand is not in the survey: find them at this height, and move no bracket more than its span allows",
            )
        )
    facts.append(
        (
            "Each bracket",
            f"reckoned at {say.mass(found.load)}, cloth alone; a pull by hand is more, so take the next stronger where there is one",
        )
    )
    return tuple(facts)


def _cables(counts: Counts, shown: Shown, brackets: list[DrawnBracket]) -> tuple[Fact, ...]:
    """Return which brackets stand in the line of a switch or an outlet, where a cable may run."""
    zone = float(counts.practice.length("art.cable_zone"))
    near = []
    for seen in shown.face.fittings:
        kind = getattr(seen.thing.model, "kind", "")
        if kind not in ("outlet", "switch", "thermostat", "sconce"):
            continue
        here = [str(b.number) for b in brackets if seen.left - zone <= b.x <= seen.right + zone]
        if here:
            near.append(
                f"{'brackets' if len(here) > 1 else 'bracket'} {', '.join(here)} over the {seen.thing.model.name or kind}"
            )
    if not near:
        return (
            (
                "Cables",
                "no switch or outlet of the survey stands under a bracket; use a detector all the same",
            ),
        )
    return (("Cables", f"one may run straight up or down: {'; '.join(near)}"),)


def _inside(counts: Counts, shown: Shown, hanging: Hanging) -> list[TradePart]:
    """Return what a shade, or panels in the opening, want."""
    say, hung = counts.say, hanging.hung
    figure = bracket_figure(shown, hanging, [], counts.units)
    scale = figure.scale.name if figure.scale else ""
    taped = hung.treatment.measured
    inside = hung.treatment.mount == "inside"
    wide = (
        hung.panels[0].shut[1] - hung.panels[0].shut[0] if hung.kind != "panels" else hung.right - hung.left
    )
    facts: list[Fact] = [
        ("Mount", "inside the opening" if inside else "on the wall or the ceiling"),
        (
            "Width",
            f"{say.fix(wide)}"
            + (", the smallest of what was taped" if inside and taped.width is not None else ""),
        ),
        ("Top", f"{say.fix(hung.height)} over the finished floor"),
    ]
    if inside:
        least = say.fix(float(counts.practice.length("drapery.shade_depth_least")))
        deep = (
            f"{say.fix(float(taped.depth))} deep"
            if taped.depth is not None
            else f"depth not taped; at least {least} is wanted"
        )
        facts.append(("Recess", deep))
        if taped.width is None:
            facts.append(
                (
                    "Before ordering",
                    "tape the clear width at top, middle and bottom; the smallest is ordered, and nobody deducts twice",
                )
            )
    facts.append(
        (
            "Brackets",
            "one at each end, and where the maker wants a center support; screwed into wood, not into filler",
        )
    )
    if hung.treatment.control != "none":
        facts.append(("Control", _CONTROL[hung.treatment.control]))
    return [
        TradeFigure(
            figure.name, figure.svg(), figure.width, figure.height, f"Faced from the room  ·  {scale}"
        ),
        TradeFacts("Shade" if hung.kind != "panels" else "Hardware", tuple(facts)),
    ]


def _steps(hanging: Hanging) -> list[str]:
    hung = hanging.hung
    if hung.kind != "panels" or hung.treatment.mount == "inside":
        return [
            "Tape the opening again in place; nothing goes up that was ordered to another size.",
            "Mark both brackets level with each other, pilot, screw, hang the shade, run it up and down full length.",
            "Set the control by its maker's sheet; no loop is left loose.",
        ]
    bar = hung.treatment.hardware.kind
    steps = [
        "Tape the wall again at this sheet's numbers before the first hole: corner to each bracket, floor to the line.",
        f"Strike one level line across at the top of the {bar}; check it over the floor at both ends.",
        "Find studs and cables at that line; mark bracket centers from the corner.",
        "Put up both end brackets, then the supports; each takes a hard pull before anything hangs.",
        f"Lay the {bar} in, level it again, set finials and stops.",
    ]
    if hung.treatment.measured.floor is not None:
        steps.append(
            "The floor runs off: panels are sewn to it, left and right are marked and are not exchanged."
        )
    steps.append(
        "Hang the panels, dress the folds, draw them shut and back once; measure the hems over the floor at both ends."
    )
    return steps


def _tools(room: ResolvedRoom, hanging: Hanging) -> tuple[str, ...]:
    drill = {
        "stud": "drill, pilot bits for wood and board, screws and anchors as above",
        "masonry": "hammer drill, masonry bits, plugs and screws as above",
        "unknown": "drill, bits for wood, board and masonry, fixings for each as above",
    }[room.model.wall_build]
    ladder = ("step ladder, a second person for what is long or heavy",)
    return ("long level or a laser, steel tape, pencil, detector for studs and cables", drill, *ladder)


def wanted(counts: Counts, room: ResolvedRoom, key: str, treatment: Treatment) -> bool:
    """Return whether an installer has to come for a treatment: it is made, it arrives, or its hanging is changed."""
    if counts.made(treatment) or treatment.arrives:
        return True
    before = counts.opened.found.cases.get(room.id)
    old = before.room.model.treatments.get(key) if before is not None else None
    if old is None:
        return True
    return (old.hardware, old.mount, old.kind, old.control) != (
        treatment.hardware, treatment.mount, treatment.kind, treatment.control)  # fmt: skip
