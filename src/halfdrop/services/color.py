"""The colors of a room: its inventory, each swatch by day and of an evening, the page that shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from halfdrop.audit.case import RoomCase
from halfdrop.audit.colors import inventory, inventory_in
from halfdrop.audit.finding import Finding
from halfdrop.base.errors import At, InputError
from halfdrop.base.formats import format_area
from halfdrop.color.inventory import Inventory
from halfdrop.color.light import Light, light
from halfdrop.color.metamers import Parting, parting_pairs
from halfdrop.color.seen import DayAndEvening, day_and_evening
from halfdrop.color.srgb import hex_of_srgb
from halfdrop.drawing.color_page import ColorPage, PagePart, PageSwatch, color_sheet
from halfdrop.drawing.sheet import Sheet, TitleInfo
from halfdrop.job.colors import Colors
from halfdrop.services.jobs import OpenJob
from halfdrop.services.sheets import default_paper

_HOW = (
    "Cloth is taken as drawn back, shades as raised. Moves is what changes from day to evening once the eye has settled "
    "(CIEDE2000). Reflectances not measured are the smoothest with the same coordinates. A screen or a printer shows no swatch "
    "true: judge by the swatch itself, in the room."
)
_NORTH = frozenset({"north", "northeast", "northwest"})


@dataclass(frozen=True)
class RoomColors:
    """A room's colors, measured and seen.

    Attributes
    ----------
    inventory : Inventory
    day, evening : Light
        By which they are seen.
    day_why, evening_why : str
        Why by these.
    seen : dict
        Each swatch by day and of an evening, by its id.
    partings : tuple of (str, str, Parting)
        Swatches that match by day and part of an evening.
    cloth : (float, float)
        Share of what is seen that is cloth at the windows: drawn back, and drawn shut.
    """

    inventory: Inventory
    day: Light
    evening: Light
    day_why: str
    evening_why: str
    seen: dict[str, DayAndEvening]
    partings: tuple[tuple[str, str, Parting], ...]
    cloth: tuple[float, float]

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        made = self.inventory.to_json()
        for row in made["swatches"]:
            seen = self.seen[row["id"]]
            row["day"], row["evening"] = (hex_of_srgb(one.shown) for one in (seen.day, seen.evening))
            row["moves"], row["reflectance"] = round(seen.moves, 2), seen.day.how
        made["light"] = {
            "day": {"name": self.day.name, "what": self.day.what, "why": self.day_why},
            "evening": {"name": self.evening.name, "what": self.evening.what, "why": self.evening_why},
        }
        made["cloth"] = {"drawn": round(self.cloth[0], 4), "shut": round(self.cloth[1], 4)}
        made["partings"] = [
            {
                "first": one,
                "second": two,
                "day": round(p.matched, 2),
                "evening": round(p.parted, 2),
                "reflectance": p.how,
            }
            for one, two, p in self.partings
        ]
        return made


def lights_of(case: RoomCase) -> tuple[Light, str, Light, str]:
    """Return the daylight of a room with its reason, and the lamps of its evening with theirs.

    Windows that face north light a room by the sky; others by sun and sky. Where no window says where it faces, average
    daylight stands in; where the room names no lamps, practice's.
    """
    glass: dict[bool, float] = {True: 0.0, False: 0.0}
    for opening in case.room.openings.values():
        if opening.model.kind == "window" and opening.model.faces is not None:
            glass[opening.model.faces in _NORTH] += float(opening.model.width) * float(opening.model.height)
    if not any(glass.values()):
        day, why = "daylight", "no window says where it faces: average daylight is assumed"
    elif glass[True] > glass[False]:
        day, why = "north daylight", "most of its glass faces north (north of the equator)"
    else:
        day, why = "daylight", "most of its glass faces the sun"
    lamps = case.room.model.lamps
    named = lamps or case.practice.text("color.evening_lamps")
    evening_why = "its lamps" if lamps else "the room names no lamps: practice's are assumed"
    return light(day), why, light(named), evening_why


def room_colors(case: RoomCase) -> RoomColors:
    """Return the colors of a room.

    Raises
    ------
    InputError
        Where no color of it is recorded, or a swatch cannot be used as a color.
    """
    found = inventory(case)
    if not found.areas:
        raise InputError(
            f"no colors are recorded in room `{case.room.id}`",
            at=At(path=f"{case.room.path}/surfaces"),
            hint="write the job's `swatches`, then `surfaces: {walls: NAME}` and `colors: NAME` on its pieces",
        )
    day, day_why, evening, evening_why = lights_of(case)
    swatches = [s.swatch for s in found.shares]
    ids = [s.id for s in found.shares]
    seen = {key: day_and_evening(s, day, evening) for key, s in zip(ids, swatches, strict=True)}
    partings = tuple((ids[p.first], ids[p.second], p) for p in parting_pairs(swatches, day, evening))
    cloth = (_cloth(found), _cloth(inventory(case, shut=True)))
    return RoomColors(found, day, evening, day_why, evening_why, seen, partings, cloth)


def _cloth(found: Inventory) -> float:
    """Return the share of what is seen that hangs at the windows."""
    hung = sum(part.area for part in found.parts if part.path.split("/")[2] == "treatments")
    return hung / found.seen


def colors_of(case: RoomCase) -> list[tuple[str, Colors]] | None:
    """Return what each part of a room wears; None where no color is recorded."""
    found = inventory_in(case)
    if found is None or not found.areas:
        return None
    return [(part.path, part.colors) for part in found.parts if part.colors and part.area > 0]


def color_page(
    job: OpenJob, room: str, *, scheme: str | None = None, paper: str | None = None, number: str = ""
) -> Sheet:
    """Return the color page of a room.

    Raises
    ------
    InputError
        Where room, scheme or paper is not known, or the room has no colors recorded.
    """
    job.room_ids(room)
    state = job.under(scheme)
    findings = [f for f in state.findings(room) if f.rule.startswith("color.")]
    return color_drawn(
        state.case(room),
        findings,
        proposed=scheme is not None,
        paper=paper or default_paper(job),
        number=number,
    )


def color_drawn(
    case: RoomCase, findings: Sequence[Finding], *, proposed: bool, paper: str, number: str = ""
) -> Sheet:
    """Return the color page of a room of which the state is at hand; raises as `room_colors`."""
    info = case.job.job
    title = TitleInfo(
        job=info.name, room=case.room.model.name, view="Color as proposed" if proposed else "Color as found",
        date=info.date or "", revision=info.revision or "", number=number, decorator=info.decorator or "",
    )  # fmt: skip
    return color_sheet(page_of(case, room_colors(case), findings), title=title, paper=paper, units=info.units)


def page_of(case: RoomCase, colors: RoomColors, findings: Sequence[Finding]) -> ColorPage:
    """Return what the color page says."""
    found, units = colors.inventory, case.units
    numbers = {s.id: n for n, s in enumerate(found.shares, 1)}
    swatches = tuple(
        PageSwatch(
            number=numbers[s.id], path=f"swatches/{s.id}", name=s.swatch.name, code=s.swatch.code, share=s.share,
            area=format_area(s.area, units), lightness=s.swatch.lab[0], lrv=s.lrv, leans=s.lean(case.practice),
            day=hex_of_srgb(colors.seen[s.id].day.shown), evening=hex_of_srgb(colors.seen[s.id].evening.shown),
            moves=colors.seen[s.id].moves, on=s.on,
        )
        for s in found.shares
    )  # fmt: skip
    most = sorted(found.parts, key=lambda p: (-round(p.area, 6), p.path))
    parts = tuple(
        PagePart(p.path, p.what, p.area, format_area(p.area, units),
                 tuple((numbers[k], share) for k, share in p.colors.items()))
        for p in most if p.area > 0
    )  # fmt: skip
    limits = (float(case.practice.number("color.dark_to")), float(case.practice.number("color.light_from")))
    return ColorPage(
        path=case.room.path, swatches=swatches, parts=parts, day=colors.day.name, evening=colors.evening.name,
        limits=limits, says=tuple(_says(case, colors)), findings=tuple(f.message for f in findings),
    )  # fmt: skip


def _says(case: RoomCase, colors: RoomColors) -> list[tuple[str, str]]:
    """Return what the margin says: headings with a sentence or two."""
    found = colors.inventory
    p, v, t = found.proportions, found.values, found.temperature
    large = [n for n, f in enumerate(p.families) if f.share >= 0.01][:5]
    families = ", ".join(f"{found.family_name(n)} {100 * p.families[n].share:.0f}%" for n in large)
    rest = f" and {len(p.families) - len(large)} smaller" if len(p.families) > len(large) else ""
    out = [
        ("Light", f"By day {colors.day.what}: {colors.day_why}. Of an evening {colors.evening.name}, {colors.evening.what}: "
                  f"{colors.evening_why}."),
        ("Proportion", f"{100 * p.dominant:.0f} / {100 * p.secondary:.0f} / {100 * p.accent:.0f}, where 60 / 30 / 10 is the rule "
                       f"of thumb. Families: {families}{rest}."),
        ("Value", f"Light {100 * v.light:.0f}%, middle {100 * v.middle:.0f}%, dark {100 * v.dark:.0f}%."),
        ("Temperature", f"Warm {100 * t.warm:.0f}%, cool {100 * t.cool:.0f}%, neutral {100 * t.neutral:.0f}%."),
    ]  # fmt: skip
    fit = found.template
    hues = (
        "No hue to speak of."
        if fit.name == "N"
        else f"Template {fit.name} fits, {fit.misfit:.1f}° outside it."
    )
    if found.least is not None:
        one, two, value = found.least
        hues += f" Least harmony of two, {minus(f'{value:.2f}')}: {found.swatches[one].name} with {found.swatches[two].name}."
    out.append(("Hues", hues))
    if colors.cloth[1] > 0:
        drawn, shut = (100 * share for share in colors.cloth)
        out.append(
            (
                "Cloth",
                f"Drawn back it is {drawn:.0f}% of what is seen, drawn shut of an evening {shut:.0f}%.",
            )
        )
    for one, two, parting in colors.partings[:3]:
        names = f"{found.swatches[one].name} and {found.swatches[two].name}"
        out.append(("Part company", f"{names} match by day ({parting.matched:.1f}) and part of an evening ({parting.parted:.1f}): "
                                    "hold both under the lamps."))  # fmt: skip
    moved = max(colors.seen.items(), key=lambda item: (round(item[1].moves, 6), item[0]))
    out.append(
        ("Moves most", f"{found.swatches[moved[0]].name}, by {moved[1].moves:.1f} from day to evening.")
    )
    if found.recorded < 0.995:
        out.append(
            (
                "Not recorded",
                f"{100 * (1 - found.recorded):.0f}% of what is seen, hatched; shares are of the rest.",
            )
        )
    out.append(("How shown", _HOW))
    return out


def minus(text: str) -> str:
    """Return a number with a true minus."""
    return text.replace("-", "−")
