"""The general cautions of the trade, for the book; which of them a job needs is told by `job.cautions`."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from halfdrop.practice.value import SURENESS, Sure


@dataclass(frozen=True, slots=True)
class Caution:
    """One general caution.

    Attributes
    ----------
    id, when : str
        Its name; what a job has to hold for it to be said.
    title, text : str
        As the book prints it.
    source, sure : str
        Where it comes from; how sure that is (one of `SURENESS`).
    """

    id: str
    when: str
    title: str
    text: str
    source: str
    sure: Sure


@lru_cache(maxsize=1)
def load_cautions() -> tuple[Caution, ...]:
    """Return every general caution, in the order the book prints them.

    Checked by: tests/job/test_cautions.py.
    """
    file = resources.files("halfdrop.practice") / "cautions.toml"
    found = tuple(Caution(id=i, **row) for i, row in tomllib.loads(file.read_text(encoding="utf-8")).items())
    wrong = [c.id for c in found if c.sure not in SURENESS]
    if wrong:
        raise AssertionError(f"cautions {', '.join(wrong)}: sureness not one of {', '.join(SURENESS)}")
    return found
