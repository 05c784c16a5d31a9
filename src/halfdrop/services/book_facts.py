"""The facts of a job and of its rooms, as a book lists them."""

from __future__ import annotations

import datetime

from halfdrop.base.formats import Units, format_area, format_length, format_money
from halfdrop.book.content import Fact
from halfdrop.buying.words import counted, thing_name
from halfdrop.job.model import Room
from halfdrop.services.jobs import OpenJob

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def date_text(date: str | None, units: Units) -> str:
    """Print an ISO date in words: `November 20, 2026`, or `20 November 2026` in a metric job.

    What is no day of the calendar is printed as typed.
    """
    if not date:
        return ""
    try:
        day = datetime.date.fromisoformat(date)
    except ValueError:
        return date
    month = MONTHS[day.month - 1]
    return f"{month} {day.day}, {day.year}" if units == "imperial" else f"{day.day} {month} {day.year}"


def job_facts(job: OpenJob) -> tuple[Fact, ...]:
    """Return what the brief's page lists."""
    model = job.found.job
    info = model.job
    out: list[Fact] = []
    if info.client:
        out.append(("Client", info.client))
    if info.address:
        out.append(("Address", " ".join(info.address.split())))
    people = [f"{p.name or i}{f' ({p.age})' if p.age != 'adult' else ''}" for i, p in model.people.items()]
    if people:
        out.append(("Who lives here", ", ".join(people)))
    if info.budget is not None:
        out.append(("Budget", format_money(info.budget)))
    if model.delivery:
        out.append(("Way in", ", ".join(p.name for p in model.delivery)))
    house = len(model.practice.values)
    own = f", with {house} value{'s' if house != 1 else ''} of this house's own" if house else ""
    out.append(("Practice", f"{model.practice.set} set{own}"))
    out.append(("Units", "feet and inches" if info.units == "imperial" else "millimeters and meters"))
    return tuple(out)


def room_facts(room: Room, area: float, units: Units) -> tuple[Fact, ...]:
    """Return what a room's page lists."""
    heights = [float(h) for h in room.survey.heights.values()]
    out: list[Fact] = [
        ("Use", ", ".join(k for k, on in room.use.items() if on) or "–"),
        ("Floor", f"{format_area(area, units)}, {'carpet' if room.floor == 'carpet' else 'hard floor'}"),
    ]
    if heights:
        low, high = (format_length(h, units) for h in (min(heights), max(heights)))
        out.append(("Ceiling", low if low == high else f"{low} to {high}"))
    out.append(("Walls", "build not known" if room.wall_build == "unknown" else room.wall_build))
    things = [(i, t) for part in (room.rugs, room.pieces) for i, t in part.items() if t.keep]
    if things:
        out.append(("Client keeps", ", ".join(counted(thing_name(i, t) for i, t in things))))
    return tuple(out)


_USES = {"screen": "watching a screen", "talk": "talk", "read": "reading", "dine": "dining", "sleep": "sleep"}


def wishes(room: Room) -> str:
    """Return a room's wishes in sentences."""
    wish = room.wishes
    said = []
    uses = [_USES.get(use, use) for use, on in wish.uses.items() if on]
    people = f"for {wish.people} {'person' if wish.people == 1 else 'people'}" if wish.people else ""
    if uses or people:
        said.append(sentence(" ".join(filter(None, (", ".join(uses), people)))))
    if wish.focal is not None:
        kind, _, key = wish.focal.partition("/")
        model = getattr(room, kind)[key]
        said.append(f"It looks at the {model.name or key.replace('-', ' ')}.")
    text = " ".join(said)
    return "\n".join(filter(None, (text, wish.note or "", room.note or "")))


def sentence(text: str) -> str:
    """Return a text as a sentence: a capital first, a full stop last."""
    text = text.strip()
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", ":")) else ".")
