"""Cloth that hangs and stays: how it is brought to the floor, and how full it is on another rod."""

from __future__ import annotations

from typing import Any, Literal

from halfdrop.audit.moves import text
from halfdrop.audit.rules.drapery.draft import SAME, Draft
from halfdrop.audit.rules.drapery.hangs import cloths_of
from halfdrop.drapery import allowances, ends_of, fullness_for
from halfdrop.drapery.widths import count_widths

Way = Literal["let down", "join", "band"]


def keep_full(draft: Draft, *, add: bool, fabric: str | None) -> bool:
    """Say how full the cloth is on the rod as drafted; with widths added where that is wanted and it is too little."""
    case, hung = draft.case, draft.hung
    if hung.fullness is None or "fullness" not in hung.given:
        return True
    seen = draft.seen()
    if seen is None:
        return False
    overlap, returns = ends_of(seen.treatment, case.practice)
    over = (overlap + returns) if hung.treatment.draw != "fixed" else returns
    before = sum(b - a for a, b in (p.shut for p in hung.panels)) + over
    after = sum(b - a for a, b in (p.shut for p in seen.panels)) + over
    flat = hung.fullness * before
    cloth = cloths_of(case).get(hung.treatment.fabric or "")
    aim = fullness_for(hung.treatment.heading or "pencil", case.practice, cloth.kind if cloth else "medium")
    if add:
        lacks = aim * after - flat
        if lacks <= SAME:
            return False
        more = cloth or cloths_of(case).get(fabric or "")
        width = more.width if more else case.length("drapery.cloth_width")
        widths = count_widths(lacks, width, case.practice, panels=len(hung.panels)).widths
        flat += widths * width
        altered = draft.raw.setdefault("altered", {})
        altered["widths"] = widths + altered.get("widths", 0.0)
        if more is not None and not _wear(draft, more.id):
            return False
        what = more.name if more else "the same cloth"
        edge = "" if more is None or more is cloth else " as leading edges"
        each = f", {widths / len(hung.panels):g} to each panel" if len(hung.panels) > 1 else ""
        draft.said.append(f"add {widths:g} width{'' if widths == 1 else 's'} of {what}{edge}{each}")
    if hung.treatment.fullness is None and hung.treatment.widths is not None and cloth is not None:
        draft.raw["widths"] = round(flat / cloth.width, 3)
    else:
        draft.raw["fullness"] = round(min(5.0, flat / after), 3)
    return bool(flat >= after)


def _wear(draft: Draft, fabric: str) -> bool:
    """Name the cloth of what is sewn on; False where another is named already."""
    altered: dict[str, Any] = draft.raw.setdefault("altered", {})
    named: str = altered.setdefault("fabric", fabric)
    return named == fabric


def fit_length(draft: Draft, way: Way | None, fabric: str | None) -> bool:
    """Bring the cloth to the floor, or to the sill, from where the rod is drafted; False where this way cannot."""
    case, hung = draft.case, draft.hung
    if hung.treatment.drop is None:
        return way is None
    now, cut = draft.seen(), draft.seen(drop=False)
    if now is None or cut is None:
        return False
    old = float(hung.treatment.drop)
    level = min(cut.top - hem for panel in cut.panels for hem in panel.hem)
    longest = max(cut.top - hem for panel in cut.panels for hem in panel.hem)
    short = hung.treatment.length in ("sill", "apron")
    wanted = [hem for panel in cut.panels for hem in panel.hem]
    gap = (
        max(max(p.hem) for p in now.panels) - max(wanted) if short else max(now.gap(p)[0] for p in now.panels)
    )
    least = -min(0.0, *(h - now.floor(x) for p in now.panels for h, x in zip(p.hem, p.shut, strict=True)))
    limit = case.length(
        "drapery.floor_gap_most" if short or hung.treatment.length == "clear" else "drapery.floor_touch_most"
    )
    if way is None:
        if gap > limit + 1e-9:
            return False
        if level < old - SAME and least > 0 and hung.treatment.length == "clear":
            draft.raw["drop"] = text(case, level, -1)
            draft.said.append(f"take the hem up {case.say(old - level)}")
        return True
    if gap <= limit + 1e-9:
        return False
    follows = longest - level > limit - case.length("drapery.floor_clear") + 1e-9
    more = (longest if follows else level) - old
    if follows:
        draft.raw.pop("drop", None)
    else:
        draft.raw["drop"] = text(case, level, -1)
    return more > 0 and _sew(draft, way, fabric, more, level)


def _sew(draft: Draft, way: Way, fabric: str | None, more: float, length: float) -> bool:
    """Add a length to panels that hang [m]: out of the hem, at the top, or as a band below."""
    case, hung = draft.case, draft.hung
    altered = draft.raw.setdefault("altered", {})
    cloth = cloths_of(case).get(fabric or "")
    what = cloth.name if cloth else "another cloth"
    if way == "let down":
        hem = hung.treatment.hems.bottom
        kind = cloths_of(case)[hung.treatment.fabric].kind if hung.treatment.fabric else "medium"
        usual = allowances(
            hung.treatment.heading or "pencil", hung.treatment.length, case.practice, kind=kind
        ).hem
        has = float(hem) if hem is not None else usual
        if more > has - case.length("drapery.hem_kept_least") + 1e-9 or "let_down" in altered:
            return False
        altered["let_down"] = text(case, more, 1)
        draft.raw["hems"] = {**draft.raw.get("hems", {}), "bottom": text(case, has - more, -1)}
        draft.said.append(f"let the hem down {case.say(more)}")
        return True
    if way == "join":
        if more > case.length("drapery.joined_most") + 1e-9 or "joined" in altered or "band" in altered:
            return False
        altered["joined"] = text(case, more, 1)
        draft.said.append(f"join {case.say(more)} of {what} on at the top, the seam in the heading")
    else:
        deep = max(more, case.length("drapery.band_least"))
        if (
            deep > case.practice.number("drapery.band_share_most") * length + 1e-9
            or "joined" in altered
            or "band" in altered
        ):
            return False
        altered["band"] = text(case, deep, 1)
        draft.said.append(f"sew a band of {what} {case.say(deep)} deep on at the hem")
    return fabric is None or _wear(draft, fabric)
