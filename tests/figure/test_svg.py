"""The SVG: well formed, with title and description, nothing in a text that is more than text."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hands_on.figure.drawn import Departure, departing, figure_of, ideal
from hands_on.report.figure_svg import svg
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets

LIBRARY = Library((shipped_rulesets(),))
RULES = LIBRARY.load("hovawart-fci-190")
SVG = "{http://www.w3.org/2000/svg}"
IDEAL = ideal(RULES)


def read(text):
    return ET.fromstring(text)


@pytest.mark.parametrize("edition", [head.id for head in LIBRARY.heads()])
def test_every_editions_dog_is_a_well_formed_picture_told_in_words(edition):
    rules = LIBRARY.load(edition)
    root = read(svg(rules, ideal(rules), title=edition, views=("side", "front", "rear")))
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    title, told = root[0], root[1]
    assert (title.tag, told.tag) == (f"{SVG}title", f"{SVG}desc")
    assert root.get("aria-labelledby") == f"{title.get('id')} {told.get('id')}"
    assert "from the side, from in front and from behind" in told.text
    assert not re.search(r"nan|inf", "".join(path.get("d") for path in root.iter(f"{SVG}path")))


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=30), st.text(max_size=30))
def test_texts_are_never_more_than_text(title, mark):
    root = read(svg(RULES, IDEAL, title=title, marks={"withers": mark}, over=IDEAL, over_title=title))
    tags = {node.tag.removeprefix(SVG) for node in root.iter()}
    assert tags <= {"svg", "title", "desc", "g", "path", "line", "circle", "text"}


def test_lines_and_legend_tell_what_each_rests_on():
    dog = figure_of(
        RULES,
        {"height": (66.0, 0.5), "weight": (40.0, 0.5)},
        [Departure("back.roached", "marked")],
        examined=True,
    )
    root = read(svg(RULES, dog, title="Arko"))
    looks = {(path.get("stroke-width"), path.get("stroke-dasharray")) for path in root.iter(f"{SVG}path")}
    assert {("2.4", None), ("1.4", None), ("1", "3 2.5")} <= looks
    words = " ".join(node.text for node in root.iter(f"{SVG}text"))
    assert "Arko: 66.0 cm high, length assumed." in words
    assert "Full line: measured" in words
    assert "twice as strong as felt" in words
    assert "roach back, marked" in root[1].text


def test_two_dogs_lie_over_each_other_to_scale_or_to_one_height():
    small = figure_of(RULES, {"height": (33.25, 0.5)}, examined=True)
    large = figure_of(RULES, {"height": (66.5, 0.5)}, examined=True)

    def spans(**how):
        root = read(svg(RULES, large, title="large", over=small, over_title="small", **how))
        chain = [p for p in root.iter(f"{SVG}path") if (p.get("stroke-dasharray") or "").startswith("9 3")]
        numbers = [float(n) for p in chain for n in re.findall(r"-?\d+\.\d+", p.get("d"))]
        return max(numbers) - min(numbers)

    assert spans(one_height=True) == pytest.approx(2 * spans(), rel=0.02)


def test_real_differences_are_drawn_heaviest():
    plain = svg(RULES, IDEAL, title="a", over=IDEAL, over_title="b")
    heavy = svg(RULES, IDEAL, title="a", over=IDEAL, over_title="b", heavy={"croup"})
    assert 'stroke-width="3.6"' not in plain
    assert heavy.count('stroke-width="3.6"') >= 1
    assert "Heaviest: where the difference is real." in heavy


def test_one_departure_says_what_it_is():
    root = read(svg(RULES, departing(RULES, [Departure("head.roman-nose", "slight")]), title="Roman nose"))
    assert "slight" in root[1].text
