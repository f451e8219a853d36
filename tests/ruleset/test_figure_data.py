"""The figure's data: one mistake at a time is found, where it stands, with what would be right."""

from pathlib import Path

import pytest

from hands_on.ruleset.assemble import assemble, read_edition_file
from hands_on.ruleset.check import check_common, check_edition
from hands_on.store.library import Library

ROOT = Path(__file__).parents[2] / "rulesets"
NO_RULES = {"language.toml", "cautions.toml"}
TEXTS = {
    path.name: path.read_text(encoding="utf-8")
    for path in (ROOT / "common").glob("*.toml")
    if path.name not in NO_RULES
}
FIGURE = TEXTS["figure.toml"]
COMMON = Library([ROOT]).common()
HOVAWART = (ROOT / "hovawart-fci-190.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('slope = ["occiput", "withers"]', 'slope = ["occiputt", "withers"]', '"occiput"'),
        ('proportion = "ear-length"', 'proportion = "ear-lenght"', '"ear-length"'),
        ('"neck-angle" = { slope', '"neck-angel" = { slope', '"neck-angle"'),
        ('slope = ["occiput", "withers"]', 'slope = ["occiput", "withers"], round = "bone"', "in one way"),
        ('"head.cheeky" = {', '"head.cheekie" = {', '"head.cheeky"'),
        ('moves = { "cheeks" = [0.009,', 'moves = { "cheeks" = [0.019,', "further at each degree"),
        ('moves = { "cheeks" =', 'moves = { "cheecks" =', '"cheeks"'),
        ('parts = ["cheek"]', "parts = []", "parts"),
        (
            'faults = ["chest.not-spannable"]',
            'faults = ["chest.not-spannable", "head.cheeky"]',
            "drawn, above",
        ),
        ('measures = ["weight"]', 'measures = ["weight", "height"]', "read off the figure"),
        (
            '"tail-kink" = { unit = "heights", usual = 0,',
            '"tail-kink" = { unit = "heights", usual = 9,',
            "range",
        ),
    ],
)
def test_each_mistake_is_found(old, new, words):
    assert FIGURE.count(old) == 1
    found = check_common({**TEXTS, "figure.toml": FIGURE.replace(old, new)})
    assert len(found) >= 1
    assert any(words in str(problem) and "figure.toml" in str(problem) for problem in found), found


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('"ear-rise" = -85', '"ear-raise" = -85', '"ear-rise"'),
        ('"ear-rise" = -85', '"ear-rise" = -850', "-100 to 110"),
    ],
)
def test_an_editions_proportions_are_known_and_can_be_drawn(old, new, words):
    found = check_edition(HOVAWART.replace(old, new), "hovawart-fci-190.toml", COMMON, lambda _: None)
    assert [words in str(problem) for problem in found] == [True]


def test_a_newer_edition_keeps_what_it_does_not_set_anew():
    older = read_edition_file(HOVAWART, "hovawart-fci-190.toml")
    head = (
        'format = 1\nid = "newer"\nbuilds_on = "hovawart-fci-190"\nbreed = "x"\ntitle = "x"\nedition = "x"\n'
    )
    own = '[[figure]]\nset = { "ear-rise" = 80 }\nsource = "reading"\n'
    rules = assemble([older, read_edition_file(head + own, "newer.toml")], COMMON)
    assert [entry.set.get("ear-rise") for entry in rules.edition.figure] == [-85, None, 80]
