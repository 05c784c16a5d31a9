"""The loupe on the plan: nearer under the pointer, along the sheet, the whole again; notes stay with their marks."""

from __future__ import annotations

import itertools
from typing import Any

from playwright.sync_api import Page, expect

from tests.web.journeys.conftest import Workbench, open_plan, pick_note, until

TABLE = 'g.thing[data-path="rooms/living/pieces/coffee-table"]'


def _box(page: Page, selector: str) -> dict[str, float]:
    box: Any = page.locator(selector).first.bounding_box()
    assert box is not None
    return dict(box)


def _middle(page: Page, selector: str) -> tuple[float, float]:
    box = _box(page, selector)
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_the_wheel_goes_nearer_under_the_pointer(page: Page, bench: Workbench) -> None:
    """What lies under the pointer stays under it to a px or two, and grows; 0 brings the whole sheet back."""
    open_plan(page, bench, bench.demo())
    x, y = _middle(page, TABLE)
    small = _box(page, TABLE)["width"]
    page.mouse.move(x, y)
    for _ in range(4):
        page.mouse.wheel(0, -120)
    until(lambda: _box(page, TABLE)["width"] > 2 * small)
    now = _middle(page, TABLE)
    assert abs(now[0] - x) < 3
    assert abs(now[1] - y) < 3
    page.keyboard.press("0")
    until(lambda: abs(_box(page, TABLE)["width"] - small) < 0.5)
    expect(page.get_by_role("button", name="Whole sheet")).to_be_disabled()


def test_marks_and_leaders_go_along(page: Page, bench: Workbench) -> None:
    """A mark in the window stands on its thing and has its leader; one beyond the window is not drawn, its note is."""
    open_plan(page, bench, bench.demo())
    notes = page.locator("li.note").count()
    page.mouse.move(*_middle(page, TABLE))
    for _ in range(5):
        page.mouse.wheel(0, -120)
    until(lambda: page.locator("#plan-over .mark").count() < notes)
    assert page.locator("li.note").count() == notes
    field, table = _box(page, "#plan-drawing"), _box(page, TABLE)
    marks = [mark.bounding_box() for mark in page.locator("#plan-over [data-note] .mark").all()]
    assert marks
    for mark in marks:
        assert mark is not None
        assert field["x"] - 15 <= mark["x"] + mark["width"] / 2 <= field["x"] + field["width"] + 15
    pick_note(page, "The coffee table stands")
    picked = _middle(page, "#plan-over .picked .mark")
    assert table["x"] - 20 < picked[0] < table["x"] + table["width"] + 20


def test_a_picked_note_comes_into_the_window(page: Page, bench: Workbench) -> None:
    """With the loupe near the table, picking the bookcase's note brings the bookcase under it."""
    open_plan(page, bench, bench.demo())
    page.mouse.move(*_middle(page, TABLE))
    for _ in range(6):
        page.mouse.wheel(0, -120)
    shelf = 'g.thing[data-path="rooms/living/pieces/bookcase"]'
    field = _box(page, "#plan-drawing")
    until(lambda: _box(page, shelf)["y"] > field["y"] + field["height"])
    pick_note(page, "bookcase")
    until(lambda: _box(page, shelf)["y"] < field["y"] + field["height"])
    expect(page.locator("#plan-over .picked .mark")).to_have_count(1)


def test_keys_and_a_hand_on_the_paper_move_along_the_sheet(page: Page, bench: Workbench) -> None:
    """+ goes nearer, arrows with Ctrl move along, the paper follows a hand where nothing lies; nothing is kept."""
    job = bench.demo()
    open_plan(page, bench, job)
    for _ in range(3):
        page.keyboard.press("+")
    until(lambda: page.locator(".drawing.near").count() == 1)
    before = _middle(page, TABLE)
    page.keyboard.press("Control+ArrowLeft")
    until(lambda: _middle(page, TABLE)[0] > before[0] + 40)
    at = _middle(page, TABLE)
    field = _box(page, "#plan-drawing")
    free = next(
        (field["x"] + u * field["width"], field["y"] + v * field["height"])
        for u, v in itertools.product((0.2, 0.35, 0.65, 0.8), (0.9, 0.8, 0.2))
        if page.evaluate(
            "([x, y]) => !document.elementFromPoint(x, y)?.closest('g.thing')",
            [field["x"] + u * field["width"], field["y"] + v * field["height"]],
        )
    )
    page.mouse.move(*free)
    page.mouse.down()
    page.mouse.move(free[0], free[1] - 60, steps=4)
    page.mouse.up()
    until(lambda: abs(_middle(page, TABLE)[1] - at[1]) > 30)
    assert bench.revision(job) == 1


def test_a_pinch_goes_nearer_and_moves_nothing(page: Page, bench: Workbench) -> None:
    """Two fingers apart make the drawing larger, and the table under one of them stays in its place."""
    job = bench.demo()
    open_plan(page, bench, job)
    x, y = _middle(page, TABLE)
    small = _box(page, TABLE)["width"]
    page.evaluate("Element.prototype.setPointerCapture = () => {}")
    field = page.locator(".field")

    def finger(kind: str, number: int, at: float) -> None:
        touch = {"pointerId": number, "pointerType": "touch", "isPrimary": number == 1, "button": 0}
        field.dispatch_event(kind, {**touch, "bubbles": True, "clientX": at, "clientY": y})

    finger("pointerdown", 1, x - 40)
    finger("pointerdown", 2, x + 40)
    for k in range(1, 9):
        finger("pointermove", 1, x - 40 - 10 * k)
        finger("pointermove", 2, x + 40 + 10 * k)
    finger("pointerup", 1, x - 120)
    finger("pointerup", 2, x + 120)
    until(lambda: _box(page, TABLE)["width"] > 2 * small)
    assert bench.revision(job) == 1


def test_a_thing_is_dragged_under_the_loupe(page: Page, bench: Workbench) -> None:
    """Under the loupe a drag of 60 px moves the table by as much less as the drawing is larger."""
    job = bench.demo()
    open_plan(page, bench, job)
    x, y = _middle(page, TABLE)
    page.mouse.move(x, y)
    for _ in range(4):
        page.mouse.wheel(0, -120)
    page.wait_for_selector(".drawing.near")
    page.mouse.down()
    page.mouse.move(x + 30, y + 30, steps=3)
    page.mouse.move(x + 60, y + 60, steps=3)
    page.mouse.up()
    until(lambda: bench.revision(job) == 2)
    expect(page.locator(".drawing.near")).to_have_count(1)
    now = _middle(page, TABLE)
    assert abs(now[0] - x - 60) < 25
    assert abs(now[1] - y - 60) < 25
