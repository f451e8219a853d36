"""Landmarks as data: the shipped ones bear the measurements that run between them; mistakes are told."""

import pytest

from hands_on.measure.derived import evaluate
from hands_on.ruleset.check import check_common
from hands_on.ruleset.points import MeasurePoint
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets

COMMON = shipped_rulesets() / "common"
OTHER = {"cautions.toml", "language.toml"}
"""Files of common that are no ruleset files."""

TEXTS = {
    path.name: path.read_text(encoding="utf-8")
    for path in sorted(COMMON.glob("*.toml"))
    if path.name not in OTHER
}
RULES = Library([shipped_rulesets()]).load("any-dog")

NAMED = {
    "ground", "occiput", "stop", "nose", "throat", "withers", "blade-top", "point-of-shoulder", "prosternum",
    "elbow", "wrist", "forefoot", "sternum", "last-rib", "point-of-hip", "croup-top", "tail-root", "tail-tip",
    "point-of-buttock", "great-trochanter", "stifle", "hock", "hindfoot",
}  # fmt: skip


def test_every_landmark_of_the_vocabulary_is_there():
    assert set(RULES.landmarks) >= NAMED


def test_lengths_between_bones_say_between_which_landmarks():
    girths = {"chest-girth", "foreleg-girth"}
    without = {
        name
        for name, point in RULES.points.items()
        if isinstance(point, MeasurePoint) and point.quantity == "length" and point.between is None
    }
    # rings, widths without a landmark of their own, the ear, the coat, marks of colour and the bite
    assert without == girths | {
        "chest-width", "skull-width", "ear-length", "ear-tip-to-nose", "coat-length-flank",
        "white-chest-size", "white-spot-diameter", "overshot-gap", "undershot-gap", "incisor-overlap",
    }  # fmt: skip


def problems(name, old, new):
    assert old in TEXTS[name]
    return [str(one) for one in check_common({**TEXTS, name: TEXTS[name].replace(old, new, 1)})]


@pytest.mark.parametrize(
    ("name", "old", "new", "told"),
    [
        ("general.toml", '["ground", "withers"]', '["ground", "wither"]', '"withers"'),
        ("general.toml", '["ground", "withers"]', '["withers", "withers"]', "two different"),
        ("general.toml", 'runs = "upright"', 'runs = "up"', "upright"),
        ("landmarks.toml", 'id = "stop"', 'id = "occiput"', "second time"),
        ("landmarks.toml", "along = 2.2", "along = 22", "larger u"),
        ("landmarks.toml", "along = 2.2", "along = -2.2", "along"),
    ],
)
def test_mistakes_are_told(name, old, new, told):
    assert any(told in one for one in problems(name, old, new)), problems(name, old, new)


def test_the_ratio_of_muzzle_to_skull_is_less_certain_than_its_parts_alone_tell():
    from hands_on.evaluate.shared_landmarks import shared_errors

    measured = {"muzzle-length": (11.0, 0.33), "skull-length": (14.0, 0.41)}
    shared = shared_errors(RULES, measured)
    ((pair, r),) = shared.items()
    assert set(pair) == {"muzzle-length", "skull-length"}
    assert -0.5 < r < -0.1
    tree = RULES.derived["muzzle-length/skull-length"]
    from hands_on.evaluate.values import expression

    assert evaluate(expression(tree), measured, shared)[1] > 1.05 * evaluate(expression(tree), measured)[1]
