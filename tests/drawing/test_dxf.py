"""DXF: true size, standard layers, real dimensions, sound structure, the same bytes in every process."""

from __future__ import annotations

import hashlib
import io
import os
import re
import subprocess
import sys
from functools import cache

import ezdxf
import pytest
from ezdxf.document import Drawing

from halfdrop.drawing import Sheet, before_after_sheet, plan_sheet, survey_sheet
from halfdrop.drawing.layers import LAYERS
from tests.drawing.rooms import NOTES, proposed, room, title


@cache
def sheet(name: str) -> Sheet:
    """Return one of the sheets under test."""
    if name == "living":
        return plan_sheet(room("living"), title=title("Plan", "2"), notes=NOTES)
    if name == "bath":
        return plan_sheet(room("bath"), title=title("Plan", "4"), paper="A4", units="metric")
    if name == "proposed":
        return plan_sheet(proposed(), title=title("Plan", "5"), before=room("living"))
    if name == "both":
        return before_after_sheet(room("living"), proposed(), title=title("Both", "6"))
    return survey_sheet(room("bedroom"), title=title("Survey", "1"), paper="letter")


def read(name: str) -> Drawing:
    """Return a sheet's DXF as read back."""
    return ezdxf.read(io.StringIO(sheet(name).dxf().decode("utf-8")))  # type: ignore[attr-defined,no-any-return]


@pytest.mark.parametrize("name", ["living", "bath", "proposed", "both", "survey"])
def test_it_is_read_back_without_a_fault(name: str) -> None:
    """An auditor finds nothing to mend in the file."""
    audit = read(name).audit()
    assert audit.errors == []
    assert audit.fixes == []


@pytest.mark.parametrize("name", ["living", "bath", "survey"])
def test_two_runs_are_the_same_bytes(name: str) -> None:
    """No clock, no handle, no GUID differs from one run to the next."""
    assert sheet(name).dxf() == sheet(name).dxf()


def test_another_process_writes_the_same_bytes() -> None:
    """Neither hash order nor anything else of a process leaks into the files, DXF or SVG."""
    code = (
        "import hashlib; from tests.drawing.test_dxf import sheet; s = sheet('proposed');"
        "print(hashlib.sha256(s.dxf() + s.svg().encode()).hexdigest())"
    )
    found = set()
    for seed in ("0", "1"):
        env = {**os.environ, "PYTHONHASHSEED": seed}
        done = subprocess.run(
            [sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True
        )
        found.add(done.stdout.strip())
    here = sheet("proposed")
    assert found == {hashlib.sha256(here.dxf() + here.svg().encode()).hexdigest()}


def test_model_space_is_at_true_size() -> None:
    """The sofa is 84 in by 38 in in inches; the bath's walls are in millimetres."""
    doc = read("living")
    assert doc.header["$INSUNITS"] == 1
    sofa = [e for e in doc.modelspace().query("LWPOLYLINE") if _path(e) == "rooms/living/pieces/sofa"]
    xs = [p[0] for e in sofa for p in e.get_points("xy")]
    ys = [p[1] for e in sofa for p in e.get_points("xy")]
    assert max(xs) - min(xs) == pytest.approx(38.0, abs=0.05)
    assert max(ys) - min(ys) == pytest.approx(84.0, abs=0.05)
    metric = read("bath")
    assert metric.header["$INSUNITS"] == 4
    lengths = [round(d.dxf.actual_measurement) for d in metric.modelspace().query("DIMENSION")]
    assert 710 in lengths


def _path(entity: object) -> str:
    tags = entity.get_xdata("HALFDROP") if entity.has_xdata("HALFDROP") else []  # type: ignore[attr-defined]
    return str(tags[-1].value) if len(tags) else ""


@pytest.mark.parametrize("name", ["living", "bath", "survey"])
def test_dimensions_are_real_and_tell_their_text(name: str) -> None:
    """Each dimension is a DIMENSION entity at factor 1 whose points span what its text says."""
    doc = read(name)
    assert doc.dimstyles.get("HALFDROP").dxf.dimlfac == 1.0
    dims = list(doc.modelspace().query("DIMENSION"))
    assert len(dims) >= 4
    for dim in dims:
        assert dim.dxf.dimstyle == "HALFDROP"
        assert dim.get_geometry_block() is not None
        if name == "bath":
            assert round(dim.dxf.actual_measurement) == int(dim.dxf.text)
        else:
            assert re.fullmatch(r"(\d+′ )?\d*[ ½¼¾⅛⅜⅝⅞]*(\d+⁄16)?″", dim.dxf.text)


def test_every_entity_is_on_a_layer_of_the_standard() -> None:
    """Layer names are discipline, major group, minor groups, and a status letter; nothing lies on layer 0."""
    pattern = re.compile(r"[A-Z]{1,2}-[A-Z]{4}(-[A-Z]{4}){0,2}(-[ENDMXFT])?")
    for name in ("living", "proposed", "survey"):
        layers = {e.dxf.layer for e in read(name).modelspace()}
        assert layers <= set(LAYERS)
    assert all(pattern.fullmatch(name) for name in LAYERS)


def test_the_sheet_is_the_paper_space() -> None:
    """Paper space holds notes and strip at the paper's size, and a viewport that shows the model at its scale."""
    doc = read("living")
    space = doc.paperspace()
    assert (space.dxf.paper_width, space.dxf.paper_height) == (431.8, 279.4)
    view = next(v for v in space.query("VIEWPORT") if v.dxf.layer == "G-ANNO-NPLT")
    assert view.dxf.view_height / view.dxf.height == pytest.approx(32 / 25.4)
    words = {t.dxf.text for t in space.query("TEXT")}
    assert {"Living room", "Plan", "Hazard."} <= words
    # the model point under a mark is where its note is anchored
    note = NOTES[0]
    rings = [c for c in space.query("CIRCLE") if _path(c) == note.path]
    assert rings
    places = [
        (
            (c.dxf.center.x - view.dxf.center.x) * 32 / 25.4 + view.dxf.view_center_point.x,
            (c.dxf.center.y - view.dxf.center.y) * 32 / 25.4 + view.dxf.view_center_point.y,
        )
        for c in rings
    ]
    wanted = (note.anchor[0] / 0.0254, note.anchor[1] / 0.0254)
    assert any(p == pytest.approx(wanted, abs=0.01) for p in places)


def test_both_views_stand_side_by_side() -> None:
    """Before and after keep their distance in model space: neither lies on the other."""
    sofas = [
        e for e in read("both").modelspace().query("LWPOLYLINE") if _path(e) == "rooms/living/pieces/sofa"
    ]
    xs = {e.dxf.layer: min(p[0] for p in e.get_points("xy")) for e in sofas}
    assert xs["I-FURN-N"] - xs["I-FURN-E"] > 22 * 12


def test_ink_is_seen_on_any_ground() -> None:
    """What is in ink has its layer's color (black or white), washes are a tint; only meaning has a color of its own."""
    doc = read("proposed")
    assert all(
        h.transparency == pytest.approx(0.75, abs=0.01) for h in doc.modelspace().query("HATCH") if h.rgb
    )
    walls = [e for e in doc.modelspace() if e.dxf.layer == "A-WALL"]
    assert walls
    assert all(e.rgb is None and e.dxf.color == 256 for e in walls)
    sofa = [
        e for e in doc.modelspace() if _path(e) == "rooms/living/pieces/sofa" and e.dxf.layer == "I-FURN-N"
    ]
    assert {e.rgb for e in sofa} == {(0x2F, 0x5D, 0x73)}


def test_status_tells_found_proposed_and_moved() -> None:
    """A proposal's pieces lie on the N layer, their ghosts on M, what stays on E."""
    layers = {}
    for entity in read("proposed").modelspace():
        layers.setdefault(_path(entity), set()).add(entity.dxf.layer)
    assert layers["rooms/living/pieces/sofa"] >= {"I-FURN-N", "I-FURN-M"}
    assert layers["rooms/living/pieces/table"] & {"I-FURN-N", "I-FURN-M"} == set()


def test_an_arc_keeps_its_sense() -> None:
    """A door's swing is a quarter about its hinge: every point as far from the hinge as the leaf is wide."""
    doc = read("living")
    swing = [
        e
        for e in doc.modelspace().query("LWPOLYLINE")
        if _path(e) == "rooms/living/openings/hall" and any(p[2] for p in e.get_points("xyb"))
    ]
    assert len(swing) == 1
    from ezdxf.path import make_path

    hinge = room("living").openings["hall"].leaves[0][0] / 0.0254
    for point in make_path(swing[0]).flattening(0.01):
        assert ((point.x - hinge[0]) ** 2 + (point.y - hinge[1]) ** 2) ** 0.5 == pytest.approx(34.0, abs=0.02)
