"""The workroom's sheet for panels that hang already and are put right: let down, banded, joined, widened."""

from __future__ import annotations

from halfdrop.book.trades import Fact, TradeFacts, TradeList, TradePart, TradeSheet
from halfdrop.drapery import Cloth, altered_strips
from halfdrop.drapery.as_hung import AsHung, as_hung
from halfdrop.job.naming import thing_name
from halfdrop.job.treatments import Treatment
from halfdrop.room import ResolvedRoom
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_words import capital, halves, plural
from halfdrop.services.trade_workroom import cut_list


def altered_sheet(
    counts: Counts, room: ResolvedRoom, key: str, treatment: Treatment, number: str
) -> TradeSheet | None:
    """Return the sheet of an alteration; None where nothing can be said of what hangs there."""
    path, say = f"{room.path}/treatments/{key}", counts.say
    hung = as_hung(room, key, counts.cloths, counts.practice)
    if hung is None or treatment.altered is None:
        return None
    cloth = counts.cloths.get(treatment.altered.fabric or "")
    finished = hung.top - min(min(panel.hem) for panel in hung.panels)
    facts: list[Fact] = [("Panels", f"{plural(len(hung.panels), 'panel')}, {treatment.heading}")]
    before = counts.opened.found.cases.get(room.id)
    old = before.room.model.treatments.get(key) if before is not None else None
    if old is not None and old.drop is not None and abs(float(old.drop) - finished) > 5e-4:
        facts.append(("Long now", say.cloth(float(old.drop))))
    facts.append(("To finish at", say.cloth(finished)))
    facts += _changes(counts, treatment, hung, cloth)
    steps = [
        "Tape each panel as it hangs, top to hem at both edges, and along its flat width, before it is taken down.",
        *_steps(counts, treatment),
        "Press, hang or table again, and measure against this sheet before they go back.",
    ]
    parts: list[TradePart] = [TradeFacts("", tuple(facts))]
    if cloth is not None:
        parts.append(cut_list(counts, path))
    parts.append(TradeList("Order of work", tuple(steps), numbered=True))
    name = capital(thing_name(counts.job, path))
    lead = f"{capital(plural(len(hung.panels), 'panel'))} that hang already, to finish {say.cloth(finished)} long."
    return TradeSheet("workroom", number, f"{name}: to alter", room.model.name, path, lead, tuple(parts))


def _changes(counts: Counts, treatment: Treatment, hung: AsHung, cloth: Cloth | None) -> list[Fact]:
    """Return what is done, each with its cloth."""
    say, altered = counts.say, treatment.altered
    assert altered is not None
    of = f" in {cloth.name}" if cloth is not None else ", its cloth not chosen"
    facts: list[Fact] = []
    if altered.let_down is not None:
        left = (
            f"; {say.cloth(float(treatment.hems.bottom))} of hem stays"
            if treatment.hems.bottom is not None
            else ""
        )
        facts.append(("Let down", f"{say.cloth(float(altered.let_down))} out of the hem{left}"))
    if altered.band is not None:
        facts.append(("Band", f"{say.cloth(float(altered.band))} deep at the hem{of}"))
    if altered.joined is not None:
        facts.append(
            ("Joined", f"{say.cloth(float(altered.joined))} at the top{of}, the seam in the heading")
        )
    if altered.widths is not None:
        facts.append(("Widths", f"{halves(altered.widths)} added in all{of}"))
    for name, strips in altered_strips(hung, cloth, counts.practice):
        facts.append(
            (f"Cut for {name}", f"{plural(strips.strips, 'width')} of {say.cloth(strips.cut, 'up')}")
        )
    return facts


def _steps(counts: Counts, treatment: Treatment) -> list[str]:
    altered = treatment.altered
    assert altered is not None
    steps = []
    if altered.let_down is not None:
        steps.append(
            "Open the hem, press out or brush the old fold; where it has faded or worn, tell the decorator before going on."
        )
        steps.append("Turn the hem anew at its lower line; weights back in.")
    if altered.widths is not None:
        steps.append(
            "Open heading and return edge; join the widths at the return, never at the leading edge; make the heading anew."
        )
    if altered.band is not None:
        steps.append(
            "Sew the band on, its seam level over the whole window, its own hem double; lining let down or lengthened with it."
        )
    if altered.joined is not None:
        steps.append(
            "Open the heading, join the cloth on so that the seam lies in the heading, and make it anew."
        )
    return steps
