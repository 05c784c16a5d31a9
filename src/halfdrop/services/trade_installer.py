"""The installer's sheets: one for each window, or for several that read as one."""

from __future__ import annotations

from dataclasses import replace

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
from halfdrop.drapery.as_hung import AsHung, as_hung
from halfdrop.drawing.brackets import DrawnBracket, bracket_figure
from halfdrop.drawing.elevation import Hanging, Shown, shown_of
from halfdrop.job.naming import thing_name
from halfdrop.job.treatments import Treatment
from halfdrop.room import ResolvedRoom
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_fixing import CONTROL, cable_facts, carried, fixing_facts, hardware_facts
from halfdrop.services.trade_words import capital, cautions_by_id

CAUTIONS = ("drilling", "ladders", "loops", "lead", "asbestos")


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
    parts.append(TradeFacts("", (("Tools", _tools(room)),)))
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
        TradeFacts("Hardware", _was(counts, room, hung) + hardware_facts(counts, hung, found)),
        TradeFacts(
            "Fixing", fixing_facts(counts, room, found) + cable_facts(counts, shown, [b for b, _ in brackets])
        ),
    ]


def _was(counts: Counts, room: ResolvedRoom, hung: AsHung) -> tuple[Fact, ...]:
    """Return where what hangs here was found, where it was found elsewhere."""
    before = counts.opened.found.cases.get(room.id)
    if before is None or hung.id not in before.room.model.treatments:
        return ()
    old = as_hung(before.room, hung.id, counts.cloths, counts.practice)
    if old is None or not {"height", "left", "right"} & old.given:
        return ()
    say, told = counts.say, []
    if abs(old.height - hung.height) > 5e-4:
        way = "up" if hung.height > old.height else "down"
        told.append(f"its top at {say.fix(old.height)}: {say.fix(abs(hung.height - old.height))} {way}")
    if abs((old.right - old.left) - (hung.right - hung.left)) > 5e-4:
        told.append(f"{say.fix(old.right - old.left)} long")
    if not told:
        return ()
    stays = (
        "; the same one, hung anew" if not (hung.treatment.hardware.arrives or hung.treatment.arrives) else ""
    )
    return (("As found", f"{', '.join(told)}{stays}; take it down, fill and paint the old holes"),)


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
        facts.append(("Control", CONTROL[hung.treatment.control]))
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
    if hung.treatment.draw == "fixed":
        what = "panel" if hung.treatment.count == 1 else "panels"
        steps.append(f"Hang the {what}, dress the folds; measure the hems over the floor at both ends.")
    else:
        steps.append(
            "Hang the panels, dress the folds, draw them shut and back once; measure the hems over the floor at both ends."
        )
    return steps


def _tools(room: ResolvedRoom) -> str:
    drill = {
        "stud": "drill, pilot bits for wood and board",
        "masonry": "hammer drill, masonry bits",
        "unknown": "drill, bits for wood, board and masonry",
    }[room.model.wall_build]
    marks = "long level or a laser, steel tape, pencil; detector for studs and cables"
    return f"{marks}; {drill}; step ladder, a second person for what is long or heavy"


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
