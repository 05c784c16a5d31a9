"""The painter's sheets: one for each room that is painted, surface by surface."""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.base.errors import At, HalfdropError
from halfdrop.book.trades import (
    Fact,
    TradeCautions,
    TradeFacts,
    TradeFigure,
    TradeList,
    TradePart,
    TradeSheet,
    TradeTable,
)
from halfdrop.drawing.strips import unfolded_figure
from halfdrop.job.finishes import Finish, Paint
from halfdrop.room import ResolvedRoom
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_strips import drawn_face
from halfdrop.services.trade_words import capital, cautions_by_id, plural
from halfdrop.walls import UNNAMED, PaintAnswer, PaintRoom, faces_of, paint_job, wall_areas
from halfdrop.walls.faces import chosen

CAUTIONS = ("lead", "asbestos", "fumes", "ladders")
#: The order surfaces are painted in.
_ORDER = {"ceiling": 0, "walls": 1, "trim": 2}
_CHANGE = {"same": "the color stays", "near": "a near color", "strong": "a strong change of color"}


def painter_sheets(counts: Counts, letter: str) -> Iterator[TradeSheet]:
    """Give a sheet for each room with a finish in paint."""
    rooms: dict[str, dict[str, PaintRoom]] = {}
    for finishes in counts.finishes[1].values():
        for finish in finishes:
            rooms.setdefault(finish.path.split("/")[1], {})[finish.path] = finish
    answers: dict[str, PaintAnswer] = {}
    n = 0
    for key in counts.rooms:
        if key in rooms:
            n += 1
            surfaces = sorted(rooms[key].values(), key=lambda f: (_ORDER[f.on], f.path))
            yield _sheet(counts, counts.rooms[key], surfaces, answers, f"{letter}{n}")


def _answer(counts: Counts, key: str, known: dict[str, PaintAnswer]) -> PaintAnswer:
    if key not in known:
        try:
            known[key] = paint_job(key, counts.job.paints.get(key), counts.finishes[1][key], counts.practice)
        except HalfdropError as error:
            raise counts.opened.placed(error.placed(At(path=f"paints/{key}"))) from error
    return known[key]


def _finish(room: ResolvedRoom, counted: PaintRoom) -> Finish:
    return room.model.finishes[counted.path.rsplit("/", 1)[-1]]


def _paint(counts: Counts, key: str) -> tuple[str, Paint | None]:
    paint = counts.job.paints.get(key)
    return (paint.name if paint is not None else "primer, not yet chosen"), paint


def _surface(room: ResolvedRoom, counted: PaintRoom) -> str:
    """Return what a finish covers, in words."""
    finish = _finish(room, counted)
    if counted.on == "trim":
        parts = list(counted.trim.runs) if counted.trim is not None else []
        doors = counted.trim.doors if counted.trim is not None else 0
        return "Trim: " + ", ".join([*parts, *([plural(doors, "door")] if doors else [])])
    if counted.on == "ceiling":
        return "Ceiling"
    return f"Walls {', '.join(finish.walls)}" if finish.walls else "Walls, all"


def _sheet(
    counts: Counts, room: ResolvedRoom, surfaces: list[PaintRoom], known: dict[str, PaintAnswer], number: str
) -> TradeSheet:
    say = counts.say
    parts: list[TradePart] = [_surfaces(counts, room, surfaces), _paints(counts, room, surfaces, known)]
    parts += _walls(counts, room, surfaces)
    for counted in surfaces:
        if counted.on == "trim" and counted.trim is not None:
            facts: list[Fact] = [
                (capital(kind), f"{say.fix(run)} of run") for kind, run in counted.trim.runs.items()
            ]
            if counted.trim.doors:
                facts.append(("Doors", f"{counted.trim.doors}, this room's side"))
            parts.append(TradeFacts("Trim", (*facts, ("Together", say.area(counted.trim.area)))))
    parts.append(TradeList("Order of work", tuple(_steps(counts, room, surfaces)), numbered=True))
    parts.append(TradeCautions(cautions_by_id(*CAUTIONS)))
    names = list(dict.fromkeys(_surface(room, s).split(":")[0].split(",")[0].lower() for s in surfaces))
    colors = list(dict.fromkeys(_paint(counts, _finish(room, s).paint or "")[0] for s in surfaces))
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    lead = f"{capital(listed)} in {', '.join(colors)}."
    return TradeSheet(
        "painter", number, room.model.name, room.model.name, f"rooms/{room.id}", lead, tuple(parts)
    )


def _surfaces(counts: Counts, room: ResolvedRoom, surfaces: list[PaintRoom]) -> TradeTable:
    """Return each surface with its area, its paint and its coats."""
    say, rows = counts.say, []
    for counted in surfaces:
        finish = _finish(room, counted)
        name, paint = _paint(counts, finish.paint or "")
        look = ", ".join(t for t in (paint.color, paint.sheen) if t) if paint is not None else ""
        ground = "–"
        if counted.coats.ground == "mist":
            ground = f"{plural(counted.coats.ground_coats, 'coat')} of it thinned"
        elif counted.coats.ground == "primer":
            primer = _paint(counts, finish.primer or UNNAMED)[0]
            ground = f"{plural(counted.coats.ground_coats, 'coat')} of {primer}"
        rows.append((_surface(room, counted), say.area(counted.area), f"{name} ({look})" if look else name, ground,
                     str(counted.coats.finish), f"{finish.substrate}; {_CHANGE[finish.change]}"
                     + ("; textured" if finish.textured else "")))  # fmt: skip
    head = ("Surface", "To cover", "Paint", "Ground", "Coats", "On what")
    return TradeTable("Surfaces", head, tuple(rows), (1.3, 0, 1.4, 1, 0, 1), (1, 4))


def _paints(
    counts: Counts, room: ResolvedRoom, surfaces: list[PaintRoom], known: dict[str, PaintAnswer]
) -> TradeTable:
    """Return each paint with its spread, what this room takes of it, and the cans bought for the job."""
    say, rows = counts.say, []
    for key in dict.fromkeys(key for counted in surfaces for key in counted.wanted):
        answer, (name, _) = _answer(counts, key, known), _paint(counts, key)
        here = sum(counted.wanted.get(key, 0.0) for counted in surfaces)
        cans = " + ".join(f"{n} × {can.size.text}" for can, n in answer.cans.cans)
        others = [
            counts.job.rooms[r.path.split("/")[1]].name
            for r in answer.rooms
            if r.path.split("/")[1] != room.id
        ]
        shared = f", with {', '.join(dict.fromkeys(others))}" if others else ""
        rows.append((name, _spread(surfaces, key, room), say.volume(here), cans + shared))
    reserve = counts.practice.number("walls.paint_reserve")
    note = f"The cans hold {reserve:.0%} over what is wanted. Box cans of one color together before the first coat."
    head = ("Paint", "Spread, a coat", "This room", "Bought for the job")
    return TradeTable("Paint", head, tuple(rows), (1.2, 1.2, 0, 1.4), (2,), note)


def _spread(surfaces: list[PaintRoom], key: str, room: ResolvedRoom) -> str:
    """Return the spread a paint was counted by, as its working has it."""
    for counted in surfaces:
        if key not in counted.wanted:
            continue
        ground = key == UNNAMED or _finish(room, counted).paint != key
        wanted = counted.coats.ground if ground else "finish"
        for step in counted.workings[-1].steps:
            if step.what == wanted:
                return step.values.rsplit(" / ", 1)[1]
    return "as its label"


def _walls(counts: Counts, room: ResolvedRoom, surfaces: list[PaintRoom]) -> list[TradePart]:
    """Return the walls drawn, with what each opening takes off."""
    say, parts = counts.say, list[TradePart]()
    faces = faces_of(room)
    for counted in surfaces:
        if counted.on != "walls":
            continue
        finish = _finish(room, counted)
        covered = chosen(faces, finish.walls)
        top = float(finish.top) if finish.top is not None else None
        areas = wall_areas(covered, counts.practice, bottom=float(finish.bottom or 0.0), top=top)
        rows = []
        for wall in areas.walls:
            off = "; ".join(f"{_named(room, path)} {say.area(area)}" for path, area in wall.deductions) or "–"
            rows.append((wall.name, say.area(wall.gross), off, say.area(wall.net)))
        rows.append(("Together", say.area(areas.gross), "", say.area(areas.net)))
        band = ""
        if finish.bottom is not None or top is not None:
            low = say.fix(float(finish.bottom)) if finish.bottom is not None else "the floor"
            band = f"Covered from {low} to {say.fix(top) if top is not None else 'the ceiling'}."
        parts.append(TradeTable("Walls, openings taken off as taped", ("Wall", "Length × height", "Openings off", "To cover"), tuple(rows),
                                (0, 0, 1, 0), (1, 3), band))  # fmt: skip
        figure = unfolded_figure(
            [drawn_face(room, face, counted.path, say) for face in covered], counts.units
        )
        scale = figure.scale.name if figure.scale else ""
        parts.append(
            TradeFigure(
                figure.name, figure.svg(), figure.width, figure.height,
                f"Each wall faced from the room, its length and its height at the left  ·  {scale}",
            )
        )  # fmt: skip
    return parts


def _named(room: ResolvedRoom, path: str) -> str:
    key = path.rsplit("/", 1)[-1]
    return str(room.model.openings[key].name or key.replace("-", " "))


def _steps(counts: Counts, room: ResolvedRoom, surfaces: list[PaintRoom]) -> list[str]:
    on = {counted.on for counted in surfaces}
    steps = [
        "Clear the room or bring all of it to the middle under sheets; cover the floor wall to wall, taped at the edges.",
        "Power off for the plates; plates off, what stays masked.",
        "Test old paint before it is sanded. Wash, fill, let it dry, sand by a wet or a dust-free way, take the dust off.",
    ]
    for counted in surfaces:
        if counted.coats.ground != "none":
            what = "the paint thinned as its label says" if counted.coats.ground == "mist" else "primer"
            coats, under = plural(counted.coats.ground_coats, "coat"), _finish(room, counted).substrate
            steps.append(f"{_surface(room, counted)}: {coats} of {what} first, on {under}.")
    order = [name for name in ("ceiling", "walls", "trim") if name in on]
    told = {"ceiling": "the ceiling from the window inward", "walls": "the walls from the top down, a wet edge kept",
            "trim": "trim and doors last, along the grain"}  # fmt: skip
    steps.append(f"Paint {', then '.join(told[o] for o in order)}.")
    most = max(counted.coats.finish for counted in surfaces)
    if most > 1:
        steps.append(
            "Between coats wait as long as the can says, look in side light, touch up, sand lightly where it is glossy."
        )
    steps.append(
        "Masking off while the last coat is soft; plates back when it is dry. Leave a labeled rest of each color with the client."
    )
    return steps
