"""SVG back end: true millimetres, one group per thing with its `data-path`, classes from the tokens."""

from __future__ import annotations

import math
from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from halfdrop.drawing.metrics import cap_height, runs, text_width
from halfdrop.drawing.tokens import Ground, tokens
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
    bulge_arc,
)

#: Length of a dimension's tick, and how far its feet stand off the thing and overrun the line [mm].
TICK = 1.5
FOOT_GAP = 1.0
OVERRUN = 1.2


def to_svg(
    verbs: Iterable[Verb],
    width: float,
    height: float,
    *,
    title: str = "",
    ground: Ground = "light",
    fonts: str = "",
) -> str:
    """Return a sheet as an SVG document that prints at its true size.

    Parameters
    ----------
    verbs : iterable of Verb
        What to draw, in order.
    width, height : float
        Of the paper [mm].
    title : str
        Read out by a screen reader; the sheet's name.
    ground : {"light", "dark"}
        Which inks.
    fonts : str
        `@font-face` rules to carry inside, from `embed.font_rules`.
    """
    w, h = num(width), num(height)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" '
        f'viewBox="0 0 {w} {h}" role="img">',
        f"<title>{escape(title)}</title>",
        f"<style>{fonts}{stylesheet(ground)}</style>",
        f'<rect class="f-paper" width="{w}" height="{h}"/>',
    ]
    lines.extend(fragment(verbs))
    lines.append("</svg>")
    return "\n".join(lines) + "\n"


def stylesheet(ground: Ground) -> str:
    """Return the classes that the drawing uses, one rule to a token."""
    look = tokens()
    rules = ["svg{fill:none;stroke-linecap:round;stroke-linejoin:round}"]
    for name, color in look.inks[ground].items():
        rules.append(f".s-{name}{{stroke:{color}}}.f-{name}{{fill:{color}}}")
    rules += [f".p-{name}{{stroke-width:{num(pen)}}}" for name, pen in look.pens.items()]
    for name, parts in look.dashes.items():
        rules.append(f".d-{name}{{stroke-dasharray:{' '.join(num(p) for p in parts)};stroke-linecap:butt}}")
    for name, face in look.fonts.items():
        rules.append(
            f".t-{name}{{font-family:{families(face.family)};font-weight:{face.weight};font-style:{face.style}}}"
        )
    return "".join(rules)


def families(family: str) -> str:
    """Return a CSS font list: some readers keep a width apart from a family's name, so both ways stand in
    it.
    """
    if family == "Literata":
        return "'Literata',serif"
    return "'Barlow Semi Condensed','Barlow',sans-serif;font-stretch:semi-condensed"


def fragment(verbs: Iterable[Verb]) -> list[str]:
    """Return the verbs as lines of SVG."""
    out = []
    for verb in verbs:
        match verb:
            case Begin():
                path = f" data-path={quoteattr(verb.path)}" if verb.path else ""
                out.append(f'<g data-layer="{verb.layer}"{path}>')
            case End():
                out.append("</g>")
            case Line():
                out.append(_path(_way(verb.points, verb.closed), _stroke(verb.pen, verb.ink, verb.dash)))
            case Area():
                way = "".join(_way(ring, True) for ring in verb.rings)
                classes = [f"f-{verb.fill}"] if verb.fill and not verb.color else []
                rule = ' fill-rule="evenodd"' if len(verb.rings) > 1 else ""
                rule += f' fill="{verb.color}"' if verb.color else ""
                out.append(_path(way, classes + _stroke(verb.pen, verb.ink, verb.dash), rule))
            case Arc():
                out.append(_arc(verb))
            case Text():
                out.append(_text(verb))
            case Dimension():
                out.extend(fragment(expand(verb)))
    return out


def expand(dimension: Dimension) -> list[Verb]:
    """Return a dimension as lines and lettering: feet, line, 45° ticks, value."""
    a, b, base = dimension.a, dimension.b, dimension.base
    angle = math.radians(dimension.turn)
    ux, uy = math.cos(angle), math.sin(angle)

    def foot(p: XY) -> XY:
        along = (p[0] - base[0]) * ux + (p[1] - base[1]) * uy
        return (base[0] + along * ux, base[1] + along * uy)

    ends = (foot(a), foot(b))
    out: list[Verb] = []
    for p, q in zip((a, b), ends, strict=True):
        dx, dy = q[0] - p[0], q[1] - p[1]
        reach = math.hypot(dx, dy)
        if reach > FOOT_GAP + 0.2:
            dx, dy = dx / reach, dy / reach
            start = (p[0] + dx * FOOT_GAP, p[1] + dy * FOOT_GAP)
            out.append(Line((start, (q[0] + dx * OVERRUN, q[1] + dy * OVERRUN)), "hair", dimension.ink))
    out.append(Line(ends, "hair", dimension.ink))
    tx, ty = (ux + uy) * TICK / math.sqrt(8), (uy - ux) * TICK / math.sqrt(8)
    out += [Line(((x - tx, y - ty), (x + tx, y + ty)), "medium", dimension.ink) for x, y in ends]
    out.append(Area((_behind(dimension, ux, uy),)))
    out.append(
        Text(
            dimension.text_at,
            dimension.text,
            dimension.size,
            "lettering",
            dimension.ink,
            "middle",
            dimension.turn,
        )
    )
    return out


def _behind(dimension: Dimension, ux: float, uy: float) -> tuple[XY, ...]:
    """Return the ground of a dimension's value: lines under it are broken there."""
    half = text_width(dimension.text, dimension.size) / 2 + 0.3
    x, y = dimension.text_at
    corners = []
    for along, lift in ((-half, -0.35), (half, -0.35), (half, 0.35), (-half, 0.35)):
        up = lift if lift < 0 else cap_height(dimension.size) + lift
        corners.append((x + along * ux + up * uy, y + along * uy - up * ux))
    return tuple(corners)


def num(value: float) -> str:
    """Print a number to 0.001 without trailing zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _stroke(pen: str | None, ink: str, dash: str | None) -> list[str]:
    if pen is None:
        return []
    return [f"s-{ink}", f"p-{pen}"] + ([f"d-{dash}"] if dash else [])


def _path(way: str, classes: list[str], more: str = "") -> str:
    return f'<path class="{" ".join(classes)}" d="{way}"{more}/>'


def _way(points: tuple[Vertex, ...], closed: bool) -> str:
    parts = [f"M{num(points[0][0])} {num(points[0][1])}"]
    count = len(points)
    for i in range(count if closed else count - 1):
        here, there = points[i], points[(i + 1) % count]
        bulge = here[2] if len(here) > 2 else 0.0
        end = f"{num(there[0])} {num(there[1])}"
        if bulge:
            _, radius, _, sweep = bulge_arc((here[0], here[1]), (there[0], there[1]), bulge)
            large = int(abs(sweep) > math.pi)
            parts.append(f"A{num(radius)} {num(radius)} 0 {large} {int(bulge > 0)} {end}")
        elif i < count - 1:
            parts.append(f"L{end}")
    return "".join(parts) + ("Z" if closed else "")


def _arc(arc: Arc) -> str:
    classes = ([f"f-{arc.fill}"] if arc.fill else []) + _stroke(arc.pen, arc.ink, arc.dash)
    name = " ".join(classes)
    x, y = arc.center
    if abs(arc.sweep) >= 360:
        if abs(arc.rx - arc.ry) < 5e-4:
            return f'<circle class="{name}" cx="{num(x)}" cy="{num(y)}" r="{num(arc.rx)}"/>'
        turn = f' transform="rotate({num(arc.turn)} {num(x)} {num(y)})"' if num(arc.turn % 180) != "0" else ""
        radii = f'rx="{num(arc.rx)}" ry="{num(arc.ry)}"'
        return f'<ellipse class="{name}" cx="{num(x)}" cy="{num(y)}" {radii}{turn}/>'
    start, end = arc_ends(arc)
    large, sense = int(abs(arc.sweep) > 180), int(arc.sweep > 0)
    way = (
        f"M{num(start[0])} {num(start[1])}"
        f"A{num(arc.rx)} {num(arc.ry)} {num(arc.turn)} {large} {sense} {num(end[0])} {num(end[1])}"
    )
    return _path(way, classes)


def arc_ends(arc: Arc) -> tuple[XY, XY]:
    """Return where a part of an ellipse starts and ends."""
    turn = math.radians(arc.turn)
    ends = []
    for degrees in (arc.start, arc.start + arc.sweep):
        t = math.radians(degrees)
        u, v = arc.rx * math.cos(t), arc.ry * math.sin(t)
        ends.append(
            (
                arc.center[0] + u * math.cos(turn) - v * math.sin(turn),
                arc.center[1] + u * math.sin(turn) + v * math.cos(turn),
            )
        )
    return ends[0], ends[1]


def _text(text: Text) -> str:
    x, y = num(text.at[0]), num(text.at[1])
    turn = f' transform="rotate({num(text.turn)} {x} {y})"' if num(text.turn) != "0" else ""
    anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
    parts = runs(text.text, text.font)
    if len(parts) == 1:
        body = escape(text.text)
    else:
        body = "".join(
            f'<tspan dx="{num(run.gap * text.size)}">{escape(run.text)}</tspan>'
            if run.gap
            else escape(run.text)
            for run in parts
        )
    look = f'class="t-{text.font} f-{text.ink}" font-size="{num(text.size)}"'
    return f'<text {look} x="{x}" y="{y}"{anchor}{turn}>{body}</text>'
