"""Writing changed values into a YAML text, leaving every other character of it as it was.

The tree of the text knows where each value stands. Where the new document differs, only those characters
are exchanged: comments, blank lines, quotes, alignment and the order of keys stay. The caller reads the
result again and compares; what cannot be spliced raises `CannotSplice`.
"""

from __future__ import annotations

import bisect
import re
from itertools import pairwise

from halfdrop.job.compose import Node, plain, walk
from halfdrop.job.same import paired, same
from halfdrop.job.scalars import Json, block, flow

_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
_PROPERTIES = re.compile(r"(?:[&!][^\s,\[\]{}]*[ \t]*)*")
_LEAD = re.compile(r"(?:[&!]\S*\s|#[^\n]*\n|\s)*")
_COLON = re.compile(r"[ \t]*:")


class CannotSplice(Exception):  # noqa: N818  (a signal, never shown)
    """The text is written in a way that cannot be changed in place."""


def splice(text: str, root: Node, new: dict[str, Json], *, aliases: bool = True) -> str:
    """Return `text` changed so that it says `new`.

    Parameters
    ----------
    text : str
        YAML whose root is a map.
    root : Node
        Its tree.
    new : dict
        The document wanted.
    aliases : bool
        False writes every alias out, so that no anchor needs to stay.

    Raises
    ------
    CannotSplice
        Where two changes would touch the same characters.
    """
    splicer = _Splicer(text, root, new, aliases)
    splicer.change(root, new, None)
    return splicer.result()


class _Parent:
    """Where a value stands: in a flow collection, at a key of a block map, or after a dash."""

    def __init__(self, flow: bool, column: int, key: Node | None) -> None:
        self.flow, self.column, self.key = flow, column, key


class _Splicer:
    def __init__(self, text: str, root: Node, new: Json, aliases: bool) -> None:
        self.text = text
        self.newline = "\r\n" if "\r\n" in text else "\n"
        self.breaks = [match.span() for match in _BREAK.finditer(text)]
        self.ends = [end for _, end in self.breaks]
        self.edits: list[tuple[int, int, str]] = []
        self.aliased = {id(node.target) for node in walk(root) if node.kind == "alias"}
        self.kept: dict[int, Json] = {}
        if self.aliased and aliases:
            self._keep(root, new)

    # ------------------------------------------------------------ places

    def _row(self, spot: int) -> int:
        return bisect.bisect_right(self.ends, spot)

    def line_start(self, spot: int) -> int:
        """Return where the line of `spot` begins."""
        row = self._row(spot)
        return self.ends[row - 1] if row else 0

    def line_end(self, spot: int) -> int:
        """Return where the line of `spot` ends, before its break."""
        row = self._row(spot)
        return self.breaks[row][0] if row < len(self.breaks) else len(self.text)

    def before_line(self, spot: int) -> int | None:
        """Return the end of the line before that of `spot`; None on the first line."""
        row = self._row(spot)
        return self.breaks[row - 1][0] if row else None

    def column(self, spot: int) -> int:
        return spot - self.line_start(spot)

    def leads(self, spot: int) -> bool:
        """Return whether nothing but blanks stands before `spot` on its line."""
        return not self.text[self.line_start(spot) : spot].strip()

    def last(self, node: Node) -> int:
        """Return the end of the last character that belongs to a node."""
        while node.items and not node.flow:
            node = node.items[-1]
        written = self.text[node.start : node.end]
        if node.kind == "scalar" and node.style in ("|", ">"):
            header = written.split("\n", 1)[0]
            written = written[:-1] if "+" in header else written.rstrip()
        return node.start + len(written)

    def edit(self, start: int, end: int, text: str) -> None:
        self.edits.append((start, end, text.replace("\n", self.newline)))

    def result(self) -> str:
        """Return the text with all edits made."""
        order = sorted(
            range(len(self.edits)), key=lambda i: (self.edits[i][0], self.edits[i][1] > self.edits[i][0], i)
        )
        edits = [self.edits[i] for i in order]
        if any(before[1] > after[0] for before, after in pairwise(edits)):
            raise CannotSplice
        parts, spot = [], 0
        for start, end, text in edits:
            parts += [self.text[spot:start], text]
            spot = end
        return "".join(parts) + self.text[spot:]

    # ------------------------------------------------------------ aliases

    def _keep(self, node: Node, new: Json) -> None:
        """Note the new value of every anchored node that stays where it is."""
        if node.kind == "scalar" and not node.tagged and not isinstance(new, dict | list):
            self.kept[id(node)] = new
        elif node.kind == "map" and isinstance(new, dict) and new:
            self.kept[id(node)] = new
            for key, item in zip(node.keys, node.items, strict=True):
                if key.value in new:
                    self._keep(item, new[key.value])
        elif node.kind == "seq" and isinstance(new, list) and new:
            self.kept[id(node)] = new
            for i, j in paired(plain(node), new):
                if i is not None and j is not None:
                    self._keep(node.items[i], new[j])

    def _stays(self, node: Node, new: Json) -> bool:
        if node.kind != "alias":
            return not self.aliased and same(plain(node), new)
        target = id(node.target)
        return target in self.kept and same(self.kept[target], new)

    # ------------------------------------------------------------ values

    def change(self, node: Node, new: Json, parent: _Parent | None) -> None:
        """Make a value say `new`."""
        if self._stays(node, new):
            return
        if node.kind == "map" and isinstance(new, dict) and any(key.value in new for key in node.keys):
            self._map(node, new, parent)
        elif node.kind == "seq" and isinstance(new, list) and node.items and new:
            self._list(node, new, parent)
        elif node.kind == "alias" or not same(plain(node), new):
            self._replace(node, new, parent)

    def _replace(self, node: Node, new: Json, parent: _Parent | None) -> None:
        if parent is None:
            raise CannotSplice
        old_block = node.kind in ("map", "seq") and not node.flow
        inline = parent.flow or _inline(new)
        start = node.start
        if inline and not node.tagged and node.kind != "alias":
            start = min(_PROPERTIES.match(self.text, start).end(), node.end)  # type: ignore[union-attr]
        if parent.flow and parent.key and not _COLON.match(self.text, parent.key.end):
            self.edit(parent.key.end, parent.key.end, f": {flow(new)}")
            return
        if parent.key is None or not (old_block or not inline):
            text = flow(new) if inline else _indented(new, parent.column + 2).lstrip()
            gap = "" if start == 0 or self.text[start - 1] in " \t\n[{(" else " "
            self.edit(start, self.last(node), gap + text)
            return
        colon = _COLON.match(self.text, parent.key.end)
        if colon is None:
            raise CannotSplice
        after = f" {flow(new)}" if inline else ""
        below = "" if inline else f"\n{_indented(new, parent.column + 2)}"
        if old_block and (node.anchor or node.tagged):
            self.edit(colon.end(), self.line_end(self.last(node)), after + below)
        elif old_block:
            self.edit(colon.end(), colon.end(), after)
            above = self.before_line(node.start)
            self.edit(above or 0, self.line_end(self.last(node)), below)
        else:
            self.edit(colon.end(), self.last(node), after)
            end = self.line_end(self.last(node))
            self.edit(end, end, below)

    # ------------------------------------------------------------ maps

    def _map(self, node: Node, new: dict[str, Json], parent: _Parent | None) -> None:
        names = [str(key.value) for key in node.keys]
        column = self.column(node.keys[0].start)
        if not node.flow and not self.leads(node.keys[0].start) and names[0] not in new:
            self._replace(node, new, parent)
            return
        for name, key, item in zip(names, node.keys, node.items, strict=True):
            if name in new:
                self.change(item, new[name], _Parent(node.flow, column, key))
        spans = [(key.start, self.last(item)) for key, item in zip(node.keys, node.items, strict=True)]
        spans = [(start, max(end, key.end)) for (start, end), key in zip(spans, node.keys, strict=True)]
        self._remove(spans, [name not in new for name in names], node.flow)
        before: int | None = None
        for name, value in new.items():
            if name in names:
                before = names.index(name)
            else:
                entry = f"{flow(name)}:{_after_colon(value, node.flow, column)}"
                self._insert(spans, before, entry, node.flow, column)

    # ------------------------------------------------------------ lists

    def _list(self, node: Node, new: list[Json], parent: _Parent | None) -> None:
        old = [plain(item) for item in node.items]
        column = self.column(_LEAD.match(self.text, node.start).end())  # type: ignore[union-attr]
        if node.flow:
            spans = [(item.start, self.last(item)) for item in node.items]
        else:
            spans = [(self._dash(item, column), self.last(item)) for item in node.items]
        pairs = paired(old, new)
        moved = any(i is None or j is None for i, j in pairs)
        if moved and not node.flow and not self.leads(spans[0][0]):
            self._replace(node, new, parent)
            return
        gone = {i for i, j in pairs if j is None}
        self._remove(spans, [i in gone for i in range(len(old))], node.flow)
        before: int | None = None
        for i, j in pairs:
            if i is not None and j is not None:
                self.change(node.items[i], new[j], _Parent(node.flow, column, None))
                before = i
            elif j is not None:
                entry = flow(new[j]) if node.flow else f"- {_indented(new[j], column + 2).lstrip()}"
                self._insert(spans, before, entry, node.flow, column)

    def _dash(self, item: Node, column: int) -> int:
        start = self.line_start(item.start)
        while not self.text.startswith("-", start + column):
            if start == 0:
                raise CannotSplice
            start = self.line_start(self.before_line(start) or 0)
        return start + column

    # ------------------------------------------------------------ entries

    def _remove(self, spans: list[tuple[int, int]], gone: list[bool], in_flow: bool) -> None:
        """Take entries out; at least one stays."""
        lead, done = gone.index(False), 0
        for i, (start, end) in enumerate(spans):
            if gone[i] and not in_flow:
                first, stop = self.before_line(start), self.line_end(end)
                self.edit(max(first or 0, done), done := stop + (first is None), "")
            elif gone[i] and i > lead:
                self.edit(spans[i - 1][1], end, "")
        if in_flow and lead:
            self.edit(spans[0][0], spans[lead][0], "")

    def _insert(
        self, spans: list[tuple[int, int]], before: int | None, entry: str, in_flow: bool, column: int
    ) -> None:
        """Put an entry after entry `before`, or in front of all."""
        if in_flow:
            spot = spans[0][0] if before is None else spans[before][1]
            self.edit(spot, spot, f"{entry}, " if before is None else f", {entry}")
            return
        first = spans[0][0]
        after = self.line_end(spans[before][1]) if before is not None else self.before_line(first)
        if before is None and not self.leads(first):
            self.edit(first, first, f"{entry}\n{' ' * column}")
        elif after is None:
            self.edit(0, 0, f"{' ' * column}{entry}\n")
        else:
            self.edit(after, after, f"\n{' ' * column}{entry}")


def _inline(value: Json) -> bool:
    """Return whether a value is written on the line of its key."""
    text = block(value)
    return not isinstance(value, dict | list) or text[:1] in "{["


def _indented(value: Json, column: int) -> str:
    if not isinstance(value, dict | list):
        return flow(value)
    lines = block(value).rstrip("\n").split("\n")
    return "\n".join(" " * column + line if line else line for line in lines)


def _after_colon(value: Json, in_flow: bool, column: int) -> str:
    if in_flow or _inline(value):
        return f" {flow(value)}"
    return f"\n{_indented(value, column + 2)}"
