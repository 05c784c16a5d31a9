"""Text from anyone, made safe to set: no controls, no hidden direction marks, no word that cannot break."""

from __future__ import annotations

import re
import unicodedata
from typing import Any

#: An unbroken run longer than this gets places where it may break.
LONGEST = 22
_RUN = re.compile(rf"[^\s\u200b\u2010-\u2015-]{{{LONGEST + 1},}}")
#: Marks that turn the direction of what follows them, beyond their own text.
_TURNS = dict.fromkeys((*range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x200E, 0x200F, 0x061C))
BREAK = "\u200b"


def clean(text: str) -> str:
    """Return text without control characters and direction overrides, long words given places to break."""
    whole = text.encode("utf-8", "replace").decode("utf-8").translate(_TURNS)
    kept = "".join(
        c if c == "\n" or unicodedata.category(c) not in ("Cc", "Cs", "Co", "Cn") else " " for c in whole
    )
    return _RUN.sub(lambda run: _broken(run[0]), kept)


def _broken(run: str) -> str:
    parts = re.split(r"(?<=[._/])", run)
    pieces = [part[i : i + LONGEST] for part in parts for i in range(0, len(part), LONGEST)]
    return BREAK.join(pieces)


def cleaned(value: Any) -> Any:
    """Return a JSON-compatible value with every text in it cleaned."""
    if isinstance(value, str):
        return clean(value)
    if isinstance(value, dict):
        return {key: cleaned(part) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [cleaned(part) for part in value]
    return value


def paragraphs(text: str) -> list[str]:
    """Return the paragraphs of a text, each without line breaks."""
    return [" ".join(part.split()) for part in re.split(r"\n\s*\n|\n", text) if part.strip()]
