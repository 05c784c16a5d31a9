"""Whole millimeters that add up: a length shared into parts that are as equal as can be."""

from __future__ import annotations

from halfdrop.base.errors import InputError


def shared(total: int, parts: int) -> tuple[int, ...]:
    """Return `parts` whole numbers that add up to `total`, no two more than 1 apart, the larger ones spread evenly.

    Raises
    ------
    InputError
        Where there is nothing to share, or no one to share it.
    """
    if parts < 1 or total < 0:
        raise InputError(f"{total} mm cannot be shared into {parts} parts")
    return tuple((i + 1) * total // parts - i * total // parts for i in range(parts))
