"""One value of practice, and where it comes from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal, get_args

Kind = Literal[
    "length",
    "angle",
    "area",
    "mass",
    "volume",
    "spread",
    "number",
    "count",
    "yes or no",
    "text",
    "lengths",
    "sizes",
    "box",
]
Sure = Literal["read", "memory", "common practice", "computed", "standard", "our choice"]

KINDS: tuple[Kind, ...] = get_args(Kind)
#: How sure a value is. `read`: a page quoting its source was read. `memory`: unverified. `standard`: the
#: standard's own text. `common practice`: the trade's habit. `computed`: worked out from other values.
#: `our choice`: nobody publishes one, so halfdrop chose it.
SURENESS: tuple[Sure, ...] = get_args(Sure)

#: What a person writes in TOML or in the job.
Raw = str | int | float | bool | Sequence[str]


@dataclass(frozen=True, slots=True)
class PracticeValue:
    """One value a decorator works to.

    Attributes
    ----------
    key : str
        Its name, such as `rugs.dining_extension_floor`.
    kind : str
        One of `KINDS`.
    value : Any
        In SI: [m], [rad], [m²], [kg], a number, a text, or a tuple of lengths or sizes.
    text : str
        As it was written.
    what, how : str
        What it limits; how it is measured.
    source, sure : str
        Where it comes from; how sure that is (one of `SURENESS`).
    range : tuple
        Least and most of the published values, in the units of `value`; empty where only one is published.
    range_text : tuple of str
        The same, as written.
    note : str
        Why this value was chosen.
    origin : str
        "us", "metric", "house (file ...)", "house (job)" or "shifted".
    choices : tuple of str
        For a text that is one of a few words: those words.
    allowed : tuple
        Least and most that a house may set, in the units of `value`; empty where anything from 0 up will do.
    """

    key: str
    kind: Kind
    value: Any
    text: str
    what: str
    how: str
    source: str
    sure: Sure
    range: tuple[Any, ...] = ()
    range_text: tuple[str, ...] = ()
    note: str = ""
    origin: str = ""
    choices: tuple[str, ...] = ()
    allowed: tuple[Any, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """Return the value as a JSON-compatible object, SI number beside the written text."""
        return {
            "key": self.key,
            "kind": self.kind,
            "value": _plain(self.value),
            "text": self.text,
            "what": self.what,
            "how": self.how,
            "source": self.source,
            "sure": self.sure,
            "range": list(self.range_text),
            "note": self.note,
            "origin": self.origin,
        }


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    return float(value) if isinstance(value, float) else value
