"""How works hang as a job has them: numbers, notes, cautions; a hanging written into a scheme; the sheet of it."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from halfdrop.audit.art_case import wall_with_art
from halfdrop.base.errors import InputError, UsageError
from halfdrop.book.trades import TradeTable
from halfdrop.services.hanging_job import hung_on, hung_walls, take_hanging
from halfdrop.services.hanging_room import RoomAsk
from halfdrop.services.hanging_sheet import hanging_sheet
from halfdrop.services.jobs import OpenJob, open_job
from halfdrop.services.trade_art import art_sheet
from halfdrop.services.trade_sheets import counts_of, install_sheets
from tests.art.walls import FACE, at, case_of, document


def _opened(folder: Path, **room: object) -> OpenJob:
    art = {"heron": {**FACE, "at": at("2.2 m")}, "gull": {**FACE, "hangs": None}, "tern": FACE}
    art["gull"].pop("hangs")
    path = folder / "job.yaml"
    path.write_text(yaml.safe_dump(document(art, **room), sort_keys=False), encoding="utf-8")
    return open_job(path)


def test_the_two_numbers_are_of_the_wire_not_of_the_frame() -> None:
    """The wire comes to 6 cm below a top at 1.85 m: 1790 mm from the floor; two hooks about the middle at 2.5 m from D."""
    case = case_of({"heron": {**FACE, "at": at("2.2 m")}})
    hung = hung_on(case, wall_with_art(case, "CD"))
    (work,) = hung.works
    assert [h.said_floor for h in work.hooks] == ["179 cm", "179 cm"]
    left, right = (h.from_edge for h in work.hooks)
    assert (left + right) / 2 == pytest.approx(2.5, abs=1e-3)
    assert right - left == pytest.approx(0.4 * 0.6, abs=2e-3)
    mirrored = hung_on(case, wall_with_art(case, "CD"), "right")
    assert mirrored.works[0].hooks[1].from_edge == pytest.approx(5.0 - right, abs=2e-3)
    assert mirrored.edge == "right end of wall CD (corner C)"


def test_a_back_that_cannot_hang_so_is_said_and_its_hooks_are_left_open() -> None:
    """A wire longer than twice the way down would put the hook over the frame: no number is given, and why is told."""
    hangs = {"from": "wire", "down": "2 cm", "apart": "40 cm", "wire": "80 cm"}
    case = case_of({"heron": {**FACE, "hangs": hangs, "at": at("2.2 m")}})
    hung = hung_on(case, wall_with_art(case, "CD"))
    assert hung.works[0].hooks == ()
    assert any("above the top of a frame" in note for note in hung.notes)


def test_a_wall_of_unknown_build_is_told() -> None:
    """Where nobody wrote how the wall is built, the sheet says what was taken for it."""
    case = case_of({"heron": {**FACE, "at": at("2.2 m")}}, wall_build="unknown")
    assert any("not written down" in note for note in hung_on(case, wall_with_art(case, "CD")).notes)


def test_a_way_is_written_into_a_scheme_and_hangs_there(tmp_path: Path) -> None:
    """As found one wall has art; under the scheme two, and the file keeps the room as found."""
    job = _opened(tmp_path)
    done = take_hanging(job, "first", "r", RoomAsk(("gull", "tern"), wall="AB"), 1)
    assert done.title == "Hang 2 works as a row on wall AB: gull painting, tern painting."
    again = open_job(job.path)
    assert [w.wall for w in hung_walls(again, "r")] == ["CD"]
    under = hung_walls(again, "r", "first")
    assert [w.wall for w in under] == ["AB", "CD"]
    assert under[0].works[0].hooks == () or under[0].works[1].hooks == ()
    with pytest.raises(InputError, match="there is no way 4; 1 was found"):
        take_hanging(again, "first", "r", RoomAsk(("gull",), wall="BC"), 4)


def test_a_sheet_has_a_row_for_each_hook_and_says_which_are_not_known(tmp_path: Path) -> None:
    """The heron has two hooks and their two numbers; the gull's wire was not taped, so its top and its middle stand there."""
    job = _opened(tmp_path)
    take_hanging(job, "first", "r", RoomAsk(("gull",), wall="AB"), 1)
    job = open_job(job.path)
    counts = counts_of(job, "first", room="r")
    case = counts.after.case("r")
    tables = {
        p.title: p
        for p in art_sheet(counts, case, wall_with_art(case, "CD"), "A1").parts
        if isinstance(p, TradeTable)
    }
    rows = tables["Hooks"].rows
    assert [row[0] for row in rows] == ["1a", "1b"]
    assert all(row[3] == "1790 mm" for row in rows)
    gull = art_sheet(counts, case, wall_with_art(case, "AB"), "A2")
    assert {p.title for p in gull.parts if isinstance(p, TradeTable)} == {
        "Hooks still to be found",
        "Weight and fixing",
    }
    assert "over-people" not in str(gull.parts)


def test_under_a_scheme_only_walls_that_change_have_a_sheet(tmp_path: Path) -> None:
    """As found every wall with art has its sheet; under a scheme that hangs the gull, wall AB alone has."""
    job = _opened(tmp_path)
    assert [s.name for s in install_sheets(job, trade="art")] == ["Heron painting"]
    take_hanging(job, "first", "r", RoomAsk(("gull",), wall="AB"), 1)
    job = open_job(job.path)
    assert [s.name for s in install_sheets(job, "first", trade="art")] == ["Gull painting"]


def test_the_sheet_is_a_pdf_or_a_picture_of_one_wall(tmp_path: Path) -> None:
    """A PDF has every wall; a picture has one, and asks which where there are two; the same job gives the same bytes."""
    job = _opened(tmp_path)
    pdf, count = hanging_sheet(job, "r", "pdf")
    assert (pdf[:5], count) == (b"%PDF-", 1)
    assert hanging_sheet(job, "r", "pdf")[0] == pdf
    svg, _ = hanging_sheet(job, "r", "svg")
    assert b"Hooks on wall CD" in svg
    take_hanging(job, "first", "r", RoomAsk(("gull",), wall="AB"), 1)
    job = open_job(job.path)
    with pytest.raises(UsageError, match="works hang on walls AB, CD"):
        hanging_sheet(job, "r", "svg", scheme="first")
    assert hanging_sheet(job, "r", "png", scheme="first", wall="BA")[0][:4] == b"\x89PNG"
    with pytest.raises(InputError, match="nothing hangs on wall BC"):
        hanging_sheet(job, "r", "svg", wall="BC")
    with pytest.raises(UsageError, match="cannot be written as `dwg`"):
        hanging_sheet(job, "r", "dwg")
