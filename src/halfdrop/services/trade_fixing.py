"""What a rod hangs from: brackets and their load, the hardware itself, what goes into the wall, cables near it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from halfdrop.art import fixings_for
from halfdrop.book.trades import Fact
from halfdrop.drapery.as_hung import AsHung
from halfdrop.drapery.rods import rod_under
from halfdrop.drawing.brackets import DrawnBracket
from halfdrop.drawing.elevation import Shown
from halfdrop.room import ResolvedRoom
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_words import capital, plural

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
    """Return the brackets of what hangs: by the cloth it is made of, or by what is seen of panels that stay."""
    treatment = hung.treatment
    if counts.made(treatment):
        made = counts.hung(room, hung.id)
        found, mass = made.brackets, made.weight.mass
    else:
        under = rod_under(hung, room.id, counts.cloths, counts.practice)
        found, mass = under.brackets, under.weight.mass
    count, long, at = treatment.hardware.brackets, hung.right - hung.left, found.at
    if count is not None and count != len(at):
        at = tuple(0.05 + (long - 0.1) * k / (count - 1) for k in range(count))
    span = max(b - a for a, b in pairwise(at))
    return Carried(at, found.load, found.allowed, span, treatment.fabric is not None, mass)


def hardware_facts(counts: Counts, hung: AsHung, found: Carried) -> tuple[Fact, ...]:
    say, hardware = counts.say, hung.treatment.hardware
    bar = hardware.kind
    facts: list[Fact] = [
        (capital(bar), f"{say.fix(hung.right - hung.left)} end to end"
                       + (f", {say.fix(hung.diameter)} thick" if bar in ("rod", "pole") else "")
                       + (", finials besides" if hung.finial else "")),
        ("Past the opening", f"{say.fix(-hung.left)} at the left, {say.fix(hung.right - hung.run.width)} at the right"),
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
        facts.append(("Control", CONTROL[control]))
    return tuple(facts)


CONTROL = {
    "wand": "wand",
    "fixed loop": "loop, held taut to the wall by its device, screwed on, before anyone draws it",
    "free loop": "a free loop: not put up where a child may come; the maker's tension device first",
    "cord": "cord: not put up where a child may come; a cordless or wand control in its place",
    "motor": "motor: its supply is a licensed electrician's",
}


def fixing_facts(counts: Counts, room: ResolvedRoom, found: Carried) -> tuple[Fact, ...]:
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


def cable_facts(counts: Counts, shown: Shown, brackets: list[DrawnBracket]) -> tuple[Fact, ...]:
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
