"""A room's colors as the rules read them: once for all of them, and nothing where none is recorded."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.hung import hung_in
from halfdrop.base.errors import InputError
from halfdrop.color.inventory import Cover, Inventory, inventory_of, parts_of
from halfdrop.drapery.as_hung import AsHung, HungPanel
from halfdrop.job.naming import treatment_name
from halfdrop.job.worn import worn_in


def colored(case: RoomCase) -> bool:
    """Return whether a color of this room is recorded at all."""
    room, job = case.room.model, case.job
    if not job.swatches:
        return False
    if any(True for _ in worn_in(room)):
        return True
    cloths = {c for t in room.treatments.values() for _, c in t.cloths()}
    cloths |= {c.fabric for c in room.cushions.values()}
    if any(job.fabrics[c].colors for c in cloths):
        return True
    finishes = room.finishes.values()
    return any(
        (f.paint and job.paints[f.paint].swatch) or (f.paper and job.papers[f.paper].colors) for f in finishes
    )


def inventory_in(case: RoomCase) -> Inventory | None:
    """Return the color inventory of the room; None where no color is recorded, or a swatch cannot be read."""
    return case.memo("colors", lambda: _judged(case) if colored(case) else None)


def _judged(case: RoomCase) -> Inventory | None:
    try:
        return inventory(case)
    except InputError:
        return None


def inventory(case: RoomCase, *, shut: bool = False) -> Inventory:
    """Return the color inventory of the room, whether colors are recorded or not.

    Parameters
    ----------
    shut : bool
        Cloth drawn shut, as of an evening; else drawn back, as by day.

    Raises
    ------
    InputError
        Where a swatch cannot be used as a color.
    """
    parts = parts_of(case.job, case.room, tuple(covers(case, shut=shut)), case.practice)
    return inventory_of(parts, case.job.swatches, case.practice)


def covers(case: RoomCase, *, shut: bool = False) -> Iterator[Cover]:
    """Yield the cloth that hangs in the room, wall by wall; what hangs behind another is seen only where that is drawn back."""
    hung = hung_in(case)
    for key, one in hung.items():
        if shut and one.treatment.behind is not None and one.treatment.behind in hung:
            continue
        for panel in one.panels:
            yield from _pieces(case, key, one, panel, shut)


def _pieces(case: RoomCase, key: str, one: AsHung, panel: HungPanel, shut: bool) -> Iterator[Cover]:
    left, right = panel.shut if shut else panel.drawn
    if right - left < 1e-3:
        return
    usual = panel.flat / (panel.shut[1] - panel.shut[0]) if panel.flat else 1.0
    hem = max(sum(panel.hem) / 2, 0.0)
    if not shut and panel.raised is not None:
        hem = max(panel.raised, 0.0)
    stops = [left, *(b for b in one.run.bends if left < b < right), right]
    for a, b in itertools.pairwise(stops):
        wall, _ = one.run.wall_at((a + b) / 2)
        yield Cover(
            path=one.path, what=treatment_name(key, one.treatment), wall=wall.name, start=one.at(a), end=one.at(b),
            bottom=min(hem, one.top), top=one.top, full=max(usual, 1.0), fabric=one.treatment.fabric,
            kept=one.treatment.keep,
        )  # fmt: skip
