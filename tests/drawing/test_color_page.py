"""The color page: true proportions, every color named and numbered, nothing told by hue alone."""

from __future__ import annotations

import io
import itertools

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfdrop.drawing.color_page import ColorPage, PagePart, PageSwatch, color_sheet
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.sheet import Sheet, TitleInfo
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Area, Text, from_json, to_json

TITLE = TitleInfo("Job", "Room", "Color as found")
PAPERS = ("tabloid", "letter", "a3", "a4 portrait", "phone")


def _page(shares: list[float], recorded: float = 1.0) -> ColorPage:
    total = sum(shares)
    ordered = sorted((s / total for s in shares), reverse=True)
    swatches = tuple(
        PageSwatch(n, f"swatches/s{n}", f"Swatch {n}", f"S-{n}", share, "1 m²", 100.0 * n / (len(ordered) + 1), 50.0, "gold",
                   f"#{40 + n:02x}8060", f"#{40 + n:02x}9050", 1.5, ("walls", "sofa"))
        for n, share in enumerate(ordered, 1)
    )  # fmt: skip
    parts = (
        PagePart("rooms/r/surfaces/walls", "walls", 40.0, "40 m²", ((1, recorded),)),
        PagePart("rooms/r/pieces/sofa", "sofa", 5.0, "5 m²", ()),
    )
    says = (("Light", "By day average daylight."), ("Value", "Light 40 %."))
    return ColorPage(
        "rooms/r", swatches, parts, "daylight", "warm LED", (41.0, 81.0), says, ("The sofa is loud.",)
    )


def _sheet(page: ColorPage, paper: str = "tabloid") -> Sheet:
    return color_sheet(page, title=TITLE, paper=paper, units="metric")


def _boxes(sheet: Sheet, color: str) -> list[tuple[float, float]]:
    """Return left edge and width of what is filled in a color, the widest first."""
    rings = [v.rings[0] for v in sheet.verbs if isinstance(v, Area) and v.color == color]
    spans = [(min(p[0] for p in r), max(p[0] for p in r) - min(p[0] for p in r)) for r in rings]
    return sorted(spans, key=lambda s: -s[1])


@given(st.lists(st.floats(0.01, 1.0), min_size=1, max_size=12))
@settings(max_examples=25, deadline=None)
def test_columns_are_as_wide_as_their_shares(shares: list[float]) -> None:
    """By day and of an evening each swatch has a column of its share of one and the same width, none over another."""
    page = _page(shares)
    sheet = _sheet(page)
    spans = [_boxes(sheet, swatch.evening)[0] for swatch in page.swatches]
    whole = spans[0][1] / page.swatches[0].share
    at = spans[0][0]
    for swatch, (left, wide) in zip(page.swatches, spans, strict=True):
        if swatch.share * whole > 9.0:  # else the chip in the table is the widest
            assert wide == pytest.approx(swatch.share * whole, abs=1e-6)
            assert left == pytest.approx(at, abs=1e-6)
            assert any(box == pytest.approx((left, wide), abs=1e-6) for box in _boxes(sheet, swatch.day))
        at += swatch.share * whole


@pytest.mark.parametrize("paper", PAPERS)
def test_every_color_shown_is_numbered_and_named(paper: str) -> None:
    """Whatever the paper, each number stands over the bar, and the table names the swatches it shows or counts the rest."""
    page = _page([0.5, 0.3, 0.1, 0.06, 0.03, 0.01])
    texts = [v.text for v in _sheet(page, paper).verbs if isinstance(v, Text)]
    for swatch in page.swatches:
        assert str(swatch.number) in texts
    named = [s for s in page.swatches if any(t.startswith(s.name) for t in texts)]
    rest = [t for t in texts if t.endswith("of smaller share")]
    assert named
    assert len(named) == len(page.swatches) or rest == [
        f"and {len(page.swatches) - len(named)} more of smaller share"
    ]


def test_lettering_never_stands_on_a_real_color() -> None:
    """No ink is read against a swatch: lettering over one has its own ground."""
    sheet = _sheet(_page([0.5, 0.3, 0.2]))
    verbs = list(sheet.verbs)
    for k, verb in enumerate(verbs):
        if not isinstance(verb, Text):
            continue
        x, y = verb.at
        over = [a for a in verbs[:k] if isinstance(a, Area) and _holds(a, x, y)]
        if over:
            assert over[-1].color is None, verb.text


def _holds(area: Area, x: float, y: float) -> bool:
    xs, ys = [p[0] for p in area.rings[0]], [p[1] for p in area.rings[0]]
    return min(xs) < x < max(xs) and min(ys) < y < max(ys)


@given(st.lists(st.floats(0.001, 1.0), min_size=2, max_size=16))
@settings(max_examples=25, deadline=None)
def test_numbers_over_the_bar_do_not_touch(shares: list[float]) -> None:
    """However thin the columns, their numbers stand side by side, in order, inside the field."""
    page = _page(shares)
    sheet = _sheet(page)
    numbers = {str(s.number) for s in page.swatches}
    rows: dict[float, list[Text]] = {}
    for verb in sheet.verbs:
        if (
            isinstance(verb, Text)
            and verb.text in numbers
            and verb.anchor == "middle"
            and verb.font == "strong"
        ):
            rows.setdefault(round(verb.at[1], 3), []).append(verb)
    first = rows[min(rows)]
    assert [int(t.text) for t in first] == [s.number for s in page.swatches]
    for a, b in itertools.pairwise(first):
        wide = [text_width(t.text, t.size, t.font) for t in (a, b)]
        assert b.at[0] - a.at[0] >= sum(wide) / 2 - 1e-6
    assert first[-1].at[0] <= sheet.paper.width


def test_the_ladder_is_gray_and_in_order() -> None:
    """The value ladder has no hue, gets lighter to the right, and its marks stand at each swatch's lightness."""
    sheet = _sheet(_page([0.4, 0.3, 0.3]))
    grays = [
        v.color
        for v in sheet.verbs
        if isinstance(v, Area) and v.color and v.color[1:3] == v.color[3:5] == v.color[5:7]
    ]
    assert len(grays) == 20
    assert grays == sorted(grays)


def test_what_is_not_recorded_is_hatched() -> None:
    """A part half recorded has hatching where it is not; one wholly recorded has none."""
    half, whole = _sheet(_page([1.0], 0.5)), _sheet(_page([1.0], 1.0))
    assert len(half.verbs) > len(whole.verbs) + 10


def test_findings_come_first_in_the_margin() -> None:
    """What is worth a thought heads the margin."""
    texts = [v.text for v in _sheet(_page([1.0])).margin if isinstance(v, Text)]
    assert texts.index("Worth a thought") < texts.index("The sofa is loud.") < texts.index("Light")


def test_real_colors_survive_every_back_end() -> None:
    """SVG carries the color as it is, DXF as a true color, JSON gives the same verbs back."""
    sheet = _sheet(_page([0.6, 0.4]))
    assert 'fill="#298060"' in sheet.svg()
    assert sheet.svg() == _sheet(_page([0.6, 0.4])).svg()
    assert to_json(from_json(to_json(sheet.verbs))) == to_json(sheet.verbs)
    drawing = ezdxf.read(io.StringIO(sheet.dxf().decode("utf-8")))
    colors = {hatch.rgb for layout in drawing.layouts for hatch in layout.query("HATCH")}
    assert (0x29, 0x80, 0x60) in colors


def test_small_lettering_is_the_smallest() -> None:
    """Nothing on the page is smaller than the look's small lettering."""
    sizes = [v.size for v in _sheet(_page([0.6, 0.4]), "phone").verbs if isinstance(v, Text)]
    assert min(sizes) >= tokens().sizes["small"]
