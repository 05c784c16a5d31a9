"""Whether a treatment is to be made, or hangs there already."""

from __future__ import annotations

from halfdrop.job.treatments import Treatment


def is_made(treatment: Treatment) -> bool:
    """Return whether a treatment takes cloth and hardware of this job.

    What the client keeps takes none; nor does what hangs there now, which is what a given `drop` says of a treatment that does
    not `arrive`, and `altered`, which counts for itself.

    Source: our own. Checked by: tests/drapery/test_takeoff.py.
    """
    return not treatment.keep and treatment.altered is None and (treatment.arrives or treatment.drop is None)
