"""How a window is put right: rod, length and cloth, as patches on its treatment."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from pydantic import ValidationError

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Proposal
from halfdrop.audit.rules.drapery.cloth_cost import Cost, anew, of_altered
from halfdrop.audit.rules.drapery.draft import SAME, Draft, lengthen_rod, raise_rod, to_ceiling
from halfdrop.audit.rules.drapery.hangs import (
    above_frame,
    cloths_of,
    glass_covered,
    hung_in,
    is_sheer,
    short_sides,
    too_flat,
)
from halfdrop.audit.rules.drapery.sewing import Way, fit_length, keep_full
from halfdrop.base.working import Working
from halfdrop.drapery import AsHung

#: Kinds of cloth that panels are made of.
_PANELS = frozenset({"light", "medium", "heavy", "velvet", "blackout"})
#: What was measured on panels that hang, and goes with them.
_OF_OLD = ("drop", "fullness", "widths", "hems", "altered", "off_match", "motif", "keep", "price")


def of_finding(case: RoomCase, finding: Finding) -> AsHung:
    """Return what a finding is about."""
    return hung_in(case)[finding.subjects[0].rsplit("/", 1)[-1]]


def _fabrics(case: RoomCase, hung: AsHung) -> list[str]:
    """Return the job's cloths that panels in its place may be made of: its own first, then those of the room, then by id."""
    sheer, own = is_sheer(case, hung) or hung.treatment.behind is not None, hung.treatment.fabric
    kinds = frozenset({"sheer"}) if sheer else _PANELS
    here = {t.fabric for t in case.room.model.treatments.values()}
    fits = (i for i, cloth in cloths_of(case).items() if cloth.kind in kinds)
    return sorted(fits, key=lambda i: (i != own, i not in here, i))


def altered(case: RoomCase, hung: AsHung, kind: str, *, height: float | None = None, ceiling: bool = False, ends: bool = False,
            widths: bool = False, fit: bool = True) -> Iterator[Proposal]:  # fmt: skip
    """Give each way to put hardware elsewhere and bring the cloth that hangs there to it.

    Parameters
    ----------
    kind : str
        The remedy's kind where the cloth stays as it is; a way of lengthening adds its own.
    height : float, optional
        Where the rod goes [m above the floor].
    ceiling, ends, widths, fit : bool
        Whether it is hung from the ceiling; whether the rod is made longer; whether widths are added; whether the cloth is
        brought to the floor, or stays as long as it is.
    """
    ways: list[tuple[Way | None, str | None]] = [(None, None), ("let down", None)]
    cloths: list[str | None] = list(_fabrics(case, hung)[:4])
    ways += [("join", f) for f in (cloths[:1] if hung.treatment.fabric else [])] + [
        ("band", f) for f in cloths or [None]
    ]
    for way, fabric in ways if fit else ways[:1]:
        draft = Draft.of(case, hung)
        try:
            costs = _alter(
                draft, way, fabric, height=height, ceiling=ceiling, ends=ends, widths=widths, fit=fit
            )
        except ValidationError:
            continue
        if costs is None:
            continue
        name = kind if way in (None, "let down") else f"{kind} with a {way}"
        found = draft.proposal(name, *costs)
        if found is not None:
            yield found


def _alter(draft: Draft, way: Way | None, fabric: str | None, *, height: float | None, ceiling: bool, ends: bool,
           widths: bool, fit: bool) -> list[Cost] | None:  # fmt: skip
    costs = []
    if ceiling:
        track = to_ceiling(draft)
        if track is None:
            return None
        costs.append(track)
    if height is not None:
        raise_rod(draft, height)
    if ends:
        rod = lengthen_rod(draft)
        if rod is None:
            return None
        costs.append(rod)
    if fit and not fit_length(draft, way, fabric):
        return None
    if (ends or widths) and not keep_full(draft, add=widths, fabric=fabric):
        return None
    seen = draft.seen()
    if seen is None:
        return None
    return [*costs, of_altered(draft.case, seen, draft.hung.treatment.altered)]


def best_height(case: RoomCase, hung: AsHung) -> float:
    """Return where practice would have the rod: in one line with the room's other heads where they allow it [m above the floor]."""
    draft = Draft.of(case, hung)
    draft.hardware.pop("height", None)
    seen = draft.seen(drop=False) if case.room.model.survey.heights else None
    return hung.place.span.height if seen is None else seen.height


def lowered(case: RoomCase, hung: AsHung) -> Iterator[Proposal]:
    """Give a rod lowered until its cloth reaches the floor, where its window lets it."""
    cut = Draft.of(case, hung).seen(drop=False)
    if cut is None or hung.treatment.mount != "outside" or hung.treatment.drop is None:
        return
    level = min(cut.top - hem for panel in cut.panels for hem in panel.hem)
    height = hung.height - (level - float(hung.treatment.drop))
    if hung.place.span.low - 1e-9 <= height < hung.height - SAME:
        yield from (p for p in altered(case, hung, "lower", height=height) if p.kind == "lower")


def one_way(case: RoomCase, hung: AsHung) -> Iterator[Proposal]:
    """Give a pair joined into one panel that stacks on one side only, where that side has the wall for it."""
    if hung.treatment.draw != "pair" or hung.treatment.mount == "inside":
        return
    half = hung.place.stack.total / 2 if hung.place.stack is not None else 0.0
    for side, wall in (("left", hung.run.right), ("right", hung.run.left)):
        if wall - hung.finial >= half - SAME:
            continue
        draft = Draft.of(case, hung)
        draft.raw["draw"] = side
        draft.raw.pop("off_match", None)
        draft.said.append(f"join the pair into one panel that draws to the {side}")
        before = draft.seen()
        if before is None or not keep_full(draft, add=False, fabric=None):
            continue
        rod = lengthen_rod(replace(draft, hung=before))
        found = draft.proposal("draw one way", *([rod] if rod else []))
        if found is not None:
            yield found


def put_right(case: RoomCase, hung: AsHung) -> Iterator[Proposal]:
    """Give each way to put all of a window right at once: with the cloth that hangs there, then with new cloth."""
    flat = too_flat(case, hung)
    skimpy = flat is not None and hung.fullness is not None and hung.fullness < flat[0] - 1e-9
    covered, glass = glass_covered(hung, full=skimpy)
    most = case.practice.number("drapery.glass_covered_most")
    hides = hung.place.stack is not None and covered > most * glass and not is_sheer(case, hung)
    ends = hung.treatment.mount != "inside" and (hides or bool(short_sides(case, hung)))
    heights: list[float | None] = list(heights_of(case, hung)) if is_low(case, hung) else [None]
    if hung.treatment.behind is None:
        for height in heights:
            for more in (True,) if skimpy else (False, True):
                yield from altered(case, hung, "hang it right", height=height, ends=ends, widths=more)
    yield from made_anew(case, hung, height=heights[0])


def is_low(case: RoomCase, hung: AsHung) -> bool:
    """Return whether its rod hangs nearer to the window's head than it is to."""
    have, want = above_frame(case, hung)
    return hung.treatment.mount == "outside" and "height" in hung.given and have < want - 1e-9


def heights_of(case: RoomCase, hung: AsHung) -> tuple[float, ...]:
    """Return the heights worth trying for a rod that hangs low [m above the floor]: the best, and the least that will do."""
    best, span = best_height(case, hung), hung.place.span
    return (best, span.low) if span.fits and span.low < best - SAME else (best,)


def anew_working(case: RoomCase, hung: AsHung) -> Iterator[Working]:
    """Give how the cloth of panels made anew is counted and priced, of the cloth that is proposed first; none for what is kept."""
    cloths = _fabrics(case, hung)
    if hung.treatment.keep or not cloths:
        return
    draft = Draft.of(case, hung)
    for key in _OF_OLD:
        draft.raw.pop(key, None)
    draft.raw |= {"fabric": cloths[0], "arrives": True}
    if is_low(case, hung):
        raise_rod(draft, best_height(case, hung))
    lengthen_rod(draft)
    cost = anew(case, draft.room(), hung.id)
    if cost is not None:
        yield Working(
            f"New panels of {cloths_of(case)[cloths[0]].name} for the {hung.name}", list(cost.steps)
        )


def made_anew(
    case: RoomCase, hung: AsHung, *, height: float | None = None, length: str | None = None
) -> Iterator[Proposal]:
    """Give panels made anew in each of the job's cloths, on a rod that suits them; none where the client keeps what hangs."""
    if hung.treatment.keep:
        return
    fabrics: list[str | None] = list(_fabrics(case, hung))
    for fabric in fabrics or [None]:
        draft = Draft.of(case, hung)
        for key in _OF_OLD:
            draft.raw.pop(key, None)
        draft.raw["arrives"] = True
        if length is not None:
            draft.raw["length"] = length
        if fabric is not None:
            draft.raw["fabric"] = fabric
        draft.said.append(
            f"make new panels of {cloths_of(case)[fabric].name}" if fabric is not None else "make new panels"
        )
        if height is not None:
            raise_rod(draft, height)
        try:
            rod = (
                lengthen_rod(draft)
                if hung.treatment.mount != "inside" and hung.treatment.behind is None
                else None
            )
            cost = anew(case, draft.room(), hung.id)
        except ValidationError:
            continue
        found = draft.proposal("make anew", *([rod] if rod else []), *([cost] if cost else []))
        if found is not None and cost is not None:
            yield found
