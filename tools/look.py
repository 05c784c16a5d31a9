"""Look at a sheet: an SVG to a PNG through typst, with the shipped fonts and no others.

Usage: python tools/look.py SHEET.svg [SHEET.png] [--ppi 110]
"""

from __future__ import annotations

import argparse
import shutil
import tempfile
from pathlib import Path

import typst

from halfdrop.drawing.tokens import fonts_folder


def render(source: Path, target: Path, ppi: float = 110.0) -> None:
    """Write the PNG of an SVG at `ppi` pixels to the inch of paper."""
    with tempfile.TemporaryDirectory() as temp:
        shutil.copy(source, Path(temp) / "sheet.svg")
        page = Path(temp) / "page.typ"
        page.write_text(
            '#set page(width: auto, height: auto, margin: 0pt)\n#image("sheet.svg")\n', encoding="utf-8"
        )
        png = typst.compile(
            page, format="png", ppi=ppi, font_paths=[str(fonts_folder())], ignore_system_fonts=True
        )
    target.write_bytes(png)


def main() -> None:
    """Read the command line."""
    parser = argparse.ArgumentParser(description="Render a sheet's SVG to a PNG.")
    parser.add_argument("svg", type=Path)
    parser.add_argument("png", type=Path, nargs="?")
    parser.add_argument("--ppi", type=float, default=110.0)
    args = parser.parse_args()
    target = args.png or args.svg.with_suffix(".png")
    render(args.svg, target, args.ppi)
    print(target)


if __name__ == "__main__":
    main()
