"""Rod height and length of a treatment: as given, or designed where the document leaves them open."""

from __future__ import annotations

from math import inf

from halfdrop.base.errors import At, InputError
from halfdrop.base.working import Working
from halfdrop.drapery.hung import Place
from halfdrop.drapery.rod import RodAnswer, rod_for
from halfdrop.drapery.rod_height import RodHeight, rod_height
from halfdrop.drapery.run import Run, run_of
from halfdrop.drapery.stack import Make, StackAnswer, stack_back
from halfdrop.job.treatments import FabricKind, Treatment
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom


def make_of(treatment: Treatment, kind: FabricKind) -> Make:
    """Return what backs a treatment's cloth, as the stack rule by make calls it."""
    if treatment.lining is None:
        return "blackout" if kind == "blackout" else "unlined"
    makes: dict[str, Make] = {"lined": "lined", "blackout": "blackout", "interlined": "interlined"}
    return makes[treatment.lining.kind]


def stack_of(
    treatment: Treatment, width: float, kind: FabricKind, practice: Practice, widths: float | None = None
) -> StackAnswer | None:
    """Return the stack of a treatment that clears `width` [m]; None for fixed panels."""
    if treatment.draw == "fixed":
        return None
    return stack_back(width, practice, heading=treatment.heading or "triple pinch", make=make_of(treatment, kind),
                      pile=kind == "velvet", one_way=treatment.draw in ("left", "right"), widths=widths)  # fmt: skip


def place_of(
    room: ResolvedRoom, treatment: Treatment, path: str, kind: FabricKind, practice: Practice
) -> Place:
    """Return where a treatment's hardware goes.

    Raises
    ------
    InputError
        Where neither a height nor the room's ceiling is known.

    Source: our own, from the calculators. Checked by: tests/drapery/test_takeoff.py.
    """
    hardware = treatment.hardware
    run = run_of(room, treatment, path)
    span = _span(room, treatment, run, path, practice)
    stack = stack_of(treatment, run.width, kind, practice)
    designed = hardware.height is None or hardware.left is None or hardware.right is None
    height = float(hardware.height) if hardware.height is not None else span.height
    finial = float(hardware.finial or 0.0)
    if treatment.mount == "inside":
        rod = _given(run, 0.0, 0.0)
    else:
        rod = rod_for(
            run.width,
            stack,
            practice,
            draw=treatment.draw,
            room_left=run.left - finial,
            room_right=run.right - finial,
        )
        if hardware.left is not None or hardware.right is not None:
            left = float(hardware.left) if hardware.left is not None else rod.left
            right = float(hardware.right) if hardware.right is not None else rod.right
            rod = _given(run, left, right)
    return Place(run, stack, rod, height, span, designed and treatment.mount != "inside")


def _given(run: Run, left: float, right: float) -> RodAnswer:
    return RodAnswer(run.width + left + right, left, right, 0.0, Working("Rod as given"))


def _span(room: ResolvedRoom, treatment: Treatment, run: Run, path: str, practice: Practice) -> RodHeight:
    """Return where the rod may be; without a ceiling height only a height that is given counts."""
    hardware, taped = treatment.hardware, treatment.measured
    ceiling, frame = room.clear_height, run.frame
    if taped.floor is not None and taped.head is not None:
        frame += (
            float(taped.floor.left) + max(taped.head.left, taped.head.center, taped.head.right) - run.head
        )
    if ceiling is None:
        if hardware.height is None:
            raise InputError(
                f"treatment `{path.rsplit('/', 1)[-1]}` has no `hardware: height`, and the room no ceiling height",
                at=At(path=path),
                hint="tape the ceiling under `survey: heights`, or give the hardware's `height`",
            )
        ceiling = inf
    above = max(0.0, -float(hardware.drop or 0.0))
    if treatment.mount == "inside":
        height = RodHeight(run.head, run.sill, run.head, Working("Inside the opening"))
    elif treatment.mount == "ceiling" and ceiling < inf:
        height = RodHeight(ceiling, ceiling, ceiling, Working("At the ceiling"))
    elif ceiling < inf:
        height = rod_height(frame, ceiling, practice, stands_above=above)
    else:
        low = frame + float(practice.length("drapery.rod_above_frame"))
        height = RodHeight(float(hardware.height or low), low, inf, Working("Rod height, ceiling unknown"))
    return height
