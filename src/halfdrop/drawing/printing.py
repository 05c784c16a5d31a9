"""One sheet as a PDF page or a PNG picture, printed through typst from its SVG with our own fonts."""

from __future__ import annotations

import datetime
import tempfile
from pathlib import Path
from typing import Literal

import typst

from halfdrop.drawing.figure import Figure
from halfdrop.drawing.sheet import Sheet
from halfdrop.drawing.tokens import Ground

FONTS = Path(__file__).parent / "fonts"


def printed(
    sheet: Sheet | Figure,
    format: Literal["pdf", "png"] = "pdf",
    *,
    ground: Ground = "light",
    ppi: float = 144.0,
    timestamp: datetime.datetime | None = None,
) -> bytes:
    """Return a sheet, or a figure by itself, as PDF (one page at its true size) or PNG.

    Parameters
    ----------
    sheet : Sheet or Figure
    format : {"pdf", "png"}
    ground : {"light", "dark"}
    ppi : float
        Pixels an inch, for PNG.
    timestamp : datetime, optional
        Written into the PDF; a fixed one where not given, so that the same sheet gives the same bytes.
    """
    page = sheet if isinstance(sheet, Figure) else sheet.paper
    source = (
        f"#set page(width: {page.width}mm, height: {page.height}mm, margin: 0mm)\n"
        f'#image("sheet.svg", width: {page.width}mm, height: {page.height}mm)\n'
    )
    with tempfile.TemporaryDirectory(prefix="halfdrop-") as name:
        folder = Path(name)
        (folder / "sheet.svg").write_text(sheet.svg(ground), encoding="utf-8")
        (folder / "sheet.typ").write_text(source, encoding="utf-8")
        fixed = timestamp or datetime.datetime(2000, 1, 1, tzinfo=datetime.UTC)
        result = typst.compile(
            folder / "sheet.typ",
            root=folder,
            font_paths=[FONTS],
            ignore_system_fonts=True,
            format=format,
            ppi=ppi,
            timestamp=int(fixed.timestamp()),
        )
    assert isinstance(result, bytes)
    return result
