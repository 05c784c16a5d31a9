"""One test for every rule: its table holds, its limits are exact, its remedies are proven, its story is whole."""

from __future__ import annotations

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Grade
from halfdrop.audit.prove import remedies_for
from halfdrop.audit.rule import PARTS, Rule, all_rules
from halfdrop.base.units import Area, Length
from halfdrop.job.patch import apply
from tests.audit.tables import ROLES, Case, every_case, found, mirrored, says, table, turned

RULES = all_rules()
CASES = every_case()

#: By how much a limit is moved, by the kind of its value: 1 mm, 0.005, 0.1°, one.
SHIFT = {"length": 1e-3, "number": 0.005, "angle": 0.0018, "count": 1, "area": 0.01, "mass": 0.1}


def _id(value: object) -> str:
    return value.id if isinstance(value, Rule) else str(value)


def test_rules_are_found() -> None:
    """Rules are discovered from their files, each with its own id."""
    assert len({rule.id for rule in RULES}) == len(RULES) > 0


@pytest.mark.parametrize("rule", RULES, ids=_id)
def test_story_is_whole(rule: Rule) -> None:
    """A rule tells why, by which source, where it fails, passes exactly and is silent; a hazard adds its caution."""
    wanted = [part for part in PARTS if part != "Caution" or rule.grade is Grade.HAZARD]
    missing = [part for part in wanted if not rule.story.get(part)]
    assert not missing
    assert rule.title


@pytest.mark.parametrize("rule", RULES, ids=_id)
def test_table_has_each_role(rule: Rule) -> None:
    """A rule's table shows it failing, passing exactly, and silent."""
    assert {case.role for case in table(rule.id)} == set(ROLES)


@pytest.mark.parametrize("case", CASES, ids=_id)
def test_table_holds(case: Case) -> None:
    """The rule finds in each case just what the table says."""
    findings = found(case.document, case.rule)
    assert bool(case.expect) == (case.role == "fails")
    assert len(findings) == len(case.expect), [f.message for f in findings]
    for want in case.expect:
        subjects = [f"rooms/r/{s}".rstrip("/") for s in want["subjects"]]  # "" is the room itself
        same = [f for f in findings if list(f.subjects) == subjects]
        assert same, [f.subjects for f in findings]
        finding = same[0]
        assert str(finding.grade) == want.get("grade", str(finding.grade))
        for key in ("measured", "wanted"):
            if key in want:
                value = want[key]
                if isinstance(value, str):
                    parse = Area.parse if finding.quantity == "area" else Length.parse
                    value = float(parse(value))
                assert getattr(finding, key) == pytest.approx(value, abs=6e-4), finding.message


@pytest.mark.parametrize("case", CASES, ids=_id)
def test_turning_and_mirroring_change_nothing(case: Case) -> None:
    """A room surveyed from another corner, or mirrored, gets the same findings."""
    plain = sorted(map(says, found(case.document, case.rule)))
    for other in (mirrored(case.document), turned(case.document), mirrored(turned(case.document))):
        again = sorted(map(says, found(other, case.rule)))
        assert [a[0] for a in again] == [p[0] for p in plain]
        for a, p in zip(again, plain, strict=True):
            assert a[1:3] == p[1:3]
            assert a[3] == pytest.approx(p[3], abs=5e-4)
            assert a[4:] == p[4:]


def _breaks(case: Case, key: str, delta: float) -> bool:
    practice = Auditor.of(case.document).practice
    if float(practice[key].value) + delta < 0:
        return False  # a limit of nothing cannot be less
    before = sorted(says(f)[:2] for f in found(case.document, case.rule))
    after = sorted(says(f)[:2] for f in found(case.document, case.rule, practice.shifted(key, delta)))
    return before != after  # a finding more or less, or of another grade


@pytest.mark.parametrize(("rule", "key"), [(rule, key) for rule in RULES for key in rule.practice], ids=_id)
def test_moving_the_limit_breaks_a_case(rule: Rule, key: str) -> None:
    """Each limit is shown to the millimetre: moved by so little, some case of the table comes out otherwise."""
    kind = Auditor.of(table(rule.id)[0].document).practice[key].kind
    if kind not in SHIFT:
        pytest.fail(f"{key} is a {kind}: a rule's PRACTICE lists limits only")
    assert any(_breaks(case, key, sign * SHIFT[kind]) for case in table(rule.id) for sign in (1, -1))


@pytest.mark.parametrize("case", [case for case in CASES if case.role == "exact"], ids=_id)
def test_exact_case_is_exact(case: Case) -> None:
    """A case that passes exactly stops passing when one of the rule's limits moves by a hair."""
    auditor = Auditor.of(case.document)
    rule = next(r for r in RULES if r.id == case.rule)
    if case.limit == "document" or not rule.practice:
        return  # the limit stands in the case's own room (a label, another thing): no practice value to move
    shifts = [(k, s * SHIFT[auditor.practice[k].kind]) for k in rule.practice for s in (1, -1)]
    assert any(_breaks(case, key, delta) for key, delta in shifts)


@pytest.mark.parametrize("case", [case for case in CASES if case.role == "fails"], ids=_id)
def test_every_remedy_is_proven(case: Case) -> None:
    """Applied for real and audited from scratch by every rule, a remedy clears its finding and brings nothing as grave."""
    auditor = Auditor.of(case.document)
    every = auditor.findings("r")
    known = {f.id: f for f in every}
    for finding in [f for f in every if f.rule == case.rule]:
        offered = remedies_for(auditor, finding, every)
        if case.remedies is not None:
            assert sorted({r.kind for r in offered}) == sorted(set(case.remedies)), [r.title for r in offered]
        assert [r.disturbance for r in offered] == sorted(r.disturbance for r in offered)
        for remedy in offered:
            after = Auditor.of(apply(case.document, remedy.patch)).findings("r")
            assert finding.id not in {f.id for f in after}
            new = [f.id for f in after if f.id not in known and f.grade.rank <= finding.grade.rank]
            assert not new
