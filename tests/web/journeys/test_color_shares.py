"""On the color page: things of several colors are drawn with the shares recorded, whatever their shape."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Page

from tests.web.journeys.conftest import Workbench
from tests.web.journeys.test_color import LIVING, SWATCHES, open_color

HEX = {"bone": "#e8dcc4", "oak": "#a07850", "fern": "#5f7d56", "coal": "#3a3936"}
ALONE = """(path) => {
  const svg = document.querySelector("#tinted-plan svg");
  for (const g of svg.querySelectorAll(":scope > g")) {
    const its = g.dataset.path === path && !g.dataset.layer.startsWith("A-ANNO");
    g.style.display = its ? "" : "none";
  }
  for (const part of svg.querySelectorAll("[data-part]")) part.style.display = "none";
  for (const shape of svg.querySelectorAll("path, circle, ellipse")) {
    shape.style.stroke = "none";
    if (!shape.matches(".f-paper, .f-wash")) shape.style.display = "none";
  }
  const box = svg.querySelector(`g[data-path="${path}"]`).getBoundingClientRect();
  return { x: box.x, y: box.y, width: box.width, height: box.height };
}"""
RUG = (
    "{name: plain rug, width: 8', length: 6', at: {x: 8', y: 70 in}, colors: bone, pad: {thickness: 1/4 in}}"
)
PRINT = "{fern: 55%, bone: 30%, coal: 15%}"


def drawn_shares(page: Page, path: str, colors: list[str]) -> list[float]:
    """Return how much of a thing is drawn in each color, by counting the pixels of its picture."""
    box = page.evaluate(ALONE, path)
    picture = Image.open(io.BytesIO(page.screenshot(clip=box))).convert("RGB")
    pixels = np.asarray(picture, dtype=int)
    wanted = [[int(HEX[c][i : i + 2], 16) for i in (1, 3, 5)] for c in colors]
    counts = [float((np.abs(pixels - w).max(axis=2) <= 3).sum()) for w in wanted]
    return [count / sum(counts) for count in counts]


@pytest.mark.parametrize(
    ("thing", "path"),
    [
        (RUG.replace("colors: bone", f"colors: {PRINT}"), "rooms/living/rugs/rug"),
        (
            RUG.replace("length: 6'", "length: 8', shape: round").replace("colors: bone", f"colors: {PRINT}"),
            "rooms/living/rugs/rug",
        ),
    ],
    ids=["oblong", "round"],
)
def test_a_rug_of_three_colors_is_drawn_in_its_shares(
    page: Page, bench: Workbench, thing: str, path: str
) -> None:
    """Counted in pixels, 55, 30 and 15 in a hundred of the rug, oblong or round, are fern, bone and coal."""
    text = (LIVING + SWATCHES).replace(RUG, thing)
    job = str(bench.ask("POST", "/api/jobs", {"start": "file", "name": "shares.yaml", "text": text})["id"])
    open_color(page, bench, job)
    assert drawn_shares(page, path, ["fern", "bone", "coal"]) == pytest.approx([0.55, 0.30, 0.15], abs=0.012)


def test_an_armchair_in_a_print_has_it_once(page: Page, bench: Workbench) -> None:
    """Seat, back and arms lie on each other: what is seen of them together is the print's shares, not each part's."""
    text = (LIVING + SWATCHES).replace("turn: 180°}", "turn: 180°, colors: {oak: 70%, coal: 30%}}")
    job = str(bench.ask("POST", "/api/jobs", {"start": "file", "name": "chair.yaml", "text": text})["id"])
    open_color(page, bench, job)
    assert drawn_shares(page, "rooms/living/pieces/chair", ["oak", "coal"]) == pytest.approx(
        [0.7, 0.3], abs=0.03
    )
