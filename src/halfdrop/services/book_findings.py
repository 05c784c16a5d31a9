"""Findings as a book tells them: numbered, with certainty, source, remedies and outcome in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from string import ascii_lowercase

from halfdrop.audit.finding import Finding, Remedy
from halfdrop.audit.rule import Rule, find_rule
from halfdrop.base.formats import Units, format_angle, format_area, format_length, format_money, trimmed
from halfdrop.book.content import BookFinding, BookRemedy, Fact
from halfdrop.job.model import SchemeStep
from halfdrop.practice import Practice
from halfdrop.practice.value import Sure
from halfdrop.services.trade_words import capital

#: Above this a probability is not worth a number.
CERTAIN = 0.995
#: Ratios up to this are shares, told in percent; past it they are told as times, measured and wanted alike.
SHARE = 1.2


def quantity(value: float, finding: Finding, units: Units) -> str:
    """Print a finding's measured or wanted value."""
    if finding.quantity == "length":
        return format_length(value, units, feet=abs(value) >= 1.2192)
    if finding.quantity == "area":
        return format_area(value, units)
    if finding.quantity == "angle":
        return format_angle(value)
    if finding.quantity == "count":
        return f"{value:g}"
    given = (value, finding.measured, finding.wanted)
    if all(abs(v) < SHARE for v in given if v is not None):
        return f"{value:.0%}"
    return trimmed(value, 2)


def certainty(finding: Finding, units: Units) -> str:
    """Return how sure a finding is, against the tape's error."""
    if not finding.sigma:
        return "not a matter of the tape"
    error = format_length(2 * finding.sigma, units) if finding.quantity == "length" else ""
    band = f", ± {error}" if error else ""
    if finding.within_tape:
        return f"within tape error{band}: {finding.certainty:.0%} likely"
    if finding.certainty >= CERTAIN:
        return f"beyond tape error{band}"
    return f"{finding.certainty:.0%} likely{band}"


def facts(finding: Finding, units: Units) -> tuple[Fact, ...]:
    """Return measured, wanted and certainty."""
    out: list[Fact] = []
    if finding.quantity == "count" and finding.wanted == 0:
        return ()  # one thing missing, none wanted: the sentence says it
    if finding.measured is not None:
        out.append(("Measured", quantity(finding.measured, finding, units)))
    if finding.wanted is not None:
        out.append(("Wanted", f"{finding.sense} {quantity(finding.wanted, finding, units)}"))
    if finding.measured is not None:
        out.append(("Certainty", certainty(finding, units)))
    return tuple(out)


def source(finding: Finding, rule: Rule, practice: Practice) -> str:
    """Return where the wanted value comes from and how sure it is."""
    if finding.practice is None:
        return " ".join(rule.story.get("Source", "").split())
    value = practice[finding.practice]
    return f"{value.key} {value.text} ({value.origin}); {sourced(value.source, value.sure)}"


def sourced(text: str, sure: Sure) -> str:
    """Return a source with how sure it is in words, where the source does not say so itself."""
    if sure in text:
        return text
    told = {"read": "read there", "memory": "from memory, unverified"}.get(sure, sure)
    return f"{text} ({told})" if text else told


def cost(remedy: Remedy) -> str:
    """Return what a remedy costs, unpriced things said."""
    known = format_money(remedy.cost) if remedy.cost is not None else ""
    if remedy.unpriced:
        rest = f"no price for {', '.join(remedy.unpriced)}"
        return f"{known} and {rest}" if known else rest
    return known or "nothing to buy"


def proof(remedy: Remedy, finding: Finding, numbers: Mapping[str, int]) -> str:
    """Return what the proof showed, other findings by their numbers."""
    others = [str(numbers[i]) for i in remedy.proof.cleared if i != finding.id and i in numbers]
    text = "Proven: clears it" + (f", and {_listed(others)} with it" if others else "")
    lesser = len(remedy.proof.lesser)
    if lesser:
        text += f"; brings {lesser} finding{'s' if lesser > 1 else ''} of a lesser grade"
    return text + "."


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def outcome(
    finding: Finding, after: Mapping[str, Finding] | None, steps: Sequence[SchemeStep], units: Units
) -> str:
    """Return what a scheme makes of a finding; empty without a scheme."""
    if after is None:
        return ""
    still = after.get(finding.id)
    if still is None:
        by = [str(i) for i, step in enumerate(steps, 1) if step.finding == finding.id]
        return f"Cleared in the scheme{f', step {_listed(by)}' if by else ''}."
    if (
        still.measured is not None
        and finding.measured is not None
        and still.shortfall < finding.shortfall - 1e-3
    ):
        return f"Better in the scheme, not cleared: {quantity(still.measured, still, units)}."
    return "Stands in the scheme."


def book_finding(
    finding: Finding,
    numbers: Mapping[str, int],
    practice: Practice,
    units: Units,
    *,
    sought: bool = True,
    after: Mapping[str, Finding] | None = None,
    steps: Sequence[SchemeStep] = (),
) -> BookFinding:
    """Return a finding as the book prints it.

    Parameters
    ----------
    numbers : mapping
        Number of every finding, by id.
    sought : bool
        Whether remedies were sought.
    after : mapping, optional
        Findings left under the scheme, by id; None without a scheme.
    steps : sequence of SchemeStep
        The scheme's steps.
    """
    rule = find_rule(finding.rule)
    taken = {(step.finding, step.title) for step in steps}
    remedies = tuple(
        BookRemedy(
            ascii_lowercase[i],
            remedy.title,
            cost(remedy),
            proof(remedy, finding, numbers),
            (finding.id, remedy.title) in taken,
        )
        for i, remedy in enumerate(finding.remedies)
    )
    return BookFinding(
        number=numbers[finding.id],
        grade=finding.grade.value,
        message=finding.message,
        within_tape=finding.within_tape,
        facts=facts(finding, units),
        why=capital(" ".join(rule.story.get("Why", "").split())),
        source=source(finding, rule, practice),
        remedies=remedies,
        no_remedy="No change that was tried clears it without bringing another: a person decides."
        if sought
        else "",
        caution=finding.caution,
        outcome=outcome(finding, after, steps, units),
    )
