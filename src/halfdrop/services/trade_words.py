"""How install sheets print their numbers, and how they call the things of a job."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from halfdrop.base.formats import RoundTo, Units, format_area, format_length, format_mass
from halfdrop.base.volume import format_volume
from halfdrop.job.model import Job
from halfdrop.practice.cautions import load_cautions

#: Steps of cloth and of everything else, in inches.
EIGHTH, SIXTEENTH = Fraction(1, 8), Fraction(1, 16)


@dataclass(frozen=True)
class Say:
    """The printer of the sheets: cloth to 1/8 in or 1 mm, what is fixed to 1/16 in or 1 mm."""

    units: Units

    def cloth(self, x: float, round_to: RoundTo = "nearest") -> str:
        """Print a length of cloth [m] as workrooms write it: `112⅜ in`, `285.5 cm`."""
        if self.units == "metric":
            return format_length(x, "metric", unit="cm", round_to=round_to)
        return format_length(x, "imperial", feet=False, step=EIGHTH, round_to=round_to)

    def fix(self, x: float) -> str:
        """Print where something is fixed [m]: `7′ 9¾″`, `2381 mm`."""
        return format_length(x, self.units, step=SIXTEENTH if self.units == "imperial" else None)

    def bought(self, x: float) -> str:
        """Print cloth as it is bought [m]: yards or meters to a hundredth."""
        if self.units == "metric":
            return f"{round(x, 2):g} m"
        return f"{round(x / 0.9144, 2):g} yd"

    def area(self, x: float) -> str:
        """Print an area [m²]."""
        return format_area(x, self.units)

    def mass(self, x: float) -> str:
        """Print a mass [kg], up: what hangs is never told lighter than it is."""
        return format_mass(x, self.units, round_to="up")

    def volume(self, x: float) -> str:
        """Print a volume [m³]."""
        return format_volume(x, self.units)


def plural(count: int, one: str, many: str = "") -> str:
    """Return `1 roll`, `3 rolls`."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def halves(widths: float) -> str:
    """Return widths as they are counted: `2½`."""
    whole, half = divmod(round(2 * widths), 2)
    return f"{whole or ''}½" if half else str(whole)


def room_names(job: Job, rooms: tuple[str, ...] | list[str]) -> str:
    """Return the names of rooms, each once."""
    return ", ".join(dict.fromkeys(job.rooms[i].name for i in rooms))


def capital(text: str) -> str:
    """Return a text that begins with a capital."""
    return text[:1].upper() + text[1:]


def cautions_by_id(*ids: str) -> tuple[tuple[str, str], ...]:
    """Return the general cautions of these ids, in the book's order: title and text."""
    return tuple((c.title, c.text) for c in load_cautions() if c.id in ids)
