"""No cord or loop hangs free where a child can reach it.

Why: A child who plays at a window winds a free cord or loop round the neck; it takes minutes and makes no
    sound. A cleat high on the wall is forgotten once, and a chair stands under it.
Source: practice value hazards.cord_free (ANSI/WCMA A100.1 and 16 CFR 1120 and 1260, from memory; the local
    code decides).
Fails: a treatment is worked by a free loop, or by a cord that hangs free by more than the value or whose
    length was not taped: a hazard where a child lives here or the job does not say who does, a fault where
    none does, for what is made to order has had no free cord since June 2024. A loop in a fixed tension
    device, with a child in the home, is a matter of taste in the grade only: the standard allows it, to be
    without is better.
Passes exactly: at the value.
Silent: for wands, motors, and what is drawn or lifted by hand; for a fixed loop in a home without a child.
Caution: until it is changed, cut no cord that bears the shade: tie it up out of reach and move what a child
    climbs away from the window. The tension device is screwed to the wall or the frame as its maker says.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Patch, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_most
from halfdrop.room import HungTreatment

GRADE = Grade.HAZARD
PRACTICE = ("hazards.cord_free",)
CAUTION = (
    "Until it is changed, tie cord or loop up out of reach and move what a child climbs away from the window. "
    "The local code and the maker's instructions come first."
)
_WORKED = {"free loop": "A loop", "cord": "A cord"}


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each treatment whose cord or loop can be reached."""
    people = case.job.people.values()
    child = not people or any(person.age == "child" for person in people)
    who = "" if people else " The job does not say whether a child lives here; it counts as if one did."
    wanted = case.length("hazards.cord_free")
    for hung in case.room.treatments.values():
        model, taped = hung.model, hung.model.cord
        if model.control == "fixed loop" and child:
            yield _finding(
                case, hung, Grade.TASTE,
                f"A loop in a fixed tension device works the {hung.name}. That is allowed; where a child lives, nothing "
                f"to pull is better. Try that the device is screwed fast and the loop taut.{who}",
            )  # fmt: skip
        if model.control not in _WORKED or (taped is not None and at_most(float(taped), wanted)):
            continue
        hangs = "hangs free" if taped is None else f"hangs {case.say(float(taped))} free"
        asks = " Its length was not taped." if taped is None else ""
        why = (
            "a child can be strangled by it within minutes"
            if child
            else "nothing made to order has one any more"
        )
        yield _finding(
            case, hung, GRADE if child else Grade.FAULT,
            f"{_WORKED[model.control]} works the {hung.name} and {hangs}; {case.say(wanted, 'down')} at most is wanted, "
            f"for {why}.{asks}{who}",
            None if taped is None else float(taped),
        )  # fmt: skip


def _finding(
    case: RoomCase, hung: HungTreatment, grade: Grade, message: str, measured: float | None = None
) -> Finding:
    return case.finding(
        rule_id(__name__), grade, (hung,), message, measured=measured,
        wanted=None if measured is None else case.length("hazards.cord_free"), sense="at most",
        practice="hazards.cord_free", caution=CAUTION,
    )  # fmt: skip


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Draw it by hand or by a wand, lift it without a cord, let a motor do it; where no child lives, hold the loop fast."""
    hung = case.room.treatments[finding.subjects[0].split("/")[-1]]
    model, path = hung.model, f"/{hung.path}"

    def patch(control: str) -> Patch:
        gone: Patch = [{"op": "remove", "path": f"{path}/cord"}] if model.cord is not None else []
        return [*gone, {"op": "add", "path": f"{path}/control", "value": control}]

    if model.kind == "panels":
        bought = (f"draw wands for the {hung.name}",)
        yield Proposal(
            "wand", f"Draw the {hung.name} by wands, and take the cord off.", patch("wand"), None, bought
        )
    else:
        bought = (f"cordless lift for the {hung.name}",)
        yield Proposal("cordless", f"Have the {hung.name} refitted to lift without a cord.", patch("none"), None, bought)  # fmt: skip
    motor = (f"motor for the {hung.name}",)
    yield Proposal("motor", f"Have a motor work the {hung.name}.", patch("motor"), None, motor)
    if model.control == "free loop":
        device = (f"tension device for the {hung.name}",)
        title = f"Hold the loop of the {hung.name} in a tension device screwed to the frame."
        yield Proposal("anchor", title, patch("fixed loop"), None, device)
