"""Pieces a remedy buys: from the job's stock where it has some, else of the usual size, unpriced."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from shapely.geometry import Polygon

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Patch
from halfdrop.audit.moves import stands_clear, text
from halfdrop.base.formats import format_angle, format_size
from halfdrop.base.units import Money
from halfdrop.geometry.plane import Array, placed, rectangle
from halfdrop.job.model import PieceType
from halfdrop.practice import piece_key
from halfdrop.room import StandingPiece


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

    @property
    def called(self) -> str:
        """Its name with its article, as in the middle of a sentence."""
        name = self.name[0].lower() + self.name[1:]
        return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"

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
    """Return the patch that stands a bought piece free at a plan point [m], turned to a front angle [rad].

    Empty where it would stand in another piece or out of the room.
    """
    if not stands_clear(case, Polygon(placed(rectangle(offer.size[0], offer.size[1]), center, angle))):
        return []
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
    pieces, key = f"/{case.room.path}/pieces", new_id(case, offer.type)
    if "pieces" not in case.room.model.model_fields_set:
        return [{"op": "add", "path": pieces, "value": {key: value}}]
    return [{"op": "add", "path": f"{pieces}/{key}", "value": value}]


def exchanged(case: RoomCase, piece: StandingPiece, offer: Offer, *, back: bool = False) -> Patch:
    """Return the patch that puts a bought piece in another's place, all that was the old one's own gone.

    Parameters
    ----------
    case : RoomCase
        Where it stands.
    piece : StandingPiece
        The piece that leaves.
    offer : Offer
        The one that comes.
    back : bool
        Whether the new back comes where the old one was; else the middle stays.
    """
    base = case.room.walls[0]
    path = f"/{piece.path}"
    center = piece.at(0.0, (offer.size[1] - piece.depth) / 2) if back else piece.center
    x, y = (float((center - base.start) @ v) for v in (base.direction, base.inward))
    fields: dict[str, Any] = {
        **offer.fields(case),
        "at": {"x": text(case, x), "y": text(case, y)},
        "turn": format_angle(piece.angle),
    }
    if offer.name != offer.type:
        fields["name"] = offer.name
    patch: Patch = [{"op": "add", "path": f"{path}/{key}", "value": value} for key, value in fields.items()]
    own = ("name", "price", "weight", "packed", "seats", "seat_height", "leg_setback", "pillows", "note")
    gone = [key for key in own if getattr(piece.model, key) is not None and key not in fields]
    if piece.model.shape != "rectangle" and "shape" not in fields:
        gone.append("shape")
    return patch + [{"op": "remove", "path": f"{path}/{key}"} for key in gone]
