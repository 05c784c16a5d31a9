"""Pieces a remedy buys: from the job's stock where it has some, else of the usual size, unpriced."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Patch
from halfdrop.audit.moves import Movable, text
from halfdrop.base.formats import format_angle, format_size
from halfdrop.base.units import Money
from halfdrop.geometry.plane import Array
from halfdrop.job.model import PieceType
from halfdrop.practice import piece_key


@dataclass(frozen=True)
class Offer:
    """One piece that can be bought.

    Attributes
    ----------
    type, name : str
        Of the piece.
    size : tuple of float
        Width × depth × height [m].
    shape : str
        Of its plan.
    price : Money or None
        Where known.
    """

    type: PieceType
    name: str
    size: tuple[float, float, float]
    shape: str = "rectangle"
    price: Money | None = None

    def unpriced(self, case: RoomCase) -> tuple[str, ...]:
        """Return what stands on the list without a price."""
        if self.price is not None:
            return ()
        return (f"{self.name}, {format_size(self.size[0], self.size[1], case.units)}",)

    def fields(self, case: RoomCase) -> dict[str, Any]:
        """Return the document's fields that say what it is."""
        width, depth, height = (text(case, v) for v in self.size)
        found: dict[str, Any] = {"type": self.type, "width": width, "depth": depth, "height": height}
        if self.shape != "rectangle":
            found["shape"] = self.shape
        if self.price is not None:
            found["price"] = self.price.text
        return {**found, "arrives": True}


def offers_of(case: RoomCase, piece_type: PieceType) -> list[Offer]:
    """Return what can be bought of a type, the smallest first; one of the usual size where the stock has
    none.
    """
    found = [
        Offer(
            piece_type,
            item.name,
            (float(item.width), float(item.length), float(item.height)),
            item.shape or "rectangle",
            item.price,
        )
        for _, item in sorted(case.job.stock.items())
        if item.kind == "piece" and item.piece == piece_type and item.width and item.length and item.height
    ]
    if found:
        return sorted(found, key=lambda o: (o.size[0] * o.size[1], o.name))
    width, depth, height = (float(v) for v in case.practice.box(piece_key(piece_type, "size")))
    return [Offer(piece_type, piece_type, (width, depth, height))]


def new_id(case: RoomCase, name: str) -> str:
    """Return an id no piece of the room has: `side-table`, `side-table-2`, …"""
    stem = name.replace(" ", "-")
    taken = case.room.pieces.keys()
    return (
        stem
        if stem not in taken
        else next(f"{stem}-{k}" for k in range(2, 1000) if f"{stem}-{k}" not in taken)
    )


def added(case: RoomCase, offer: Offer, center: Array, angle: float, group: str | None = None) -> Patch:
    """Return the patch that stands a bought piece free at a plan point [m], turned to a front angle [rad]."""
    base = case.room.walls[0]
    at = {
        "x": text(case, float((center - base.start) @ base.direction)),
        "y": text(case, float((center - base.start) @ base.inward)),
    }
    value = {**offer.fields(case), "at": at, "turn": format_angle(angle)}
    if offer.name != offer.type:
        value["name"] = offer.name
    if group is not None:
        value["group"] = group
    return [{"op": "add", "path": f"/{case.room.path}/pieces/{new_id(case, offer.type)}", "value": value}]


def exchanged(case: RoomCase, piece: Movable, offer: Offer) -> Patch:
    """Return the patch that puts a bought piece in another's place: its own size, price and name, the same
    middle.
    """
    base = case.room.walls[0]
    path = f"/{piece.path}"
    model = piece.model
    patch: Patch = [
        {"op": "add", "path": f"{path}/{key}", "value": v} for key, v in offer.fields(case).items()
    ]
    x, y = (float((piece.center - base.start) @ v) for v in (base.direction, base.inward))
    patch.append({"op": "add", "path": f"{path}/at", "value": {"x": text(case, x), "y": text(case, y)}})
    patch.append({"op": "add", "path": f"{path}/turn", "value": format_angle(piece.angle)})
    if offer.name != offer.type:
        patch.append({"op": "add", "path": f"{path}/name", "value": offer.name})
    stale = [("price", model.price, offer.price), ("shape", None if model.shape == "rectangle" else 1, None)]
    for key, old, new in stale:
        if old is not None and new is None and key not in offer.fields(case):
            patch.append({"op": "remove", "path": f"{path}/{key}"})
    return patch
