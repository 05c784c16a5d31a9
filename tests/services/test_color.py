"""A room's colors by day and of an evening, and the page made of them."""

from __future__ import annotations

from typing import Any, get_args

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.case import RoomCase
from halfdrop.base.errors import InputError
from halfdrop.color.light import NAMED
from halfdrop.drawing.verbs import Text
from halfdrop.job.colors import Lamps
from halfdrop.practice import load_practice
from halfdrop.services.color import color_drawn, lights_of, page_of, room_colors
from tests.color.colored import document


def _case(**room: Any) -> RoomCase:
    return Auditor.of(document(**room)).case("r")


def _facing(*faces: str | None) -> RoomCase:
    windows = {}
    for n, way in enumerate(faces):
        windows[f"w{n}"] = {"kind": "window", "wall": "CD", "along": f"{n * 1.2 + 0.2} m", "width": "1 m", "height": "1.2 m",
                            "sill": "0.9 m"} | ({"faces": way} if way else {})  # fmt: skip
    return _case(openings=windows, treatments={})


@pytest.mark.parametrize(
    ("faces", "day", "why"),
    [
        ((None,), "daylight", "assumed"),
        (("north",), "north daylight", "north"),
        (("south", "west"), "daylight", "sun"),
        (("north", "northeast", "south"), "north daylight", "north"),
    ],
)
def test_the_day_comes_from_where_the_windows_face(faces: tuple[str | None, ...], day: str, why: str) -> None:
    """Most glass to the north is north daylight; where nobody said, average daylight is assumed, and it says so."""
    light, reason, _, _ = lights_of(_facing(*faces))
    assert light.name == day
    assert why in reason


def test_the_evening_comes_from_the_lamps() -> None:
    """A room's own lamps light its evening; without them practice's stand in, and it says so."""
    assert lights_of(_case(lamps="incandescent"))[2].name == "incandescent"
    _, _, evening, why = lights_of(_case())
    assert evening.name == load_practice("us").text("color.evening_lamps")
    assert "assumed" in why


def test_every_lamp_of_the_document_is_a_known_light() -> None:
    """What a room may name as its lamps, and what practice may, is a light that has a spectrum."""
    assert set(get_args(Lamps)) <= NAMED.keys()
    assert load_practice("metric").text("color.evening_lamps") in get_args(Lamps)


def test_each_swatch_is_seen_twice() -> None:
    """Each swatch has its color by day and of an evening; a warm lamp makes a red move more than a near-white."""
    found = room_colors(_case(lamps="warm LED"))
    data = found.to_json()
    rows = {row["id"]: row for row in data["swatches"]}
    assert all(row["day"] != row["evening"] for row in rows.values())
    assert rows["rust"]["moves"] > rows["chalk"]["moves"]
    assert sum(row["share"] for row in rows.values()) == pytest.approx(1, abs=1e-3)
    assert data["light"]["evening"]["name"] == "warm LED"
    assert 0 < data["cloth"]["drawn"] < data["cloth"]["shut"] < 0.2


def test_a_measured_pair_that_parts_is_told() -> None:
    """Two grays, one of them with a bumpy measured spectrum, match by day and part under a lamp of few bands."""
    job = document(lamps="triphosphor fluorescent")
    bumpy = {str(nm): 0.30 + 0.18 * ((nm // 30) % 2) for nm in range(400, 701, 10)}
    job["swatches"]["bumpy"] = {"name": "Bumpy", "spectrum": bumpy}
    job["rooms"]["r"]["surfaces"]["ceiling"] = "bumpy"
    case = Auditor.of(job).case("r")
    lab = room_colors(case).inventory.swatches["bumpy"].lab
    job["swatches"]["twin"] = {"name": "Twin", "lab": [round(v, 4) for v in lab]}
    job["rooms"]["r"]["surfaces"]["trim"] = "twin"
    case = Auditor.of(job).case("r")
    found = room_colors(case)
    assert {found.partings[0][0], found.partings[0][1]} == {"bumpy", "twin"}
    assert any(head == "Part company" for head, _ in page_of(case, found, ()).says)


def test_a_room_without_colors_says_how_to_record_them() -> None:
    """No color recorded is told with the fields that record one."""
    job = document(surfaces={})
    for thing in (*job["rooms"]["r"]["pieces"].values(), *job["rooms"]["r"]["rugs"].values()):
        del thing["colors"]
    del job["fabrics"]["linen"]["colors"]
    with pytest.raises(InputError, match="no colors are recorded in room `r`") as caught:
        room_colors(Auditor.of(job).case("r"))
    assert "swatches" in str(caught.value.hint)


def test_the_page_has_each_part_and_each_finding() -> None:
    """Every part with an area stands on the page by its name, and what the color rules found heads its margin."""
    auditor = Auditor.of(document())
    case = auditor.case("r")
    findings = [f for f in auditor.findings("r") if f.rule.startswith("color.")]
    page = page_of(case, room_colors(case), findings)
    assert {p.name for p in page.parts} >= {"walls", "ceiling", "floor", "sofa", "cabinet"}
    assert sum(s.share for s in page.swatches) == pytest.approx(1)
    sheet = color_drawn(case, findings, proposed=False, paper="a3")
    texts = [v.text for v in sheet.verbs if isinstance(v, Text)]
    assert "Color as found" in texts
    assert all(s.name in " ".join(texts) for s in page.swatches)
