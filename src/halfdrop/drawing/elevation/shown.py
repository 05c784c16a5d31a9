"""What an elevation shows: the wall with what is in, on and before it, what hangs at its windows, its trim."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from shapely.geometry import Polygon, box

from halfdrop.base.errors import InputError
from halfdrop.drapery import Cloth, brackets_for, hang
from halfdrop.drapery.as_hung import AsHung, as_hung
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom
from halfdrop.room.elevation import Elevation, elevation_of
from halfdrop.room.face import wall_run

Ends = tuple[float, float]


@dataclass(frozen=True)
class Hanging:
    """What hangs at a window, on an elevation.

    Attributes
    ----------
    hung : AsHung
    dx, dy : float
        Where the run's beginning and its floor stand on the elevation [m].
    supports : tuple of float
        Where its brackets stand on the elevation [m].
    """

    hung: AsHung
    dx: float
    dy: float
    supports: tuple[float, ...] = ()

    @property
    def path(self) -> str:
        """Its place in the document."""
        return self.hung.path

    @property
    def rod(self) -> Ends:
        """The rod's ends, without finials [m]."""
        return self.hung.left + self.dx, self.hung.right + self.dx

    @property
    def height(self) -> float:
        """Top of the rod on the elevation [m]."""
        return self.hung.height + self.dy

    @property
    def top(self) -> float:
        """Top of the cloth on the elevation [m]."""
        return self.hung.top + self.dy

    def panels(self, *, shut: bool = False) -> list[tuple[float, float, float, float]]:
        """Return left, right, and hem at left and right of each panel [m]; a shade's hem half way up where it is not shut."""
        out = []
        for panel in self.hung.panels:
            a, b = panel.shut if shut or self.hung.kind != "panels" else panel.drawn
            low, high = panel.hem
            if panel.raised is not None and not shut:
                low = high = (max(panel.hem) + panel.raised) / 2
            out.append((a + self.dx, b + self.dx, low + self.dy, high + self.dy))
        return out

    @property
    def shape(self) -> Polygon:
        """The box of rod and cloth [m]."""
        hems = [hem for panel in self.panels() for hem in panel[2:]]
        edges = [*self.rod, *(x for panel in self.panels() for x in panel[:2])]
        return box(min(edges), min([*hems, self.top]), max(edges), max(self.top, self.height))


@dataclass(frozen=True)
class PaperStrip:
    """A length of wallpaper on an elevation [m].

    Attributes
    ----------
    path : str
        The finish in the document.
    left, right, bottom, top : float
    mark : float or None
        Height of one mark of the pattern; None where nothing is to match.
    repeat : float
        Of the pattern; 0 where there is none.
    """

    path: str
    left: float
    right: float
    bottom: float
    top: float
    mark: float | None = None
    repeat: float = 0.0


@dataclass(frozen=True)
class Trims:
    """Heights and widths of the trim that is known to be there [m]; 0 where it is not."""

    baseboard: float = 0.0
    crown: float = 0.0
    casing: float = 0.0


@dataclass(frozen=True, eq=False)
class Shown:
    """One elevation, ready to draw.

    Attributes
    ----------
    face : Elevation
    hangings : tuple of Hanging
        What hangs at its openings, sheers before what hangs over them.
    trims : Trims
    strips : tuple of PaperStrip
        Of wallpaper, where it was set out.
    """

    face: Elevation
    hangings: tuple[Hanging, ...] = ()
    trims: Trims = field(default_factory=Trims)
    strips: tuple[PaperStrip, ...] = ()

    @property
    def boxes(self) -> dict[str, Polygon]:
        """Every thing's box on the wall by its path in the document [m]."""
        found = {
            s.path: s.box
            for s in (*self.face.openings, *self.face.fittings, *self.face.pieces, *self.face.art)
        }
        found |= {h.path: h.shape for h in self.hangings}
        return found


def shown_of(
    room: ResolvedRoom,
    walls: str | Sequence[str],
    cloths: Mapping[str, Cloth],
    practice: Practice,
    hung: Mapping[str, AsHung] | None = None,
) -> Shown:
    """Return what an elevation shows.

    Parameters
    ----------
    room : ResolvedRoom
    walls : str or sequence of str
        As for `halfdrop.room.elevation.elevation_of`.
    cloths : mapping of str to Cloth
        The job's, by id.
    practice : Practice
    hung : mapping of str to AsHung, optional
        What hangs in the room, by the treatment's id, where it was worked out before.

    Raises
    ------
    InputError
        Where a name is no wall of the room.
    """
    face = elevation_of(room, walls, practice)
    return Shown(face, tuple(_hangings(face, cloths, practice, hung)), trims_of(room, practice))


def _hangings(
    face: Elevation, cloths: Mapping[str, Cloth], practice: Practice, known: Mapping[str, AsHung] | None
) -> Iterable[Hanging]:
    room = face.room
    shown = {s.thing.id for s in face.openings}
    found: list[Hanging] = []
    for key, treatment in room.model.treatments.items():
        if not shown.intersection(treatment.openings):
            continue
        hung = known.get(key) if known is not None else as_hung(room, key, cloths, practice)
        if hung is None:
            continue
        dx = _begins(face, hung)
        level = face.floor(min(max(dx, 0.0), face.width))
        found.append(Hanging(hung, dx, level, tuple(x + dx for x in _supports(room, hung, cloths, practice))))
    behind = {h.hung.treatment.behind: h for h in found if h.hung.treatment.behind}
    return sorted(found, key=lambda h: (h not in behind.values(), h.dx, h.path))


def _begins(face: Elevation, hung: AsHung) -> float:
    """Return where a run's beginning stands on an elevation [m]: left of 0 where it is on a wall that is not shown."""
    past = -hung.run.left
    for wall in hung.run.walls:
        stretch = next((s for s in face.stretches if s.wall.name == wall.name), None)
        if stretch is not None:
            return stretch.left - past
        past += wall.length
    raise AssertionError(f"{hung.path} is on no wall of {face.name}")


def _supports(
    room: ResolvedRoom, hung: AsHung, cloths: Mapping[str, Cloth], practice: Practice
) -> list[float]:
    """Return where the brackets stand along the run [m]: by load where the cloth is named, else by practice's span."""
    if hung.kind != "panels" or hung.treatment.mount == "inside":
        return []
    if hung.treatment.fabric in cloths and hung.treatment.hardware.brackets is None:
        try:
            return [hung.left + at for at in hang(room, hung.id, cloths, practice).brackets.at]
        except InputError:
            pass
    span = hung.right - hung.left
    inset = min(0.05, span / 10)
    count = hung.treatment.hardware.brackets
    if count is not None:
        return [hung.left + inset + (span - 2 * inset) * k / (count - 1) for k in range(count)]
    bends = [x - hung.left for x in hung.run.bends]
    return [hung.left + x for x in brackets_for(span, 0.0, 0.0, practice, inset=inset, bends=bends).at]


def trims_of(room: ResolvedRoom, practice: Practice) -> Trims:
    """Return the trim that a finish of the room names; a room whose trim is not finished shows its casings only."""
    casing = float(practice.length("walls.casing_width"))
    for finish in room.model.finishes.values():
        if finish.on == "trim":
            base = finish.parts.get("baseboard", True)
            crown = finish.parts.get("crown", False)
            return Trims(
                float(practice.length("walls.baseboard_height")) if base else 0.0,
                float(practice.length("walls.crown_height")) if crown else 0.0,
                casing,
            )
    return Trims(casing=casing)


def runs_of(room: ResolvedRoom) -> list[list[str]]:
    """Return the walls of a room, each by itself, those that one treatment joins (a bay, a corner) together."""
    joined: list[set[str]] = []
    for treatment in room.model.treatments.values():
        names = {w.name for w in wall_run(room, {room.openings[i].wall.name for i in treatment.openings})}
        touching = [group for group in joined if group & names]
        joined = [group for group in joined if not group & names] + [names.union(*touching)]
    out: list[list[str]] = []
    for wall in room.walls:
        group = next((g for g in joined if wall.name in g), {wall.name})
        names_in_order = [w.name for w in room.walls if w.name in group]
        if names_in_order not in out:
            out.append(names_in_order)
    return out
