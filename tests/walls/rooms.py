"""Rooms of four walls with openings, made up, for the tests of this folder."""

from __future__ import annotations

from hypothesis import strategies as st

from halfdrop.walls import Chain, Face, Hole, chains_of

WRAP = 0.012
NAMES = ("AB", "BC", "CD", "DA")


def hole(kind: str, name: str, start: float, width: float, bottom: float, top: float) -> Hole:
    """An opening of a face."""
    return Hole(f"rooms/r/openings/{name}", kind, start, start + width, bottom, top)


def oblong(
    width: float = 4.0,
    depth: float = 3.0,
    height: float = 2.5,
    holes: dict[str, tuple[Hole, ...]] | None = None,
) -> tuple[Face, ...]:
    """Four walls of one height."""
    lengths = (width, depth, width, depth)
    return tuple(
        Face(name, length, height, height, (holes or {}).get(name, ()))
        for name, length in zip(NAMES, lengths, strict=True)
    )


def all_round(faces: tuple[Face, ...]) -> Chain:
    """The faces as one closed run."""
    (chain,) = chains_of(faces, faces, WRAP)
    return chain


@st.composite
def rooms(draw: st.DrawFn) -> tuple[Face, ...]:
    """Four walls, uneven ceilings, up to two openings a wall."""
    heights = [draw(st.floats(2.2, 3.0)) for _ in NAMES]
    faces = []
    for n, name in enumerate(NAMES):
        length = draw(st.floats(1.2, 6.0))
        found: list[Hole] = []
        at = 0.0
        for k in range(draw(st.integers(0, 2))):
            start = at + draw(st.floats(0.0, 1.0))
            width = draw(st.floats(0.4, 2.5))
            if start + width > length:
                break
            kind = draw(st.sampled_from(["door", "window"]))
            bottom = 0.0 if kind == "door" else draw(st.floats(0.3, 1.2))
            found.append(hole(kind, f"{kind}-{n}{k}", start, width, bottom, draw(st.floats(1.4, 2.15))))
            at = start + width
        faces.append(Face(name, length, heights[n], heights[(n + 1) % 4], tuple(found)))
    return tuple(faces)
