"""Tolerances that are geometry's, not the trade's: when two numbers count as the same."""

from __future__ import annotations

#: Two lengths nearer than this are the same length [m]. A tenth of the finest printed step (1/16 in = 1.5875 mm),
#: so that arithmetic noise never turns a value that meets its limit into one that misses it.
SAME = 1.5e-4

#: Two angles nearer than this are the same angle [rad].
SAME_ANGLE = 1e-6


def at_least(measured: float, wanted: float, same: float = SAME) -> bool:
    """Return whether `measured` reaches `wanted`, arithmetic noise aside."""
    return measured >= wanted - same


def at_most(measured: float, wanted: float, same: float = SAME) -> bool:
    """Return whether `measured` stays within `wanted`, arithmetic noise aside."""
    return measured <= wanted + same
