"""colour-science, loaded once and only when something asks for it, with its talk about optional parts kept narrow."""

from __future__ import annotations

import sys
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from typing import Any

import numpy as np


@cache
def science() -> Any:
    """Return the package; its word at import that plotting is not installed is dropped, and nothing else."""
    if "colour" in sys.modules:
        return sys.modules["colour"]
    printing = np.get_printoptions()
    with warnings.catch_warnings():
        warnings.filterwarnings(
            "ignore", message=r'(?s)"Matplotlib" related API features are not available.*'
        )
        import colour
    np.set_printoptions(**printing)  # the package changes how arrays print; that is nobody's wish here
    return colour


@contextmanager
def aligned() -> Iterator[Any]:
    """Give the package for spectral work; its word that it brings spectra to one grid is dropped, and nothing else."""
    package = science()
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", message=r"Aligning .*")
        yield package
