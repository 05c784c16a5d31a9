"""Schemes that start from a work of art or a picture: three, each proven to bring no new hazard or fault, written into the job."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding, Grade
from halfdrop.base.errors import At, InputError, did_you_mean
from halfdrop.base.units import Money, sum_money
from halfdrop.color.from_art import STYLES, ColorScheme, Style, color_schemes
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.job_swatches import swatch_of, swatches_of
from halfdrop.color.library import Library
from halfdrop.color.palette import palette_of_file
from halfdrop.job.model import Job
from halfdrop.job.naming import art_name
from halfdrop.job.patch import apply
from halfdrop.job.write import write_job
from halfdrop.services.color_costs import StepCost, step_costs
from halfdrop.services.color_places import Wearer, places_of
from halfdrop.services.jobs import OpenJob
from halfdrop.services.recolor import recolored, title_of
from halfdrop.services.swatch_entry import entry_of, free_id
from halfdrop.services.workbench_state import State, resolve

#: Choices that are tried, one seed after the other, until one brings no new hazard or fault and no note on color.
TRIES = 4


@dataclass(frozen=True)
class Proposal:
    """One scheme as it would be written into the job.

    Attributes
    ----------
    scheme : ColorScheme
        What each place wears, and how it measures.
    source : str
        What it starts from, as a person calls it.
    steps : list of dict
        Steps of a scheme: title and patch.
    brought : tuple of Finding
        New hazards and faults; empty but where no try was without.
    lesser : tuple of Finding
        New notes of taste on color; fewest of the tries.
    after : Auditor
        The job under it.
    changes : tuple of (Wearer, str)
        What each step changes, and the name of the swatch it gets.
    costs : tuple of StepCost
        What is known of the cost of each step.
    """

    scheme: ColorScheme
    source: str
    steps: list[dict[str, Any]]
    brought: tuple[Finding, ...]
    lesser: tuple[Finding, ...]
    after: Auditor = field(repr=False)
    changes: tuple[tuple[Wearer, str], ...] = field(default=(), repr=False)
    costs: tuple[StepCost, ...] = ()

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What has no price, in words."""
        return tuple(dict.fromkeys(words for one in self.costs for words in one.unpriced))

    @property
    def cost(self) -> Money | None:
        """What is known of its cost; None where nothing is, or money differs."""
        known = [one.cost for one in self.costs if one.cost is not None]
        return sum_money(known) if len({money.currency for money in known}) == 1 else None

    @property
    def worse(self) -> tuple[int, int]:
        """How many hazards and faults, and notes of taste on color, it brings."""
        return len(self.brought), len(self.lesser)

    @property
    def name(self) -> str:
        """What the scheme is called."""
        return f"{self.scheme.style.capitalize()}, from {self.source}"[:120]

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "name": self.name,
            "from": self.source,
            **self.scheme.to_json(),
            "steps": self.steps,
            "cost": None if self.cost is None else self.cost.text,
            "unpriced": list(self.unpriced),
            "findings": [
                {"id": f.id, "grade": f.grade.value, "message": f.message}
                for f in (*self.brought, *self.lesser)
            ],
        }


def picture_colors(path: Path) -> tuple[ArtColor, ...]:
    """Return the colors of a picture file as they are recorded, the largest share first.

    Raises
    ------
    InputError
        As `palette_of_file`.
    """
    return tuple(ArtColor(c.lab, c.share) for c in palette_of_file(path, recorded=True).colors)


def art_colors(job: Job, room: str, art: str) -> tuple[tuple[ArtColor, ...], str]:
    """Return the recorded colors of a work of art, the largest share first, and what the work is called.

    Raises
    ------
    InputError
        Where there is no such work, or its colors are not recorded.
    """
    works = job.rooms[room].art
    if art not in works:
        raise InputError(
            f"there is no art `{art}` in room `{room}`",
            at=At(path=f"rooms/{room}/art"),
            hint=did_you_mean(art, works) if works else "write it under `art`, with its width and height",
        )
    colors = works[art].colors
    if not colors:
        raise InputError(
            f"the colors of {art_name(art, works[art])} are not recorded",
            at=At(path=f"rooms/{room}/art/{art}"),
            hint=f"lift them: `halfdrop palette PICTURE --into JOB --art {room}/{art}`",
        )
    found = [ArtColor(swatch_of(job.swatches[key]).lab, share) for key, share in colors.items()]
    return tuple(sorted(found, key=lambda c: -c.share)), art_name(art, works[art])


def job_library(job: Job) -> Library:
    """Return the job's own swatches as a library."""
    return Library(tuple(swatches_of(job.swatches).values()))


def propose(
    state: Auditor,
    room: str,
    art: Sequence[ArtColor],
    source: str,
    library: Library | None = None,
    *,
    styles: Sequence[Style] = STYLES,
    seed: int = 0,
) -> list[Proposal]:
    """Return a scheme of each style for a room, on top of the state it is in.

    Parameters
    ----------
    art : sequence of ArtColor
        What to start from.
    source : str
        What a person calls that.
    library : Library, optional
        Where colors are taken from; the job's own swatches where not given.
    seed : int
        Where to begin trying.

    Raises
    ------
    InputError
        Where nothing in the room may change color, or there are no swatches.
    """
    case = state.case(room)
    pairs = places_of(case)
    if not pairs:
        raise InputError(
            f"room `{room}` has no surface or piece that can be measured",
            at=At(path=f"rooms/{room}"), hint="tape a ceiling height and write it under `heights`",
        )  # fmt: skip
    own = library is None
    library = library or job_library(state.job)
    if not library.swatches:
        raise InputError(
            "there are no swatches to choose from", hint="give a library, or put swatches into the job"
        )
    before = {f.id for f in state.findings(room)}
    made: list[Proposal] = []
    for n in range(len(styles)):
        best: Proposal | None = None
        for turn in range(TRIES):
            schemes = color_schemes(
                [place for _, place in pairs], art, library, state.practice, styles=styles[: n + 1], seed=seed + turn,
                given=[p.scheme for p in made],
            )  # fmt: skip
            one = _proposal(state, room, {p.key: w for w, p in pairs}, schemes[-1], source, own, before)
            if best is None or one.worse < best.worse:
                best = one
            if best.worse == (0, 0):
                break
        assert best is not None
        made.append(_priced(best, room))
    return made


def _proposal(
    state: Auditor,
    room: str,
    by_key: dict[str, Wearer],
    scheme: ColorScheme,
    source: str,
    own: bool,
    before: set[str],
) -> Proposal:
    document = state.document
    ids = _ids(state.job, scheme, own)
    steps: list[dict[str, Any]] = []
    changes: list[tuple[Wearer, str]] = []
    for one in scheme.worn:
        wearer, key = by_key[one.place.key], ids[one.row]
        if wearer.part.colors == {key: 1.0}:
            continue
        patch: list[dict[str, Any]] = []
        if key not in (document.get("swatches") or {}):
            entry = entry_of(one.swatch)
            if document.get("swatches") is None:
                patch.append({"op": "add", "path": "/swatches", "value": {key: entry}})
            else:
                patch.append({"op": "add", "path": f"/swatches/{key}", "value": entry})
            document = apply(document, patch)
        more = recolored(document, wearer, key, scheme=True)
        document = apply(document, more)
        changes.append((wearer, one.swatch.name))
        steps.append({"title": title_of(wearer, one.swatch.name), "patch": patch + more})
    after = resolve(document, like=State(state), folder=state.folder).auditor
    new = [f for f in after.findings(room) if f.id not in before]
    brought = tuple(f for f in new if f.grade in (Grade.HAZARD, Grade.FAULT))
    lesser = tuple(f for f in new if f.grade is Grade.TASTE and f.rule.startswith("color."))
    return Proposal(scheme, source, steps, brought, lesser, after, tuple(changes))


def _priced(one: Proposal, room: str) -> Proposal:
    """Return it with what each step costs."""
    patches = [step["patch"] for step in one.steps]
    costs = step_costs(
        one.after, room, [(w, name, p) for (w, name), p in zip(one.changes, patches, strict=True)]
    )
    steps = [
        s if c.cost is None else s | {"cost": c.cost.text} for s, c in zip(one.steps, costs, strict=True)
    ]
    return replace(one, steps=steps, costs=costs)


def _ids(job: Job, scheme: ColorScheme, own: bool) -> dict[int, str]:
    """Return the id in the job of each swatch that is worn, by its row: one that is there already, or a new one."""
    keys = list(job.swatches)
    if own:
        return {one.row: keys[one.row] for one in scheme.worn}
    known = {(s.name, s.code or ""): key for key, s in job.swatches.items()}
    ids: dict[int, str] = {}
    for one in scheme.worn:
        if one.row not in ids:
            name = (one.swatch.name, one.swatch.code)
            words = one.swatch.name if one.swatch.name else one.swatch.code
            ids[one.row] = known.get(name) or free_id(words, {*keys, *ids.values()})
    return ids


def write_schemes(job: OpenJob, proposals: Sequence[Proposal], ids: Sequence[str]) -> bool:
    """Write proposals into the job file as schemes; return whether its comments and layout were kept.

    Raises
    ------
    InputError
        Where a scheme of one of the ids is there already; nothing is written.
    """
    document = job.loaded.document
    schemes = dict(document.get("schemes") or {})
    for key, one in zip(ids, proposals, strict=True):
        if key in schemes:
            raise InputError(
                f"scheme `{key}` is there already",
                at=At(path=f"schemes/{key}"),
                hint="give another name with --scheme",
            )
        schemes[key] = {"name": one.name, "steps": one.steps}
    return write_job(job.path, job.loaded, {**document, "schemes": schemes}).kept
