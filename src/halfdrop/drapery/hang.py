"""Work out one treatment of panels in its room: every calculator in its order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from halfdrop.base.errors import At, InputError
from halfdrop.base.working import Working
from halfdrop.drapery.answer import LengthAnswer
from halfdrop.drapery.brackets import brackets_for
from halfdrop.drapery.cloth import Cloth
from halfdrop.drapery.cut_length import allowances, cut_length
from halfdrop.drapery.fullness import fullness_for, fullness_key
from halfdrop.drapery.hung import Hung, Place
from halfdrop.drapery.lengths import LengthsAnswer, finished_lengths
from halfdrop.drapery.lining import LiningAnswer, lining_for
from halfdrop.drapery.place import place_of
from halfdrop.drapery.pleats import PLEATED, EyeletsAnswer, PleatsAnswer, eyelets, pleats_spaced
from halfdrop.drapery.weight import Layer, WeightAnswer, cloth_weight, weigh
from halfdrop.drapery.widths import WidthsAnswer, count_widths, flat_after, flat_as_built, flat_lump, flat_uk
from halfdrop.job.treatments import Treatment
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.room import ResolvedRoom

#: Headings that hide their ends in no return and no overlap: they ride on the rod itself.
_ON_THE_ROD = ("rod pocket", "eyelet", "tab")


def hang(room: ResolvedRoom, key: str, cloths: Mapping[str, Cloth], practice: Practice) -> Hung:
    """Return a treatment of panels worked out: as given where the document says, as practice wants where it does not.

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

    Raises
    ------
    InputError
        Where it names no cloth, is no panels, or what is measured leaves no length or nothing to pleat.

    Source: our own composition; each step has its own. Checked by: tests/drapery/test_takeoff.py.
    """
    path = f"{room.path}/treatments/{key}"
    treatment = room.model.treatments[key]
    if treatment.kind != "panels" or treatment.heading is None:
        raise InputError(f"treatment `{key}` is a {treatment.kind} shade, not panels", at=At(path=path))
    if treatment.fabric is None:
        raise InputError(
            f"treatment `{key}` names no fabric, so its cloth cannot be counted",
            at=At(path=path),
            hint="give its `fabric`",
        )
    cloth = cloths[treatment.fabric]
    try:
        return _hang(room, treatment, path, cloth, cloths, practice)
    except InputError as error:
        raise error.placed(At(path=path)) from None


def _hang(
    room: ResolvedRoom,
    treatment: Treatment,
    path: str,
    cloth: Cloth,
    cloths: Mapping[str, Cloth],
    practice: Practice,
) -> Hung:
    heading = treatment.heading
    assert heading is not None
    place = place_of(room, treatment, path, cloth.kind, practice)
    panels = treatment.count
    fullness = treatment.fullness or fullness_for(heading, practice, cloth.kind)
    overlap, returns = ends_of(treatment, practice)
    covered = place.rod.length
    if treatment.draw == "fixed":
        covered = covered_by(treatment, cloth.width, fullness, returns)
    flat = _flat(covered, overlap, returns, fullness, panels, treatment, practice)
    wanted = treatment.widths * cloth.width if treatment.widths is not None else flat.length
    widths, width = _widths(treatment, cloth, wanted, panels, practice)
    lengths = lengths_of(room, treatment, place, covered, practice)
    allowed = allowances(heading, treatment.length, practice, kind=cloth.kind,
                         diameter=float(treatment.hardware.diameter or 0.0), hem=_given(treatment.hems.bottom),
                         head=_given(treatment.hems.heading), trim=practice.text("drapery.allow_method") == "uk")  # fmt: skip
    cut = cut_length(lengths.longest, allowed, practice)
    lining = _lining(treatment, cloths, lengths, wanted, panels, practice)
    weight = _weight(treatment, cloth, cloths, widths, cut.length, lining, practice)
    end = treatment.side or treatment.draw
    stacks = (
        0.0 if end == "right" else place.rod.left,
        0.0 if end == "left" else place.rod.right,
    )
    brackets = brackets_for(place.rod.length, weight.mass, weight.per_area, practice, stacks=(max(0.0, stacks[0]), max(0.0, stacks[1])),
                            capacity=_given(treatment.hardware.capacity),
                            bends=[place.rod.left + x for x in place.run.bends])  # fmt: skip
    head = _heading(treatment, width, widths, covered, overlap, returns, panels, practice)
    sizes = Working("Sizes")
    given = treatment.fullness is not None
    cited = "as given" if given else Words(practice).cited(fullness_key(heading, cloth.kind))
    sizes.step("fullness", "by heading and cloth", f"{heading}, {cloth.kind}", f"{fullness:g}", source=cited)
    for part in (flat.working, widths.working, lengths.working, cut.working):
        sizes.steps.extend(part.steps)
    return Hung(path, place, panels, covered, fullness, overlap, returns, flat.length, widths, lengths, allowed, cut, lining, weight,
                brackets, sizes, head)  # fmt: skip


def _widths(
    treatment: Treatment, cloth: Cloth, wanted: float, panels: int, practice: Practice
) -> tuple[WidthsAnswer, float]:
    """Return the widths of the face cloth, and what each gives [m]: less where a pattern's seams have to match across."""
    widths = count_widths(wanted, cloth.width, practice, panels=panels)
    if widths.per_panel <= 1 or cloth.joined >= cloth.width - 1e-6:
        return widths, cloth.width
    if treatment.widths is not None:
        return widths, cloth.joined
    say, joined = Words(practice), count_widths(wanted, cloth.joined, practice, panels=panels)
    working = Working("Widths")
    working.step("a width, joined", "whole repeats across, so that its seams match",
                 f"{say(cloth.width)} holds {cloth.joined / cloth.across:.0f} × {say(cloth.across)}", say(cloth.joined),
                 rounding="down to whole repeats", source="common practice, no source")  # fmt: skip
    working.steps.extend(joined.working.steps)
    return replace(joined, working=working), cloth.joined


def covered_by(treatment: Treatment, width: float, fullness: float, returns: float) -> float:
    """Return what fixed panels, two or one at a side, cover [m]: as given, or what their widths come to, one each by default.

    Parameters
    ----------
    treatment : Treatment
        Of fixed panels.
    width, fullness, returns : float
        Usable width of the cloth [m], its fullness, all returns together [m].

    Raises
    ------
    InputError
        Where the returns take all of it.

    Source: our own. Checked by: tests/drapery/test_takeoff.py.
    """
    if treatment.panel is not None:
        return treatment.count * float(treatment.panel)
    covered = (treatment.widths or float(treatment.count)) * width / fullness - returns
    if covered <= 0:
        raise InputError(
            "fixed panels would be all return; nothing is left to cover", hint="give their `panel` width"
        )
    return covered


def _given(value: float | None) -> float | None:
    return None if value is None else float(value)


def ends_of(treatment: Treatment, practice: Practice) -> tuple[float, float]:
    """Return overlap and returns in all [m], as built or as practice has them; one panel at a side returns at its own end only.

    Source: common practice. Checked by: tests/drapery/test_takeoff.py.
    """
    hardware = treatment.hardware
    drawn = treatment.draw == "pair"
    if treatment.heading in _ON_THE_ROD or treatment.mount == "inside":
        each, back = 0.0, 0.0
    else:
        each = float(practice.length("drapery.overlap"))
        projection = (
            float(hardware.projection)
            if hardware.projection is not None
            else float(practice.length("drapery.projection"))
        )
        back = projection + float(practice.length("drapery.return_ease"))
    if hardware.overlap is not None:
        each = float(hardware.overlap)
    if hardware.returns is not None:
        back = float(hardware.returns)
    return (2 * each if drawn else 0.0), (back if treatment.side is not None else 2 * back)


def _flat(
    covered: float,
    overlap: float,
    returns: float,
    fullness: float,
    panels: int,
    treatment: Treatment,
    practice: Practice,
) -> LengthAnswer:
    """Return the flat width by practice's method; lump and uk are for a pair that draws."""
    method = practice.text("drapery.allow_method")
    if method == "after":
        side = _given(treatment.hems.side)
        hems = 2 * panels * (float(practice.length("drapery.side_hem")) if side is None else side)
        return flat_after(covered, overlap + returns + hems, fullness, practice)
    if method == "lump" and treatment.draw == "pair":
        return flat_lump(covered, fullness, practice)
    if method == "uk" and treatment.draw == "pair":
        return flat_uk(covered, fullness, practice)
    return flat_as_built(covered, overlap, returns, fullness, practice)


def lengths_of(
    room: ResolvedRoom, treatment: Treatment, place: Place, covered: float, practice: Practice
) -> LengthsAnswer:
    """Return the panels' finished lengths from the top of the cloth to the floor under each of their edges, or to the sill.

    Raises
    ------
    InputError
        Where no length is left.

    Source: our own composition. Checked by: tests/drapery/test_takeoff.py.
    """
    top = place.height - float(treatment.hardware.drop or 0.0)
    width, rod = place.run.width, place.rod
    if treatment.length in ("sill", "apron"):
        drops = [(0.0, top - place.run.sill)]
    elif treatment.measured.floor is not None:
        floor = treatment.measured.floor
        falls = ((0.0, floor.left), (width / 2, floor.center), (width, floor.right))
        drops = [(x, top + float(fall) - float(floor.left)) for x, fall in falls]
    else:
        drops = [(0.0, top)]
    a, b = -rod.left, width + rod.right
    edges = edges_of(treatment, a, b, covered)
    shorter = 0.0
    if treatment.behind is not None:
        before = room.model.treatments[treatment.behind]
        if before.kind == "panels" and treatment.length in ("clear", "kiss"):
            shorter = float(practice.length("drapery.sheer_shorter_bottom"))
    return finished_lengths(drops, edges, treatment.length, practice, shorter=shorter)


def edges_of(treatment: Treatment, a: float, b: float, covered: float) -> list[tuple[float, float]]:
    """Return left and right edge of each panel, shut, on a rod from `a` to `b` [m]; fixed ones cover `covered` in all [m].

    Source: our own. Checked by: tests/drapery/test_as_hung.py.
    """
    if treatment.draw in ("left", "right"):
        return [(a, b)]
    each = covered / treatment.count if treatment.draw == "fixed" else (b - a) / 2
    left, right = (a, min(a + each, b)), (max(b - each, a), b)
    return {"left": [left], "right": [right]}.get(treatment.side or "", [left, right])


def _lining(
    treatment: Treatment,
    cloths: Mapping[str, Cloth],
    lengths: LengthsAnswer,
    flat: float,
    panels: int,
    practice: Practice,
) -> LiningAnswer | None:
    if treatment.lining is None or treatment.lining.fabric is None:
        return None
    finished = lengths.longest - float(practice.length("drapery.lining_shorter"))
    return lining_for(finished, flat, cloths[treatment.lining.fabric].width, practice, panels=panels)


def _weight(treatment: Treatment, cloth: Cloth, cloths: Mapping[str, Cloth], widths: WidthsAnswer, cut: float,
            lining: LiningAnswer | None, practice: Practice) -> WeightAnswer:  # fmt: skip
    """Weigh face, lining and interlining; where a lining's cloth is not named, it weighs what its kind does."""
    area = widths.widths * cloth.width * cut
    layers = [Layer(cloth.name, area, cloth.weight)]
    if treatment.lining is not None:
        named = cloths.get(treatment.lining.fabric or "")
        kind = "blackout" if treatment.lining.kind == "blackout" else "lining"
        layers.append(Layer("lining", area, named.weight if named else cloth_weight(kind, practice)))  # type: ignore[arg-type]
        if treatment.lining.kind == "interlined":
            inner = cloths.get(treatment.lining.interlining or "")
            layers.append(
                Layer("interlining", area, inner.weight if inner else cloth_weight("interlining", practice))
            )
    return weigh(layers, practice)


def _heading(treatment: Treatment, width: float, widths: WidthsAnswer, covered: float, overlap: float, returns: float, panels: int,
             practice: Practice) -> PleatsAnswer | EyeletsAnswer | None:  # fmt: skip
    """Return one panel's heading: the cloth its widths give, seamed and hemmed, over what it covers; None where none is left."""
    joins = max(0.0, -(-widths.per_panel // 1) - 1)
    side = _given(treatment.hems.side)
    hem = float(practice.length("drapery.side_hem")) if side is None else side
    flat = widths.per_panel * width - 2 * hem - 2 * joins * float(practice.length("drapery.seam"))
    if treatment.heading == "eyelet":
        return eyelets(flat, practice)
    if treatment.heading in PLEATED:
        o, r = overlap / panels, returns / panels
        finished = covered / panels + o + r
        return (
            pleats_spaced(flat, finished, practice, overlap=o, returns=r) if flat > finished + 1e-3 else None
        )
    return None
