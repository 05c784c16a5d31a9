"""Text from anyone, made safe to set."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.book.text import BREAK, LONGEST, clean, paragraphs


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("plain – 12′ 6½″ × 8′", "plain – 12′ 6½″ × 8′"),
        ("a\tb\x00c", "a b c"),
        ("a\u202eb\u202c", "ab"),
        ("rugs.dining_extension_floor", f"rugs.{BREAK}dining_{BREAK}extension_{BREAK}floor"),
    ],
)
def test_clean(text: str, wanted: str) -> None:
    """Ordinary text is left alone; controls and direction marks go; a long key may break after a dot."""
    assert clean(text) == wanted


@given(st.text(max_size=200))
def test_clean_keeps_every_letter(text: str) -> None:
    """No letter, figure or sign is lost, whatever else goes."""
    kept = [c for c in text if unicodedata.category(c)[0] in "LNPS"]
    left = [c for c in clean(text) if unicodedata.category(c)[0] in "LNPS"]
    assert left == kept


@given(st.text(alphabet="abcXYZ019._/", max_size=300))
def test_no_run_is_too_long(text: str) -> None:
    """After cleaning no unbroken run is longer than a column can take."""
    assert all(len(part) <= LONGEST for part in clean(text).split(BREAK))


def test_paragraphs() -> None:
    """Lines and blank lines part paragraphs; blanks in them are single."""
    assert paragraphs("one\ntwo  three\n\n\nfour\n") == ["one", "two three", "four"]
