"""Reading numbers with units as people type them: `12' 6 1/2"`, `3,81 m`, `89° 30'`, `12 lb 4 oz`.

This module knows the notation, not the quantities: a `Notation` lists the units of one quantity and which of
them are written together (feet then inches). `read` turns a text into one exact number.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise

from halfdrop.base.errors import InputError, did_you_mean, near

#: A longer text is no measure.
LONGEST = 80

_DASHES = dict.fromkeys(map(ord, "‐‑‒–—−"), "-")
_MARKS = {ord(c): "'" for c in "′’‘ʹ`´"} | {ord(c): '"' for c in "″”“„ʺ"} | {ord("º"): "°", ord("˚"): "°"}
_SLASHES = dict.fromkeys(map(ord, "⁄∕"), "/")
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
_RAISED_FRACTION = re.compile("([⁰¹²³⁴⁵⁶⁷⁸⁹]+)[⁄∕/]([₀₁₂₃₄₅₆₇₈₉]+)")

_TERM = re.compile(
    r"""
    (?P<number>
        (?:(?P<whole>[0-9]+)(?:\s+|\s*-\s*))?(?P<over>[0-9]+)\s*/\s*(?P<under>[0-9]+)
      | [0-9]+[.,][0-9]+ | [.,][0-9]+ | [0-9]+
    )
    \s*
    (?P<unit>
        ''|['"°]
      | (?:square|sq\.?)\s*[^\W\d_]+\.?
      | [^\W\d_]+\.?(?:\^?[2²](?![0-9./,]))?
    )?
    """,
    re.VERBOSE | re.IGNORECASE,
)
_JOINT = re.compile(r"\s*-?\s*")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


@dataclass(frozen=True)
class Notation:
    """How one quantity is written.

    Attributes
    ----------
    name : str
        What it is called in messages ("length").
    units : mapping of str to (str, Fraction)
        Every spelling of a unit: its proper mark and its size in the base unit.
    chains : tuple of tuple of (str, int)
        Units written together, largest first, each with how many of it make one of the unit before it.
    example : str
        The hint where nothing better is known.
    signed : bool
        Whether it may be negative.
    bare : str
        How to write a bare number, `{n}` being the number and `{metres}` that many feet.
    words : mapping of str to (str, str)
        What one and what several of a unit are called, by its mark.
    """

    name: str
    units: Mapping[str, tuple[str, Fraction]]
    example: str
    chains: tuple[tuple[tuple[str, int], ...], ...] = ()
    signed: bool = False
    bare: str = ""
    words: Mapping[str, tuple[str, str]] = field(default_factory=dict)

    def one(self, mark: str) -> str:
        """Return the name of one of a unit by its mark."""
        return self.words.get(mark, (mark, mark))[0]

    def many(self, mark: str) -> str:
        """Return the name of several of a unit by its mark."""
        return self.words.get(mark, (mark, mark))[1]


@dataclass(frozen=True)
class _Term:
    raw: str
    value: Fraction
    whole: bool
    mark: str | None
    size: Fraction


def shown(text: str, most: int = 60) -> str:
    """Return `text` fit for a message: on one line, printable, not endless."""
    clean = "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in text[:most])
    return clean + ("…" if len(text) > most else "")


def normal(text: str) -> str:
    """Return `text` with typographic marks, dashes, spaces and fractions in their typewriter form."""
    text = _RAISED_FRACTION.sub(lambda m: f" {m[1].translate(_RAISED)}/{m[2].translate(_RAISED)}", text)
    out = []
    for char in text:
        parts = unicodedata.decomposition(char).split()
        if parts and parts[0] == "<fraction>":
            out.append(" " + "".join(chr(int(code, 16)) for code in parts[1:]))
        else:
            out.append(char)
    plain = "".join(out).translate(_DASHES).translate(_MARKS).translate(_SLASHES)
    return " ".join(plain.split())


def read(text: str, how: Notation) -> tuple[Fraction, str | None]:
    """Read one measure.

    Returns
    -------
    (Fraction, str or None)
        The exact value in the notation's base unit, and the mark of its first unit (None for a bare 0).

    Raises
    ------
    InputError
        Where the text is not a measure of this kind; the hint says what to write.
    """
    if len(text) > LONGEST:
        raise _fault(text, how, f"is {len(text)} characters long, at most {LONGEST} are read")
    rest = normal(text)
    if not rest:
        raise InputError(f"{how.name} is empty", hint=how.example)
    negative = rest.startswith("-")
    if negative:
        rest = rest[1:].lstrip()
        if not how.signed:
            raise _fault(text, how, "is negative")
    terms = _terms(text, rest, how)
    total = _total(text, terms, how)
    return (-total if negative else total), terms[0].mark


def _fault(text: str, how: Notation, fault: str, hint: str | None = None) -> InputError:
    return InputError(f"{how.name} `{shown(text)}` {fault}", hint=hint or how.example)


def _terms(text: str, rest: str, how: Notation) -> list[_Term]:
    terms: list[_Term] = []
    spot = 0
    while spot < len(rest):
        match = _TERM.match(rest, spot)
        if match is None:
            raise _fault(text, how, f"is not understood at `{shown(rest[spot:])}`")
        terms.append(_term(text, match, how))
        joint = _JOINT.match(rest, match.end())
        spot = joint.end() if joint else match.end()
    if not terms:
        raise _fault(text, how, "has no digits")
    if rest.endswith("-"):
        raise _fault(text, how, "ends in a dash")
    return terms


def _term(text: str, match: re.Match[str], how: Notation) -> _Term:
    raw = match["number"]
    if match["under"] is not None:
        if int(match["under"]) == 0:
            raise _fault(text, how, f"has the fraction `{raw}` with nothing below the line")
        value = Fraction(int(match["over"]), int(match["under"])) + int(match["whole"] or 0)
    elif _THOUSANDS.fullmatch(raw):
        point, plain = raw.replace(",", "."), raw.replace(",", "")
        unit = match["unit"] or ""
        raise _fault(
            text,
            how,
            f"can be read two ways: `{raw}` is {point} or {plain}",
            f"write {point} {unit} or {plain} {unit}",
        )
    else:
        value = Fraction(raw.replace(",", "."))
    mark, size = _unit(text, match["unit"], how)
    return _Term(raw, value, value.denominator == 1, mark, size)


def _unit(text: str, typed: str | None, how: Notation) -> tuple[str | None, Fraction]:
    if typed is None:
        return None, Fraction(0)
    word = re.sub(r"[\s.^]+", "", typed).replace("²", "2")
    for spelling in (word, word.lower()):
        if spelling in how.units:
            return how.units[spelling]
    known = [unit for unit in how.units if unit.isalnum()]
    hint = did_you_mean(word.lower(), known) if near(word.lower(), known) else how.example
    raise _fault(text, how, f"has an unknown unit `{shown(typed)}`", hint)


def _bare_hint(term: _Term, how: Notation) -> str:
    """Return how to write a number without a unit: a whole one reads as feet too, `1.443` as metres first."""
    if "{metres}" in how.bare and re.search(r"[.,]", term.raw):
        return f"write {term.raw} m, {term.raw}' or {term.raw} in"
    return how.bare.format(n=term.raw, metres=f"{float(term.value) * 0.3048:.2f}")


def _total(text: str, terms: list[_Term], how: Notation) -> Fraction:
    first, last = terms[0], terms[-1]
    if len(terms) == 1:
        if first.mark is None and first.value != 0:
            raise _fault(text, how, "has no unit", _bare_hint(first, how))
        return first.value * first.size
    if first.mark is None:
        raise _fault(text, how, f"has no unit after `{first.raw}`")
    following = _following(first.mark, how)
    for before, term in pairwise(terms):
        wanted = following.get(before.mark or "")
        if wanted and term.mark is None and term is last:
            hint = f"write {shown(normal(text))}{wanted[0]}"
            raise _fault(text, how, f"lacks the {how.one(wanted[0])} mark after `{term.raw}`", hint)
        _check_pair(text, before, term, wanted, how)
    return sum((term.value * term.size for term in terms), Fraction(0))


def _following(first: str, how: Notation) -> dict[str, tuple[str, int]]:
    for chain in how.chains:
        marks = [mark for mark, _ in chain]
        if first in marks:
            return {mark: chain[i + 1] for i, mark in enumerate(marks[:-1])}
    return {}


def _check_pair(text: str, before: _Term, term: _Term, wanted: tuple[str, int] | None, how: Notation) -> None:
    if before.mark is None or term.mark is None:
        bare = before if before.mark is None else term
        raise _fault(text, how, f"has no unit after `{bare.raw}`")
    large, small = how.many(before.mark), how.many(term.mark)
    if wanted is None or term.mark != wanted[0]:
        chains = [[mark for mark, _ in chain] for chain in how.chains]
        if any({before.mark, term.mark} <= set(chain) for chain in chains) and before.size < term.size:
            raise _fault(text, how, f"has {small} after {large}", f"{small} come first: {how.example}")
        raise _fault(text, how, f"has {small} after {large}, which are not written together")
    if not before.whole:
        part = f"a part of a {how.one(before.mark)} (`{before.raw}`)"
        raise _fault(text, how, f"has {part} and {small} besides")
    if term.value >= wanted[1]:
        carry, left = divmod(term.value, wanted[1])
        hint = f"write {before.value + carry}{before.mark} {_mixed(left)}{term.mark}"
        fault = f"has {term.raw} {small} after the {large}; fewer than {wanted[1]} are allowed"
        raise _fault(text, how, fault, hint)


def _mixed(value: Fraction) -> str:
    whole, part = divmod(value, 1)
    return f"{whole} {part}" if part and whole else str(part or whole)
