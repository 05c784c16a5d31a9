"""On the plan: a note picked, a remedy drawn and taken, things moved by hand and by keys, everything undone."""

from __future__ import annotations

import re

from playwright.sync_api import Browser, Page, expect

from tests.web.journeys.conftest import Workbench, new_page, open_plan, pick_note, take_first_remedy, until


def _middle(page: Page, path: str) -> tuple[float, float]:
    box = page.locator(f'g.thing[data-path="{path}"]').bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_first_run_shows_the_demo(page: Page, bench: Workbench) -> None:
    """From the job list one press opens the demo's plan, with its notes in the margin."""
    page.goto(bench.url)
    page.get_by_role("button", name="The demo job").click()
    page.wait_for_selector("#plan-drawing svg")
    assert page.locator("li.note").count() > 5


def test_notes_and_marks_have_the_same_numbers(page: Page, bench: Workbench) -> None:
    """Every note's number stands on the drawing too, once."""
    open_plan(page, bench, bench.demo())
    notes = page.locator("li.note .ring").all_inner_texts()
    marks = page.locator("#plan-over .mark text").all_text_contents()
    assert sorted(notes) == sorted(marks)


def test_a_picked_note_says_measured_wanted_why_and_source(page: Page, bench: Workbench) -> None:
    """The note on the coffee table opens to both figures, the source, and lights the table and the sofa."""
    open_plan(page, bench, bench.demo())
    note = pick_note(page, "The coffee table stands")
    expect(note.locator("dt").first).to_have_text("measured")
    expect(note.locator("dt").nth(1)).to_contain_text("wanted")
    expect(note).to_contain_text("Source:")
    assert page.locator("#plan-drawing g.lit").count() >= 2
    assert page.locator("#plan-over .told").count() >= 1


def test_a_rug_too_small_is_put_right_by_a_previewed_remedy(page: Page, bench: Workbench) -> None:
    """In the dining room the rug's remedy is drawn in slate, taken into a new scheme, and its note is gone."""
    job = bench.demo()
    open_plan(page, bench, job, "dining")
    before = bench.document(job)["rooms"]
    take_first_remedy(page, "rug", scheme="Sunday table")
    page.wait_for_url(re.compile("scheme=sunday-table"))
    document = bench.document(job)
    assert document["rooms"] == before, "the rooms as found stay as they are"
    assert document["schemes"]["sunday-table"]["name"] == "Sunday table"
    step = document["schemes"]["sunday-table"]["steps"][0]
    assert step["finding"]
    until(lambda: page.locator(f'li.note[data-note="{step["finding"]}"]').count() == 0)


def test_what_is_sought_for_a_note_can_be_stopped(page: Page, bench: Workbench) -> None:
    """Stop ends the search at once and leaves the question to be asked again; another note's search takes its place."""
    job = bench.demo()
    ended: list[str] = []
    page.on("request", lambda r: ended.append(r.url) if r.method == "DELETE" else None)
    open_plan(page, bench, job, "dining")
    pick_note(page, "sideboard")
    open_note = page.locator("li.note.open")
    open_note.get_by_role("button", name="Stop").click()
    expect(open_note.get_by_role("button", name="What would put it right")).to_be_visible()
    until(lambda: len(ended) == 1)
    task = ended[0].rsplit("/", 1)[-1]
    assert bench.ask("GET", f"/api/tasks/{task}")["state"] == "cancelled"
    pick_note(page, "rug")
    expect(open_note.locator(".remedy").first).to_be_visible(timeout=60_000)


def test_a_remedy_left_leaves_nothing(page: Page, bench: Workbench) -> None:
    """A remedy drawn and left changes neither the job nor the drawing."""
    job = bench.demo()
    open_plan(page, bench, job)
    note = pick_note(page, "The coffee table stands")
    note.locator(".remedy").first.get_by_role("button", name="Draw it").click()
    page.wait_for_selector(".remedy.shown")
    assert page.locator('#plan-drawing g[data-layer$="-M"]').count() >= 1, (
        "where it stood is drawn as a ghost"
    )
    page.get_by_role("button", name="Leave it").click()
    until(lambda: page.locator('#plan-drawing g[data-layer$="-M"]').count() == 0)
    assert bench.revision(job) == 1


def test_the_seating_is_pulled_off_the_walls(page: Page, bench: Workbench) -> None:
    """The group against the walls is drawn in by its remedy, and the note is gone."""
    job = bench.demo()
    open_plan(page, bench, job)
    take_first_remedy(page, "against the walls", scheme="By the fire")
    page.wait_for_url(re.compile("scheme=by-the-fire"))
    until(lambda: page.locator("li.note", has_text="against the walls").count() == 0)
    title = bench.document(job)["schemes"]["by-the-fire"]["steps"][0]["title"]
    assert "off the wall" in title
    page.keyboard.press("Control+z")
    expect(page.locator(".strip .line")).to_contain_text(title)
    page.wait_for_url(lambda url: "scheme=" not in url)
    expect(page.locator("li.note", has_text="against the walls")).to_be_visible()


def test_the_rug_the_client_keeps_is_layered(page: Page, bench: Workbench) -> None:
    """The grandmother's rug stays, over a larger plain one, in the scheme that is open."""
    job = bench.demo()
    open_plan(page, bench, job)
    title = take_first_remedy(page, "front legs", scheme="First scheme")
    assert "over" in title
    page.wait_for_url(re.compile("scheme=first-scheme"))
    page.wait_for_selector("#plan-drawing svg")
    added = [op for step in bench.document(job)["schemes"]["first-scheme"]["steps"] for op in step["patch"]]
    assert any(op["op"] == "add" and re.fullmatch("/rooms/living/rugs/[^/]+", op["path"]) for op in added)
    until(lambda: page.locator('#plan-drawing g[data-path="rooms/living/rugs/heirloom"]').count() >= 1)


def test_a_drag_moves_ink_at_once_and_is_kept(page: Page, bench: Workbench) -> None:
    """The table follows the hand, its gaps stand beside it, and its new place is in the job."""
    job = bench.demo()
    open_plan(page, bench, job)
    path = "rooms/living/pieces/coffee-table"
    was = bench.document(job)["rooms"]["living"]["pieces"]["coffee-table"]["at"]
    x, y = _middle(page, path)
    page.mouse.move(x - 30, y + 14)
    page.mouse.down()
    page.mouse.move(x - 10, y - 40, steps=4)
    assert page.locator(f'g.thing[data-path="{path}"]').get_attribute("transform"), (
        "ink moves before any answer"
    )
    page.mouse.move(x + 20, y - 70, steps=8)
    page.wait_for_selector("#plan-over .caption.gap")
    page.mouse.up()
    until(lambda: bench.revision(job) == 2)
    now = bench.document(job)["rooms"]["living"]["pieces"]["coffee-table"]["at"]
    assert now != was


def test_a_drag_is_drawn_gently_to_what_it_nearly_does(page: Page, bench: Workbench) -> None:
    """Let go a little short of 3 in off the wall, the sofa stands 3 in off it, and the history says so."""
    job = bench.demo()
    open_plan(page, bench, job)
    x, y = _middle(page, "rooms/living/pieces/sofa")
    page.mouse.move(x + 40, y + 20)
    page.mouse.down()
    for k in range(1, 11):
        page.mouse.move(x + 40, y + 20 + k)
        page.wait_for_timeout(60)
    expect(page.locator("#plan-over .caption.snap")).to_be_visible()
    page.mouse.up()
    until(lambda: bench.revision(job) == 2)
    said = bench.ask("GET", f"/api/jobs/{job}/revisions")["revisions"][0]["message"]
    assert "wall CD" in said


def test_changes_are_signed(page: Page, bench: Workbench) -> None:
    """The name written on the job list stands in the history of what is done from then on."""
    job = bench.demo()
    page.goto(bench.url)
    page.get_by_label("Changes made here are signed").fill("Ines")
    page.keyboard.press("Tab")
    open_plan(page, bench, job)
    x, y = _middle(page, "rooms/living/pieces/sofa")
    page.mouse.click(x + 30, y + 20)
    page.fill("#blank-width", "80 in")
    page.keyboard.press("Enter")
    until(lambda: bench.revision(job) == 2)
    assert bench.ask("GET", f"/api/jobs/{job}/revisions")["revisions"][0]["author"] == "Ines"


def test_a_name_is_asked_for_once(browser: Browser, bench: Workbench) -> None:
    """At first use the page asks how to sign; not to sign is an answer, kept on the device and said in the history."""
    job, faults = bench.demo(), list[str]()
    page = new_page(browser, faults, asked=False)
    open_plan(page, bench, job)
    page.get_by_role("button", name="Do not sign").click()
    expect(page.locator(".signing")).to_have_count(0)
    page.reload()
    page.wait_for_selector("#plan-drawing svg")
    expect(page.locator(".signing")).to_have_count(0)
    x, y = _middle(page, "rooms/living/pieces/sofa")
    page.mouse.click(x + 30, y + 20)
    page.fill("#blank-width", "80 in")
    page.keyboard.press("Enter")
    until(lambda: bench.revision(job) == 2)
    assert bench.ask("GET", f"/api/jobs/{job}/revisions")["revisions"][0]["author"] == "unsigned"
    page.context.close()
    page = new_page(browser, faults, asked=False)
    page.goto(bench.url)
    page.get_by_label("sign what you change here").fill("Bram")
    page.keyboard.press("Enter")
    expect(page.locator(".signing")).to_have_count(0)
    expect(page.get_by_label("Changes made here are signed")).to_have_value("Bram")
    page.context.close()
    assert not faults


def test_a_touch_drags_too(page: Page, bench: Workbench) -> None:
    """A finger on the lamp moves it as a mouse does."""
    job = bench.demo()
    open_plan(page, bench, job)
    x, y = _middle(page, "rooms/living/pieces/coffee-table")
    field = page.locator(".field")
    touch = {"pointerId": 7, "pointerType": "touch", "isPrimary": True, "button": 0, "bubbles": True}
    page.evaluate("Element.prototype.setPointerCapture = () => {}")
    field.dispatch_event("pointerdown", {**touch, "clientX": x - 30, "clientY": y + 14})
    for k in range(1, 6):
        field.dispatch_event("pointermove", {**touch, "clientX": x - 30, "clientY": y + 14 - 10 * k})
    field.dispatch_event("pointerup", {**touch, "clientX": x - 30, "clientY": y - 36})
    until(lambda: bench.revision(job) == 2)


def test_keys_alone_pick_move_turn_and_undo(page: Page, bench: Workbench) -> None:
    """Tab to a thing, arrows move it 1/2 in, R turns it 15 degrees; Ctrl Z takes back and says what."""
    job = bench.demo()
    open_plan(page, bench, job)
    path = "rooms/living/pieces/coffee-table"
    page.locator(f'g.thing[data-path="{path}"]').focus()
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Tab")
    page.wait_for_selector(".slip")
    before = bench.document(job)["rooms"]["living"]["pieces"]["coffee-table"]
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    until(lambda: bench.revision(job) == 2)
    moved = bench.document(job)["rooms"]["living"]["pieces"]["coffee-table"]
    assert moved["at"] != before["at"]
    expect(page.locator("g.thing[transform]")).to_have_count(0)
    page.keyboard.press("r")
    until(lambda: bench.revision(job) == 3)
    assert bench.document(job)["rooms"]["living"]["pieces"]["coffee-table"]["turn"] == "15°"
    page.keyboard.press("Control+z")
    expect(page.locator(".strip .line")).to_contain_text("Undone")
    expect(page.locator(".cell.back .label")).to_have_text("Revision 4")
    page.keyboard.press("Control+z")
    expect(page.locator(".cell.back .label")).to_have_text("Revision 5")
    said = bench.ask("GET", f"/api/jobs/{job}/revisions")["revisions"]
    assert bench.document(job)["rooms"]["living"]["pieces"]["coffee-table"] == before, said


def test_an_exact_dimension_is_typed_in_any_notation(page: Page, bench: Workbench) -> None:
    """2.1 m across for the sofa is kept as typed; nonsense is said at the blank, and what was typed stays in it."""
    job = bench.demo()
    open_plan(page, bench, job)
    x, y = _middle(page, "rooms/living/pieces/sofa")
    page.mouse.click(x + 30, y + 20)
    page.fill("#blank-width", "2.1 m")
    page.keyboard.press("Enter")
    until(lambda: bench.document(job)["rooms"]["living"]["pieces"]["sofa"]["width"] == "2.1 m")
    page.fill("#blank-width", "eleven")
    page.keyboard.press("Tab")
    expect(page.locator(".blank-fault")).to_be_visible()
    assert bench.document(job)["rooms"]["living"]["pieces"]["sofa"]["width"] == "2.1 m"


def test_a_piece_is_put_in_and_taken_out(page: Page, bench: Workbench) -> None:
    """A bench from the list stands in the room with its usual size; taken out, it is gone."""
    job = bench.demo()
    open_plan(page, bench, job)
    page.get_by_role("button", name="Put something in").click()
    page.locator("#put-in .types button", has_text="bench").first.click()
    until(lambda: "bench" in bench.document(job)["rooms"]["living"]["pieces"])
    page.get_by_role("button", name="Take it out").click()
    until(lambda: "bench" not in bench.document(job)["rooms"]["living"]["pieces"])


def test_a_window_is_put_in_and_edited_on_the_plan(page: Page, bench: Workbench) -> None:
    """A window goes into the wall that is chosen; its sill is typed on its slip."""
    job = bench.demo()
    open_plan(page, bench, job, "dining")
    page.get_by_role("button", name="Put something in").click()
    page.select_option("#put-wall", "BC")
    page.locator("#put-in .types button", has_text="window").first.click()
    until(lambda: "window-2" in bench.document(job)["rooms"]["dining"]["openings"])
    page.fill("#blank-sill", "32 in")
    page.keyboard.press("Enter")
    until(lambda: bench.document(job)["rooms"]["dining"]["openings"]["window-2"]["sill"] == "32 in")


def test_everything_is_undone(page: Page, bench: Workbench) -> None:
    """Five changes and five times Undo: the job reads as it did at first."""
    job = bench.demo()
    first = bench.document(job)
    open_plan(page, bench, job)
    x, y = _middle(page, "rooms/living/pieces/sofa")
    page.mouse.click(x + 30, y + 20)
    for n, (blank, text) in enumerate(
        [
            ("width", "80 in"),
            ("depth", "36 in"),
            ("height", "30 in"),
            ("at-off", "4 in"),
            ("at-along", "60 in"),
        ],
        2,
    ):
        page.fill(f"#blank-{blank}", text)
        page.keyboard.press("Enter")
        until(lambda n=n: bench.revision(job) == n)
        expect(page.locator(".cell.back .label")).to_have_text(f"Revision {n}")
    for n in range(5):
        page.get_by_role("button", name="Undo").click()
        until(lambda n=n: bench.revision(job) == 7 + n)
        expect(page.locator(".cell.back .label")).to_have_text(f"Revision {7 + n}")
    assert bench.document(job) == first
