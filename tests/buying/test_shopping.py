"""The shopping list: what a scheme buys, moves, lets go, keeps, and what that comes to."""

from __future__ import annotations

import json
import math
from decimal import Decimal
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from halfdrop.audit.auditor import Auditor
from halfdrop.base.units import Money
from halfdrop.buying.shopping import shopping_list
from halfdrop.job.scheme import with_scheme
from tests.buying.jobs import document, listed, put, step

RUG = "/rooms/living/rugs/rug"
SOFA = "/rooms/living/pieces/sofa"


def usd(amount: int | str) -> Money:
    return Money(Decimal(amount), "USD")


def larger(*extra: dict[str, Any]) -> dict[str, Any]:
    return step(
        "Take 9 × 12 ft.", put(f"{RUG}/width", "9'"), put(f"{RUG}/length", "12'"), *extra, finding="f1"
    )


def chair(x: str, **more: Any) -> dict[str, Any]:
    return {
        "type": "dining chair",
        "width": "18 in",
        "depth": "20 in",
        "height": "34 in",
        "at": {"x": x, "y": "8'"},
        **more,
    }


def test_nothing_changed() -> None:
    """A scheme without steps buys nothing and everything stays."""
    result = listed()
    assert result.bought == result.moved == result.leaves == result.works == ()
    assert {s.name for s in result.stays} == {"rug", "sofa", "bookcase"}
    assert result.total == usd(0)
    assert result.left == usd(3000)


def test_replaced_rug_is_priced_from_stock() -> None:
    """A rug of the next size is bought, the old one leaves; its price is the stock's, not the old one's."""
    result = listed(larger())
    rug, pad = result.bought
    assert (rug.kind, rug.size, rug.price, rug.price_from) == ("rug", "9 × 12 ft", usd(1200), "stock list")
    assert (rug.why, rug.findings) == ("Take 9 × 12 ft.", ("f1",))
    assert [(x.path, x.size) for x in result.leaves] == [("rooms/living/rugs/rug", "8 × 10 ft")]
    assert "actual size" in rug.caution
    assert rug.caution in result.cautions
    # a pad for it, sold by the square foot: 8′ 10″ × 11′ 10″ is 104.5 sq ft, so 105 of them at $2
    assert (pad.kind, pad.size, pad.quantity, pad.total) == ("pad", "8′ 10″ × 11′ 10″", 105, usd(210))
    assert (pad.unit, pad.amount, rug.amount) == ("sq ft", "105 sq ft", "1 piece")
    assert result.total == usd(1410)
    assert result.left == usd(1590)


def test_pad_working_shows_the_rounding() -> None:
    """The working of a pad can be followed: inset, area, whole units rounded up, price."""
    working = next(w for w in listed(larger()).workings if w.title.startswith("Pad under rug"))
    wanted, units, price = working.steps
    assert wanted.values == "9 × 12 ft less 2 × 1″"
    assert wanted.result == "8′ 10″ × 11′ 10″"
    assert "rugs.pad_inset" in wanted.source
    assert (units.result, units.rounding.split(":")[0]) == ("105", "up from 104.53")
    assert price.result == "$210"


def test_pad_from_made_size() -> None:
    """Without pads sold by area, the pad is the smallest made size that covers the rug less its inset."""
    job = document()
    del job["stock"]["felt"]
    pad = listed(larger(), job=job).bought[1]
    assert (pad.size, pad.price) == ("9 × 12 ft", None)
    assert pad.caution == "Cut down to 8′ 10″ × 11′ 10″ once the rug lies."


def test_smaller_rug_keeps_its_pad() -> None:
    """Under a smaller rug the pad at hand is cut down, none is bought."""
    result = listed(step("Smaller.", put(f"{RUG}/width", "6'"), put(f"{RUG}/length", "9'")))
    assert [line.kind for line in result.bought] == ["rug"]
    assert result.works[0].what == "Cut the pad at hand down to rug."


def test_stale_price_is_not_believed() -> None:
    """Where only the size changed, the old price is not taken for the new thing's; the line says why."""
    job = document()
    job["stock"] = {}
    result = listed(larger(), job=job)
    assert [line.price for line in result.bought] == [None, None]
    assert "of the one it replaces" in result.bought[0].price_from
    assert (result.unpriced, result.total) == (2, usd(0))
    assert result.verdict == (
        "Nothing on the list is priced in USD yet; the budget is $3,000. "
        "2 of 2 lines have no price yet and are not in the sum."
    )


def test_several_stock_items_are_no_price() -> None:
    """Where two items of the stock list fit, none is chosen."""
    job = document()
    del job["rooms"]["living"]["rugs"]["rug"]["fiber"]
    rug = listed(larger(), job=job).bought[0]
    assert rug.price is None
    assert rug.price_from == "2 items of the stock list fit; choose one"


def test_price_in_the_patch_counts() -> None:
    """A price that a step sets is the price."""
    result = listed(larger(put(f"{RUG}/price", "$999")))
    assert (result.bought[0].price, result.bought[0].price_from) == (usd(999), "job")


def test_moved_from_and_to() -> None:
    """A moved piece is told from where to where, as it is set out by tape."""
    moved = listed(step("Pull it off.", put(f"{SOFA}/at/off", "6 in"))).moved[0]
    assert (moved.before, moved.after) == (
        "wall AB: 4′ 6″ from A, against it",
        "wall AB: 4′ 6″ from A, 6″ off it",
    )
    assert moved.why == "Pull it off."


def test_moved_distance_on_the_plan() -> None:
    """With the rooms resolved, how far a thing goes is the distance of its centers."""
    doc = document()
    patch = [put(f"{RUG}/at/x", "9'"), put(f"{RUG}/at/y", "7'")]
    doc["schemes"]["s"] = {"name": "S", "steps": [step("Move.", *patch)]}
    found, after = Auditor.of(doc), Auditor.of(with_scheme(doc, "s"))
    before_rooms, after_rooms = ({i: c.room for i, c in a.cases.items()} for a in (found, after))
    result = shopping_list(
        found.job, after.job, found.practice, found_rooms=before_rooms, proposed_rooms=after_rooms
    )
    assert result.moved[0].distance is not None
    assert math.isclose(result.moved[0].distance, math.sqrt(2) * 0.3048, rel_tol=1e-9)


def test_same_place_in_other_words() -> None:
    """A place written in another unit is no move."""
    assert listed(step("Same.", put(f"{SOFA}/at/along", "1371.6 mm"))).moved == ()


def test_turned() -> None:
    """A thing that is only turned is told as turned."""
    moved = listed(step("Turn.", put(f"{RUG}/turn", "90°", "add"))).moved[0]
    assert (moved.before, moved.after) == ("where it stands", "turned 90° counterclockwise")


def test_to_another_room() -> None:
    """A piece carried to another room neither leaves nor is bought."""
    ops = ({"op": "move", "from": "/rooms/living/pieces/bookcase", "path": "/rooms/study/pieces/bookcase"},)
    job = document()
    job["rooms"]["study"]["pieces"] = {}
    result = listed(step("To the study.", *ops), job=job)
    assert (result.bought, result.leaves) == ((), ())
    assert [(m.to_room, m.after.split(",")[0], m.why) for m in result.moved] == [
        ("study", "Study", "To the study.")
    ]


def test_anchor() -> None:
    """A piece anchored in the scheme needs a set of straps, and the caution defers to licensed work."""
    result = listed(step("Anchor.", put("/rooms/living/pieces/bookcase/anchored", True, "add")))
    line = result.bought[0]
    assert (line.kind, line.quantity, line.unit, line.total) == ("anchor", 1, "set", usd(18))
    assert "licensed" in line.caution
    assert "Local codes" in line.caution


def test_alike_are_one_line() -> None:
    """Six chairs of one make are one line of six; one of another price stands alone."""
    ops = [
        put(f"/rooms/living/pieces/chair-{i}", chair(f"{i} ft", price="$90", arrives=True), "add")
        for i in range(6)
    ]
    ops.append(put("/rooms/living/pieces/chair-9", chair("9 ft", price="$95", arrives=True), "add"))
    result = listed(step("Chairs.", *ops))
    assert [(line.name, line.quantity, line.total) for line in result.bought] == [
        ("chair", 6, usd(540)),
        ("chair 9", 1, usd(95)),
    ]
    assert result.bought[0].size == "18 × 20 × 34 in"


def test_what_arrives_already_counts() -> None:
    """What the room as found marks as arriving is listed apart and counts against the budget."""
    job = document()
    job["rooms"]["study"]["pieces"] = {
        "desk": {**chair("8'"), "type": "desk", "arrives": True, "price": "$3,100"}
    }
    result = listed(job=job)
    assert [line.name for line in result.coming] == ["desk"]
    assert result.verdict == "The list comes to $3,100, $100 over the budget of $3,000."


def test_other_currency_is_not_added() -> None:
    """A price in another currency is counted and said, not added."""
    result = listed(larger(put(f"{RUG}/price", "€900")))
    assert (result.foreign, result.unpriced) == (1, 0)
    assert result.total == usd(210)
    assert "1 of 2 lines is priced in another currency and is not in the sum" in result.verdict


def test_unpriced_makes_the_sum_a_least() -> None:
    """With a line unpriced, the list comes to at least its sum, and leaves at most the rest of the budget."""
    job = document()
    del job["stock"]["felt"]
    assert listed(larger(), job=job).verdict == (
        "The list comes to at least $1,200, which leaves at most $1,800 of the budget of $3,000. "
        "1 of 2 lines has no price yet and is not in the sum."
    )


def test_why_is_the_step_that_did_it() -> None:
    """A thing bought in one step and moved in another is bought for the first reason alone."""
    result = listed(
        larger(), step("Move it.", put(f"{RUG}/at/x", "9'")), step("Pull it.", put(f"{SOFA}/at/off", "1'"))
    )
    assert result.bought[0].why == "Take 9 × 12 ft."
    assert [m.why for m in result.moved] == ["Pull it."]


def test_kept_thing_that_leaves_is_cautioned() -> None:
    """Where a scheme lets go what the client keeps, the list says to ask first."""
    result = listed(step("Out.", {"op": "remove", "path": SOFA}))
    assert result.leaves[0].keep
    assert result.cautions[0] == "The client keeps the sofa, and it leaves in this scheme: ask first."


def test_work_at_an_opening() -> None:
    """A changed opening is work for a trade."""
    job = document()
    job["rooms"]["study"]["openings"] = {
        "door": {
            "kind": "door",
            "wall": "AB",
            "along": "2'",
            "width": "32 in",
            "height": "80 in",
            "hinge": "A",
            "opens": "in",
        }
    }
    result = listed(step("Rehang it.", put("/rooms/study/openings/door/opens", "out")), job=job)
    assert [(w.what, w.why) for w in result.works] == [("The door is changed.", "Rehang it.")]


def test_only_one_room() -> None:
    """A list of one room sums that room alone."""
    ops = put("/rooms/study/pieces", {"desk": {**chair("8'"), "price": "$300"}}, "add")
    assert listed(larger(), step("Desk.", ops), only="study").total == usd(300)
    assert listed(larger(), step("Desk.", ops)).total == usd(1710)


def test_json() -> None:
    """The JSON form is plain and keeps amounts exact."""
    data = json.loads(json.dumps(listed(larger()).to_json()))
    assert data["total"] == {"amount": "1410", "currency": "USD"}
    assert data["bought"][0]["price"] == {"amount": "1200", "currency": "USD"}
    assert data["moved"] == []


def test_metric_sizes() -> None:
    """A metric job prints centimeters."""
    job = document()
    job["job"]["units"] = "metric"
    assert {s.size for s in listed(job=job).stays} >= {"243.8 × 304.8 cm", "213.4 × 91.4 × 81.3 cm"}


@given(st.lists(st.integers(0, 5000) | st.none(), max_size=8))
def test_total_is_the_sum_of_its_lines(prices: list[int | None]) -> None:
    """Whatever is bought, the total is the sum of rooms and lines, and every line without a price counts."""
    ops = [
        put(
            f"/rooms/living/pieces/p{i}", chair(f"{i} ft", **({} if p is None else {"price": f"${p}"})), "add"
        )
        for i, p in enumerate(prices)
    ]
    result = listed(*([step("Buy.", *ops)] if ops else []))
    assert result.total == usd(sum(p or 0 for p in prices))
    assert sum(line.quantity for line in result.bought) == len(prices)
    assert sum(line.quantity for line in result.bought if line.price is None) == sum(
        p is None for p in prices
    )
    assert sum((r.total.amount for r in result.rooms), Decimal(0)) == result.total.amount


def test_a_large_piece_is_not_ordered_before_the_way_in_is_taped() -> None:
    """Where the job has no delivery path the list names what is too large to be carried in by hand, and only that."""
    at = {"x": "8'", "y": "8'"}
    chair = {
        "type": "armchair",
        "width": "32 in",
        "depth": "34 in",
        "height": "33 in",
        "at": at,
        "arrives": True,
    }
    stool = {
        "type": "stool",
        "width": "14 in",
        "depth": "14 in",
        "height": "18 in",
        "at": at,
        "arrives": True,
    }
    ops = (
        put("/rooms/living/pieces/chair", chair, "add"),
        put("/rooms/living/pieces/stool", stool, "add"),
    )
    result = listed(step("Buy seats.", *ops))
    assert any(
        "way in has not been taped" in c and "before the chair is ordered" in c for c in result.cautions
    )
    job = document() | {
        "delivery": [{"kind": "door", "name": "front door", "width": "34 in", "height": "80 in"}]
    }
    taped = listed(step("Buy seats.", *ops), job=job)
    assert not any("has not been taped" in c for c in taped.cautions)
    assert any("Check each piece against the way in" in c for c in taped.cautions)
