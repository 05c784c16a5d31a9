"""Cloth for the whole job: every piece of each cloth, by hand and on bolts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.drapery.alter import altered_strips
from halfdrop.drapery.as_hung import as_hung
from halfdrop.drapery.bolts import BoltPlan, Cut, plan_bolts
from halfdrop.drapery.bolts.plan import EFFORT
from halfdrop.drapery.cloth import Cloth, cloth_of
from halfdrop.drapery.cut_length import Allowances
from halfdrop.drapery.hang import hang
from halfdrop.drapery.hung import Hung
from halfdrop.drapery.made import is_made
from halfdrop.drapery.pieces import panel_pieces, turned_pieces
from halfdrop.drapery.place import place_of
from halfdrop.drapery.repeats import hand_cuts
from halfdrop.drapery.sewn import StripsAnswer, cushion_strips, tie_strips, valance_strips
from halfdrop.drapery.shade import shade_of
from halfdrop.drapery.shades import roman_cut
from halfdrop.drapery.widths import count_widths
from halfdrop.job.model import Job
from halfdrop.job.treatments import Treatment
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.room import ResolvedRoom


@dataclass(frozen=True)
class Line:
    """What one thing takes of a cloth.

    Attributes
    ----------
    path : str
        The thing in the document.
    hand : float
        By the hand rule of the cloth's match [m].
    pieces : tuple of Cut
        Upright.
    turned : tuple of Cut
        With the cloth on its side; empty where that is not allowed.
    working : Working
        From its sizes to the hand rule.
    """

    path: str
    hand: float
    pieces: tuple[Cut, ...]
    turned: tuple[Cut, ...]
    working: Working


@dataclass(frozen=True)
class ClothTakeoff:
    """One cloth of the job.

    Attributes
    ----------
    cloth : Cloth
        Which.
    lines : tuple of Line
        What takes of it.
    hand : float
        The hand rules together, one repeat to place the motif with them, to the step of sale [m].
    plan : BoltPlan
        All pieces on bolts.
    turned : tuple of str
        Things cut with the cloth on its side.
    working : Working
        Hand rule against plan.
    """

    cloth: Cloth
    lines: tuple[Line, ...]
    hand: float
    plan: BoltPlan
    turned: tuple[str, ...]
    working: Working

    @property
    def saved(self) -> float:
        """What the plan buys less than the hand rules [m]; negative where bolts' ends cost more than sharing saves."""
        return self.hand - self.plan.paid


@dataclass
class _Count:
    cloths: dict[str, Cloth]
    practice: Practice
    lines: dict[str, list[Line]] = field(default_factory=dict)

    def add(self, cloth: Cloth, line: Line) -> None:
        self.lines.setdefault(cloth.id, []).append(line)

    def panels(self, hung: Hung, treatment: Treatment, room: str) -> None:
        cloth = self.cloths[treatment.fabric or ""]
        cuts = hand_cuts(hung.cut.length, cloth.repeat, cloth.match, hung.widths.cuts, self.practice)
        pieces = panel_pieces(hung.path, room, cloth, hung.cut.length, hung.allowed, hung.widths, hung.panels)
        working = Working(f"Cloth for {hung.path}", [*hung.sizes.steps, *cuts.working.steps])
        turned: list[Cut] = []
        if cloth.railroad and not cloth.nap and hung.cut.length <= cloth.width + 1e-9:
            turned = turned_pieces(hung.path, room, cloth, hung.flat, hung.panels, hung.cut.length)
        self.add(cloth, Line(hung.path, cuts.total, tuple(pieces), tuple(turned), working))
        if hung.lining is not None and treatment.lining is not None and treatment.lining.fabric is not None:
            lining, under = self.cloths[treatment.lining.fabric], hung.lining
            where = f"{hung.path}/lining"
            self.add(
                lining,
                Line(
                    where, under.total, _plain(where, room, under.cut, under.widths.cuts), (), under.working
                ),
            )
        if treatment.lining is not None and treatment.lining.interlining is not None:
            inner = self.cloths[treatment.lining.interlining]
            cut = hung.lengths.longest
            widths = count_widths(hung.flat, inner.width, self.practice, panels=hung.panels)
            where = f"{hung.path}/interlining"
            self.add(
                inner,
                Line(where, widths.cuts * cut, _plain(where, room, cut, widths.cuts), (), widths.working),
            )
        self.sewn(hung, treatment, room, cloth)

    def sewn(self, hung: Hung, treatment: Treatment, room: str, cloth: Cloth) -> None:
        if treatment.ties is not None:
            ties = treatment.ties
            turn = not cloth.nap and not cloth.repeat
            self.strips(cloth, f"{hung.path}/ties", room,
                        tie_strips(ties.length, ties.width, ties.count, cloth.width, self.practice, turn=turn), None)  # fmt: skip
        if treatment.valance is not None:
            valance = treatment.valance
            answer = valance_strips(hung.place.rod.length + hung.returns, valance.depth, cloth.width, self.practice,
                                    fullness=valance.fullness)  # fmt: skip
            line = float(
                self.practice.length(f"drapery.{'hem_short' if cloth.motif == 'hem' else 'heading_tape'}")
            )
            self.strips(cloth, f"{hung.path}/valance", room, answer, line, joined=True)

    def strips(
        self,
        cloth: Cloth,
        path: str,
        room: str,
        answer: StripsAnswer,
        line: float | None,
        *,
        joined: bool = False,
    ) -> None:
        """Add strips of small pieces; those with a `line` lie in phase, joined ones of half-drop cloth by turns."""
        match = cloth.match if line is not None else None
        by_hand = hand_cuts(
            answer.cut,
            cloth.repeat,
            match if joined or match is None else "straight",
            answer.strips,
            self.practice,
        )
        phase = line if cloth.repeat else None
        half = joined and cloth.match == "half-drop"
        pieces = tuple(
            Cut(f"{path}/{n}", room, answer.cut, phase, half and n % 2 == 0, answer.widths(n))
            for n in range(1, answer.strips + 1)
        )
        working = Working(answer.working.title, [*answer.working.steps, *by_hand.working.steps])
        self.add(cloth, Line(path, by_hand.total, pieces, (), working))

    def altered(self, room: ResolvedRoom, key: str) -> None:
        """Add what a workroom sews to panels that hang already, where its cloth is named."""
        altered = room.model.treatments[key].altered
        hung = as_hung(room, key, self.cloths, self.practice)
        if altered is None or altered.fabric is None or hung is None:
            return
        cloth = self.cloths[altered.fabric]
        for name, answer in altered_strips(hung, cloth, self.practice):
            line = float(self.practice.length("drapery.hem_kept_least")) if name == "widths" else None
            self.strips(cloth, f"{hung.path}/altered/{name}", room.id, answer, line, joined=name == "widths")

    def roman(self, room: ResolvedRoom, key: str, treatment: Treatment) -> None:
        """Add a flat roman shade in a cloth of the job."""
        path, cloth = f"{room.path}/treatments/{key}", self.cloths[treatment.fabric or ""]
        place = place_of(room, treatment, path, cloth.kind, self.practice)
        shade = shade_of(treatment, place.run, place.height, self.practice)
        width, length = roman_cut(shade.width, shade.length, self.practice)
        widths = count_widths(width, cloth.width, self.practice, panels=1)
        cuts = hand_cuts(length, cloth.repeat, cloth.match, widths.cuts, self.practice)
        edge = float(self.practice.length("drapery.roman_length_allowance")) / 2
        pieces = panel_pieces(path, room.id, cloth, length, Allowances(edge, edge), widths, 1)
        working = Working(
            f"Cloth for {path}", [*shade.working.steps, *widths.working.steps, *cuts.working.steps]
        )
        self.add(cloth, Line(path, cuts.total, tuple(pieces), (), working))
        if treatment.lining is not None and treatment.lining.fabric is not None:
            under = self.cloths[treatment.lining.fabric]
            across = count_widths(shade.width, under.width, self.practice, panels=1)
            say, where = Words(self.practice), f"{path}/lining"
            steps = Working(f"Cloth for {where}", list(across.working.steps))
            steps.step(
                "lining",
                "widths × cut, as the face",
                f"{across.cuts} × {say(length)}",
                say(across.cuts * length),
            )
            whole = _plain(where, room.id, length, across.cuts)
            self.add(under, Line(where, across.cuts * length, whole, (), steps))


def _plain(path: str, room: str, cut: float, count: int) -> tuple[Cut, ...]:
    return tuple(Cut(f"{path}/{n}", room, cut) for n in range(1, count + 1))


def cloth_takeoff(
    job: Job, rooms: Mapping[str, ResolvedRoom], practice: Practice, *, effort: float = EFFORT
) -> dict[str, ClothTakeoff]:
    """Return what the job takes of each of its cloths.

    Panels with a fabric, flat roman shades with a fabric, linings and interlinings whose cloth is named, ties, valances and
    cushions are counted. A roller shade is ordered made and takes no cloth of the job. What the client keeps,
    and what hangs there now, takes none.

    Parameters
    ----------
    job : Job
        The job.
    rooms : mapping of str to ResolvedRoom
        Its rooms resolved, by id.
    practice : Practice
        All `drapery.` values.
    effort : float
        Most work of the bolt plan's solver.

    Raises
    ------
    InputError
        Where a treatment cannot be worked out, or bolts do not hold its cuts.

    Source: see each calculator. Checked by: tests/drapery/test_takeoff.py.
    """
    count = _Count({i: cloth_of(i, f, practice) for i, f in job.fabrics.items()}, practice)
    for key, room in rooms.items():
        for i, treatment in room.model.treatments.items():
            if treatment.altered is not None:
                count.altered(room, i)
            if not is_made(treatment) or treatment.fabric is None or treatment.kind == "roller":
                continue
            if treatment.kind == "roman":
                count.roman(room, i, treatment)
            else:
                count.panels(hang(room, i, count.cloths, practice), treatment, key)
        for i, cushion in room.model.cushions.items():
            cloth = count.cloths[cushion.fabric]
            answer = cushion_strips(cushion.width, cushion.height, cushion.count, cloth.width, practice)
            count.strips(cloth, f"{room.path}/cushions/{i}", key, answer, answer.cut / 2)
    return {i: _cloth(count.cloths[i], tuple(lines), practice, effort) for i, lines in count.lines.items()}


def _cloth(cloth: Cloth, lines: tuple[Line, ...], practice: Practice, effort: float) -> ClothTakeoff:
    """Plan one cloth, upright and, where it saves, with some things turned; take what buys less."""
    upright = [piece for line in lines for piece in line.pieces]
    longest = max(b.length for b in cloth.bolts) - cloth.rules.place
    turned = tuple(
        line.path for line in lines
        if line.turned and sum(p.length for p in line.turned) < line.hand and max(p.length for p in line.turned) <= longest
    )  # fmt: skip
    plan: BoltPlan | None = None
    if turned:
        mixed = [p for line in lines for p in (line.turned if line.path in turned else line.pieces)]
        plan = plan_bolts(mixed, cloth.bolts, cloth.rules, practice, effort=effort)
    try:
        other = plan_bolts(upright, cloth.bolts, cloth.rules, practice, effort=effort)
    except InputError:
        if plan is None:
            raise
        other = plan
    if plan is None or other.paid < plan.paid:
        plan, turned = other, ()
    place = cloth.repeat if cloth.rules.place else 0.0
    by_hand = sum(line.hand for line in lines) + place
    step = cloth.rules.step
    hand = by_hand if not step else -(-round(by_hand * 1e6) // round(step * 1e6)) * step
    say = Words(practice)
    working = Working(f"Cloth: {cloth.name}")
    working.step("by hand", "every thing by its rule" + (", and one repeat to place the motif" if place else ""),
                 " + ".join(say(x) for x in (*(line.hand for line in lines), *([place] if place else []))), say(hand),
                 rounding="up to the step of sale")  # fmt: skip
    working.steps.extend(plan.working.steps)
    working.step("saved", "by hand − on bolts", f"{say(hand)} − {say(plan.paid)}", say(hand - plan.paid))
    return ClothTakeoff(cloth, lines, hand, plan, turned, working)
