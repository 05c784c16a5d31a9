"""CIEDE2000: the color difference that agrees best with what people see.

The published form takes two arctangents, four cosines and two powers a pair. Here the hue terms come from dot
and cross products, the four cosines of T from one angle's cosine and sine by the multiple-angle identities, and
rows go through in blocks that stay in the cache. Pairs close to opposite hues, where the published form branches,
take the published form itself.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.color.arrays import Floats, triples

_BLOCK = 4096
_25_7 = 25.0**7
#: 1 + cos Δh below which hues count as close to opposite (0.08° of 180°).
_OPPOSITE = 1e-6
#: Slack on |Δh| > 180° [degrees]: pair 14 of the published test lies on the branch itself.
_GUARD = 1e-9


def _cosines(k: int, phase: float) -> tuple[float, float, int]:
    return math.cos(math.radians(phase)), math.sin(math.radians(phase)), k


def delta_e(lab1: ArrayLike, lab2: ArrayLike) -> Floats:
    """Return the CIEDE2000 difference of two sets of L* a* b*, with kL = kC = kH = 1.

    Parameters
    ----------
    lab1, lab2 : array, shape (..., 3)
        Broadcast against each other.

    Returns
    -------
    array, shape (...)
        0 and above; about 1 is just seen side by side.

    Source: ISO/CIE 11664-6:2014; Sharma, Wu, Dalal (2005), Color Research and Application 30, 21-30, equations 2-22.
    Where hues are 180° apart to 1e-9°, they count as not more than 180° apart, as the published pair 14 has it.

    Checked by: tests/color/test_ciede2000.py (tests/published/color_ciede2000.csv).
    """
    first, second = triples(lab1, "Lab"), triples(lab2, "Lab")
    shape = np.broadcast_shapes(first.shape, second.shape)
    rows1 = _rows(first, shape)
    rows2 = _rows(second, shape)
    count = math.prod(shape[:-1])
    out = np.empty(count)
    for start in range(0, count, _BLOCK):
        stop = min(start + _BLOCK, count)
        one = rows1 if len(rows1) == 1 else rows1[start:stop]
        two = rows2 if len(rows2) == 1 else rows2[start:stop]
        out[start:stop] = _block(one.T, two.T)
    return out.reshape(shape[:-1])


def _rows(array: Floats, shape: tuple[int, ...]) -> Floats:
    """Return an array as rows of three; a single color stays one row, so that nothing is copied out."""
    if array.size == 3:
        return array.reshape(1, 3)
    return np.broadcast_to(array, shape).reshape(-1, 3)


def _block(one: Floats, two: Floats) -> Floats:
    """Return the differences of one block, columns L, a, b."""
    L1, a1, b1 = np.ascontiguousarray(one)
    L2, a2, b2 = np.ascontiguousarray(two)
    grow = 1.5 - 0.5 * _chroma_root((np.sqrt(a1 * a1 + b1 * b1) + np.sqrt(a2 * a2 + b2 * b2)) * 0.5)
    a1 = a1 * grow
    a2 = a2 * grow
    C1 = np.sqrt(a1 * a1 + b1 * b1)
    C2 = np.sqrt(a2 * a2 + b2 * b2)
    product = C1 * C2
    C = (C1 + C2) * 0.5
    half = product + (a1 * a2 + b1 * b2)  # C1 C2 (1 + cos Δh)
    opposite = half <= _OPPOSITE * product
    safe = np.where(opposite, 1.0, half)
    dH = (a1 * b2 - a2 * b1) * math.sqrt(2.0) / np.sqrt(safe)
    # the mean hue lies along the sum of both unit vectors
    x = a1 * C2 + a2 * C1
    y = b1 * C2 + b2 * C1
    T, turn = _hue_terms(x, y)
    differences = _combine(L1, L2, C1, C2, dH, C, T, turn)
    if opposite.any():
        where = np.flatnonzero(np.broadcast_to(opposite, differences.shape))
        parts = (np.broadcast_to(part, differences.shape)[where] for part in (L1, a1, b1, C1, L2, a2, b2, C2))
        differences[where] = _opposite(*parts)
    return differences


def _chroma_root(C: Floats) -> Floats:
    """Return sqrt(C^7 / (C^7 + 25^7))."""
    C2 = C * C
    C7 = C2 * C2 * C2 * C
    root: Floats = np.sqrt(C7 / (C7 + _25_7))
    return root


_T1, _T3, _T4 = _cosines(1, 30.0), _cosines(3, 6.0), _cosines(4, 63.0)


def _hue_terms(x: Floats, y: Floats) -> tuple[Floats, Floats]:
    """Return T and sin(2Δθ) of the hue along (x, y)."""
    size = np.sqrt(x * x + y * y)
    size = np.where(size > 0.0, size, 1.0)
    c, s = x / size, y / size
    c2 = c * c - s * s
    s2 = 2.0 * s * c
    c3, s3 = c2 * c - s2 * s, s2 * c + c2 * s
    c4, s4 = c2 * c2 - s2 * s2, 2.0 * s2 * c2
    T = (
        1.0
        - 0.17 * (c * _T1[0] + s * _T1[1])
        + 0.24 * c2
        + 0.32 * (c3 * _T3[0] - s3 * _T3[1])
        - 0.20 * (c4 * _T4[0] + s4 * _T4[1])
    )
    # measured from 275°, between -275° and 85°, as the published hue runs from 0° to 360°
    hue = np.arctan2(s, c) * (180.0 / math.pi)
    away = (np.where(hue < 0.0, hue + 360.0, hue) - 275.0) / 25.0
    return T, np.sin(np.exp(-away * away) * math.radians(60.0))


def _combine(
    L1: Floats, L2: Floats, C1: Floats, C2: Floats, dH: Floats, C: Floats, T: Floats, turn: Floats
) -> Floats:
    off = (L1 + L2) * 0.5 - 50.0
    off = off * off
    lightness = (L2 - L1) / (1.0 + 0.015 * off / np.sqrt(20.0 + off))
    chroma = (C2 - C1) / (1.0 + 0.045 * C)
    hue = dH / (1.0 + 0.015 * C * T)
    rotation = -2.0 * turn * _chroma_root(C)
    total = lightness * lightness + chroma * chroma + hue * hue + rotation * chroma * hue
    root: Floats = np.sqrt(np.maximum(total, 0.0))
    return root


def _opposite(
    L1: Floats, a1: Floats, b1: Floats, C1: Floats, L2: Floats, a2: Floats, b2: Floats, C2: Floats
) -> Floats:
    """Return the differences of pairs with nearly opposite hues, or a grey, by the published form (a is a′)."""
    h1 = np.degrees(np.arctan2(b1, a1)) % 360.0
    h2 = np.degrees(np.arctan2(b2, a2)) % 360.0
    grey = C1 * C2 == 0.0
    dh = h2 - h1
    far = np.abs(dh) > 180.0 + _GUARD
    dh = np.where(grey, 0.0, np.where(far, dh - np.copysign(360.0, dh), dh))
    mean = np.where(
        grey, h1 + h2, (h1 + h2 + np.where(far, np.where(h1 + h2 < 360.0, 360.0, -360.0), 0.0)) / 2
    )
    dH = 2.0 * np.sqrt(C1 * C2) * np.sin(np.radians(dh / 2))
    T, turn = _hue_terms(np.cos(np.radians(mean)), np.sin(np.radians(mean)))
    return _combine(L1, L2, C1, C2, dH, (C1 + C2) * 0.5, T, turn)
