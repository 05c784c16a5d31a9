"""The workroom's sheet for a flat roman shade in a cloth of the job."""

from __future__ import annotations

from itertools import pairwise

from halfdrop.base.errors import At, HalfdropError
from halfdrop.book.trades import Fact, TradeFacts, TradeFigure, TradeList, TradeSheet
from halfdrop.drapery import place_of, shade_of
from halfdrop.drapery.shades import RomanAnswer, roman_flat
from halfdrop.drawing.roman import roman_figure
from halfdrop.job.naming import thing_name
from halfdrop.job.treatments import Treatment
from halfdrop.room import ResolvedRoom
from halfdrop.services.trade_bolts import pattern_of
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_words import capital, plural
from halfdrop.services.trade_workroom import cut_list


def roman_sheet(
    counts: Counts, room: ResolvedRoom, key: str, treatment: Treatment, number: str
) -> TradeSheet:
    """Return the workroom's sheet of a roman shade.

    Raises
    ------
    InputError
        Where the opening leaves it no width, or no fold: with file and line.
    """
    path, say = f"{room.path}/treatments/{key}", counts.say
    cloth = counts.cloths[treatment.fabric or ""]
    try:
        place = place_of(room, treatment, path, cloth.kind, counts.practice)
        shade = shade_of(treatment, place.run, place.height, counts.practice)
        roman = roman_flat(shade.width, shade.length, counts.practice)
    except HalfdropError as error:
        raise counts.opened.placed(error.placed(At(path=path))) from error
    heading = shade.length - roman.skirt - roman.folds * roman.panel
    heights = [(roman.skirt, say.cloth(roman.skirt))]
    heights += [(roman.panel, say.cloth(roman.panel))] * (roman.folds - 1)
    heights.append((heading + roman.panel, say.cloth(heading + roman.panel)))
    spaces = [b - a for a, b in pairwise((0.0, *roman.rings, shade.width))]
    figure = roman_figure(
        path, shade.width, heights, roman.rings, [say.cloth(s) for s in spaces], counts.units
    )
    scale = f"  ·  {figure.scale.name}" if figure.scale else ""
    lining: list[Fact] = []
    if treatment.lining is not None:
        named = counts.cloths.get(treatment.lining.fabric or "")
        lining = [("Lining", named.name if named else f"{treatment.lining.kind}; its cloth is not chosen")]
    inside = treatment.mount == "inside"
    facts: list[Fact] = [
        ("Cloth", f"{cloth.name}, {say.cloth(cloth.width, 'down')} usable; {pattern_of(cloth, say)}"),
        ("Finished", f"{say.cloth(shade.width)} × {say.cloth(shade.length)}" + (", inside the opening" if inside else "")),
        ("Cut", f"{say.cloth(roman.cut_width, 'up')} × {say.cloth(roman.cut_length, 'up')}: side hems; hem, and the wrap over the board"),
        *lining,
        ("Folds", f"{roman.folds}, a rod every {say.cloth(roman.panel)} up from the skirt of {say.cloth(roman.skirt)}"),
        ("Rings", f"{plural(len(roman.rings), 'row')} on each rod, {plural(len(roman.rings) * roman.folds, 'ring')} in all"),
        ("Raised", f"{say.cloth(roman.stack)} from board to hem"),
    ]  # fmt: skip
    return TradeSheet(
        "workroom", number, capital(thing_name(counts.job, path)), room.model.name, path,
        f"A flat roman shade in {cloth.name}, {say.cloth(shade.width)} wide and {say.cloth(shade.length)} long, finished.",
        (
            TradeFacts("", tuple(facts)),
            TradeFigure(figure.name, figure.svg(), figure.width, figure.height, f"{figure.name}{scale}"),
            cut_list(counts, path),
            TradeList("Order of work", tuple(_steps(treatment, roman, cloth.repeat)), numbered=True),
        ),
    )  # fmt: skip


def _steps(treatment: Treatment, roman: RomanAnswer, repeat: float) -> list[str]:
    steps = ["Tape the opening again before the cloth is cut; an inside shade is made to the smallest width."]
    middle = ", a motif or the middle of the repeat in its center" if repeat else ""
    steps.append(
        f"Cut face{' and lining' if treatment.lining is not None else ''} square{middle}; join only at the sides."
    )
    steps.append(
        "Side hems and bottom hem; rod pockets on the back by the drawing, measured from the hem, all from one edge."
    )
    steps.append(
        "Rings on each pocket by the drawing; the lowest ring holds the cords' knot, as its maker's safety sheet says."
    )
    steps.append(
        "Board covered, shade stapled over it, cords or a spring lift threaded; no cord reaches where a child can."
    )
    steps.append(
        f"Raise and lower it on the table: {plural(roman.folds, 'fold')} lie on one another, the hem level."
    )
    return steps
