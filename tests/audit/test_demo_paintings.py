"""Of the demo's two paintings one belongs to its room, one does not."""

from __future__ import annotations

from pathlib import Path

from halfdrop.audit.auditor import Auditor
from halfdrop.job.read import read_job

DEMO = Path(__file__).parents[2] / "examples" / "quince.yaml"


def test_the_harbor_belongs_and_the_carnival_does_not() -> None:
    """The room takes up colors of the harbor and none of the carnival: one note says so, of the carnival."""
    found = Auditor.of(read_job(DEMO).document).findings("living")
    assert [f.id for f in found if f.rule == "color.art-alone"] == ["living/color.art-alone/carnival"]
