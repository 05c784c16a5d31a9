"""The cloth of panels that a workroom alters: a band at the hem, a length joined on at the top, widths added."""

from __future__ import annotations

import math
from collections.abc import Iterator

from halfdrop.base.working import Working
from halfdrop.drapery.as_hung import AsHung
from halfdrop.drapery.cloth import Cloth
from halfdrop.drapery.cut_length import allowances
from halfdrop.drapery.fullness import fullness_for
from halfdrop.drapery.sewn import StripsAnswer
from halfdrop.drapery.widths import count_widths
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_EDGE, _HEM = "drapery.tie_allowance", "drapery.hem_kept_least"


def flat_of(hung: AsHung, practice: Practice) -> float:
    """Return the flat width of all panels [m]: as known, else as the heading wants.

    Source: our own. Checked by: tests/drapery/test_alter.py.
    """
    wanted = fullness_for(hung.treatment.heading or "pencil", practice)
    return sum(p.flat if p.flat is not None else wanted * (p.shut[1] - p.shut[0]) for p in hung.panels)


def altered_strips(
    hung: AsHung, cloth: Cloth | None, practice: Practice
) -> Iterator[tuple[str, StripsAnswer]]:
    """Give what a treatment's `altered` takes: its name, and strips across the cloth.

    Parameters
    ----------
    hung : AsHung
        As it hangs when it is done.
    cloth : Cloth or None
        Of band, join and widths; one of usual width where none is named.
    practice : Practice
        Hems, edges.

    Source: our own; allowances are common practice. Checked by: tests/drapery/test_alter.py.
    """
    say, altered, treatment = Words(practice), hung.treatment.altered, hung.treatment
    if altered is None:
        return
    width = cloth.width if cloth else float(practice.length("drapery.cloth_width"))
    heading, drop = treatment.heading or "pencil", hung.top - min(min(p.hem) for p in hung.panels)
    allowed = allowances(heading, treatment.length, practice, kind=cloth.kind if cloth else "medium")
    edge, hem = float(practice.length(_EDGE)), float(practice.length(_HEM))
    for name, depth, more, said in (
        ("band", altered.band, edge + hem, f"{say(edge)} + {say(hem)}"),
        ("join", altered.joined, edge + allowed.heading, f"{say(edge)} + {say(allowed.heading)}"),
    ):
        if depth is not None:
            across = count_widths(flat_of(hung, practice), width, practice, panels=len(hung.panels))
            working = Working(name.capitalize(), list(across.working.steps))
            cut = float(depth) + more
            turn = "hem" if name == "band" else "heading"
            working.step(
                "cut",
                f"depth + seam + {turn}",
                f"{say(float(depth))} + {said}",
                say(cut),
                source=say.cited(_EDGE, _HEM),
            )
            yield name, StripsAnswer(across.cuts, cut, 1, working)
    if altered.widths is not None:
        count = math.ceil(altered.widths - 1e-9)
        cut = drop + allowed.hem + allowed.heading
        working = Working("Widths added")
        working.step("widths", "as added, cut whole", f"{altered.widths:g}", f"{count}", rounding="up")
        working.step("cut", "finished + heading + hem", f"{say(drop)} + {say(allowed.heading)} + {say(allowed.hem)}", say(cut),
                     source=say.cited(*allowed.keys))  # fmt: skip
        yield "widths", StripsAnswer(count, cut, 1, working)
