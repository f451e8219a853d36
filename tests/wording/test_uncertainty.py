"""On what an uncertainty is said to rest: judgement is never hidden, and has no source beside itself."""

from __future__ import annotations

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.measure.hand import OwnHand
from hands_on.measure.takes import Counted, DefaultU, Taken, summarise, summarise_count
from hands_on.wording.own_hand import whose_hand
from hands_on.wording.uncertainty import basis_words
from tests.evaluate.build import edition, session, take

JUDGED = DefaultU(0.8, 0.02, source="Example 2020")
FLOORED = "not below the instrument's resolution"
PUBLISHED = DefaultU(0.8, basis="published", source="Example 2020, table 2")


@pytest.mark.parametrize(
    ("basis", "words"),
    [
        (Taken(1, JUDGED), "one take, default by judgement"),
        (Taken(2, JUDGED), "2 takes, default by judgement"),
        (Taken(3, PUBLISHED), "3 takes, default published (Example 2020, table 2)"),
        (
            Taken(1, JUDGED, own=OwnHand(0.15, 12, 24)),
            "one take, own hand from 24 takes of 12 dogs, lasting part by judgement",
        ),
        (
            Taken(1, JUDGED, floored=True),
            "one take, default by judgement, not below the instrument's resolution",
        ),
        (Counted(), "counted"),
        (Counted((42, 41)), "counts differ: 42, 41"),
        (Counted(by_chart=True), "counted from the tooth chart"),
    ],
)
def test_what_an_uncertainty_rests_on(basis, words):
    assert basis_words(basis) == words


def test_it_is_said_of_what_was_measured():
    assert basis_words(summarise([30.0], JUDGED).basis) == "one take, default by judgement"
    assert basis_words(summarise_count([42, 41]).basis) == "counts differ: 42, 41"


def test_whose_hand_an_examination_rests_on_is_told() -> None:
    """By an own hand, by general figures, and that nobody is named where a hand can't be known."""
    found = session(take("height", 64.0) + take("weight", 30.0, unit="kg"))
    own = evaluate(edition(""), found, hand={"height": OwnHand(0.15, 12, 24)}).measures
    general = evaluate(edition(""), found).measures
    assert whose_hand("E. Example", own) == "By an own hand: 1 of 2, the others by general figures"
    assert whose_hand("E. Example", own[:1]) == "By an own hand: 1 of 1"
    assert whose_hand("E. Example", general) == "By general figures: none of the hand of E. Example is used"
    assert "nobody is named" in whose_hand(" ", general)
    assert whose_hand("E. Example", ()) == ""
