"""The survey sheet: what was taped, what remains, what is suspect, what to tape next."""

from __future__ import annotations

import copy
import math

import numpy as np
import pytest

from halfdrop.drawing import Sheet, survey_sheet
from halfdrop.drawing.board import Frame
from halfdrop.drawing.survey_sheet import WIDEST, ellipse, enlargement, upright
from halfdrop.drawing.verbs import Arc, Begin, Dimension, End, Line, Text, Verb
from halfdrop.room import ResolvedRoom
from tests.drawing.rooms import BEDROOM, LIVING, resolved, room, title


def blundered() -> ResolvedRoom:
    """Return the bedroom with a diagonal two inches too long: a blunder seen, not located."""
    data = copy.deepcopy(BEDROOM)
    data["survey"]["ties"]["AC"] = "15' 9\""
    return resolved("bedroom", data)


def located() -> ResolvedRoom:
    """Return the living room with one tie a foot too long, its corners square: a blunder that is located."""
    data = copy.deepcopy(LIVING)
    data["survey"]["ties"]["AE"] = "23' 3 3/8\""
    return resolved("living", data)


def by_path(sheet: Sheet) -> dict[str, list[Verb]]:
    """Return a sheet's verbs by the path of their group."""
    out: dict[str, list[Verb]] = {}
    paths: list[str] = []
    for verb in sheet.verbs:
        if isinstance(verb, Begin):
            paths.append(verb.path)
        elif isinstance(verb, End):
            paths.pop()
        else:
            out.setdefault(paths[-1], []).append(verb)
    return out


def test_every_wall_and_tie_carries_its_taped_length() -> None:
    """Walls and ties are lettered with what was taped, not with what was adjusted."""
    drawn = by_path(survey_sheet(room("living"), title=title("Survey", "1")))
    wall = [v for v in drawn["rooms/living/survey/walls/CD"] if isinstance(v, Dimension)]
    assert [v.text for v in wall] == ["8′ 6″"]
    tie = [v for v in drawn["rooms/living/survey/ties/AC"] if isinstance(v, Text)]
    assert [v.text for v in tie] == ["24′ 11⅞″"]


def test_corners_have_their_letters() -> None:
    """Each corner is lettered once on the drawing."""
    drawn = by_path(survey_sheet(room("living"), title=title("Survey", "1")))
    for name in "ABCDEF":
        verbs = drawn[f"rooms/living/survey/corners/{name}"]
        assert [v.text for v in verbs if isinstance(v, Text)] == [name]


def test_an_ellipse_has_the_axes_of_its_covariance() -> None:
    """Semi-axes are the roots of the block's eigenvalues; along the longer one the variance is the largest."""
    there = room("living")
    for i in range(1, 6):
        long, short, turn = ellipse(there, i)
        block = there.survey.covariance[2 * i : 2 * i + 2, 2 * i : 2 * i + 2]
        assert long**2 + short**2 == pytest.approx(float(np.trace(block)))
        u = np.array((math.cos(turn), math.sin(turn)))
        assert float(u @ block @ u) == pytest.approx(long**2)
        assert long >= short


def test_ellipses_are_enlarged_and_the_sheet_says_so() -> None:
    """Drawn ellipses are the stated number of times their true size, and none is wider than its limit."""
    there = room("living")
    sheet = survey_sheet(there, title=title("Survey", "1"))
    frame = sheet.views[0].frame
    times = enlargement(there, frame)
    words = " ".join(v.text for v in sheet.margin if isinstance(v, Text))
    assert f"drawn {times} times" in words
    arcs = [v for v in by_path(sheet)["rooms/living/survey/corners/E"] if isinstance(v, Arc) and v.pen]
    assert [a.rx for a in arcs] == pytest.approx([ellipse(there, 4)[0] * frame.scale * times])
    assert arcs[0].rx <= WIDEST
    assert enlargement(there, Frame((0.0, 0.0), 1000.0)) < enlargement(there, Frame((0.0, 0.0), 5.0))


def test_what_is_suspect_is_in_pencil() -> None:
    """A measure set aside or suspect is drawn in pencil, the others in graphite."""
    there = located()
    assert there.survey.excluded == ("ties/AE",)
    drawn = by_path(survey_sheet(there, title=title("Survey", "1")))
    assert {v.ink for v in drawn["rooms/living/survey/ties/AE"] if isinstance(v, Text)} == {"pencil"}
    assert {v.ink for v in drawn["rooms/living/survey/ties/AC"] if isinstance(v, Text)} == {"graphite"}
    words = [v.text for v in drawn["rooms/living/survey"] if isinstance(v, Text)]
    assert "AE, set aside" in words


def test_the_one_more_measure_is_in_slate() -> None:
    """Where the blunder is not located the next measure is drawn in slate and told in the margin."""
    there = blundered()
    assert there.survey.extra is not None
    sheet = survey_sheet(there, title=title("Survey", "1"), paper="letter")
    slate = [v for v in sheet.verbs if isinstance(v, Line) and v.ink == "slate"]
    ends = {tuple(round(c, 3) for c in p) for p in slate[0].points}
    frame = sheet.views[0].frame
    names = dict(zip(there.survey.corners, there.survey.xy, strict=True))
    pair = there.survey.extra.pair
    assert ends == {tuple(round(c, 3) for c in frame(*map(float, names[c]))) for c in pair}
    words = " ".join(v.text for v in sheet.margin if isinstance(v, Text))
    assert there.survey.extra.words.split(".")[0] in words


def test_the_table_lists_each_measure() -> None:
    """Every wall, tie and angle stands in the margin's table, with its residual; squares are only counted in words."""
    sheet = survey_sheet(room("living"), title=title("Survey", "1"))
    words = [v.text for v in sheet.margin if isinstance(v, Text)]
    for pair in ("AB", "BC", "CD", "DE", "EF", "FA", "AC", "BD", "AE", "BF"):
        assert pair in words
    assert any("square" in word for word in words)
    residuals = {
        f"{'−' if o.v < 0 else '+'}{abs(o.v) / 0.0254:.2f} in"
        for o in room("living").survey.observations
        if abs(o.v) > 127e-6 and o.kind in ("wall", "tie")
    }
    assert residuals
    assert residuals <= set(words)


def test_a_long_table_says_what_it_leaves_out() -> None:
    """On a sheet too low for all its measures the rest is counted, and nothing runs into the title strip."""
    sheet = survey_sheet(room("living"), title=title("Survey", "1"), paper="phone")
    texts = [v for v in sheet.margin if isinstance(v, Text)]
    assert max(v.at[1] for v in texts) <= sheet.strip[1].points[0][1]  # type: ignore[union-attr]
    assert any("more" in v.text for v in texts)


@pytest.mark.parametrize(
    ("a", "b", "turn"),
    [
        ((0, 0), (5, 0), 0.0),
        ((5, 0), (0, 0), 0.0),
        ((0, 0), (0, 5), -90.0),
        ((0, 5), (0, 0), -90.0),
        ((0, 0), (5, 5), 45.0),
    ],
)
def test_lettering_along_a_line_is_never_upside_down(
    a: tuple[int, int], b: tuple[int, int], turn: float
) -> None:
    """Along any line letters read from below or from the right."""
    assert upright(a, b) == pytest.approx(turn)
