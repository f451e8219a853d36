"""A point written out: what is asked, how it is found, what its faults cost, on what the figures rest."""

from __future__ import annotations

import pytest

from hands_on.ruleset.points import MeasurePoint, faults_of
from hands_on.store import places
from hands_on.store.library import Library
from hands_on.wording.point import asked_in_short, explanation, fault_class_words

LIBRARY = Library((places.shipped_rulesets(),))
EDITIONS = [head.id for head in LIBRARY.heads() if head.problem is None]
HOVAWART = LIBRARY.load("hovawart-fci-190")


def told(ruleset, name):
    return {
        section.title: " ".join(f"{entry.text} {entry.source} {entry.note}" for entry in section.entries)
        for section in explanation(ruleset, ruleset.points[name])
    }


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_point_of_every_edition_is_explained_in_full(edition):
    ruleset = LIBRARY.load(edition)
    for point in ruleset.walk_points:
        sections = told(ruleset, point.id)
        assert point.find in sections["How to find it"]
        assert sections["Source of this description"].strip()
        for name in faults_of(point):
            assert ruleset.faults[name].function in sections["Departures, and what they cost the dog"]
        if isinstance(point, MeasurePoint):
            assert point.u.basis in sections["How sure a reading is"]
        for sex in ("male", "female", None):
            assert asked_in_short(ruleset, point, sex)


def test_the_height_of_the_hovawart_by_sex():
    # FCI-Standard N° 190 of 2025: dogs 63 to 70 cm, bitches 58 to 65 cm.
    height = HOVAWART.points["height"]
    assert asked_in_short(HOVAWART, height, "male").startswith("63 to 70 cm [H25, reading]")
    assert asked_in_short(HOVAWART, height, "female").startswith("58 to 65 cm [H25, reading]")
    assert "58 to 65 cm" in asked_in_short(HOVAWART, height, None)
    text = told(HOVAWART, "height")
    assert "FCI-Standard N° 190" in text["What this edition asks"]
    assert "15 months" in text["Too young to judge"]


def test_how_a_fault_ranks_before_the_dog_is_known():
    assert fault_class_words(HOVAWART, "mouth.level-bite").startswith("no fault")
    assert fault_class_words(HOVAWART, "temperament.aggressive") == "Disqualifying fault"
    assert fault_class_words(HOVAWART, "hindquarters.cow-hocks") == "Fault", "by the general clause"
