"""The one family of errors: what a person did can always be told apart from our own faults.

An error says the thing, its fault, what was measured and what is allowed (`message`), where
(`at`), and what to do next (`hint`). Only `cli` and `web` render hints.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class At:
    """Where a fault lies: a file, a line in it, and a path in the document (any of them may be unknown)."""

    file: str | None = None
    line: int | None = None
    path: str | None = None

    def __str__(self) -> str:
        place = self.file or ""
        if self.line is not None:
            place += f":{self.line}"
        return " ".join(part for part in (place, self.path) if part)


class HalfdropError(Exception):
    """A fault that a person can put right; never our own bug.

    Parameters
    ----------
    message : str
        One line that stands alone: thing, fault, measured and allowed.
    at : At, optional
        Where.
    hint : str, optional
        What to do, with the exact command or the exact text to type.
    """

    exit_code = 3

    def __init__(self, message: str, *, at: At | None = None, hint: str | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.at = at
        self.hint = hint

    def placed(self, at: At) -> HalfdropError:
        """Return the same error with its place filled in where it was unknown."""
        old = self.at or At()
        new = At(old.file or at.file, old.line or at.line, old.path or at.path)
        return type(self)(self.message, at=new, hint=self.hint)


class UsageError(HalfdropError):
    """The command was called wrongly."""

    exit_code = 2


class InputError(HalfdropError):
    """What was read is unreadable or invalid."""


class InputErrors(InputError):  # noqa: N818  (several errors in one)
    """Several faults of one file, reported all at once.

    Attributes
    ----------
    errors : tuple of InputError
        Each fault, in the order of its line.
    """

    def __init__(
        self, errors: Iterable[InputError], *, at: At | None = None, hint: str | None = None
    ) -> None:
        self.errors = tuple(errors)
        count = len(self.errors)
        super().__init__(f"{count} fault{'s' if count != 1 else ''}", at=at, hint=hint)


def near(word: str, known: Iterable[str]) -> str | None:
    """Return the known word nearest to `word`, or None where none is near enough to suggest."""
    found = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return found[0] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Return a hint for an unknown word: the nearest known one, or all that are known."""
    words = sorted(known)
    best = near(word, words)
    return f"did you mean `{best}`?" if best else f"known: {', '.join(words)}"
