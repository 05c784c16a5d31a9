"""A rule: one file, its story in the docstring, its check, its remedies. Rules are discovered, not listed."""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from types import ModuleType

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.base.errors import UsageError, did_you_mean
from halfdrop.base.working import Working

#: The parts of a rule's story, in order; every rule has each but the caution, which a hazard must have.
PARTS = ("Why", "Source", "Fails", "Passes exactly", "Silent", "Caution")

_PREFIX = "halfdrop.audit.rules."
_PART = re.compile(rf"^({'|'.join(PARTS)}): *", re.MULTILINE)


@dataclass(frozen=True)
class Rule:
    """One rule, read off its module.

    Attributes
    ----------
    id : str
        `family.name`, from where the module stands: `rugs.front-legs`.
    title : str
        The first line of its story.
    story : dict
        The parts of its docstring, by name.
    grade : Grade
        The gravest grade it gives.
    practice : tuple of str
        The practice values it judges by.
    check : callable
        `check(case) -> iterator of Finding`.
    remedies : callable
        `remedies(case, finding) -> iterator of Proposal`; a rule that can only be answered by a person offers none.
    workings : callable
        `workings(case, finding) -> iterable of Working`: how what is bought was sized, or why nothing made suits; most
        rules have none.
    """

    id: str
    title: str
    story: dict[str, str]
    grade: Grade
    practice: tuple[str, ...]
    check: Callable[[RoomCase], Iterator[Finding]]
    remedies: Callable[[RoomCase, Finding], Iterable[Proposal]]
    workings: Callable[[RoomCase, Finding], Iterable[Working]]


def rule_id(module: str) -> str:
    """Return the id of the rule in a module: `rule_id(__name__)`."""
    return module.removeprefix(_PREFIX).replace("_", "-")


def _none(case: RoomCase, finding: Finding) -> tuple[()]:
    return ()


def _read(module: ModuleType) -> Rule:
    doc = module.__doc__ or ""
    title, _, rest = doc.strip().partition("\n")
    pieces = _PART.split(rest)
    story = {pieces[i]: " ".join(pieces[i + 1].split()) for i in range(1, len(pieces), 2)}
    return Rule(
        id=rule_id(module.__name__),
        title=title.strip().rstrip("."),
        story=story,
        grade=module.GRADE,
        practice=tuple(module.PRACTICE),
        check=module.check,
        remedies=getattr(module, "remedies", _none),
        workings=getattr(module, "workings", _none),
    )


@cache
def all_rules() -> tuple[Rule, ...]:
    """Return every rule found under `halfdrop.audit.rules`, by id."""
    package = importlib.import_module(_PREFIX.rstrip("."))
    found = []
    for info in pkgutil.walk_packages(package.__path__, _PREFIX):
        module = importlib.import_module(info.name)
        if not info.ispkg and hasattr(module, "check"):
            found.append(_read(module))
    return tuple(sorted(found, key=lambda rule: rule.id))


def find_rule(name: str) -> Rule:
    """Return the rule with this id.

    Raises
    ------
    UsageError
        Where there is none, with the nearest.
    """
    known = {rule.id: rule for rule in all_rules()}
    if name not in known:
        raise UsageError(f"there is no rule `{name}`", hint=did_you_mean(name, known))
    return known[name]
