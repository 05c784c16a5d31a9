"""A set of practice values, ready to be asked: immutable, cheap to hash, cheap to override."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from halfdrop.base.errors import HalfdropError, InputError, did_you_mean
from halfdrop.base.formats import Units
from halfdrop.base.units import Angle, Area, Length, Mass
from halfdrop.base.volume import Spread, Volume
from halfdrop.practice.value import Kind, PracticeValue


class UnknownValueError(InputError, KeyError):
    """No practice value has this key."""

    __str__ = HalfdropError.__str__


def piece_key(piece_type: str, what: str) -> str:
    """Return the key of a furniture value: for "dining chair", "size" it is `furniture.dining_chair.size`."""
    return f"furniture.{piece_type.replace(' ', '_')}.{what}"


class Practice(Mapping[str, PracticeValue]):
    """The values one job works to: a shipped set, with the house's own values over it.

    Parameters
    ----------
    name : str
        "us" or "metric".
    values : Mapping
        The shipped values by key; shared between all practices of that set, never changed.
    over : Mapping, optional
        The values that differ.
    units : {"imperial", "metric"}, optional
        What workings are told in; the set's own where not given.
    """

    __slots__ = ("_hash", "_over", "_values", "name", "units")

    def __init__(
        self,
        name: str,
        values: Mapping[str, PracticeValue],
        over: Mapping[str, PracticeValue] | None = None,
        units: Units | None = None,
    ) -> None:
        self.name = name
        self.units: Units = units or ("metric" if name == "metric" else "imperial")
        self._values = values
        self._over = dict(over or {})
        self._hash = hash((name, self.units, frozenset((k, v.text, v.origin) for k, v in self._over.items())))

    def __getitem__(self, key: str) -> PracticeValue:
        try:
            return self._over[key] if key in self._over else self._values[key]
        except KeyError:
            raise unknown(key, self._values) from None

    def __contains__(self, key: object) -> bool:
        return key in self._values

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        return self is other or (
            isinstance(other, Practice)
            and self._hash == other._hash
            and (self.name, self.units) == (other.name, other.units)
            and self._over == other._over
            and (self._values is other._values or self._values == other._values)
        )

    def __copy__(self) -> Practice:
        return self

    def __deepcopy__(self, memo: dict[int, Any]) -> Practice:
        return self

    def __reduce__(self) -> tuple[Any, ...]:
        return Practice, (self.name, dict(self._values), self._over, self.units)

    def __repr__(self) -> str:
        return f"Practice({self.name!r}, {len(self._values)} values, {len(self._over)} of the house)"

    def keys(self, prefix: str = "") -> tuple[str, ...]:  # type: ignore[override]
        """Return the keys that begin with `prefix` ("rugs."), in the files' order."""
        return tuple(key for key in self._values if key.startswith(prefix))

    def length(self, key: str) -> Length:
        """Return a length [m]; it keeps its text."""
        value: Length = self._of(key, "length")
        return value

    def angle(self, key: str) -> Angle:
        """Return an angle [rad]."""
        value: Angle = self._of(key, "angle")
        return value

    def area(self, key: str) -> Area:
        """Return an area [m²]."""
        value: Area = self._of(key, "area")
        return value

    def mass(self, key: str) -> Mass:
        """Return a mass [kg]."""
        value: Mass = self._of(key, "mass")
        return value

    def volume(self, key: str) -> Volume:
        """Return a volume [m³]."""
        value: Volume = self._of(key, "volume")
        return value

    def spread(self, key: str) -> Spread:
        """Return how far paint goes [m²/m³]."""
        value: Spread = self._of(key, "spread")
        return value

    def number(self, key: str) -> float:
        """Return a plain number or ratio."""
        return float(self._of(key, "number", "count"))

    def count(self, key: str) -> int:
        """Return a whole number."""
        return int(self._of(key, "count"))

    def flag(self, key: str) -> bool:
        """Return a yes or no."""
        return bool(self._of(key, "yes or no"))

    def text(self, key: str) -> str:
        """Return a text."""
        return str(self._of(key, "text"))

    def length_list(self, key: str) -> tuple[Length, ...]:
        """Return a list of lengths [m]."""
        value: tuple[Length, ...] = self._of(key, "lengths")
        return value

    def size_list(self, key: str) -> tuple[tuple[Length, Length], ...]:
        """Return a list of sizes, each width and length [m], the shorter first."""
        sizes: tuple[tuple[Length, Length], ...] = self._of(key, "sizes")
        return sizes

    def box(self, key: str) -> tuple[Length, Length, Length]:
        """Return the width, depth and height of a thing [m]."""
        sides: tuple[Length, Length, Length] = self._of(key, "box")
        return sides

    def shifted(self, key: str, delta: float) -> Practice:
        """Return the same practice with one value moved by `delta`, in SI (for tests that move a limit).

        Raises
        ------
        InputError
            When the value is no single number, or would fall below 0.
        """
        old = self[key]
        if old.kind not in ("length", "angle", "area", "mass", "number", "count"):
            raise InputError(f"practice value `{key}` is a {old.kind}; only a single number can be moved")
        moved = float(old.value) + delta
        if moved < 0:
            raise InputError(
                f"practice value `{key}` would be {moved:g} if moved by {delta:g}; allowed is 0 or more"
            )
        kinds = {"length": Length, "angle": Angle, "area": Area, "mass": Mass, "number": float, "count": int}
        value = kinds[old.kind](moved)
        text = value.text if isinstance(value, Length | Angle | Area | Mass) else f"{value:g}"
        return self.over({key: replace(old, value=value, text=text, origin="shifted")})

    def over(self, values: Mapping[str, PracticeValue]) -> Practice:
        """Return the same practice with these values over its own."""
        return Practice(self.name, self._values, {**self._over, **values}, self.units)

    def told_in(self, units: Units) -> Practice:
        """Return the same practice, its workings told in these units: those of the job."""
        return self if units == self.units else Practice(self.name, self._values, self._over, units)

    def house_keys(self) -> tuple[str, ...]:
        """Return the keys that differ from the shipped set."""
        return tuple(key for key in self._values if key in self._over)

    def _of(self, key: str, *kinds: Kind) -> Any:
        found = self[key]
        if found.kind not in kinds:
            raise TypeError(f"practice value {key} is a {found.kind}, asked for as a {' or '.join(kinds)}")
        return found.value


def unknown(key: str, known: Mapping[str, Any]) -> UnknownValueError:
    """Return the error for a key that no value has, with the nearest one that exists."""
    area = key.partition(".")[0] + "."
    siblings = [k for k in known if k.startswith(area)] or [*{k.partition(".")[0] for k in known}]
    hint = did_you_mean(key, known)
    if hint.startswith("known"):
        hint = did_you_mean(key, siblings)
    return UnknownValueError(f"no practice value `{key}`", hint=hint)
