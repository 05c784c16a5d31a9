"""The stack by the rule that practice takes, with the spread of what all published rules say."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.drapery.answer import LengthAnswer
from halfdrop.drapery.stack.flat import stack_flat
from halfdrop.drapery.stack.half import stack_half
from halfdrop.drapery.stack.per_width import stack_per_width
from halfdrop.drapery.stack.percent import Make, stack_percent
from halfdrop.drapery.stack.share import stack_of_rod
from halfdrop.drapery.stack.table import stack_table
from halfdrop.drapery.stack.third import stack_third
from halfdrop.job.treatments import Heading
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_METHOD = "drapery.stack_method"


@dataclass(frozen=True)
class StackAnswer:
    """The stack of the panels that clear a window.

    Attributes
    ----------
    total : float
        Both sides together [m]; on one side for a one-way draw.
    method : str
        The rule taken.
    spread : dict of str to float
        What every published rule says [m], by name.
    working : Working
        The steps.
    """

    total: float
    method: str
    spread: dict[str, float]
    working: Working


def stack_back(
    window: float,
    practice: Practice,
    *,
    heading: Heading = "triple pinch",
    make: Make = "lined",
    pile: bool = False,
    one_way: bool = False,
    widths: float | None = None,
) -> StackAnswer:
    """Return the stack by the rule of practice.

    A wave heading stacks by its own share of the rod, since no published rule for pleats holds for it.

    Parameters
    ----------
    window : float
        Glass to clear [m].
    practice : Practice
        `drapery.stack_method` and the rules' values.
    heading : str
        The heading.
    make : {"unlined", "lined", "blackout", "interlined"}
        What backs the cloth.
    pile : bool
        Velvet or chenille.
    one_way : bool
        Whether one panel clears the window to one side.
    widths : float, optional
        Widths of cloth in the stack, for the rule that counts them.

    Source: see each rule; the choice is ours, `drapery.stack_method` says why.
    Checked by: tests/drapery/test_stack.py.
    """
    say = Words(practice)
    rules: dict[str, LengthAnswer] = {
        "table": stack_table(window, practice, one_way=one_way),
        "third": stack_third(window, practice),
        "percent": stack_percent(window, make, practice, pile=pile),
        "half": stack_half(window, practice),
        "flat": stack_flat(window, practice),
    }
    if widths is not None:
        rules["per width"] = stack_per_width(widths, practice)
    method = practice.text(_METHOD)
    chosen = (
        stack_of_rod(window, practice, wave=True) if heading == "wave" else rules.get(method, rules["table"])
    )
    working = Working("Stack-back")
    working.steps.extend(chosen.working.steps)
    working.step("what the published rules say", "each rule for this window",
                 "; ".join(f"{name} {say(rule.length)}" for name, rule in rules.items()),
                 f"{say(min(r.length for r in rules.values()))} to {say(max(r.length for r in rules.values()))}",
                 source=say.cited(_METHOD))  # fmt: skip
    return StackAnswer(chosen.length, chosen.method, {n: r.length for n, r in rules.items()}, working)
