"""DXF back end: model space at 1:1, layers by the National CAD Standard, the same bytes each run.

Fills of the paper's own color are left out: on a drawing made of layers nothing needs hiding. Dimensions are
true DIMENSION entities whose geometry is drawn here, so that no font of the machine decides where their text
stands.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import ezdxf
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment

from halfdrop.base.formats import Units
from halfdrop.drawing.board import Frame
from halfdrop.drawing.layers import LAYERS
from halfdrop.drawing.metrics import cap_height
from halfdrop.drawing.svg import OVERRUN, TICK, expand
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import (
    XY,
    Arc,
    Area,
    Begin,
    Dimension,
    End,
    Line,
    Text,
    Verb,
    Vertex,
)

APP = "HALFDROP"
_ALIGN = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}
_LINETYPES = {"ghost": "HD-GHOST", "overhead": "HD-OVERHEAD", "fine": "HD-FINE"}


@dataclass(frozen=True)
class Layout:
    """What stands on the paper round a drawing: its size [mm] and its verbs."""

    width: float
    height: float
    verbs: tuple[Verb, ...]


def to_dxf(frame: Frame, verbs: Iterable[Verb], *, units: Units, layout: Layout | None = None) -> bytes:
    """Return a drawing as a DXF document (AC1027), true size in model space.

    Parameters
    ----------
    frame : Frame
        Plan metres to paper millimetres, not turned; what stands elsewhere on the sheet keeps its distance.
    verbs : iterable of Verb
        Of the drawing.
    units : {"imperial", "metric"}
        Inches or millimetres.
    layout : Layout, optional
        The sheet: becomes the paper space, with one viewport onto the drawing at its scale.
    """
    unit = 1 / 0.0254 if units == "imperial" else 1000.0
    options = ezdxf.options  # type: ignore[attr-defined]
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # no clock, no new GUIDs
    try:
        doc = Drawing.new("R2013")
        mm = unit / frame.scale
        _tables(doc, mm, units)
        _Writer(doc, doc.modelspace(), frame, unit).write(verbs)
        if layout is not None:
            _paper(doc, layout, frame, unit)
        # the library keeps the classes it must declare in a set: put them in an order that no hash decides
        doc.classes.add_required_classes(doc.dxfversion)
        doc.classes.classes = dict(sorted(doc.classes.classes.items()))
        stream = io.StringIO()
        doc.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return stream.getvalue().encode("utf-8")


def _tables(doc: Drawing, mm: float, units: Units) -> None:
    """Fill header and tables; `mm` is model units to a paper millimetre."""
    imperial = units == "imperial"
    doc.header["$INSUNITS"] = 1 if imperial else 4
    doc.header["$MEASUREMENT"] = 0 if imperial else 1
    doc.header["$LUNITS"] = 4 if imperial else 2
    doc.header["$LUPREC"] = 4 if imperial else 0
    doc.header["$PSLTSCALE"] = 0
    doc.appids.add(APP)
    for name, dash in tokens().dashes.items():
        lengths = [part * mm * (1 if k % 2 == 0 else -1) for k, part in enumerate(dash)]
        doc.linetypes.add(_LINETYPES[name], [sum(map(abs, lengths)), *lengths], description=name)
    for name, layer in LAYERS.items():
        entry = doc.layers.add(name, color=7, lineweight=layer.weight)
        entry.description = layer.what
        entry.dxf.plot = int(layer.plots)
    for name, face in tokens().fonts.items():
        doc.styles.add(name.upper(), font=face.file)
    style = doc.dimstyles.add(APP)
    style.dxf.dimlfac = 1.0
    style.dxf.dimtxt = cap_height(tokens().sizes["small"]) * mm
    style.dxf.dimtsz = TICK / 2 * mm
    style.dxf.dimtad, style.dxf.dimtih, style.dxf.dimtoh = 1, 0, 0
    style.dxf.dimexe = OVERRUN * mm
    style.dxf.dimlunit = 4 if imperial else 2


def _paper(doc: Drawing, layout: Layout, frame: Frame, unit: float) -> None:
    """Make the paper space: the sheet in millimetres, and a viewport over all of it."""
    space = doc.paperspace()
    space.page_setup(size=(layout.width, layout.height), margins=(0, 0, 0, 0), units="mm")
    center = frame.inverse((layout.width / 2, layout.height / 2))
    view = space.add_viewport(
        center=(layout.width / 2, layout.height / 2),
        size=(layout.width, layout.height),
        view_center_point=(center[0] * unit, center[1] * unit),
        view_height=layout.height * unit / frame.scale,
    )
    view.dxf.layer = "G-ANNO-NPLT"
    _Writer(doc, space, Frame((0.0, layout.height), 1.0), 1.0, frame.scale / unit).write(layout.verbs)


class _Writer:
    def __init__(self, doc: Drawing, layout: Any, frame: Frame, unit: float, dashes: float = 1.0) -> None:
        self.doc, self.layout, self.frame, self.unit, self.dashes = doc, layout, frame, unit, dashes
        self.mm = unit / frame.scale  # units to a paper millimetre
        self.groups: list[Begin] = []

    def write(self, verbs: Iterable[Verb]) -> None:
        for verb in verbs:
            self.add(verb, self.layout)

    def add(self, verb: Verb, to: Any) -> None:
        match verb:
            case Begin():
                self.groups.append(verb)
            case End():
                self.groups.pop()
            case Line():
                self.run(to, verb.points, verb.closed, self.look(verb.ink, verb.pen, verb.dash))
            case Area():
                self.area(to, verb)
            case Arc():
                self.arc(to, verb)
            case Text():
                attribs = self.look(verb.ink, None, None)
                attribs |= {
                    "style": verb.font.upper(),
                    "height": cap_height(verb.size, verb.font) * self.mm,
                    "rotation": -verb.turn,
                }
                entity = to.add_text(verb.text, dxfattribs=attribs)
                entity.set_placement(self.point(verb.at), align=_ALIGN[verb.anchor])
                self.tag(entity)
            case Dimension():
                self.dimension(to, verb)

    def look(self, ink: str, pen: str | None, dash: str | None) -> dict[str, Any]:
        """Return layer, color, weight and line type of an entity, by the group it is in."""
        layer = self.groups[-1].layer if self.groups else "0"
        out: dict[str, Any] = {"layer": layer}
        if ink != "ink":  # ink itself is by layer: black on a light ground, white on a dark one
            out["true_color"] = int(tokens().inks["light"][ink][1:], 16)
        if pen is not None:
            out["lineweight"] = round(tokens().pens[pen] * 100)
        if dash is not None:
            out["linetype"] = _LINETYPES[dash]
            out["ltscale"] = self.dashes
        return out

    def tag(self, entity: Any) -> None:
        """Keep the path of the job on an entity."""
        path = next((g.path for g in reversed(self.groups) if g.path), "")
        if path:
            entity.set_xdata(APP, [(1000, path[:255])])

    def point(self, p: XY | Vertex) -> XY:
        x, y = self.frame.inverse((p[0], p[1]))
        return (round(x * self.unit, 6) + 0.0, round(y * self.unit, 6) + 0.0)

    def vertices(self, points: Iterable[Vertex]) -> list[tuple[float, float, float]]:
        return [(*self.point(p), -p[2] if len(p) > 2 else 0.0) for p in points]

    def run(self, to: Any, points: tuple[Vertex, ...], closed: bool, look: dict[str, Any]) -> None:
        entity = to.add_lwpolyline(self.vertices(points), format="xyb", close=closed, dxfattribs=look)
        self.tag(entity)

    def area(self, to: Any, area: Area) -> None:
        if area.color is not None or area.fill not in (None, "paper"):
            hatch = to.add_hatch(dxfattribs=self.look(area.fill or "ink", None, None))
            if area.color is not None:
                hatch.rgb = tuple(bytes.fromhex(area.color[1:]))
            elif area.fill == "wash":  # a tint that is light on light and dark on dark
                hatch.rgb, hatch.transparency = (128, 128, 128), 0.75
            for k, ring in enumerate(area.rings):
                flags = 1 if k == 0 else 16
                hatch.paths.add_polyline_path(self.vertices(ring), is_closed=True, flags=flags)
            self.tag(hatch)
        if area.pen is not None:
            for ring in area.rings:
                self.run(to, ring, True, self.look(area.ink, area.pen, area.dash))

    def arc(self, to: Any, arc: Arc) -> None:
        if arc.pen is None:
            return
        look = self.look(arc.ink, arc.pen, arc.dash)
        rx, ry = arc.rx * self.mm, arc.ry * self.mm
        center = self.point(arc.center)
        whole = abs(arc.sweep) >= 360
        # y turns over: angles change sign, and a sweep runs counterclockwise from its lesser end
        first, last = sorted((-arc.start, -arc.start - arc.sweep))
        if abs(rx - ry) < 1e-6:
            if whole:
                entity = to.add_circle(center, rx, dxfattribs=look)
            else:
                entity = to.add_arc(center, rx, first - arc.turn, last - arc.turn, dxfattribs=look)
        else:
            turn = math.radians(-arc.turn)
            if ry > rx:
                rx, ry, turn, first, last = ry, rx, turn + math.pi / 2, first - 90, last - 90
            axis = (rx * math.cos(turn), rx * math.sin(turn))
            start, end = (0.0, math.tau) if whole else (math.radians(first), math.radians(last))
            entity = to.add_ellipse(center, axis, ry / rx, start, end, dxfattribs=look)
        self.tag(entity)

    def dimension(self, to: Any, dim: Dimension) -> None:
        block: Any = self.doc.blocks.new_anonymous_block(type_char="D")
        for verb in expand(dim):
            self.add(verb, block)
        angle = math.radians(-dim.turn)
        a, b, base = self.point(dim.a), self.point(dim.b), self.point(dim.base)
        u = (math.cos(angle), math.sin(angle))
        length = abs((b[0] - a[0]) * u[0] + (b[1] - a[1]) * u[1])
        attribs = self.look(dim.ink, None, None)
        middle = self.point(dim.text_at)
        attribs |= {
            "dimtype": 0 | 32 | 128,
            "dimstyle": APP,
            "geometry": block.name,
            "defpoint": (*base, 0.0),
            "defpoint2": (*a, 0.0),
            "defpoint3": (*b, 0.0),
            "text_midpoint": (*middle, 0.0),
            "text": dim.text,
            "angle": -dim.turn,
            "actual_measurement": length,
        }
        self.tag(to.new_entity("DIMENSION", attribs))
