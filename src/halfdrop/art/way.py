"""How a frame hangs by what is known of its back: the wire, its hangers, the hooks; and what it weighs."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.art.hook_count import hooks_wanted, spacing_wanted
from halfdrop.art.mass import MassAnswer, built_up, framed_all_in
from halfdrop.art.rings import two_rings
from halfdrop.art.wire import Hang
from halfdrop.art.wire_one_hook import one_hook
from halfdrop.art.wire_taut import taut_wire
from halfdrop.art.wire_two_hooks import two_hooks
from halfdrop.art.work import Work
from halfdrop.base.formats import format_mass
from halfdrop.base.working import Working
from halfdrop.job.art import Art
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

#: What the hooks go into, by the room's `wall_build`: between studs a fixing holds in the board alone.
WALLS = {"stud": "plasterboard", "masonry": "brick", "unknown": "plasterboard"}


@dataclass(frozen=True)
class Back:
    """What is on the back of a frame [m].

    Attributes
    ----------
    drop : float or None
        Top of the frame to the wire, pulled up taut, or to where a sawtooth or ring bears.
    down, hangers, wire : float or None
        Hangers below the top; between them; wire from one to the other.
    rings : bool
        Two rings without a wire.
    hooks, spacing : int or None, float or None
        One or two; how far apart. By width and mass where not given.
    """

    drop: float | None = None
    down: float | None = None
    hangers: float | None = None
    wire: float | None = None
    rings: bool = False
    hooks: int | None = None
    spacing: float | None = None


def back_of(work: Art) -> Back:
    """Return what the document says of a work's back."""
    hangs = work.hangs
    if hangs is None:
        return Back()
    hooks = 1 if hangs.from_ == "sawtooth" and hangs.hooks is None else hangs.hooks
    return Back(
        _length(hangs.drop),
        _length(hangs.down),
        _length(hangs.apart),
        _length(hangs.wire),
        hangs.from_ == "rings",
        hooks,
        _length(hangs.spacing),
    )


def _length(value: float | None) -> float | None:
    return None if value is None else float(value)


def way_of(work: Work, back: Back, mass: float, practice: Practice) -> Hang | None:
    """Return how a frame hangs, by what is known of its back; None where too little is.

    Parameters
    ----------
    work : Work
        The frame.
    back : Back
        What was taped; a taut drop suffices, else hangers with their wire, or rings.
    mass : float
        Of the work [kg].
    practice : Practice
        `art.two_hooks_width`, `art.two_hooks_mass`, `art.hook_spacing`.

    Raises
    ------
    InputError
        For a back that cannot hang so.

    Source: statics. Checked by: tests/art/test_way.py.
    """
    count = back.hooks or (2 if back.spacing else hooks_wanted(work.width, mass, practice))
    spacing = back.spacing or spacing_wanted(work.width, practice)
    if back.rings and back.down is not None and back.hangers is not None:
        return two_rings(work.width, work.height, back.down, back.hangers, practice)
    if back.wire is not None and back.down is not None and back.hangers is not None:
        if count == 1:
            return one_hook(work.height, back.down, back.hangers, back.wire, practice)
        return two_hooks(work.height, back.down, back.hangers, back.wire, spacing, practice)
    if back.drop is not None and not back.rings:
        return taut_wire(work.width, work.height, back.drop, practice, spacing=spacing if count == 2 else 0.0)
    return None


def mass_of(work: Art, practice: Practice) -> MassAnswer:
    """Return what a work weighs: as written, else from its parts where they are known, else by its size, the most of practice.

    Parameters
    ----------
    work : Art
        The document's.
    practice : Practice
        Densities, thicknesses, `art.framed_low` and `_high`.

    Source: as `built_up` and `framed_all_in`. Checked by: tests/art/test_way.py.
    """
    width, height = float(work.width), float(work.height)
    if work.mass is not None:
        say, mass = Words(practice), float(work.mass)
        working = Working("Mass as given")
        working.step("mass", "as weighed", work.mass.text, format_mass(mass, say.units))
        return MassAnswer(mass, mass, working)
    glazing = "mirror" if work.kind == "mirror" else work.glazing
    if glazing is None:
        return framed_all_in(width, height, practice)
    face = min(float(work.frame) if work.frame is not None else 0.03, min(width, height) / 4)
    deep = float(work.depth) if work.depth is not None else 0.02
    return built_up(width, height, practice, glazing=glazing, moulding=(face, deep))
