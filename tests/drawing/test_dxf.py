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
