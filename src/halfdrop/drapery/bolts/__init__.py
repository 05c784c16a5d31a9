"""The bolt plan: all cuts of one cloth across the job on real bolts, pattern in phase, least cloth bought."""

from halfdrop.drapery.bolts.check import faults
from halfdrop.drapery.bolts.cut import BoltKind, BoltPlan, BoltRules, Cut, LaidBolt, LaidCut
from halfdrop.drapery.bolts.plan import plan_bolts

__all__ = [
    "BoltKind",
    "BoltPlan",
    "BoltRules",
    "Cut",
    "LaidBolt",
    "LaidCut",
    "faults",
    "plan_bolts",
]
