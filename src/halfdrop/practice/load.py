"""Read the shipped values (once) and a house's own over them."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import lru_cache
from importlib import resources
from pathlib import Path
from types import MappingProxyType
from typing import Any, get_args

from halfdrop.base.errors import At, InputError, did_you_mean
from halfdrop.base.units import Quantity
from halfdrop.practice.order import check_order
from halfdrop.practice.practice import Practice, unknown
from halfdrop.practice.reading import kind_of, read_value
from halfdrop.practice.value import SURENESS, Kind, PracticeValue, Raw

SETS = ("us", "metric")

#: The shipped files, in the order a listing shows them.
_FILES = (
    "survey", "rugs", "seating", "circulation", "dining", "bedroom", "scale", "delivery", "hazards", "walls",
    "drapery", "drapery_sewing", "art", "color", "color_schemes", "color_rules", "furniture_seats", "furniture_tables_and_beds",
    "furniture_storage", "furniture_other", "elevations",
)  # fmt: skip
#: Limits on a house file: its size, and how deep its tables nest (our longest key has three parts).
_MAX_BYTES = 1 << 20
_MAX_DEPTH = 8


def load_practice(
    set: str = "us",
    house: Mapping[str, str | float | int | bool] | None = None,
    house_file: Path | None = None,
) -> Practice:
    """Return the practice of a job.

    Parameters
    ----------
    set : str
        "us" (inches and feet) or "metric".
    house : Mapping, optional
        The job's own values by key; they win over the file's.
    house_file : Path, optional
        A TOML file of the house's values: `"rugs.dining_extension_floor" = "10 in"`, or nested tables.

    Raises
    ------
    InputError
        For an unknown set or key, a value of another kind, or a file that cannot be read.

    Checked by: tests/practice/test_load.py.
    """
    if set not in SETS:
        raise InputError(f"no practice set `{set}`", hint=did_you_mean(set, SETS))
    shipped = _shipped(set)
    over: dict[str, PracticeValue] = {}
    if house_file is not None:
        over |= _house(
            _read_house(house_file), shipped.values_by_key, f"house (file {house_file.name})", str(house_file)
        )
    if house:
        over |= _house(dict(house), shipped.values_by_key, "house (job)", None)
    if not over:
        return shipped.practice
    practice = shipped.practice.over(over)
    check_order(practice)
    return practice


class _Shipped:
    """One shipped set, read and checked."""

    def __init__(self, name: str) -> None:
        rows = dict(_rows())
        self.values_by_key = MappingProxyType({key: _value(key, row, name) for key, row in rows.items()})
        self.practice = Practice(name, self.values_by_key)


@lru_cache(maxsize=len(SETS))
def _shipped(name: str) -> _Shipped:
    return _Shipped(name)


def _rows() -> Iterator[tuple[str, dict[str, Any]]]:
    """Give every table of the shipped files that is a value, with its key."""
    for name in _FILES:
        file = resources.files("halfdrop.practice") / "values" / f"{name}.toml"
        yield from _tables(tomllib.loads(file.read_text(encoding="utf-8")), "")


def _tables(tree: dict[str, Any], prefix: str) -> Iterator[tuple[str, dict[str, Any]]]:
    for name, item in tree.items():
        key = f"{prefix}{name}"
        if "us" in item:
            yield key, item
        else:
            yield from _tables(item, f"{key}.")


def _value(key: str, row: dict[str, Any], name: str) -> PracticeValue:
    """Turn one table of a shipped file into a value; a fault in it is our own."""
    if row["sure"] not in SURENESS:
        raise AssertionError(f"{key}: sureness {row['sure']!r}")
    raw: Raw = row[name]
    kind: Kind = row.get("kind") or kind_of(raw)
    if kind not in get_args(Kind):
        raise AssertionError(f"{key}: kind {kind!r}")
    choices = tuple(row.get("choices", ()))
    value, text = read_value(raw, kind, choices=choices)
    written = row.get("range", [])
    spread = tuple(read_value(part, kind)[0] for part in written)
    return PracticeValue(
        key=key,
        kind=kind,
        value=value,
        text=text,
        what=row["what"],
        how=row["how"],
        source=row["source"],
        sure=row["sure"],
        range=spread,
        range_text=tuple(str(part) for part in written),
        note=row.get("note", ""),
        origin=name,
        choices=choices,
        allowed=tuple(read_value(part, kind)[0] for part in row.get("allowed", ())),
    )


def _read_house(path: Path) -> dict[str, Any]:
    """Return a house file's values by full key."""
    try:
        data = path.read_bytes()
        if len(data) > _MAX_BYTES:
            raise InputError(
                f"house file {path.name} is {len(data)} bytes; allowed are {_MAX_BYTES}", at=At(str(path))
            )
        tree = tomllib.loads(data.decode("utf-8"))
    except OSError as error:
        raise InputError(
            f"house file {path.name} cannot be read: {(error.strerror or 'unreadable').lower()}",
            at=At(str(path)),
            hint="name a TOML file of practice values under `practice: file:`",
        ) from None
    except (ValueError, RecursionError) as error:
        raise InputError(
            f"house file {path.name} is not TOML: {error}",
            at=At(str(path)),
            hint='write lines such as "rugs.dining_extension_floor" = "10 in"',
        ) from None
    return dict(_leaves(tree, ""))


def _leaves(tree: dict[str, Any], prefix: str) -> Iterator[tuple[str, Any]]:
    for name, item in tree.items():
        if isinstance(item, dict) and prefix.count(".") < _MAX_DEPTH:
            yield from _leaves(item, f"{prefix}{name}.")
        else:
            yield f"{prefix}{name}", item


def _house(
    written: Mapping[str, Any], shipped: Mapping[str, PracticeValue], origin: str, file: str | None
) -> dict[str, PracticeValue]:
    """Return the house's values, each read as the kind of the shipped value it stands over."""
    over = {}
    for key, raw in written.items():
        at = At(file, path=f"practice/values/{key}" if file is None else key)
        if key not in shipped:
            raise unknown(key, shipped).placed(at)
        old = shipped[key]
        ours = isinstance(raw, str | int | float) or (
            isinstance(raw, list) and all(isinstance(p, str) for p in raw)
        )
        if not ours:
            raise InputError(
                f"practice value `{key}` is of a kind that no value has",
                at=at,
                hint=f'write it like "{old.text}"',
            )
        try:
            value, text = read_value(raw, old.kind, choices=old.choices)
        except InputError as error:
            raise InputError(f"practice value `{key}`: {error.message}", at=at, hint=error.hint) from None
        if old.allowed and not old.allowed[0] <= value <= old.allowed[1]:
            least, most = (_said(v) for v in old.allowed)
            raise InputError(
                f"practice value `{key}` is {text}; allowed is {least} to {most}",
                at=at,
                hint=f"the shipped value is {old.text}",
            )
        over[key] = replace(
            old, value=value, text=text, origin=origin, source="the house's own", sure="our choice"
        )
    return over


def _said(value: object) -> str:
    """Return a bound as a person writes it."""
    return value.text if isinstance(value, Quantity) else f"{value:g}"
