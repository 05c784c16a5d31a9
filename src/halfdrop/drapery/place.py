"""Rod height and length of a treatment: as given, or designed where the document leaves them open."""

from __future__ import annotations

from math import inf

from shapely.geometry import LineString

from halfdrop.base.errors import At, InputError
from halfdrop.base.working import Working
from halfdrop.drapery.hung import Place
from halfdrop.drapery.rod import RodAnswer, rod_for
from halfdrop.drapery.rod_height import RodHeight, one_line, rod_height
from halfdrop.drapery.run import Run, run_of
from halfdrop.drapery.stack import Make, StackAnswer, stack_back
from halfdrop.job.treatments import FabricKind, Treatment
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom
from halfdrop.room.face import runs_right

#: A beam nearer to the wall than this is over its rods [m].
_AT_WALL = 0.15


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
    stack = stack_of(treatment, run.width, kind, practice)
    rod = _rod(treatment, run, stack, practice)
    span = _span(room, treatment, run, rod, path, practice)
    designed = hardware.height is None or hardware.left is None or hardware.right is None
    height = (
        float(hardware.height)
        if hardware.height is not None
        else _in_line(room, treatment, path, kind, run, rod, span, practice)
    )
    return Place(run, stack, rod, height, span, designed and treatment.mount != "inside")


def _rod(treatment: Treatment, run: Run, stack: StackAnswer | None, practice: Practice) -> RodAnswer:
    """Return the rod's length as given, or as the stack and the wall beside the run have it."""
    hardware = treatment.hardware
    if treatment.mount == "inside":
        return _given(run, 0.0, 0.0)
    finial = float(hardware.finial or 0.0)
    rod = rod_for(
        run.width,
        stack,
        practice,
        draw=treatment.draw,
        room_left=run.left - finial,
        room_right=run.right - finial,
    )
    if hardware.left is None and hardware.right is None:
        return rod
    left = float(hardware.left) if hardware.left is not None else rod.left
    right = float(hardware.right) if hardware.right is not None else rod.right
    return _given(run, left, right)


def _in_line(room: ResolvedRoom, treatment: Treatment, path: str, kind: FabricKind, run: Run, rod: RodAnswer, span: RodHeight,
             practice: Practice) -> float:  # fmt: skip
    """Return a designed height: behind another a little below it, else in one line with the room's other heads where they allow."""
    others = room.model.treatments
    front = others.get(treatment.behind or "")
    if front is not None and front.behind is None and front.kind == "panels":
        top = place_of(room, front, f"{room.path}/treatments/{treatment.behind}", kind, practice).height
        return max(
            min(top - float(practice.length("drapery.sheer_shorter_top")), span.high), min(span.low, top)
        )
    if treatment.kind != "panels" or treatment.mount != "outside" or not span.fits:
        return span.height
    own = path.rsplit("/", 1)[-1]
    spans = {own: span}
    settled: list[float] = []
    for key, other in others.items():
        if key == own or other.kind != "panels" or other.mount != "outside" or other.behind is not None:
            continue
        its = span_of(room, key, practice)
        if its is None:
            continue
        if other.hardware.height is None:
            spans[key] = its
        elif its.low <= float(other.hardware.height) <= its.high:
            settled.append(float(other.hardware.height))
    above = max(0.0, -float(treatment.hardware.drop or 0.0))
    taken = _in_the_way(room, run, rod)

    def free(height: float) -> bool:
        return span.low <= height <= span.high and not any(a - above < height < b for a, b in taken)

    fit = [h for h in settled if free(h)]
    if fit:
        return min(fit, key=lambda h: (-fit.count(h), abs(h - span.height), -h))
    line = one_line(spans)[own]
    return line if free(line) else span.height


def span_of(room: ResolvedRoom, key: str, practice: Practice) -> RodHeight | None:
    """Return where the rod of a treatment may be, its own window alone; None where nothing can be said.

    Source: our own, from the calculators. Checked by: tests/drapery/test_place.py.
    """
    treatment, path = room.model.treatments[key], f"{room.path}/treatments/{key}"
    try:
        run = run_of(room, treatment, path)
        rod = _rod(treatment, run, stack_of(treatment, run.width, "medium", practice), practice)
        return _span(room, treatment, run, rod, path, practice)
    except InputError:
        return None


def _in_the_way(room: ResolvedRoom, run: Run, rod: RodAnswer) -> list[tuple[float, float]]:
    """Return bottom and top of each fitting on the wall between the rod's ends [m]."""
    found = []
    for fitting in room.fittings.values():
        if fitting.wall is None or fitting.model.bottom is None or fitting.model.kind == "beam":
            continue
        middle = run.x_of(fitting.wall, float(fitting.wall.along(fitting.center)))
        if (
            middle is None
            or middle + fitting.width / 2 <= -rod.left
            or middle - fitting.width / 2 >= run.width + rod.right
        ):
            continue
        bottom = float(fitting.model.bottom)
        found.append((bottom, bottom + float(fitting.model.height or 0.0)))
    return found


def ceiling_over(room: ResolvedRoom, run: Run, rod: RodAnswer, practice: Practice) -> float | None:
    """Return the ceiling over a rod where that is lowest [m above the floor]; None where no height was taped.

    Between the corners of its wall it runs straight; a corner not taped counts as the lowest that was. A beam at the wall and a
    painted crown come lower.

    Source: our own. Checked by: tests/drapery/test_place.py.
    """
    taped = {place: float(height) for place, height in room.model.survey.heights.items()}
    if not taped:
        return None
    least = min(taped.values())
    found = []
    for x in (-rod.left, *run.bends, run.width + rod.right):
        wall, along = run.wall_at(x)
        ends = [taped.get(wall.first, least), taped.get(wall.second, least)]
        left, right = ends if runs_right(wall) else reversed(ends)
        found.append(left + (right - left) * min(max(along / wall.length, 0.0), 1.0))
    lowest = min(found)
    if any(finish.parts.get("crown") for finish in room.model.finishes.values()):
        lowest -= float(practice.length("walls.crown_height"))
    line = LineString([run.at(-rod.left), *(run.at(x) for x in run.bends), run.at(run.width + rod.right)])
    beams = [
        float(fitting.model.bottom)
        for fitting in room.fittings.values()
        if fitting.model.kind == "beam"
        and fitting.model.bottom
        and fitting.footprint.distance(line) < _AT_WALL
    ]
    return min([lowest, *beams])


def _given(run: Run, left: float, right: float) -> RodAnswer:
    return RodAnswer(run.width + left + right, left, right, 0.0, Working("Rod as given"))


def _span(
    room: ResolvedRoom, treatment: Treatment, run: Run, rod: RodAnswer, path: str, practice: Practice
) -> RodHeight:
    """Return where the rod may be; without a ceiling height only a height that is given counts."""
    hardware, taped = treatment.hardware, treatment.measured
    ceiling, frame = ceiling_over(room, run, rod, practice), run.frame
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
        height = rod_height(
            frame, ceiling, practice, stands_above=above, obstacles=_in_the_way(room, run, rod)
        )
    else:
        low = frame + float(practice.length("drapery.rod_above_frame"))
        height = RodHeight(low, low, inf, Working("Rod height, ceiling unknown"))
    return height
