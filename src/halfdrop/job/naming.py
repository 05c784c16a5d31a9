"""What to call a thing of a room: by its name, else by its id, with the word for what it is where the id lacks it."""

from __future__ import annotations

from halfdrop.job.art import Art
from halfdrop.job.model import Fitting, Job, Opening, Rug
from halfdrop.job.treatments import Cushion, Treatment

_RUG_WORDS = ("rug", "runner", "carpet", "kilim", "mat", "hide", "skin")
_HUNG = {"panels": "curtains", "roman": "roman shade", "roller": "roller shade"}
_ART_WORDS = (
    "painting", "print", "photograph", "photo", "paper", "textile", "mirror", "object", "picture", "portrait",
    "landscape", "drawing", "etching", "sketch", "map", "poster", "still", "relief", "plate", "clock", "quilt",
)  # fmt: skip
_HUNG_WORDS = ("curtain", "pair", "panel", "sheer", "voile", "shade", "drape", "blind", "drapery")


def in_words(key: str) -> str:
    """Return an id in words: `coffee-table` is a coffee table."""
    return key.replace("-", " ").replace("_", " ")


def rug_name(key: str, rug: Rug) -> str:
    """Return what to call a rug: `kilim` is the kilim, `small` the small rug."""
    return rug.name or _with_kind(in_words(key), "rug", _RUG_WORDS)


def treatment_name(key: str, hung: Treatment) -> str:
    """Return what to call a treatment: `west-pair` is the west pair, `bay` the bay curtains."""
    return hung.name or _with_kind(in_words(key), _HUNG[hung.kind], _HUNG_WORDS)


def art_name(key: str, work: Art) -> str:
    """Return what to call a work: `harbor` is the harbor painting, `hall-mirror` the hall mirror."""
    return work.name or _with_kind(in_words(key), work.kind, _ART_WORDS)


def cushion_name(job: Job, cushion: Cushion) -> str:
    """Return what to call cushions: by their name, else by their cloth, as cushions in the blue stripe."""
    what = "cushion" if cushion.count == 1 else "cushions"
    return cushion.name or f"{what} in {job.fabrics[cushion.fabric].name}"


def thing_name(job: Job, path: str) -> str:
    """Return what to call a treatment, or cushions, at a path of the document: `rooms/study/treatments/bay/lining` too."""
    _, room, kind, key, *rest = path.split("/")
    part = f", {rest[0]}" if rest else ""
    if kind == "cushions":
        return cushion_name(job, job.rooms[room].cushions[key]) + part
    return treatment_name(key, job.rooms[room].treatments[key]) + part


def fixed_name(key: str, thing: Opening | Fitting) -> str:
    """Return what to call an opening or fitting: `door-2` is door 2, `entrance` the entrance door, `w1` window w1."""
    return thing.name or _with_kind(in_words(key), thing.kind, (thing.kind, thing.kind.split()[-1]))


def _with_kind(words: str, kind: str, known: tuple[str, ...]) -> str:
    parts = words.split()
    if any(part.rstrip("s") == word or part.endswith(word) for part in parts for word in known):
        return words
    alone = all(part.isalpha() and len(part) > 2 for part in parts)
    return f"{words} {kind}" if alone else f"{kind} {words}"
