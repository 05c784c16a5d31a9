"""YAML as people type it: generated texts with comments, blank lines, quotes, anchors, block and flow."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import strategies as st

from halfdrop.job.same import same
from halfdrop.job.scalars import flow


def _is_line(value: Any) -> bool:
    return isinstance(value, str) and value != "" and value == value.strip() and value.isprintable()


class _Typist:
    def __init__(self, draw: st.DrawFn) -> None:
        self.draw = draw
        self.comments = 0
        self.anchors: dict[str, Any] = {}

    def maybe(self, *choices: Any) -> Any:
        return self.draw(st.sampled_from(choices))

    def comment(self) -> str:
        self.comments += 1
        return f"# c{self.comments}."

    def above(self, indent: int) -> str:
        """Lines that may stand above an entry."""
        kind = self.maybe("", "", "", "blank", "comment", "both")
        lines = "\n" if kind in ("blank", "both") else ""
        return lines + (f"{' ' * indent}{self.comment()}\n" if kind in ("comment", "both") else "")

    def tail(self) -> str:
        """What may stand after a value on its line."""
        return self.maybe("", "", "  " + self.comment(), " ")

    def scalar(self, value: Any) -> str:
        if isinstance(value, str) and self.maybe(True, False):
            return json.dumps(value) if not any(c > "\x7e" for c in value) else flow(value)
        return flow(value)

    def inline(self, value: Any) -> str:
        """A value in flow style, spaced at will."""
        if isinstance(value, dict):
            inside = f",{self.maybe(' ', '', '  ')}".join(
                f"{self.key(key)}: {self.inline(item)}" for key, item in value.items()
            )
            gap = self.maybe("", " ") if value else ""
            return f"{{{gap}{inside}{gap}}}"
        if isinstance(value, list):
            return f"[{', '.join(self.inline(item) for item in value)}]"
        return self.scalar(value)

    def anchored(self, value: Any, text: str) -> str:
        """The text of a value, perhaps with an anchor, or an alias of the same value above."""
        known = [name for name, other in self.anchors.items() if same(other, value)]
        if known and self.maybe(True, False):
            return f"*{known[0]}"
        if self.maybe(*[False] * 5, True):
            self.anchors[f"n{len(self.anchors)}"] = value
            return f"&n{len(self.anchors) - 1} {text}"
        return text

    def key(self, key: str) -> str:
        return self.scalar(key)

    def entry(self, lead: str, value: Any, indent: int) -> str:
        """A value after `key:` or `-`, on its line or below."""
        if _is_line(value) and self.maybe(*[False] * 5, True):
            return f"{lead} |-\n{' ' * (indent + 2)}{value}\n"
        if not isinstance(value, dict | list) or not value or self.maybe(False, False, True):
            text = self.anchored(value, self.inline(value))
            if value is None and text == "null" and self.maybe(True, False):
                text = ""
            return f"{lead}{' ' if text else ''}{text}{self.tail()}\n"
        if lead == "-":
            inside = self.block(value, indent + 2)
            return (
                f"- {inside.lstrip()}" if not inside.lstrip(" ").startswith(("#", "\n")) else f"-\n{inside}"
            )
        step = self.maybe(2, 2, 4) if isinstance(value, dict) else self.maybe(0, 2)
        return f"{lead}{self.tail()}\n{self.block(value, indent + step)}"

    def block(self, value: Any, indent: int) -> str:
        """A map or a list over several lines."""
        text = ""
        entries = value.items() if isinstance(value, dict) else (("-", item) for item in value)
        for key, item in entries:
            lead = "-" if isinstance(value, list) else f"{self.key(key)}:"
            text += self.above(indent) + " " * indent + self.entry(lead, item, indent)
        return text


@st.composite
def typed(draw: st.DrawFn, document: dict[str, Any]) -> str:
    """Draw a YAML text that says a document."""
    typist = _Typist(draw)
    if not document:
        return "{}\n"
    text = typist.block(document, 0)
    return (
        draw(st.sampled_from(["", "---\n", "# top.\n\n"]))
        + text
        + draw(st.sampled_from(["", "# end.\n", "\n\n"]))
    )
