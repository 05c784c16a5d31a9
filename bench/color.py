"""CIEDE2000 over 10 million pairs, and the nearest of 100,000 swatches, against colour-science and a plain scan in one run."""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np

from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.from_art import Place, color_schemes
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.library import library_of_csv
from halfdrop.color.nearest import Nearest
from halfdrop.color.science import science
from halfdrop.practice import load_practice

PAIRS, SWATCHES, ASKED = 10_000_000, 100_000, 200
_AT_ONCE = 1_000_000


def _taken(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _colors(count: int, seed: int) -> np.ndarray:
    return np.random.default_rng(seed).uniform([0, -100, -100], [100, 100, 100], (count, 3))


def differences() -> tuple[float, float, float]:
    """Return our time and colour-science's over all pairs [s], and the most they differ; both in blocks of a million."""
    ours = theirs = most = 0.0
    package = science()
    for n in range(PAIRS // _AT_ONCE):
        one, two = _colors(_AT_ONCE, 2 * n), _colors(_AT_ONCE, 2 * n + 1)
        found: list[np.ndarray] = []
        ours += _taken(lambda one=one, two=two, found=found: found.append(delta_e(one, two)))
        theirs += _taken(
            lambda one=one, two=two, found=found: found.append(package.delta_E(one, two, method="CIE 2000"))
        )
        most = max(most, float(np.abs(found[0] - found[1]).max()))
    return ours, theirs, most


def nearest() -> tuple[float, float, float, float, int]:
    """Return times [s]: building the tree, and for all asked: the search, a plain scan with ours, one with colour-science's
    (from a tenth of them); and how many answers differ."""
    library, asked = _colors(SWATCHES, 90), _colors(ASKED, 91)
    start = time.perf_counter()
    tree = Nearest(library)
    built = time.perf_counter() - start
    rows: list[int] = []
    searched = _taken(lambda: rows.extend(int(tree.search(color)[0][0]) for color in asked))
    scanned: list[int] = []
    plain = _taken(lambda: scanned.extend(int(np.argmin(delta_e(color, library))) for color in asked))
    package = science()
    theirs = _taken(
        lambda: [np.argmin(package.delta_E(c, library, method="CIE 2000")) for c in asked[: ASKED // 10]]
    )
    wrong = sum(a != b for a, b in zip(rows, scanned, strict=True))
    return built, searched, plain, theirs * 10, wrong


def library() -> tuple[float, float, float]:
    """Return times [s]: a library of all swatches read from its text, one search by nearness, three schemes of a room from it."""
    codes = np.random.default_rng(4).integers(0, 1 << 24, SWATCHES)
    text = "name,code,srgb,price\n" + "\n".join(f"n{n},C{n},#{c:06x},$48.00" for n, c in enumerate(codes))
    start = time.perf_counter()
    read = library_of_csv(text)
    taken = time.perf_counter() - start
    read.nearest((50.0, 10.0, 10.0), 1)  # builds the tree
    search = _taken(lambda: read.nearest((61.0, -8.0, 21.0), 12))
    art = [ArtColor(read.swatches[n].lab, 0.25) for n in range(4)]
    sizes = (
        (38, "walls"),
        (22, "ceiling"),
        (4, "trim"),
        (5, "large"),
        (3, "large"),
        (2, "medium"),
        (6, "medium"),
        (1, "small"),
    )
    places = [Place(f"p{n}", f"thing {n}", float(area), role) for n, (area, role) in enumerate(sizes)]  # type: ignore[arg-type]
    return taken, search, _taken(lambda: color_schemes(places, art, read, load_practice("us")))


def main() -> None:
    """Print the ratios."""
    ours, theirs, most = differences()
    print(
        f"CIEDE2000 over {PAIRS / 1e6:g} million pairs, against colour-science; they differ by at most {most:.1e}"
    )
    print(f"  ours {ours:.2f} s, colour-science {theirs:.2f} s, ratio {theirs / ours:.1f}")
    built, searched, plain, science_scan, wrong = nearest()
    print(
        f"nearest of {SWATCHES:,} swatches, {ASKED} asked one by one; tree built in {built * 1e3:.0f} ms; {wrong} differ"
    )
    print(
        f"  search {searched / ASKED * 1e3:.2f} ms each, plain scan {plain / ASKED * 1e3:.2f} ms (ratio {plain / searched:.0f}),"
    )
    print(
        f"  scan by colour-science {science_scan / ASKED * 1e3:.2f} ms (ratio {science_scan / searched:.0f})"
    )
    taken, search, schemes = library()
    print(f"library of {SWATCHES:,} rows: read in {taken:.2f} s, 12 nearest in {search * 1e3:.1f} ms,")
    print(f"  three schemes of a room from it in {schemes:.2f} s")
