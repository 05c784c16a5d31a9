"""Install sheets: what they say is what the library counted, for a job in inches, one in millimeters, and one without the trade."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest

from halfdrop.base.errors import UsageError
from halfdrop.book.trades import TradeFacts, TradeList, TradeSheet, TradeTable
from halfdrop.services.jobs import OpenJob, open_job
from halfdrop.services.takeoff import takeoff
from halfdrop.services.trade_bolts import thing_of
from halfdrop.services.trade_fixing import carried
from halfdrop.services.trade_sheets import bind_sheets, counts_of, install_sheets, no_sheets
from halfdrop.services.trade_strips import hanging_order, plumb_of

JOB = """\
halfdrop: 1
job: {name: Two windows, units: UNITS, currency: USD}
practice: {set: SET}
fabrics:
  leaf: {name: Leaf print, width: 137 cm, repeat: 64 cm, match: straight, price: $40}
  lining: {name: Sateen, kind: lining, width: 137 cm, price: $9}
papers:
  stripe: {name: Stripe, roll: EN 233, repeat: 53 cm, match: straight, price: $50}
paints:
  chalk: {name: Chalk, color: off-white, sheen: matte}
rooms:
  den:
    name: Den
    use: {living: true}
    wall_build: WALL
    survey:
      corners: A B C D
      walls: {AB: 4 m, BC: 3 m, CD: 4 m, DA: 3 m}
      ties: {AC: 5 m, BD: 5 m}
      heights: {center: 2.5 m}
    openings:
      door: {kind: door, wall: DA, along: 0.2 m, width: 0.8 m, height: 2 m, hinge: D, opens: in}
      window: {kind: window, wall: CD, along: 1.2 m, width: 1.2 m, height: 1.3 m, sill: 0.8 m, trim: 8 cm}
    fittings:
      switch: {kind: switch, name: lamp switch, wall: CD, along: 0.95 m, width: 8 cm, bottom: 1.1 m, height: 12 cm}
    treatments:
      pair:
        name: den pair
        openings: window
        heading: double pinch
        fabric: leaf
        lining: {fabric: lining}
        arrives: true
        measured: {floor: {left: 2.0 m, center: 2.004 m, right: 2.01 m}}
        hardware: {kind: pole, diameter: 28 mm, projection: 10 cm, finial: 6 cm}
    cushions:
      plain: {fabric: leaf, width: 45 cm, height: 45 cm, count: 2}
    finishes:
      paper: {on: walls, paper: stripe, walls: [AB, BC]}
      paint: {on: ceiling, paint: chalk}
      rest: {on: walls, paint: chalk, walls: [CD, DA], substrate: new drywall}
      trim: {on: trim, paint: chalk}
  store:
    name: Store
    use: {hall: true}
    survey:
      corners: A B C D
      walls: {AB: 2 m, BC: 2 m, CD: 2 m, DA: 2 m}
      ties: {AC: 2.828 m, BD: 2.828 m}
      heights: {center: 2.5 m}
"""


def opened(folder: Path, units: str = "metric", wall: str = "stud") -> OpenJob:
    path = folder / f"{units}-{wall}.yaml"
    set_ = "us" if units == "imperial" else "metric"
    path.write_text(JOB.replace("UNITS", units).replace("SET", set_).replace("WALL", wall), encoding="utf-8")
    return open_job(path)


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> OpenJob:
    return opened(tmp_path_factory.mktemp("trades"))


@pytest.fixture(scope="module")
def sheets(job: OpenJob) -> dict[str, TradeSheet]:
    return {sheet.number: sheet for sheet in install_sheets(job)}


def facts(sheet: TradeSheet) -> dict[str, str]:
    return {
        label: value for part in sheet.parts if isinstance(part, TradeFacts) for label, value in part.facts
    }


def tables(sheet: TradeSheet) -> list[TradeTable]:
    return [part for part in sheet.parts if isinstance(part, TradeTable)]


def test_each_trade_has_its_sheets(sheets: dict[str, TradeSheet]) -> None:
    """One window: an installer's and a workroom's sheet, two cloths to cut, a paper, a painted room."""
    assert list(sheets) == ["I1", "W1", "W2", "W3", "H1", "P1"]
    assert sheets["W2"].path == "fabrics/leaf"


def test_brackets_stand_where_the_library_puts_them(job: OpenJob, sheets: dict[str, TradeSheet]) -> None:
    """Every bracket has its distance from the nearest corner and its own height over a floor that runs off 10 mm."""
    counts = counts_of(job)
    hung = counts.hung(counts.rooms["den"], "pair")
    rows = tables(sheets["I1"])[0].rows
    assert len(rows) == len(hung.brackets.at)
    left = 4.0 - 1.2 - 1.2 - hung.place.rod.left
    for row, at in zip(rows, hung.brackets.at, strict=True):
        off = float(row[1].split(" mm")[0]) / 1000
        corner = row[1][-1]
        x = off if corner == "D" else 4.0 - off
        assert x == pytest.approx(left + at, abs=6e-4)
    heights = [int(row[2].removesuffix(" mm")) for row in rows]
    top = round(1000 * hung.place.height)
    assert heights[0] == top
    assert heights[-1] == top + 10


def test_the_sheet_says_which_bracket_stands_over_a_switch(sheets: dict[str, TradeSheet]) -> None:
    """A cable may run straight up from a switch: the bracket in its line is named."""
    assert "over the lamp switch" in facts(sheets["I1"])["Cables"]


@pytest.mark.parametrize(
    ("wall", "said"), [("stud", "Into a stud"), ("masonry", "Into solid wall"), ("unknown", "Into a stud")]
)
def test_fixings_follow_the_wall(tmp_path: Path, wall: str, said: str) -> None:
    """What goes into the wall depends on how it is built; no picture hook ever carries a curtain."""
    sheet = install_sheets(opened(tmp_path, wall=wall), trade="installer")[0]
    told = facts(sheet)
    assert said in told
    assert "picture hook" not in " ".join(told.values())
    assert ("Studs" in told) == (wall != "masonry")


def test_the_load_is_that_of_the_cloth(job: OpenJob) -> None:
    """The fullest bracket carries what the calculator says, panels drawn back."""
    counts = counts_of(job)
    room = counts.rooms["den"]
    hung = counts.hung(room, "pair")
    from halfdrop.drapery.as_hung import as_hung

    seen = as_hung(room, "pair", counts.cloths, counts.practice)
    assert seen is not None
    found = carried(counts, room, seen)
    assert found.mass == pytest.approx(hung.weight.mass)
    assert found.load == pytest.approx(hung.brackets.load, rel=0.02)
    assert found.at == pytest.approx(hung.brackets.at)


def test_the_pleats_marked_add_up_to_the_panel(job: OpenJob, sheets: dict[str, TradeSheet]) -> None:
    """Chalk marks run from the leading edge to the end of the last pleat: overlap, pleats and spaces to the millimeter."""
    counts = counts_of(job)
    pleats = counts.hung(counts.rooms["den"], "pair").heading
    assert pleats is not None
    table = next(t for t in tables(sheets["W1"]) if t.head[0] == "Pleat")
    end = float(table.rows[-1][2].removesuffix(" cm")) * 10
    assert end == pytest.approx(pleats.flat - pleats.returns, abs=0.51)  # type: ignore[union-attr]
    for row in table.rows:
        a, b = (float(cell.removesuffix(" cm")) * 10 for cell in row[1:3])
        assert b - a == pytest.approx(int(row[3].removesuffix(" mm")), abs=1e-6)


def test_uneven_panels_are_told_edge_by_edge(sheets: dict[str, TradeSheet]) -> None:
    """The floor falls 10 mm to the right: the right panel is longer, and longer at its right edge."""
    said = facts(sheets["W1"])["Finished length"]
    assert "right panel" in said
    assert "at its right" in said


def test_every_cut_of_the_plan_is_on_a_cutting_list_once(job: OpenJob, sheets: dict[str, TradeSheet]) -> None:
    """The workroom's lists and drawings hold all cuts of all bolts, no more, and none twice."""
    counts = counts_of(job)
    for number, key in (("W2", "leaf"), ("W3", "lining")):
        counted = counts.takeoff[key]
        laid = [cut for bolt in counted.plan.bolts for cut in bolt.cuts]
        rows = [row for table in tables(sheets[number]) for row in table.rows]
        assert len(rows) == len(laid)
        drawn = "".join(figure.svg for figure in sheets[number].figures)
        for cut in laid:
            assert f'data-path="{thing_of(cut)}"' in drawn
    assert any("cushions" in thing_of(c) for b in counts.takeoff["leaf"].plan.bolts for c in b.cuts)


def test_the_workroom_sheet_names_the_cuts_it_is_made_from(sheets: dict[str, TradeSheet]) -> None:
    """Each width of the pair, face and lining, is found by bolt and number on the cutting sheets."""
    cuts = next(t for t in tables(sheets["W1"]) if t.title == "Cuts")
    lists = [
        row
        for n in ("W2", "W3")
        for t in tables(sheets[n])
        for row in t.rows
        if row[1].startswith("Den pair")
    ]
    assert len(cuts.rows) == len(lists) > 0


def test_the_hanger_hangs_every_length_and_starts_at_the_plumb_line(
    job: OpenJob, sheets: dict[str, TradeSheet]
) -> None:
    """Lengths on the cut list are those of the roll plan; the order begins at the plumb line, one way and then the other."""
    counts = counts_of(job)
    finish = counts.finishes[0]["stripe"][0]
    listed = next(t for t in tables(sheets["H1"]) if t.title == "Cut list")
    assert sum(len(row[1].split("; ")) for row in listed.rows) == len(finish.cuts)
    run = finish.runs[0]
    order = hanging_order(run)
    assert sorted(order.values()) == list(range(1, len(run.columns) + 1))
    assert order[0] == 1
    plumb = plumb_of(counts.rooms["den"], run)
    first = next(c for c in run.columns if c.index == 0)
    wall, along = run.chain.locate(first.start)
    assert plumb.wall == wall
    assert plumb.off == pytest.approx(min(along, run.chain.at(wall).face.length - along))
    assert f"{round(1000 * plumb.off)} mm from corner {plumb.corner}" in facts(sheets["H1"])["Plumb line"]


def test_strip_against_area_method_is_shown(sheets: dict[str, TradeSheet]) -> None:
    """All three counts stand side by side, so that a person sees where a rough one runs short."""
    told = facts(sheets["H1"])
    assert {"Roll plan", "By strips", "By area"} <= set(told)


def test_the_painters_areas_are_those_that_are_bought_for(
    job: OpenJob, sheets: dict[str, TradeSheet]
) -> None:
    """Ceiling, walls and trim in the order they are painted, with their ground coats; openings taken off by name."""
    surfaces, paints = tables(sheets["P1"])[:2]
    assert [row[0].split(":")[0] for row in surfaces.rows] == ["Ceiling", "Walls CD, DA", "Trim"]
    assert "primer, not yet chosen" in surfaces.rows[1][3]
    walls = next(t for t in tables(sheets["P1"]) if t.title.startswith("Walls"))
    assert any("door" in row[2] for row in walls.rows)
    bought = {line.name: line.said for line in takeoff(job).lines if line.trade == "paint"}
    for row in paints.rows:
        assert row[3] == bought[row[0]]


def test_trades_say_what_could_hurt(sheets: dict[str, TradeSheet]) -> None:
    """Height, cables, old paint and asbestos go with every sheet that is worked by at a wall; the painter's with the paint's own."""
    for number in ("I1", "H1", "P1"):
        said = {
            title for part in sheets[number].parts if part.kind == "cautions" for title, _ in part.cautions
        }
        assert {"Ladders", "Old paint", "Asbestos"} <= said, number
    order = [p for p in sheets["H1"].parts if isinstance(p, TradeList)]
    assert "Power off" in order[0].items[0]


def test_inches_read_as_the_trades_write_them(tmp_path: Path) -> None:
    """Cloth in inches to an eighth, what is fixed in feet and inches to a sixteenth; nothing in metric but pleats."""
    sheets = install_sheets(opened(tmp_path, "imperial"))
    cut = facts(next(s for s in sheets if s.number == "W1"))["Cut"]
    assert " in" in cut
    assert " cm" not in cut
    row = tables(next(s for s in sheets if s.number == "I1"))[0].rows[0]
    assert "′" in row[1]
    assert "mm" not in " ".join(row)


def test_one_thing_alone(job: OpenJob) -> None:
    """A window's two sheets are printed by its id; what is not there is said with what is."""
    two = install_sheets(job, thing="pair")
    assert [s.trade for s in two] == ["installer", "workroom"]
    with pytest.raises(UsageError, match="nothing called `pear`"):
        install_sheets(job, thing="pear")


def test_nothing_of_a_trade_is_said_and_not_bound(job: OpenJob) -> None:
    """A room without work has no sheets; the reason is a sentence, and no empty file is written."""
    assert install_sheets(job, room="store") == ()
    assert "no wall is papered" in no_sheets("hanger")
    with pytest.raises(UsageError):
        bind_sheets(job, ())


def test_sheets_bind_to_the_same_bytes_and_begin_each_on_its_page(
    job: OpenJob, sheets: dict[str, TradeSheet]
) -> None:
    """Handed on by themselves: every sheet begins a page; printed twice they are the same file."""
    every = tuple(sheets.values())
    pdf = bind_sheets(job, every)
    assert pdf == bind_sheets(job, every)
    pages = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf)]
    for sheet in every:
        starts = [
            text for text in pages if sheet.number in text.split() and sheet.lead.split(",")[0][:20] in text
        ]
        assert len(starts) == 1, sheet.number


def test_text_from_the_job_is_never_markup(job: OpenJob, sheets: dict[str, TradeSheet]) -> None:
    """A cloth called `#box[$x$]` prints as it is written."""
    odd = replace(sheets["W1"], name="#box[$x$] *bold*", lead="#panic()")
    text = pypdfium2.PdfDocument(bind_sheets(job, (odd,)))[0].get_textpage().get_text_range()
    assert "#box[$x$]" in text
    assert "#panic()" in text


LOW = """\
halfdrop: 1
job: {name: Low and short, units: metric}
practice: {set: metric}
fabrics: {linen: {name: Linen, width: 140 cm}}
rooms:
  den:
    name: Den
    use: {living: true}
    survey:
      corners: A B C D
      walls: {AB: 5 m, BC: 4 m, CD: 5 m, DA: 4 m}
      ties: {AC: 6403 mm, BD: 6403 mm}
      heights: {center: 2.6 m}
    openings: {window: {kind: window, wall: CD, along: 1.8 m, width: 1.2 m, height: 1.3 m, sill: 0.8 m}}
    treatments:
      pair: {openings: window, heading: pencil, fullness: 1.5, drop: 195 cm, hardware: {height: 215 cm, left: 5 cm, right: 5 cm}}
schemes:
  right:
    name: Right
    steps:
      - title: Raise it, widen it, band it.
        patch:
          - {op: replace, path: /rooms/den/treatments/pair/drop, value: 233 cm}
          - {op: replace, path: /rooms/den/treatments/pair/hardware/height, value: 240 cm}
          - {op: replace, path: /rooms/den/treatments/pair/hardware/left, value: 35 cm}
          - {op: add, path: /rooms/den/treatments/pair/altered, value: {band: 38 cm, fabric: linen}}
  anew:
    name: Anew
    steps:
      - title: Make it anew.
        patch:
          - {op: remove, path: /rooms/den/treatments/pair/drop}
          - {op: remove, path: /rooms/den/treatments/pair/fullness}
          - {op: replace, path: /rooms/den/treatments/pair/hardware/height, value: 240 cm}
          - {op: add, path: /rooms/den/treatments/pair/fabric, value: linen}
          - {op: add, path: /rooms/den/treatments/pair/arrives, value: true}
"""


def test_a_pair_put_right_has_its_two_sheets(tmp_path: Path) -> None:
    """As found there is nothing to do; under the scheme the rod goes up and the panels to the workroom, each with its numbers."""
    path = tmp_path / "low.yaml"
    path.write_text(LOW, encoding="utf-8")
    job = open_job(path)
    assert install_sheets(job) == ()
    installer, workroom, cutting = install_sheets(job, "right")
    assert (installer.trade, workroom.name, cutting.path) == (
        "installer",
        "Pair: to alter",
        "fabrics/linen",
    )
    told = facts(installer)
    assert "250 mm up" in told["As found"]
    assert "the same one, hung anew" in told["As found"]
    assert "reckoned as a cloth of middling weight" in told["Load"]
    told = facts(workroom)
    assert (told["Long now"], told["To finish at"]) == ("195 cm", "233 cm")
    assert told["Band"].startswith("38 cm deep at the hem in Linen")
    cuts = next(t for t in tables(workroom) if t.title == "Cuts")
    assert all(row[1].startswith("band") for row in cuts.rows)
    assert len(cuts.rows) == len(tables(cutting)[0].rows)


def test_panels_made_anew_take_the_old_ones_place(tmp_path: Path) -> None:
    """Made anew: the workroom gets a whole sheet, the installer is told what to take down."""
    path = tmp_path / "low.yaml"
    path.write_text(LOW, encoding="utf-8")
    installer, workroom, _ = install_sheets(open_job(path), "anew")
    assert "take it down" in facts(installer)["As found"]
    assert "the same one" not in facts(installer)["As found"]
    assert "Cut" in facts(workroom)
