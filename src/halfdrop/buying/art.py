"""What hanging art buys and moves: works that arrive, fixings put in anew, acrylic for glass; works hung elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from halfdrop.base.formats import Units, format_length
from halfdrop.buying.lines import Bought, Moved
from halfdrop.job.art import Art, OnWall
from halfdrop.job.naming import art_name
from halfdrop.job.part import corners_of

_UNPRICED = "not in the stock list"


def art_bought(
    room: str, found: Mapping[str, Art], proposed: Mapping[str, Art], units: Units
) -> Iterator[Bought]:
    """Give what a room's works buy against the room as found: the work, its fixings, its acrylic.

    Checked by: tests/buying/test_art.py.
    """
    for key, work in sorted(proposed.items()):
        path, name, old = f"rooms/{room}/art/{key}", art_name(key, work), found.get(key)
        size = " × ".join(format_length(float(side), units, feet=False) for side in (work.width, work.height))
        if work.arrives:
            told = "job" if work.price is not None else "no price is given for the work"
            yield Bought(room, (path,), "work", name, size, 1, "piece", work.price, told)
        fixings = work.fixings
        if fixings is not None and old is not None and fixings != old.fixings:
            rated = f", {fixings.rating} {fixings.rated.text}" if fixings.rated is not None else ""
            yield Bought(
                room, (path,), "fixing", f"{fixings.kind}{rated}, for the {name}", "", fixings.count, "piece", None, _UNPRICED,
                caution="The maker's figure for this wall goes before; it is bought with the screws it names.",
            )  # fmt: skip
        if work.glazing == "acrylic" and old is not None and old.glazing != "acrylic":
            yield Bought(
                room, (path,), "glazing", f"acrylic sheet, for the {name}", size, 1, "piece", None, _UNPRICED,
                caution="The size is the frame's; the framer cuts it to the rabbet.",
            )  # fmt: skip


def art_moved(
    room: str, found: Mapping[str, Art], proposed: Mapping[str, Art], units: Units
) -> Iterator[Moved]:
    """Give the works that hang elsewhere, are hung, or are taken down, each place as a person sets it out."""
    for key, work in sorted(proposed.items()):
        old = found.get(key)
        if old is not None and old.at != work.at:
            where = [_place(at, units) for at in (old.at, work.at)]
            yield Moved(room, f"rooms/{room}/art/{key}", art_name(key, work), where[0], where[1])


def _place(at: OnWall | None, units: Units) -> str:
    if at is None:
        return "not hung"
    along, bottom = (format_length(float(v), units, feet=False) for v in (at.along, at.bottom))
    return f"wall {at.wall}, {along} from {corners_of(at.wall)[0]}, bottom {bottom} up"
