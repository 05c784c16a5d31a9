"""A treatment being changed by a remedy: its hardware, and what a person is told."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Proposal
from halfdrop.audit.moves import text
from halfdrop.audit.rules.drapery.cloth_cost import Cost
from halfdrop.audit.rules.drapery.hangs import cloths_of
from halfdrop.base.units import sum_money
from halfdrop.drapery import AsHung, as_hung, rod_for, rod_of
from halfdrop.job.diff import diff
from halfdrop.job.treatments import Treatment
from halfdrop.room import ResolvedRoom

#: Lengths that differ by less are the same: the document prints no finer [m].
SAME = 1e-3
#: Headings that ride on the rod itself, and so on no track.
_ON_THE_ROD = frozenset({"rod pocket", "eyelet", "tab"})


@dataclass
class Draft:
    """A treatment being changed: what the document would say of it, and what a person is told."""

    case: RoomCase
    hung: AsHung
    raw: dict[str, Any]
    said: list[str]

    @classmethod
    def of(cls, case: RoomCase, hung: AsHung) -> Draft:
        return cls(case, hung, hung.treatment.model_dump(mode="json", exclude_unset=True), [])

    @property
    def hardware(self) -> dict[str, Any]:
        found: dict[str, Any] = self.raw.setdefault("hardware", {})
        return found

    def seen(self, *, drop: bool = True) -> AsHung | None:
        """Return what would hang; without its `drop`, as it would be cut."""
        raw = self.raw if drop else {k: v for k, v in self.raw.items() if k != "drop"}
        return as_hung(self.room(raw), self.hung.id, cloths_of(self.case), self.case.practice)

    def room(self, raw: dict[str, Any] | None = None) -> ResolvedRoom:
        """Return the room with the treatment as drafted."""
        room = self.case.room
        made = Treatment.model_validate(self.raw if raw is None else raw)
        return replace(
            room,
            model=room.model.model_copy(update={"treatments": {**room.model.treatments, self.hung.id: made}}),
        )

    def proposal(self, kind: str, *costs: Cost) -> Proposal | None:
        """Return it as a proposal; None where nothing changes."""
        before = self.hung.treatment.model_dump(mode="json", exclude_unset=True)
        patch = [{**op, "path": f"/{self.hung.path}{op['path']}"} for op in diff(before, self.raw)]
        if not patch:
            return None
        money = [c.money for c in costs if c.money is not None]
        cost = (
            sum_money(money, money[0].currency) if money and len({m.currency for m in money}) == 1 else None
        )
        title = f"{self.hung.name[0].upper()}{self.hung.name[1:]}: {'; '.join(self.said)}."
        return Proposal(kind, title, patch, cost, tuple(u for c in costs for u in c.unpriced))


def raise_rod(draft: Draft, height: float) -> None:
    """Put the rod at a height [m above the floor]."""
    case, span = draft.case, draft.hung.place.span
    by = height - draft.hung.height
    if abs(by) < SAME:
        return
    said = text(case, height, -1 if height > span.high - 2 * SAME else 1)
    draft.hardware["height"] = said
    draft.said.append(
        f"{'raise' if by > 0 else 'lower'} the rod {case.say(abs(by))}, its top {case.say(height)} above the floor"
    )


def to_ceiling(draft: Draft) -> Cost | None:
    """Hang it from the ceiling: from a track, or where the heading rides on the rod, from the rod; None where that cannot be."""
    case, hung = draft.case, draft.hung
    if not case.room.model.survey.heights or hung.treatment.mount != "outside":
        return None
    draft.raw["mount"] = "ceiling"
    draft.hardware.pop("height", None)
    if hung.treatment.heading in _ON_THE_ROD:
        draft.said.append("hang the rod from the ceiling")
        return Cost(None, (f"ceiling brackets for the {hung.name}",))
    if hung.treatment.hardware.kind == "track":
        draft.said.append("hang the track from the ceiling")
        return Cost(None, ())
    draft.hardware["kind"] = "track"
    draft.hardware["arrives"] = True
    draft.hardware.pop("price", None)
    draft.said.append("hang it from a track at the ceiling")
    return Cost(None, (f"track, {case.say(hung.right - hung.left, 'up')}",))


def lengthen_rod(draft: Draft) -> Cost | None:
    """Make the rod as long as the stack wants on each side where it is shorter; None where the wall leaves no more."""
    case, hung = draft.case, draft.hung
    run, hardware = hung.run, hung.treatment.hardware
    rod = rod_for(run.width, hung.place.stack, case.practice, draw=hung.treatment.draw,
                  room_left=run.left - hung.finial, room_right=run.right - hung.finial)  # fmt: skip
    said = []
    for side, have, want, wall in (
        ("left", -hung.left, rod.left, run.left), ("right", hung.right - run.width, rod.right, run.right),
    ):  # fmt: skip
        if want > have + SAME:
            draft.hardware[side] = text(case, want, -1 if want > wall - hung.finial - 2 * SAME else 1)
            said.append((case.say(want), side))
    if not said:
        return None
    length = (max(rod.left, -hung.left) + run.width) + max(rod.right, hung.right - run.width)
    draft.hardware["arrives"] = True
    draft.hardware.pop("price", None)
    item = rod_of(case.job, length)
    money = item.price if item is not None else None
    unpriced = (
        () if money is not None else (f"{item.name if item else hardware.kind}, {case.say(length, 'up')}",)
    )
    if money is not None:
        draft.hardware["price"] = money.text
    where = f"{said[0][0]} past the opening on each side" if len(said) == 2 and said[0][0] == said[1][0] else " and ".join(
        f"{past} past the opening at the {side}" for past, side in said
    )  # fmt: skip
    draft.said.append(f"a {hardware.kind} of {case.say(length, 'up')}, {where}")
    return Cost(money, unpriced)
