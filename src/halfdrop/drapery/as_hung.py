"""What is seen at a window: rod, panels shut and drawn, hems, folds, in the coordinates of the wall.

What the document gives is as found, or as decided; what it leaves out is as practice would make it. `given` tells them apart.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from halfdrop.base.errors import InputError
from halfdrop.drapery.cloth import Cloth
from halfdrop.drapery.fullness import fullness_for
from halfdrop.drapery.hang import covered_by, edges_of, ends_of, lengths_of
from halfdrop.drapery.hung import Place
from halfdrop.drapery.lengths import drop_at
from halfdrop.drapery.place import place_of
from halfdrop.drapery.pleats import PLEATED
from halfdrop.drapery.run import Run
from halfdrop.drapery.shade import shade_of
from halfdrop.geometry.plane import Array
from halfdrop.job.treatments import FabricKind, Treatment
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom

#: A pair of numbers: left and right along the run, or at the left and at the right edge [m].
Ends = tuple[float, float]


@dataclass(frozen=True)
class HungPanel:
    """One panel, or one shade.

    Attributes
    ----------
    shut, drawn : (float, float)
        Left and right edge from the run's beginning, drawn shut and drawn back [m]; alike for what stays, and for a shade.
    hem : (float, float)
        Height of the hem above the floor's datum at its left and right edge, shut or lowered [m]; below 0 it lies on the floor.
    raised : float or None
        A shade's hem when it is raised [m].
    flat : float or None
        Flat width of its cloth [m], where fullness or widths are known.
    folds : int
        Pleats, waves or folds that are seen.
    """

    shut: Ends
    drawn: Ends
    hem: Ends
    raised: float | None
    flat: float | None
    folds: int


@dataclass(frozen=True)
class AsHung:
    """What hangs at a window.

    Along the run `x` goes to the right hand of one who faces the wall, from the first opening's left edge; heights are above the
    finished floor at that edge [m].

    Attributes
    ----------
    id, path : str
        The treatment's, `rooms/<id>/treatments/<id>`.
    treatment : Treatment
        The document's.
    place : Place
        Run, rod and where the rod may be.
    left, right : float
        The rod's ends along the run, without finials [m]; `left` is below 0 where it passes the opening.
    height, top : float
        Top of the rod; top of the cloth [m].
    finial, diameter, projection : float
        Of the hardware [m].
    panels : tuple of HungPanel
        From left to right.
    fullness : float or None
        Flat over finished width as it hangs; None where the document does not say.
    floors : tuple of (float, float)
        Where along the run the floor was taped, and its height there [m]; one level point where it was not.
    given : frozenset of str
        Which of `height`, `left`, `right`, `drop`, `fullness`, `projection` the document gives; the rest is designed.
    """

    id: str
    path: str
    treatment: Treatment
    place: Place
    left: float
    right: float
    height: float
    top: float
    finial: float
    diameter: float
    projection: float
    panels: tuple[HungPanel, ...]
    fullness: float | None
    floors: tuple[Ends, ...]
    given: frozenset[str]

    @property
    def kind(self) -> str:
        """Panels, roman or roller."""
        return self.treatment.kind

    @property
    def run(self) -> Run:
        """Its openings as one."""
        return self.place.run

    @property
    def name(self) -> str:
        """What to call it on a sheet."""
        return self.treatment.name or self.id.replace("-", " ")

    @cached_property
    def center(self) -> Array:
        """Middle of its openings on the plan [m], on the walls' face."""
        return self.run.at(self.run.width / 2)

    def at(self, x: float) -> Array:
        """Return the plan point on the walls' face that lies `x` from the run's beginning [m]."""
        return self.run.at(x)

    def floor(self, x: float) -> float:
        """Return the floor's height at `x` [m]: below 0 where it falls off."""
        return drop_at(x, self.floors)

    def gap(self, panel: HungPanel) -> tuple[float, float]:
        """Return how far a panel's hem hangs off the floor where that is most, and where along the run [m]; below 0 on the floor."""
        a, b = panel.shut
        spots = [a, b, *(x for x, _ in self.floors if a < x < b)]
        return max((drop_at(x, ((a, panel.hem[0]), (b, panel.hem[1]))) - self.floor(x), x) for x in spots)


def as_hung(room: ResolvedRoom, key: str, cloths: Mapping[str, Cloth], practice: Practice) -> AsHung | None:
    """Return what is seen at a window, whether its cloth is named or not; None where nothing can be said.

    Nothing can be said where neither a height nor a ceiling is known, its openings overlap, or no length is left.

    Parameters
    ----------
    room : ResolvedRoom
        With its outline adjusted.
    key : str
        The treatment's id.
    cloths : mapping of str to Cloth
        The job's, by id.
    practice : Practice
        All `drapery.` values.

    Source: our own composition of the calculators. Checked by: tests/drapery/test_as_hung.py.
    """
    path = f"{room.path}/treatments/{key}"
    treatment = room.model.treatments[key]
    cloth = cloths.get(treatment.fabric or "")
    kind: FabricKind = cloth.kind if cloth else "medium"
    try:
        place = place_of(room, treatment, path, kind, practice)
        if treatment.kind != "panels":
            return _shade(path, key, treatment, place, practice)
        return _panels(room, path, key, treatment, place, cloth, practice)
    except InputError:
        return None


def _given(treatment: Treatment) -> frozenset[str]:
    hardware = treatment.hardware
    found = {k for k in ("height", "left", "right", "projection") if getattr(hardware, k) is not None}
    if treatment.drop is not None:
        found.add("drop")
    if treatment.fullness is not None or (treatment.widths is not None and treatment.fabric is not None):
        found.add("fullness")
    return frozenset(found)


def floors_of(treatment: Treatment, width: float) -> tuple[Ends, ...]:
    """Return where the floor was taped along a run of that width, and its height against the left point [m]."""
    floor = treatment.measured.floor
    if floor is None:
        return ((0.0, 0.0),)
    falls = ((0.0, floor.left), (width / 2, floor.center), (width, floor.right))
    return tuple((x, float(floor.left) - float(fall)) for x, fall in falls)


def _hung(path: str, key: str, treatment: Treatment, place: Place, practice: Practice) -> AsHung:
    """Return the hardware, nothing on it yet."""
    hardware = treatment.hardware
    projection = (
        hardware.projection if hardware.projection is not None else practice.length("drapery.projection")
    )
    return AsHung(
        id=key, path=path, treatment=treatment, place=place, left=-place.rod.left, right=place.run.width + place.rod.right,
        height=place.height, top=place.height - float(hardware.drop or 0.0), finial=float(hardware.finial or 0.0),
        diameter=float(hardware.diameter if hardware.diameter is not None else practice.length("drapery.rod_diameter")),
        projection=float(projection), panels=(), fullness=None, floors=floors_of(treatment, place.run.width),
        given=_given(treatment),
    )  # fmt: skip


def _panels(room: ResolvedRoom, path: str, key: str, treatment: Treatment, place: Place, cloth: Cloth | None,
            practice: Practice) -> AsHung:  # fmt: skip
    hung = _hung(path, key, treatment, place, practice)
    width = cloth.width if cloth else float(practice.length("drapery.cloth_width"))
    wanted = fullness_for(treatment.heading or "pencil", practice, cloth.kind if cloth else "medium")
    overlap, returns = ends_of(treatment, practice)
    covered = place.rod.length
    if treatment.draw == "fixed":
        covered = covered_by(treatment, width, treatment.fullness or wanted, returns)
    full: float | None = treatment.fullness
    if full is None and treatment.widths is not None and cloth is not None:
        full = treatment.widths * width / (covered + overlap + returns)
    count = treatment.count
    flat = (full or wanted) * (covered + overlap + returns) / count
    if treatment.drop is not None:
        hems: list[Ends] = [(hung.top - float(treatment.drop),) * 2] * count
    else:
        lengths = lengths_of(room, treatment, place, covered, practice)
        hems = [(hung.top - p.left, hung.top - p.right) for p in lengths.panels]
    folds = _folds(treatment, (covered + overlap) / count, flat, practice)
    shut = edges_of(treatment, hung.left, hung.right, covered)
    drawn = _drawn(treatment, hung, covered, min(1.0, (full or wanted) / wanted))
    known = flat if full is not None else None
    panels = [HungPanel(a, b, hem, None, known, folds) for a, b, hem in zip(shut, drawn, hems, strict=True)]
    return replace(hung, panels=tuple(panels), fullness=full)


def _drawn(treatment: Treatment, hung: AsHung, covered: float, share: float) -> list[Ends]:
    """Return the panels drawn back; with less cloth than the heading wants they stack narrower in proportion."""
    a, b = hung.left, hung.right
    stack = hung.place.stack
    if stack is None:
        return edges_of(treatment, a, b, covered)
    total = min(stack.total * share, b - a)
    if treatment.draw == "left":
        return [(a, a + total)]
    if treatment.draw == "right":
        return [(b - total, b)]
    return [(a, a + total / 2), (b - total / 2, b)]


def _folds(treatment: Treatment, covered: float, flat: float, practice: Practice) -> int:
    """Return how many pleats or waves of one panel are seen."""
    if treatment.heading in PLEATED:
        return max(2, round(covered / practice.length("drapery.pleat_space_target")) + 1)
    if treatment.heading == "eyelet":
        return max(1, round(flat / practice.length("drapery.eyelet_space_target") / 2))
    return max(1, round(flat / practice.length("drapery.fold_seen")))


def _shade(path: str, key: str, treatment: Treatment, place: Place, practice: Practice) -> AsHung:
    hung = _hung(path, key, treatment, place, practice)
    shade = shade_of(treatment, place.run, place.height, practice)
    middle = place.run.width / 2
    ends = (middle - shade.width / 2, middle + shade.width / 2)
    length = float(treatment.drop) if treatment.drop is not None else shade.length
    panel = HungPanel(
        ends, ends, (shade.top - length,) * 2, shade.top - shade.stack, shade.width, shade.folds
    )
    return replace(hung, left=ends[0], right=ends[1], height=shade.top, top=shade.top, panels=(panel,))
