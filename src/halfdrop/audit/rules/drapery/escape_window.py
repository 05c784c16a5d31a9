"""What hangs at an escape window is opened by hand, without a tool.

Why: In smoke a person has seconds at the window; cloth that is fixed across it, or a shade that only a motor
    lifts, and the motor without current, holds one up or shuts the way out.
Source: practice value hazards.escape_breadth (IRC R310, as a secondary page quotes it: so much of the window
    has to open, without keys, tools or special knowledge; the local code decides).
Fails: panels that are fixed leave less of a window marked `escape: true` free between them than the value; or
    a shade inside the opening is worked by a motor.
Passes exactly: at the value.
Silent: for windows not marked; for panels that draw, by motor too, as they are pushed aside; for a shade outside
    the opening, which is swung aside; for what the fabric is made of.
Caution: the local code and the fire service say what a way out must be. Try it once with the light off.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Patch, Proposal
from halfdrop.audit.hung import hung_in
from halfdrop.audit.moves import text
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least
from halfdrop.drapery.as_hung import AsHung
from halfdrop.room import WallOpening

GRADE = Grade.HAZARD
PRACTICE = ("hazards.escape_breadth",)
CAUTION = (
    "The local code decides what an escape window must be; try once with the light off that it opens by hand."
)


def _span(hung: AsHung, window: WallOpening) -> tuple[float, float]:
    """Return where a window lies along the run [m]."""
    return min(hung.run.spans, key=lambda s: float(((hung.at(sum(s) / 2) - window.center) ** 2).sum()))


def _free(hung: AsHung, window: WallOpening) -> float:
    """Return the widest part of a window that fixed panels leave free [m]."""
    low, high = _span(hung, window)
    edges = [low, high, *(min(max(x, low), high) for panel in hung.panels for x in panel.shut)]
    free = 0.0
    for a, b in zip(sorted(edges), sorted(edges)[1:], strict=False):
        if not any(p.shut[0] < (a + b) / 2 < p.shut[1] for p in hung.panels):
            free = max(free, b - a)
    return free


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each escape window that what hangs there holds shut."""
    wanted = case.length("hazards.escape_breadth")
    hung_there = hung_in(case)
    for key, hanging in case.room.treatments.items():
        model, hung = hanging.model, hung_there.get(key)
        for window in (o for o in hanging.openings if o.model.escape):
            if model.kind != "panels" and model.mount == "inside" and model.control == "motor":
                yield case.finding(
                    rule_id(__name__), GRADE, (hanging, window),
                    f"Only a motor lifts the {hanging.name} inside the {window.name}. Without current nobody gets out by it; a "
                    "shade at an escape window is lifted by hand.",
                    caution=CAUTION,
                )  # fmt: skip
            if model.kind != "panels" or model.draw != "fixed" or hung is None:
                continue
            free, one = _free(hung, window), model.count == 1
            if not at_least(free, wanted):
                what = f"The fixed {f'panel of the {hanging.name} leaves' if one else f'panels of the {hanging.name} leave'}"
                yield case.finding(
                    rule_id(__name__), GRADE, (hanging, window),
                    f"{what} {case.say(free, 'down')} of the {window.name} free; {case.say(wanted, 'up')} is wanted, so that one "
                    f"gets out without pulling {'it' if one else 'them'} down.",
                    measured=free, wanted=wanted, sigma=case.length("survey.tape_sigma"),
                    practice="hazards.escape_breadth", caution=CAUTION,
                )  # fmt: skip


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Let the panels draw, hang them farther out, make them narrower; lift the shade by hand."""
    hanging = case.room.treatments[finding.subjects[0].split("/")[-1]]
    model, path = hanging.model, f"/{hanging.path}"
    if model.kind != "panels":
        bought = (f"cordless lift for the {hanging.name}",)
        patch: Patch = [{"op": "add", "path": f"{path}/control", "value": "none"}]
        yield Proposal("cordless", f"Have the {hanging.name} refitted to lift by hand.", patch, None, bought)
        return
    gone: Patch = [
        {"op": "remove", "path": f"{path}/{key}"}
        for key in ("panel", "side")
        if getattr(model, key) is not None
    ]
    patch = [*gone, {"op": "add", "path": f"{path}/draw", "value": "pair"}]
    yield Proposal("draw", f"Hang the {hanging.name} to draw as a pair.", patch)
    hung = hung_in(case).get(hanging.id)
    lack = (finding.wanted or 0.0) - (finding.measured or 0.0)
    if hung is None or lack <= 0:
        return
    yield from _farther_out(case, hung, hanging.name, lack)
    least = min(p.shut[1] - p.shut[0] for p in hung.panels)
    if not model.keep and least > lack:
        size = text(case, least - lack, -1)
        patch = [{"op": "add", "path": f"{path}/panel", "value": size}]
        yield Proposal(
            "size",
            f"Make {'the' if model.count == 1 else 'each'} panel of the {hanging.name} {size} wide.",
            patch,
        )


def _farther_out(case: RoomCase, hung: AsHung, name: str, lack: float) -> Iterator[Proposal]:
    """Yield a longer rod: shared by both sides, or all on one."""
    path = f"/{hung.path}/hardware"
    room = (
        hung.run.left - hung.finial + hung.left,
        hung.run.right - hung.finial + hung.run.width - hung.right,
    )
    known = "hardware" in hung.treatment.model_fields_set
    for left, right in ((lack / 2, lack / 2), (lack, 0.0), (0.0, lack)):
        if left > room[0] or right > room[1]:
            continue
        ends = {
            "left": text(case, left - hung.left, 1),
            "right": text(case, right + hung.right - hung.run.width, 1),
        }
        patch: Patch = [{"op": "add", "path": f"{path}/{k}", "value": v} for k, v in ends.items()]
        title = f"Hang the {name} on a longer rod, {case.say(lack, 'up')} farther out in all."
        bought = (f"{hung.treatment.hardware.kind} for the {name}",)
        yield Proposal(
            "rod", title, patch if known else [{"op": "add", "path": path, "value": ends}], None, bought
        )
