"""Drawings in pixels, where the terminal says it shows pictures, and nowhere else."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.figure.drawn import Departure, departing, ideal
from hands_on.tui.drawing import Picture, draw, figure_rows
from hands_on.tui.easel import Answer, Easel, wanted
from hands_on.tui.pixels import Pixels
from hands_on.tui.screens.figure import FigureScreen
from hands_on.tui.screens.point_figure import PointFigureScreen
from hands_on.tui.sixel_picture import each_selected
from hands_on.tui.widgets.figure import Drawn
from tests.tui.driving import LIBRARY, sitting
from tests.tui.sixels import decoded

RULES = LIBRARY.load("hovawart-fci-190")
CELL = (10, 20)
VT340 = "\x1b[?63;1;2;4;6;9;15;22c"
"""What xterm answers as a VT340 (XTerm Control Sequences, "Send Device Attributes"): 4 is Sixel graphics."""
VT420 = "\x1b[?64;1;2;6;9;15;18;21;22c"
VT100 = "\x1b[?1;2c"
FOUR_IS_ITS_CLASS = "\x1b[?4;6c"
"""VT132: the first number names the terminal, not what it can do."""


@pytest.mark.parametrize(
    ("environment", "way"),
    [
        ({"TERM": "xterm-256color"}, "ask"),
        ({"TERM": "xterm-256color", "HANDS_ON_PICTURES": "auto"}, "ask"),
        ({"TERM": "xterm-256color", "HANDS_ON_PICTURES": "off"}, "no"),
        ({"TERM": "xterm-256color", "HANDS_ON_PICTURES": "nonsense"}, "no"),
        ({"TERM": "xterm-256color", "TMUX": "/run/tmux,1,0"}, "no"),
        ({"TERM": "tmux-256color"}, "no"),
        ({"TERM": "screen.xterm"}, "no"),
        ({"TERM": "linux"}, "no"),
        ({"TERM": "vt220"}, "no"),
        ({"TERM": ""}, "no"),
        ({"TERM": "xterm-kitty", "HANDS_ON_PICTURES": "Kitty"}, "kitty"),
        ({"TERM": "tmux-256color", "HANDS_ON_PICTURES": "sixel"}, "sixel"),
    ],
)
def test_a_terminal_is_asked_only_where_it_shows_what_it_is_sent(environment, way):
    assert wanted(environment) == way


@pytest.mark.parametrize(
    ("came", "sixel"), [(VT340, True), (VT420, False), (VT100, False), (FOUR_IS_ITS_CLASS, False)]
)
@pytest.mark.parametrize("escape", ["", "^"])
def test_the_answer_is_taken_out_of_the_keys(came, sixel, escape):
    """Textual hands it on letter by letter, the escape left out or as a caret."""
    answer = Answer()
    assert not any(answer.takes(letter) for letter in "gq12c;")
    assert all(answer.takes(letter) for letter in escape + came[1:])
    assert answer.sixel == sixel
    assert not any(answer.takes(letter) for letter in came[1:]), "it comes once"


@given(st.text("[?;14c^gn", max_size=12))
def test_whatever_is_typed_a_whole_answer_is_found_behind_it(typed):
    answer = Answer()
    for letter in typed:
        answer.takes(letter)
    answer.takes("g")
    if not answer.sixel:
        for letter in VT340[1:]:
            answer.takes(letter)
    found = re.search(r"\[\?[0-9;]*c", typed)
    assert answer.sixel or found


def test_a_bracket_typed_later_is_a_bracket():
    answer = Answer()
    answer.too_late()
    assert not answer.takes("[")


def painted_cells(pixels, wide, high):
    """Cells with any ink in them."""
    image = pixels.painted((0, 0, 0), (255, 255, 255)).convert("L")
    box = [
        (x, y, image.crop((x * CELL[0], y * CELL[1], (x + 1) * CELL[0], (y + 1) * CELL[1])).getextrema()[1])
        for x in range(wide)
        for y in range(high)
    ]
    return {(x, y) for x, y, most in box if most > 60}


def near(cells):
    return {(x + a, y + b) for x, y in cells for a in (-1, 0, 1) for b in (-1, 0, 1)}


@pytest.mark.parametrize("view", ["side", "front", "rear"])
def test_pixels_and_dots_draw_the_same_dog(view):
    wide, high = 80, 24
    picture = Picture(departing(RULES, [Departure("back.roached", "marked")]), view, over=ideal(RULES))
    pixels = Pixels(wide, high, CELL)
    draw(picture, pixels)
    dots = {
        (x, y)
        for y, row in enumerate(figure_rows(picture, wide, high))
        for x, dot in enumerate(row)
        if dot > " "
    }
    inked = painted_cells(pixels, wide, high)
    assert len(dots) > 50
    assert dots <= near(inked)
    assert inked <= near(dots)


def test_sixels_sent_read_back_as_the_picture():
    from textual_image._sixel import image_to_sixels

    pixels = Pixels(18, 6, (8, 16))
    marks = {"occiput": "Occiput"}
    draw(Picture(ideal(RULES), "side", marks=marks), pixels)
    image = pixels.painted((16, 32, 48), (250, 240, 230))
    wanted = [
        [
            tuple((value * 100 + 127) // 255 for value in image.convert("RGB").getpixel((x, y)))
            for x in range(144)
        ]
        for y in range(96)
    ]
    assert len({colour for row in wanted for colour in row}) > 4
    assert decoded(each_selected(image_to_sixels(image))) == wanted


async def test_a_figure_hangs_in_the_place_kept_for_it(folder):
    async with sitting(folder, (100, 40)) as table:
        table.app.easel = Easel("sixel", CELL)
        dog = Drawn("Fenja", RULES, departing(RULES, [Departure("back.roached", "marked")]))
        table.app.push_screen(FigureScreen("Drawn", [dog, Drawn("as the edition asks", RULES, ideal(RULES))]))
        await table.pilot.pause()
        pane = table.app.screen.query_one("FigurePane")
        (hung,) = pane.children
        assert hung.region.width == pane.content_size.width
        assert hung.image.size == (hung.region.width * CELL[0], hung.region.height * CELL[1])
        text = str(pane.content)
        assert text.split("\n")[hung.region.height].startswith("⠒⠒⠒ line: Fenja")
        assert "\U000f0000" not in text


async def test_each_answer_of_a_point_has_its_own_picture(folder):
    async with sitting(folder, (160, 45)) as table:
        table.app.easel = Easel("sixel", CELL)
        table.app.push_screen(PointFigureScreen(RULES, RULES.points["hindquarters.hocks"], None))
        await table.pilot.pause()
        figure = table.app.screen.query_one("PointFigure")
        shown = list(figure.children)
        assert len(shown) % 3 == 0
        regions = [one.region for one in shown]
        assert not any(a.overlaps(b) for a in regions for b in regions if a is not b)
        pictures = [one.image.tobytes() for one in shown[:3]]
        assert len(set(pictures)) == 3
        lines = str(figure.content).split("\n")
        assert lines[1].split() == ["as", "asked", "slight", "marked"]
        for word, region in zip(("as asked", "slight", "marked"), regions, strict=False):
            assert lines[1].index(word) == region.x - figure.region.x - figure.styles.padding.left
        before = len(shown)
        await table.pilot.resize_terminal(100, 24)
        await table.pilot.pause()
        after = [one.region for one in table.app.screen.query_one("PointFigure").children]
        assert 0 < len(after) <= before
        assert all(figure.region.contains_region(one) for one in after)


async def test_without_pictures_nothing_hangs(folder):
    async with sitting(folder, (100, 40)) as table:
        assert table.app.easel is None
        table.app.push_screen(FigureScreen("Drawn", [Drawn("ideal", RULES, ideal(RULES))]))
        await table.pilot.pause()
        assert not table.app.screen.query_one("FigurePane").children
