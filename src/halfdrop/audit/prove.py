"""Remedies: a rule's proposals, tried on a copy and offered only when proven.

A proposal is proven when, after it, the finding is gone, no new finding of the same or a higher grade has come, and
no such finding that was there before has got worse. Candidates of each kind are tried in the order of how little they
disturb, the kinds in turn, within a stated number of trials; at most one of each kind is offered, at most three in all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from itertools import islice

import numpy as np
from pydantic import ValidationError

from halfdrop.audit.auditor import Auditor, judge
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Proof, Proposal, Remedy
from halfdrop.audit.rule import Rule, all_rules, find_rule
from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import SAME
from halfdrop.job.art import Art
from halfdrop.job.treatments import Treatment
from halfdrop.room import Thing

#: A finding that grows by less than this has not got worse [m, or its own unit].
WORSE = 1e-3


@dataclass(frozen=True)
class Budget:
    """How much work a search for remedies may do, counted in trials, so that the answer does not depend on the machine.

    Attributes
    ----------
    trials : int
        Trials for one finding.
    candidates : int
        Proposals read from the rule before they are put in order.
    offers : int
        Remedies offered for one finding.
    """

    trials: int = 90
    candidates: int = 400
    offers: int = 3


def disturbance(before: RoomCase, after: RoomCase) -> float:
    """Return how much a change asks of client and house.

    A piece or a rug carried counts 1 and 1 more a metre; one that a person lifts with one hand (a chair, a lamp, a side
    table) a fifth of that, one as large as a bed twice that. A turn counts half a carry, any other change of a thing (an
    anchor, a pad) 0.5; of what hangs at a window, hardware put elsewhere counts 1.5 (at the ceiling 2.5), cloth altered 2, a treatment made
    anew 6, and each other change 0.5; a work of art hung elsewhere counts 0.6, hung or taken down 1, glazed or fixed anew 2, and each
    other change 0.3; another color counts 4 on a piece that is here, walls or ceiling finished anew 3, cushions added or changed 1.
    A thing bought counts 3, one that leaves 8, one exchanged for another size 7. Common sense, no
    source; it only orders remedies.
    """
    total = 0.0
    for old, new in ((before.room.pieces, after.room.pieces), (before.room.rugs, after.room.rugs)):
        total += _between(dict(old), dict(new))
    total += _art_between(before.room.model.art, after.room.model.art)
    total += _hung_between(before.room.model.treatments, after.room.model.treatments)
    for kind, each in (("finishes", 3.0), ("cushions", 1.0)):
        was, now = getattr(before.room.model, kind), getattr(after.room.model, kind)
        total += each * sum(was.get(key) != now.get(key) for key in was.keys() | now.keys())
    return total


def _art_between(old: Mapping[str, Art], new: Mapping[str, Art]) -> float:
    total = 3.0 * len(new.keys() - old.keys()) + 8.0 * len(old.keys() - new.keys())
    for key in old.keys() & new.keys():
        a, b = old[key], new[key]
        if a == b:
            continue
        if (a.glazing, a.fixings) != (b.glazing, b.fixings):
            total += 2.0
        if a.at != b.at:
            total += 1.0 if a.at is None or b.at is None else 0.6
        elif (a.glazing, a.fixings) == (b.glazing, b.fixings):
            total += 0.3
    return total


#: What of a treatment is its cloth, and so is altered by a workroom.
_CLOTH = (
    "fullness",
    "widths",
    "drop",
    "panel",
    "hems",
    "length",
    "heading",
    "lining",
    "ties",
    "valance",
)


def _hung_between(old: Mapping[str, Treatment], new: Mapping[str, Treatment]) -> float:
    total = 6.0 * len(new.keys() - old.keys()) + 8.0 * len(old.keys() - new.keys())
    for key in old.keys() & new.keys():
        a, b = old[key], new[key]
        if a == b:
            continue
        if b.arrives and (not a.arrives or a.fabric != b.fabric):
            total += 6.0
        elif any(getattr(a, k) != getattr(b, k) for k in _CLOTH):
            total += 2.0
        total += 1.5 if a.hardware != b.hardware or a.mount != b.mount else 0.5
        total += 1.0 if a.mount != b.mount else 0.0
    return total


#: Pieces with less floor than this are lifted with one hand [m²].
LIGHT = 0.36
#: Pieces with more than this take two people and an empty floor: a bed, a long sofa [m²].
HEAVY = 1.5


def _between(old: dict[str, Thing], new: dict[str, Thing]) -> float:
    total = 3.0 * len(new.keys() - old.keys()) + 8.0 * len(old.keys() - new.keys())
    for key in old.keys() & new.keys():
        a, b = old[key], new[key]
        if a.model == b.model:  # type: ignore[attr-defined]
            continue
        if (a.width, a.depth) != (b.width, b.depth):
            total += 7.0
            continue
        moved = float(np.hypot(*(b.center - a.center)))
        turned = abs(b.angle - a.angle) > 1e-6
        size = a.width * a.depth
        carry = 0.2 if size < LIGHT else 1.0 if size < HEAVY else 2.0
        if moved > SAME:
            total += carry * (1.0 + moved)
        if turned:
            total += carry * 0.5
        if moved <= SAME and not turned:
            recolored = a.model.colors != b.model.colors and not b.model.arrives  # type: ignore[attr-defined]
            total += 4.0 if recolored else 0.5
    return total


def remedies_for(
    auditor: Auditor, finding: Finding, known: Iterable[Finding], budget: Budget = Budget()
) -> tuple[Remedy, ...]:
    """Return up to three proven remedies of a finding, the least disturbing first.

    Parameters
    ----------
    auditor : Auditor
        The state in which the finding was made.
    finding : Finding
        What to clear.
    known : iterable of Finding
        Every finding of that room in that state.
    budget : Budget
        How much may be tried.
    """
    rule = find_rule(finding.rule)
    before = auditor.case(finding.room)
    candidates: list[tuple[float, int, Proposal, Auditor]] = []
    seen: set[str] = set()
    for order, proposal in enumerate(islice(rule.remedies(before, finding), budget.candidates)):
        key = repr(proposal.patch)
        if key in seen:
            continue
        seen.add(key)
        try:
            state = auditor.after(proposal.patch)
        except (InputError, ValidationError):
            continue
        candidates.append((disturbance(before, state.case(finding.room)), order, proposal, state))
    candidates.sort(key=lambda c: (c[0], c[1]))
    rules = [rule, *(r for r in all_rules() if r.id != rule.id)]
    room = [f for f in known if f.room == finding.room]
    by_kind: dict[str, list[tuple[float, int, Proposal, Auditor]]] = {}
    for candidate in candidates:
        by_kind.setdefault(candidate[2].kind, []).append(candidate)
    proven: list[Remedy] = []
    trials = 0
    # Kind after kind in turn, so that one with many candidates does not use up what the others need.
    for rank in range(max(map(len, by_kind.values()), default=0)):
        for kind in [k for k, of_kind in by_kind.items() if rank < len(of_kind)]:
            if trials == budget.trials:
                break
            trials += 1
            weight, _, proposal, state = by_kind[kind][rank]
            proof = prove(finding, room, state.case(finding.room), rules, trials)
            if proof is not None:
                name = f"{finding.id}#{kind.replace(' ', '-')}"
                made = Remedy(
                    name,
                    kind,
                    proposal.title,
                    proposal.patch,
                    proposal.cost,
                    proposal.unpriced,
                    weight,
                    proof,
                )
                proven.append(made)
                by_kind[kind] = []
    proven.sort(key=lambda r: (r.disturbance, r.kind))
    return tuple(_chosen(proven, budget.offers))


def _chosen(proven: list[Remedy], offers: int) -> list[Remedy]:
    """Return as many as are offered: the least disturbing, the last place for the one that clears most if it is none of them."""
    if len(proven) <= offers:
        return proven
    most = max(proven, key=lambda r: (len(r.proof.cleared), -r.disturbance))
    chosen = proven[:offers]
    if most not in chosen and len(most.proof.cleared) > max(len(r.proof.cleared) for r in chosen):
        chosen[-1] = most
    return chosen


def prove(
    finding: Finding, known: list[Finding], after: RoomCase, rules: list[Rule], trials: int = 1
) -> Proof | None:
    """Return the proof that a state clears a finding, or None where it does not.

    The rules are run in the order given and the trial ends at the first reason against it. What one candidate failed by
    the next is likely to fail by too, so the rule that spoke against it is moved to the front of `rules`, where the
    verdict is cheap; the verdict and the proof do not depend on that order.
    """
    before = {f.id: f for f in known}
    lesser: list[tuple[str, str]] = []
    left: set[str] = set()
    for place, rule in enumerate(rules):
        for new in judge(after, (rule,)):
            left.add(new.id)
            if new.id == finding.id:
                _to_front(rules, place)
                return None
            old = before.get(new.id)
            grave = new.grade.rank <= finding.grade.rank
            if grave and (
                old is None or old.grade.rank > new.grade.rank or new.shortfall > old.shortfall + WORSE
            ):
                _to_front(rules, place)
                return None
            if old is None:
                lesser.append((rule.id, new.id))
    lesser.sort(key=lambda said: said[0] if said[0] != finding.rule else "")
    cleared = tuple(f.id for f in known if f.id not in left)
    return Proof(cleared, tuple(new for _, new in lesser), trials)


def _to_front(rules: list[Rule], place: int) -> None:
    """Put the rule that spoke against a candidate first for the next."""
    rules.insert(0, rules.pop(place))


def with_remedies(
    auditor: Auditor,
    findings: Iterable[Finding],
    budget: Budget = Budget(),
    progress: Callable[[Finding], None] | None = None,
) -> tuple[Finding, ...]:
    """Return the findings, each with its proven remedies and how they were sized.

    `findings` must be every finding of the rooms they are in: the proof compares with all of them.
    """
    every = tuple(findings)
    done = []
    for finding in every:
        working = tuple(find_rule(finding.rule).workings(auditor.case(finding.room), finding))
        done.append(finding.with_remedies(remedies_for(auditor, finding, every, budget), working))
        if progress is not None:
            progress(finding)
    return tuple(done)
