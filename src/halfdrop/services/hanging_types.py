"""What is asked of a hanging and what is answered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from halfdrop.art import Fixing, Group, Hang, HangHeight, MassAnswer, Rect, TwoNumbers, Work
from halfdrop.art.fixings import Rating
from halfdrop.art.setting_out import Edge
from halfdrop.art.way import Back
from halfdrop.base.formats import format_mass
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

Layout = Literal["row", "grid", "stack", "cluster"]


@dataclass(frozen=True)
class Own:
    """What is known of one work: its back, and what it weighs."""

    back: Back
    mass: MassAnswer


@dataclass(frozen=True)
class Ask:
    """What is asked for; lengths [m], masses [kg].

    Attributes
    ----------
    works : tuple of Work
        One or more.
    layout : str
        How more than one hang.
    below, top, piece_width : str or None, float or None, float or None
        What stands below, the height of its top, its width.
    center, gap_over, seated : float or None, float or None, bool
        The middle's height or the gap the house wants; whether people mostly sit.
    wall_width, ceiling, at : float or None
        Of the wall; where on it the middle is wanted, from its left end. Without either, numbers run from the end of the piece.
    edge : {"left", "right"}
        The end that is taped from.
    obstacles : tuple of (str, Rect)
        What is on the wall, each with its name.
    gap : float or None
        Between frames.
    columns, seed, candidates : int or None, int, int
        Of a grid; of a cluster.
    drop : float or None
        Top of the frame to the wire, pulled up taut.
    down, hangers, wire : float or None
        Hangers below the top; between them; wire from one to the other.
    rings : bool
        Whether it hangs by two rings without a wire.
    hooks, hook_spacing : int or None, float or None
        One or two; how far apart.
    mass, glazing : float or None, str or None
        What each work weighs; else from its glazing, else from its size.
    wall : str
        What the hooks go into.
    rated : (float, str) or None
        The load of the fixing at hand and what that figure is.
    own : mapping of str to Own
        What is known of a work by itself, by its name; goes before what is said of all.
    wired : tuple of (str, Rect) or None
        The obstacles with cables to them; all of them where not said.
    """

    works: tuple[Work, ...]
    layout: Layout = "row"
    below: str | None = None
    top: float | None = None
    piece_width: float | None = None
    center: float | None = None
    gap_over: float | None = None
    seated: bool = False
    wall_width: float | None = None
    ceiling: float | None = None
    at: float | None = None
    edge: Edge = "left"
    obstacles: tuple[tuple[str, Rect], ...] = ()
    gap: float | None = None
    columns: int | None = None
    seed: int = 0
    candidates: int = 3
    drop: float | None = None
    down: float | None = None
    hangers: float | None = None
    wire: float | None = None
    rings: bool = False
    hooks: int | None = None
    hook_spacing: float | None = None
    mass: float | None = None
    glazing: str | None = None
    wall: str = "plasterboard"
    rated: tuple[float, Rating] | None = None
    own: Mapping[str, Own] = field(default_factory=dict)
    wired: tuple[tuple[str, Rect], ...] | None = None

    @property
    def back(self) -> Back:
        """What is on the back of each work."""
        return Back(self.drop, self.down, self.hangers, self.wire, self.rings, self.hooks, self.hook_spacing)


@dataclass(frozen=True)
class HungWork:
    """One work of an answer: its frame on the wall, its hooks, its mass, its fixing.

    Attributes
    ----------
    work, frame : Work, Rect
        The work and its place on the wall [m].
    hooks : tuple of TwoNumbers
        Empty where nothing is known of its wire.
    hang : Hang or None
        How it hangs on them.
    mass, load : float
        What it weighs and what one hook pulls [kg].
    fixing : Fixing or None
        The lightest that holds; None where none does.
    """

    work: Work
    frame: Rect
    hooks: tuple[TwoNumbers, ...]
    hang: Hang | None
    mass: float
    load: float
    fixing: Fixing | None


@dataclass(frozen=True)
class Hanging:
    """One answer: each work with its numbers, what is to know, the workings.

    Attributes
    ----------
    works : tuple of HungWork
        In the order given.
    height : HangHeight
        Of the work, or of the whole group.
    group : Group or None
        Where more than one hang.
    notes : tuple of str
        What quarrels or is missing.
    workings : tuple of Working
        The steps.
    """

    works: tuple[HungWork, ...]
    height: HangHeight
    group: Group | None
    notes: tuple[str, ...]
    workings: tuple[Working, ...]

    @property
    def box(self) -> Rect:
        """The least rectangle round all frames [m]."""
        return Rect.round_all(w.frame for w in self.works)


@dataclass(frozen=True)
class HangReport:
    """Every answer (several only of a cluster), and the cautions.

    Attributes
    ----------
    answers : tuple of Hanging
        The best first.
    cautions : tuple of str
        For the person with the drill.
    edge : str
        What the numbers are taped from: "left end of the wall".
    practice : Practice
        What it was worked to.
    """

    answers: tuple[Hanging, ...]
    cautions: tuple[str, ...]
    edge: str
    practice: Practice = field(repr=False)

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object, lengths in metres, masses in kilograms."""
        return {
            "edge": self.edge,
            "answers": [_answer_json(a) for a in self.answers],
            "cautions": list(self.cautions),
        }


def _answer_json(answer: Hanging) -> dict[str, Any]:
    return {
        "height": {
            "method": answer.height.method,
            "center": answer.box.center[1],
            "gap_over_piece": answer.height.gap,
            "heights_that_meet": answer.height.heights_that_meet,
        },
        "group": None
        if answer.group is None
        else {
            "layout": answer.group.layout,
            "box": _rect_json(answer.group.box),
            "gap": answer.group.gap,
            "gaps": list(answer.group.gaps),
            "imbalance": answer.group.imbalance,
        },
        "works": [
            work_json(w)
            for w in answer.works
        ],
        "notes": list(answer.notes),
        "workings": [w.to_json() for w in answer.workings],
    }  # fmt: skip


def work_json(work: HungWork) -> dict[str, Any]:
    """Return a hung work as a JSON-compatible object."""
    return {
        "name": work.work.name,
        "frame": _rect_json(work.frame),
        "mass": work.mass,
        "load_per_hook": work.load,
        "fixing": None if work.fixing is None else {"name": work.fixing.name, "factor": work.fixing.factor},
        "wire_angle": work.hang.angle if work.hang else None,
        "tension": work.hang.tension if work.hang else None,
        "hooks": [
            {
                "name": h.name,
                "from_edge": h.from_edge,
                "from_floor": h.from_floor,
                "said": [h.said_edge, h.said_floor],
            }
            for h in work.hooks
        ],
    }


def _rect_json(rect: Rect) -> dict[str, float]:
    return {"left": rect.x0, "bottom": rect.y0, "right": rect.x1, "top": rect.y1}


def hung_said(work: HungWork, practice: Practice) -> list[str]:
    """Return one work as a row of a table: name, frame, left, bottom, mass, fixing."""
    say = Words(practice)
    factor = f", {work.fixing.said} × what is needed" if work.fixing else ""
    return [
        work.work.name,
        say.pair(work.work.width, work.work.height),
        say(work.frame.x0),
        say(work.frame.y0),
        format_mass(work.mass, say.units, round_to="up"),
        (work.fixing.name if work.fixing else "none holds") + factor,
    ]
