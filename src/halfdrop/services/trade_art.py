"""The hanging sheets: one for each wall that works are hung on."""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.art.setting_out import Edge, HookPoint, hook_points
from halfdrop.art.wall_face import ArtWall
from halfdrop.audit.art_case import walls_hung
from halfdrop.audit.case import RoomCase
from halfdrop.base.errors import InputError
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
from halfdrop.drawing.elevation import Shown, shown_of
from halfdrop.drawing.figure import Figure
from halfdrop.drawing.hanging import DrawnFrame, DrawnHook, hook_figure
from halfdrop.services.hanging_job import HungWall, fixing_said, hung_on
from halfdrop.services.hanging_types import HungWork
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_words import Say, capital, plural

_DRILL = {
    "stud": "hammer, drill, bits for wood and board, hooks and anchors as above",
    "masonry": "hammer drill, masonry bits, plugs and screws as above",
    "unknown": "hammer, drill, bits for wood, board and masonry, fixings as above",
}
_WALL = {
    "stud": "board on studs; loads are for the board between them",
    "masonry": "solid",
    "unknown": "not known: taken for board on studs; try it where a frame will hide the hole",
}


def art_sheets(counts: Counts, letter: str, edge: Edge = "left") -> Iterator[TradeSheet]:
    """Give the hanging sheet of each wall that something is hung on anew.

    Raises
    ------
    InputError
        Where a wall is too large for the page.
    """
    n = 0
    for room in counts.rooms:
        case = counts.after.case(room)
        for wall in walls_hung(case):
            if _changed(counts, room, wall):
                n += 1
                yield art_sheet(counts, case, wall, f"{letter}{n}", edge)


def _changed(counts: Counts, room: str, wall: ArtWall) -> bool:
    """Return whether a work of a wall hangs otherwise than it was found; where no scheme says so, whether it hangs at all."""
    before = counts.opened.found.cases.get(room)
    if counts.after is counts.opened.found or before is None:
        return True
    works = [w for u in wall.units for w in u.works]
    return any(before.room.model.art.get(w.id) != w.model for w in works)


def art_sheet(counts: Counts, case: RoomCase, wall: ArtWall, number: str, edge: Edge = "left") -> TradeSheet:
    """Return the hanging sheet of one wall.

    Raises
    ------
    InputError
        Where the wall is too large for the page.

    Checked by: tests/services/test_trade_art.py.
    """
    say, hung = counts.say, hung_on(case, wall, edge)
    shown = shown_of(case.room, wall.name, counts.cloths, counts.practice)
    figure, rows, tops = figure_of(shown, hung, say, edge)
    stretches = wall.face.stretches
    corner = stretches[0].left_corner if edge == "left" else stretches[-1].right_corner
    parts: list[TradePart] = []
    scale = figure.scale.name if figure.scale else ""
    caption = f"Faced from the room  ·  {scale}  ·  over the wall, from corner {corner}; beside it, over the finished floor"
    parts.append(TradeFigure(figure.name, figure.svg(), figure.width, figure.height, caption))
    note = (
        "Each cross is where the hook takes hold of the wire or the ring, not where its nail goes in: the nail is higher by the "
        "hook's own height. Strike one level line and measure up from it where the floor runs off."
    )
    if rows:
        parts.append(
            TradeTable(
                "Hooks",
                ("Hook", "Work", f"From corner {corner}", "From the floor"),
                tuple(rows),
                (0, 1.4, 1, 1),
                (),
                note,
            )
        )
    if tops:
        told = "The wire was not taped. Pull it up taut in the middle, measure from it to the top of the frame, and take that off."
        parts.append(
            TradeTable("Hooks still to be found", ("Work", "", f"Middle from corner {corner}", "Top of the frame over the floor"),
                       tuple(tops), (0, 1.4, 1, 1), (), told)
        )  # fmt: skip
    parts.append(TradeTable("Weight and fixing", ("Work", "", "Weighs", "One hook carries", "Fixing"), tuple(_fixings(case, hung, say)),
                            (0, 1.4, 0.8, 0.8, 1.8), ()))  # fmt: skip
    parts.append(TradeFacts("The wall", _wall_facts(case, hung)))
    parts.append(TradeList("Order of work", _steps(hung, edge), numbered=True))
    build = case.room.model.wall_build
    tools = ("long level or a laser, steel tape, pencil, detector for studs and cables, scale for what was not weighed", _DRILL[build],
             "step ladder, and a second person for what is wide or heavy")  # fmt: skip
    parts.append(TradeList("Tools", tools))
    parts.append(TradeCautions(tuple(_split(c) for c in hung.cautions)))
    count = len(hung.works)
    lead = f"{capital(plural(count, 'work'))} on wall {wall.name}, set out from corner {corner}."
    name = hung.works[0].work.name if count == 1 else f"Works on wall {wall.name}"
    path = f"{case.room.path}/art/{hung.ids[0]}"
    return TradeSheet("art", number, capital(name), case.room.model.name, path, lead, tuple(parts))


def figure_of(
    shown: Shown, hung: HungWall, say: Say, edge: Edge = "left"
) -> tuple[Figure, list[tuple[str, ...]], list[tuple[str, ...]]]:
    """Return the drawing of a wall with its hooks, a row for each hook, and a row for each work whose hooks are not known."""
    drawn: list[DrawnHook] = []
    bare: list[DrawnFrame] = []
    rows: list[tuple[str, ...]] = []
    tops: list[tuple[str, ...]] = []
    width = hung.face.face.width
    for n, work in enumerate(hung.works, 1):
        points = points_of(work)
        for point, suffix in zip(points, ("",) if len(points) == 1 else ("a", "b"), strict=False):
            off = point.x if edge == "left" else width - point.x
            floor = hung.face.face.floor(point.x)
            hook = DrawnHook(f"{n}{suffix}", point.x, point.y, say.fix(off), say.fix(point.y - floor))
            drawn.append(hook)
            rows.append((hook.mark, work.work.name, hook.off, hook.up))
        if not points:
            x, top = work.frame.center[0], work.frame.y1
            bare.append(DrawnFrame(str(n), x, top))
            off = x if edge == "left" else width - x
            tops.append((str(n), work.work.name, say.fix(off), say.fix(top - hung.face.face.floor(x))))
    return hook_figure(shown, drawn, say.units, bare=bare, edge=edge), rows, tops


def points_of(work: HungWork) -> tuple[HookPoint, ...]:
    """Return where the hooks of a hung work bear on its elevation [m]; none where they are not known."""
    if work.hang is None:
        return ()
    try:
        return hook_points(work.work.name, work.frame, work.hang)
    except InputError:
        return ()


def _fixings(case: RoomCase, hung: HungWall, say: Say) -> Iterator[tuple[str, ...]]:
    for n, (key, work) in enumerate(zip(hung.ids, hung.works, strict=True), 1):
        said = fixing_said(case.room.art[key].model, work)
        yield str(n), work.work.name, say.mass(work.mass), say.mass(work.load), said


def _wall_facts(case: RoomCase, hung: HungWall) -> tuple[Fact, ...]:
    facts: list[Fact] = [("Built", _WALL[case.room.model.wall_build])]
    facts += [("Note", note) for note in hung.notes]
    return tuple(facts)


def _split(caution: str) -> Fact:
    title, _, text = caution.partition(": ")
    return title, text


def _steps(hung: HungWall, edge: Edge) -> tuple[str, ...]:
    first = hung.works[0].work.name
    return (
        "Tape the wall and each frame again at this sheet's numbers before the first hole, and the drop of each wire.",
        f"Mark the hooks from the {edge} corner and the floor, on tape stuck to the wall; look for cables and pipes at each mark.",
        "Put the fixings in; pull down hard on each before anything hangs on it.",
        f"Begin with 1, the {first}; then in the order of the numbers, so that gaps are set against what hangs already."
        if len(hung.works) > 1
        else f"Hang the {first}, level it, step back to the door and look.",
        "Put felt behind both lower corners, so that frames stay level and the wall stays clean.",
    )
