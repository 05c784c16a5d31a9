"""What is asked of a scheme, each as terms of cost: the fit of each place, proportions, undertones, values, order, the art's own colors."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from ortools.sat.python import cp_model

from halfdrop.color.areas import ColorArea
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.from_art.place import SURFACES
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.from_art.variables import WHOLE, Variables
from halfdrop.color.harmony import harmony
from halfdrop.color.proportions import families_of
from halfdrop.color.undertones import clashes

#: What each fault of a scheme costs, against one thousandth of the room off 60 / 30 / 10 costing 1. Our choice, no source.
CLASH, ORDER, NO_VALUE, MISSING, DISCORD, ALIKE = 600, 400, 300, 150, 8, 400
#: What a step of CIEDE2000 off what is asked for costs: in itself, and for each thousandth of the room that wears it.
FIT, FIT_AREA = 4.0, 0.25
#: So much more than practice asks of a light and a dark: what wears no recorded color is seen too. Our choice.
ENOUGH = 1.25


def fit(room: Variables) -> None:
    """Each open place wears one; what is asked for costs nothing."""
    jitter = np.random.default_rng(room.seed)
    for n, _ in enumerate(room.places):
        if not room.open(n):
            continue
        room.model.add_exactly_one(room.pick[n, k] for k, _ in room.open(n))
        for k, offer in room.open(n):
            weight = FIT + FIT_AREA * room.parts[n]
            sway = 1.0 + (0.3 * jitter.random() if room.seed else 0.0)
            room.terms.append(round(weight * offer.cost * sway) * room.pick[n, k])


def proportions(room: Variables) -> None:
    """The largest family near 60, the second near 30, the rest near 10."""
    apart = float(room.practice.number("color.family_apart"))
    families = families_of([ColorArea("", lab, 1.0) for lab in room.pool.labs], apart)
    first, second, largest, next_ = [], [], [], []
    dominant = room.model.new_int_var(0, WHOLE, "dominant")
    for f, family in enumerate(families):
        chosen, stays = room.share(family.members)
        share = room.model.new_int_var(0, WHOLE, f"s{f}")
        room.model.add(share == chosen + stays)
        one, two = room.model.new_bool_var(f"d{f}"), room.model.new_bool_var(f"e{f}")
        top, under = room.model.new_int_var(0, WHOLE, f"t{f}"), room.model.new_int_var(0, WHOLE, f"v{f}")
        room.model.add(top <= share)
        room.model.add(top <= WHOLE * one)
        room.model.add(under <= share)
        room.model.add(under <= WHOLE * two)
        room.model.add(dominant >= share)
        room.model.add(one + two <= 1)
        first.append(one)
        second.append(two)
        largest.append(top)
        next_.append(under)
    room.model.add_exactly_one(first)
    room.model.add_at_most_one(second)
    room.model.add(dominant == cp_model.LinearExpr.sum(largest))
    secondary = cp_model.LinearExpr.sum(next_)
    for found, key in (
        (dominant, "dominant"),
        (secondary, "secondary"),
        (WHOLE - dominant - secondary, "accent"),
    ):
        off = room.model.new_int_var(0, WHOLE, f"off {key}")
        wanted = round(WHOLE * float(room.practice.number(f"color.{key}_share")))
        room.model.add(off >= found - wanted)
        room.model.add(off >= wanted - found)
        room.terms.append(off)


def pairs(room: Variables) -> None:
    """Undertones that clash, and pairs below the floor of harmony, cost; what stays is nobody's choice."""
    stay = {color for color, _, _ in room.pool.stays}
    clashing = {
        (c.first, c.second)
        for c in clashes([ColorArea("", lab, 1.0) for lab in room.pool.labs], room.practice)
    }
    floor = float(room.practice.number("color.harmony_floor"))
    together = harmony(room.labs[:, None, :], room.labs[None, :, :]).total
    for i in range(len(room.labs)):
        for j in range(i + 1, len(room.labs)):
            cost = CLASH * ((i, j) in clashing) + DISCORD * bool(together[i, j] < floor)
            if not cost or (i in stay and j in stay):
                continue
            both = room.model.new_bool_var(f"b{i}.{j}")
            room.model.add_bool_or([room.used[i].negated(), room.used[j].negated(), both])
            room.terms.append(cost * both)


def values(room: Variables) -> None:
    """A light and a dark, each enough to be seen."""
    enough = round(WHOLE * ENOUGH * float(room.practice.number("color.value_share")))
    for name, of in (
        ("light", room.labs[:, 0] >= float(room.practice.number("color.light_from"))),
        ("dark", room.labs[:, 0] <= float(room.practice.number("color.dark_to"))),
    ):
        chosen, stays = room.share(np.flatnonzero(of).tolist())
        missing = room.model.new_bool_var(f"no {name}")
        room.model.add(chosen + stays + WHOLE * missing >= enough)
        room.terms.append(NO_VALUE * missing)


def order(room: Variables) -> None:
    """The floor darker than the walls, the walls darker than the ceiling."""
    step = round(10 * float(room.practice.number("color.order_step")))
    levels = {role: room.lightness(role) for role in ("floor", "walls", "ceiling")}
    for below, above in (("floor", "walls"), ("walls", "ceiling")):
        low, high = levels[below], levels[above]
        if low is None or high is None:
            continue
        wrong = room.model.new_bool_var(f"{below} over {above}")
        room.model.add(high - low + 2 * WHOLE * wrong >= step)
        room.terms.append(ORDER * wrong)


def belongs(room: Variables, art: Sequence[ArtColor]) -> None:
    """Each color of the art is in the room too, besides on works; the more of the picture it has, the more it is missed."""
    apart = float(room.practice.number("color.family_apart"))
    works = {place.key for place in room.places if place.role == "art"}
    hung = [color for color, _, key in room.pool.stays if key in works]
    for n, color in enumerate(art):
        near = np.setdiff1d(np.flatnonzero(delta_e(np.array(color.lab), room.labs) < apart), hung).tolist()
        missing = room.model.new_bool_var(f"m{n}")
        room.model.add_bool_or([missing, *(room.used[c] for c in near)])
        room.terms.append(round(MISSING * min(1.0, 0.3 + 2.0 * color.share)) * missing)


def differ(room: Variables, earlier: Mapping[str, tuple[float, float, float]]) -> None:
    """Make it differ from an earlier scheme in another family: on enough of what is open, and of the things among it; on
    walls where it can."""
    apart = float(room.practice.number("color.family_apart"))
    share = float(room.practice.number("color.scheme_apart"))
    open_parts, others = {True: 0, False: 0}, {True: [], False: []}  # type: ignore[var-annotated]
    for n, place in enumerate(room.places):
        if place.key not in earlier or not room.open(n):
            continue
        surface = place.role in SURFACES
        open_parts[surface] += room.parts[n]
        for k, offer in room.open(n):
            lab = room.labs[room.pool.rows[offer.swatch]]
            far = float(delta_e(np.array(earlier[place.key]), lab)) >= apart
            if far:
                others[surface].append(room.parts[n] * room.pick[n, k])
            elif place.role == "walls":
                room.terms.append(ALIKE * room.pick[n, k])
    things = int(open_parts[False] * share)
    room.model.add(cp_model.LinearExpr.sum(others[False]) >= things)
    whole = int(sum(open_parts.values()) * share)
    room.model.add(cp_model.LinearExpr.sum(others[True] + others[False]) >= whole)
