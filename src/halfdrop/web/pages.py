"""The page's own files: static modules, the look as a style sheet, fonts; nothing else of the machine is ever opened."""

from __future__ import annotations

import hashlib
import json
import re
from functools import cache
from pathlib import Path

from fastapi import FastAPI, Response
from starlette.staticfiles import StaticFiles

from halfdrop.drawing.svg import families
from halfdrop.drawing.tokens import fonts_folder, tokens

STATIC = Path(__file__).parent / "static"

_IMPORT_MAP = re.compile(r'<script type="importmap">(.*?)</script>', re.DOTALL)


def import_maps() -> list[str]:
    """Return the import maps written into the pages: the only inline text that the policy lets through, by its hash."""
    return [
        text
        for page in sorted(STATIC.glob("*.html"))
        for text in _IMPORT_MAP.findall(page.read_text("utf-8"))
    ]


@cache
def tokens_css() -> str:
    """Return the look as CSS: inks, pens and type as custom properties, the drawing's classes, and the fonts.

    The light inks stand on `:root`; the dark ones take their place where the reader prefers dark, unless the page sets
    `data-ground` on its root element.
    """
    look = tokens()
    out = []
    for face in {f.file: f for f in look.fonts.values()}.values():
        stretch = "font-stretch:semi-condensed;" if face.family.startswith("Barlow") else ""
        out.append(
            f"@font-face{{font-family:'{face.family}';src:url('/fonts/{face.file}') format('truetype');"
            f"font-weight:{face.weight};font-style:{face.style};{stretch}font-display:swap}}"
        )

    def inks(ground: str) -> str:
        return "".join(f"--{name}:{color};" for name, color in look.inks[ground].items())

    out.append(f":root,:root[data-ground=light]{{color-scheme:light;{inks('light')}}}")
    dark = f"color-scheme:dark;{inks('dark')}"
    out.append(f"@media (prefers-color-scheme:dark){{:root:not([data-ground=light]){{{dark}}}}}")
    out.append(f":root[data-ground=dark]{{{dark}}}")
    sizes = "".join(f"--size-{name}:{mm / 25.4:.5f}in;" for name, mm in look.sizes.items())
    pens = "".join(f"--pen-{name}:{pen}mm;" for name, pen in look.pens.items())
    plain = families("Barlow Semi Condensed").partition(";")[0]
    out.append(
        f":root{{{sizes}{pens}--line:{look.line};--measure:{look.measure}ch;"
        f"--lettering:{plain};--prose:{families('Literata')}}}"
    )
    out += drawing_classes()
    return "\n".join(out) + "\n"


def drawing_classes() -> list[str]:
    """Return the classes of the drawing, whose inks follow the page's ground."""
    look = tokens()
    sheet = ".sheet"
    out = [f"{sheet}{{fill:none;stroke-linecap:round;stroke-linejoin:round}}"]
    out += [
        f"{sheet} .s-{name}{{stroke:var(--{name})}}{sheet} .f-{name}{{fill:var(--{name})}}"
        for name in look.inks["light"]
    ]
    out += [f"{sheet} .p-{name}{{stroke-width:{pen}px}}" for name, pen in look.pens.items()]
    for name, parts in look.dashes.items():
        dashes = " ".join(f"{p:g}" for p in parts)
        out.append(f"{sheet} .d-{name}{{stroke-dasharray:{dashes};stroke-linecap:butt}}")
    for name, face in look.fonts.items():
        out.append(
            f"{sheet} .t-{name}{{font-family:{families(face.family)};font-weight:{face.weight};font-style:{face.style}}}"
        )
    return out


def page_files() -> dict[str, Path]:
    """Return what a page needs to open without its server: each address and its file."""
    kinds = {".html", ".js", ".css", ".svg"}
    own = {f"/{p.relative_to(STATIC).as_posix()}": p for p in sorted(STATIC.rglob("*")) if p.suffix in kinds}
    own.pop("/sw.js", None)
    faces = sorted({face.file for face in tokens().fonts.values()})
    return own | {f"/fonts/{name}": fonts_folder() / name for name in faces}


@cache
def worker_js() -> str:
    """Return the service worker, told which files the page has and a mark of what is in them."""
    files = page_files()
    digest = hashlib.sha256(tokens_css().encode())
    for address, path in files.items():
        digest.update(address.encode() + b"\0" + path.read_bytes())
    addresses = ["/", "/tokens.css", *(a for a in files if a != "/index.html")]
    shell = json.dumps({"mark": digest.hexdigest()[:16], "files": addresses})
    return f"self.SHELL = {shell};\n" + (STATIC / "sw.js").read_text("utf-8")


def install(app: FastAPI) -> None:
    """Serve the pages of an application; to be called last, for it answers every address that is left."""

    @app.get("/tokens.css", include_in_schema=False)
    def css() -> Response:
        return Response(tokens_css(), media_type="text/css")

    @app.get("/sw.js", include_in_schema=False)
    def worker() -> Response:
        return Response(worker_js(), media_type="text/javascript", headers={"cache-control": "no-cache"})

    app.mount("/fonts", StaticFiles(directory=fonts_folder()), name="fonts")
    if STATIC.is_dir():
        app.mount("/", StaticFiles(directory=STATIC, html=True), name="static")
