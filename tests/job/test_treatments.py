"""Treatments, cloth and cushions in the document: what is read, what is refused and how it is said."""

from __future__ import annotations

from typing import Any

import jsonschema
import pytest

from halfdrop.base.errors import InputError
from halfdrop.job.read import parse_job
from halfdrop.job.schema import json_schema

GOOD = """\
halfdrop: 1
job: {name: Elm Row 4}
fabrics:
  linen:
    name: Linen with sprigs
    width: 54 in
    repeat: 25 1/4 in
    match: half-drop
    weight: 9.4 oz/sq yd
    bolts:
      whole: {length: 50 yd}
      rest: {length: 11 yd, lot: K7, count: 2}
  voile: {name: Voile, kind: sheer, width: 118 in, railroad: true}
rooms:
  living:
    name: Living room
    use: {living: true}
    survey:
      corners: A B C D
      walls: {AB: 18', BC: 14', CD: 18', DA: 14'}
    openings:
      left: {kind: window, wall: AB, along: 3', width: 4', height: 5', sill: 2'}
      right: {kind: window, wall: AB, along: 10', width: 4', height: 5', sill: 2'}
    treatments:
      front:
        openings: left right
        heading: double pinch
        fabric: linen
        length: kiss
        lining: {kind: lined}
        hardware: {kind: pole, height: 7' 6", left: 10 in, right: 10 in, diameter: 1 1/8 in}
        measured:
          floor: {left: 60 in, center: 60 1/4 in, right: 60 1/2 in}
        ties: {length: 24 in, width: 4 in}
      sheer: {openings: [left, right], heading: rod pocket, fabric: voile, behind: front}
      blind: {kind: roller, openings: left, mount: inside, control: fixed loop}
    cushions:
      seat: {fabric: linen, width: 20 in, height: 20 in, count: 2}
"""


def _job(change: str = "", instead: str = "") -> Any:
    assert change in GOOD
    return parse_job(GOOD.replace(change, instead, 1) if change else GOOD, name="elm.yaml")


def test_treatments_and_cloth_are_read_as_typed() -> None:
    """A pair of windows as one run, sheers behind it, a shade, cushions; the cloth with its repeat and bolts."""
    job = _job().job
    front = job.rooms["living"].treatments["front"]
    assert front.openings == ["left", "right"]
    assert front.measured.floor is not None
    assert front.measured.floor.right.text == "60 1/2 in"
    assert list(front.cloths()) == [("fabric", "linen")]
    assert job.rooms["living"].treatments["sheer"].behind == "front"
    assert float(job.fabrics["linen"].repeat or 0) == pytest.approx(25.25 * 0.0254)
    assert [b.lot for b in job.fabrics["linen"].bolts.values()] == [None, "K7"]


def test_a_job_without_any_is_what_it_was() -> None:
    """Version 1 stays: everything here is left out by default."""
    start, end = GOOD.index("fabrics:"), GOOD.index("rooms:")
    plain = GOOD[:start] + GOOD[end : GOOD.index("    treatments:")]
    job = parse_job(plain, name="elm.yaml").job
    assert job.fabrics == {}
    assert job.rooms["living"].treatments == {}
    assert job.rooms["living"].cushions == {}


def test_the_published_schema_knows_them() -> None:
    """The JSON Schema takes the good job, and refuses an unknown heading."""
    validator = jsonschema.Draft202012Validator(json_schema())
    document = _job().document
    assert list(validator.iter_errors(document)) == []
    document["rooms"]["living"]["treatments"]["front"]["heading"] = "smocked"
    assert list(validator.iter_errors(document))


@pytest.mark.parametrize(
    ("change", "instead", "message", "path"),
    [
        (
            "openings: left right",
            "openings: left middle",
            "names middle",
            "rooms/living/treatments/front/openings",
        ),
        ("openings: left right", "openings: left left", "named twice", "rooms/living/treatments/front"),
        ("behind: front", "behind: back", "is back", "rooms/living/treatments/sheer/behind"),
        ("fabric: voile", "fabric: voil", "is voil", "rooms/living/treatments/sheer/fabric"),
        ("fabric: linen, width", "fabric: wool, width", "is wool", "rooms/living/cushions/seat/fabric"),
        ("    repeat: 25 1/4 in\n", "", "half-drop match needs `repeat`", "fabrics/linen"),
        ("railroad: true", "railroad: true, nap: true", "nap", "fabrics/voile"),
        ("kind: sheer,", "sale: bolt,", "needs `bolts`", "fabrics/voile"),
        ("        heading: double pinch\n", "", "need their `heading`", "rooms/living/treatments/front"),
        ("mount: inside,", "fullness: 2,", "roller shade has no `fullness`", "rooms/living/treatments/blind"),
        ("mount: inside,", "length: puddle,", "does not puddle", "rooms/living/treatments/blind"),
        (
            "length: kiss",
            "draw: fixed\n        control: wand",
            "stay where they hang",
            "rooms/living/treatments/front",
        ),
        (
            "control: fixed loop",
            "control: motor, cord: 20 in",
            "`control` is motor, which has none",
            "rooms/living/treatments/blind/cord",
        ),
        ("mount: inside,", "off_match: 1 in,", "two panels meet", "rooms/living/treatments/blind/off_match"),
        (
            "mount: inside,",
            "mount: inside, hardware: {left: 2 in},",
            "from jamb to jamb",
            "rooms/living/treatments/blind",
        ),
        (
            "length: kiss",
            "length: kiss\n        panel: 20 in",
            "this treatment draws",
            "rooms/living/treatments/front/panel",
        ),
        (
            "length: kiss",
            "length: kiss\n        side: left",
            "this treatment draws",
            "rooms/living/treatments/front/side",
        ),
        (
            "length: kiss",
            "draw: fixed\n        side: middle",
            "not known there",
            "rooms/living/treatments/front/side",
        ),
        ("mount: inside,", "lining: {kind: lined},", "no `lining`", "rooms/living/treatments/blind"),
        (
            "length: kiss",
            "length: kiss\n        behind: sheer",
            "one of them hangs in front",
            "rooms/living/treatments/front/behind",
        ),
        (
            "openings: left right",
            "openings: right\n        behind: blind",
            "hangs at other openings: left",
            "rooms/living/treatments/front/behind",
        ),
        (
            "center: 60 1/4 in",
            "center: 16 1/4 in",
            "`floor` is 16 1/4 in to 60 1/2 in; no opening is that far out of true",
            "rooms/living/treatments/front/measured",
        ),
        ("9.4 oz/sq yd", "9.4 oz", "unknown unit `oz`", "fabrics/linen/weight"),
        (
            "heading: rod pocket",
            "heading: rod pockets",
            "rod pockets",
            "rooms/living/treatments/sheer/heading",
        ),
    ],
)
def test_a_fault_says_what_and_where(change: str, instead: str, message: str, path: str) -> None:
    """One fault each, with its own words at its own path."""
    with pytest.raises(InputError) as caught:
        _job(change, instead)
    errors = caught.value.errors  # type: ignore[attr-defined]
    assert len(errors) == 1, [e.message for e in errors]
    assert message in errors[0].message
    assert errors[0].at.path == path
    assert errors[0].at.line > 1


@pytest.mark.parametrize(
    ("change", "instead", "hint"),
    [
        ("heading: double pinch", "heading: french pleat", "write `triple pinch`"),
        ("heading: double pinch", "heading: grommet", "write `eyelet`"),
        ("mount: inside,", "mount: in,", "write `inside`"),
        ("length: kiss", "length: pool", "write `puddle`"),
        ("control: fixed loop", "control: bead chain", "write `free loop`"),
        ("kind: roller, openings", "kind: roller blind, openings", "write `roller`"),
        ("length: kiss", "length: kiss\n        fullness: 250%", "a ratio"),
        ("length: kiss", "length: kiss\n        fullness: 250", "a ratio"),
        ("length: kiss", "length: kiss\n        widths: four", "2.5"),
    ],
)
def test_the_trades_words_are_told_as_ours(change: str, instead: str, hint: str) -> None:
    """What a workroom calls a heading, a mount, a length, a control is answered with the word to write."""
    with pytest.raises(InputError) as caught:
        _job(change, instead)
    assert hint in (caught.value.errors[0].hint or "")  # type: ignore[attr-defined]
