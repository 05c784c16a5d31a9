"""A cloth of the job as the workroom takes it: SI, defaults filled in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.drapery.bolts import BoltKind, BoltRules
from halfdrop.drapery.weight import cloth_weight
from halfdrop.job.treatments import Fabric, FabricKind
from halfdrop.practice import Practice

#: One yard [m].
YARD = 0.9144


@dataclass(frozen=True)
class Cloth:
    """A cloth.

    Attributes
    ----------
    id, name : str
        Its id in the job, its name.
    kind : str
        What sort of cloth.
    width : float
        Usable [m].
    repeat : float
        Along the bolt [m]; 0 for plain.
    across : float
        The repeat across it [m]; 0 where there is none or it was not given.
    match : {"straight", "half-drop"} or None
        How widths meet; None for plain.
    motif : {"hem", "heading"}
        Where the full motif falls.
    nap, railroad : bool
        Whether it has a nap; whether it may be turned on its side.
    weight : float
        [kg/m²].
    rules : BoltRules
        How it is cut and sold.
    bolts : tuple of BoltKind
        What can be had.
    unit : float
        One unit of sale [m]; 0 where it is sold by the bolt.
    """

    id: str
    name: str
    kind: FabricKind
    width: float
    repeat: float
    across: float
    match: Literal["straight", "half-drop"] | None
    motif: Literal["hem", "heading"]
    nap: bool
    railroad: bool
    weight: float
    rules: BoltRules
    bolts: tuple[BoltKind, ...]
    unit: float

    @property
    def joined(self) -> float:
        """What a width gives where it is sewn to another [m]: whole repeats across, so that the seam is matched."""
        if not self.across or self.across > self.width + 1e-9:
            return self.width
        return int(self.width / self.across + 1e-6) * self.across


def cloth_of(key: str, fabric: Fabric, practice: Practice) -> Cloth:
    """Return a fabric of the job with what it leaves open taken from practice.

    Source: common practice. Checked by: tests/drapery/test_takeoff.py.
    """
    repeat = float(fabric.repeat or 0.0)
    match = fabric.match or ("straight" if repeat else None)
    unit = {"yard": YARD, "meter": 1.0, "bolt": 0.0}[fabric.sale]
    ours = 1.0 if practice.name == "metric" else YARD
    step = (
        float(fabric.step)
        if fabric.step is not None
        else float(practice.length("drapery.sale_step")) / ours * unit
    )
    place = repeat if repeat and practice.flag("drapery.motif_repeat") else 0.0
    bolts = tuple(BoltKind(i, float(b.length), b.lot or "", b.count) for i, b in fabric.bolts.items())
    return Cloth(
        id=key,
        name=fabric.name,
        kind=fabric.kind,
        width=float(fabric.width),
        repeat=repeat,
        across=float(fabric.repeat_across or 0.0),
        match=match,
        motif=fabric.motif,
        nap=fabric.nap,
        railroad=fabric.railroad,
        weight=float(fabric.weight) if fabric.weight is not None else cloth_weight(fabric.kind, practice),
        rules=BoltRules(repeat, place, step, fabric.sale == "bolt"),
        bolts=bolts or (BoltKind("bolt", float(practice.length("drapery.bolt_length"))),),
        unit=unit,
    )
