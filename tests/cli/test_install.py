"""`halfdrop install`: the sheets for the trades, listed, printed, and as JSON."""

from __future__ import annotations

from pathlib import Path

import pypdfium2

from tests.cli.conftest import Halfdrop


def test_the_sheets_are_listed_and_printed(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """Without `-o` they are listed; with it they are bound, each beginning a page, the same bytes each time."""
    listed = halfdrop("install", demo)
    assert listed.code == 0, listed.err
    assert "hanger     Small leaf paper, Bedroom" in listed.out
    one, two = tmp_path / "one.pdf", tmp_path / "two.pdf"
    assert halfdrop("install", demo, "--trade", "painter", "-o", one).code == 0
    assert halfdrop("install", demo, "--trade", "painter", "-o", two).code == 0
    assert one.read_bytes() == two.read_bytes()
    text = pypdfium2.PdfDocument(one)[0].get_textpage().get_text_range()
    assert "Painter" in text
    assert "Pale clay" in text


def test_a_windows_two_sheets(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """`--of` prints what goes to the installer and to the workroom for one window."""
    out = tmp_path / "pair.pdf"
    answer = halfdrop("install", demo, "--room", "dining", "--of", "print-pair", "-o", out, "--json")
    assert [sheet["trade"] for sheet in answer.json["sheets"]] == ["installer", "workroom"]
    assert "2" in answer.err
    figures = [part for part in answer.json["sheets"][0]["parts"] if part["kind"] == "figure"]
    assert figures[0]["svg"].startswith("<svg")
    assert out.stat().st_size > 10_000


def test_a_trade_without_work_is_said(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """Nothing of a trade: a sentence, exit 0, no file; a name that is not there: exit 2 with what is."""
    out = tmp_path / "none.pdf"
    answer = halfdrop("install", demo, "--room", "hall", "--trade", "hanger", "-o", out)
    assert (answer.code, out.exists()) == (0, False)
    assert answer.out.strip() == "There is no sheet for the paper hanger: no wall is papered in this job."
    wrong = halfdrop("install", demo, "--of", "print-pear")
    assert wrong.code == 2
    assert "print-pair" in wrong.err
    assert halfdrop("install", demo, "--room", "attic").code == 3
