"""What a remedy buys is written into the document as it stands."""

from __future__ import annotations

from typing import Any

import numpy as np

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.bought import added, offers_of


def _job(**room: Any) -> dict[str, Any]:
    survey = {
        "corners": "A B C D",
        "walls": {"AB": "4 m", "BC": "3 m", "CD": "4 m", "DA": "3 m"},
        "ties": {"AC": "5 m", "BD": "5 m"},
    }
    living = {"name": "Living room", "use": {"living": True}, "survey": survey, **room}
    return {"halfdrop": 1, "job": {"name": "Bought", "units": "metric"}, "rooms": {"living": living}}


def test_a_piece_is_bought_into_a_room_that_had_none() -> None:
    """A room whose file has no `pieces` gets the map with the piece; one that has it gets the piece alone."""
    for room in ({}, {"pieces": {}}):
        auditor = Auditor.of(_job(**room))
        case = auditor.case("living")
        patch = added(case, offers_of(case, "side table")[0], np.array((2.0, 1.5)), 0.0)
        assert list(auditor.after(patch).case("living").room.pieces) == ["side-table"]
