"""Repeatability and reproducibility of readings taken anew, held against other ways to the same figures."""

from __future__ import annotations

import math
import random
import warnings
from dataclasses import replace

import pytest

from hands_on.compare.agreement.by_point import agreement
from hands_on.compare.agreement.precision import Precision, Spread, precision
from hands_on.wording.agreement import precision_sentences
from hands_on.wording.documents.agreement import agreement_document
from tests.compare.build import held
from tests.evaluate.build import take

# Three dogs by two evaluators, twice each. By hand: cell means 60.5 61.5, 64 66, 70 70; of dogs 61 65 70, of
# evaluators 64 5/6 and 65 5/6; mean squares of evaluators 2 x 3 x (0.5^2 + 0.5^2) / 1 = 3, of the interplay
# 2 x 4 x 0.5^2 / 2 = 1, of repeats (0.5 + 0.5 + 2 + 0 + 0 + 2) / 6.
BY_HAND = [[[60, 61], [61, 62]], [[63, 65], [66, 66]], [[70, 70], [69, 71]]]


def test_the_components_of_a_table_worked_by_hand():
    found = precision(BY_HAND)
    assert (found.n, found.k, found.r) == (3, 2, 2)
    within = (0.5 + 0.5 + 2 + 0 + 0 + 2) / 6
    assert found.repeatability.value == pytest.approx(math.sqrt(within))
    both, one = 1.0, 3.0
    total = within / 2 + both * (1 / 2 - 1 / 6) + one / 6
    assert found.reproducibility.value == pytest.approx(math.sqrt(total))
    assert found.evaluator.value == pytest.approx(math.sqrt((one - both) / 6))
    assert found.evaluator_by_dog.value == pytest.approx(math.sqrt((both - within) / 2))


def test_the_interval_of_the_hand_is_the_exact_one():
    # scipy.stats.chi2: dof s^2 / chi2
    stats = pytest.importorskip("scipy.stats")
    found = precision(BY_HAND).repeatability
    square = 6 * found.value**2
    assert found.low == pytest.approx(math.sqrt(square / stats.chi2.ppf(0.975, 6)))
    assert found.high == pytest.approx(math.sqrt(square / stats.chi2.ppf(0.025, 6)))


def test_the_same_from_pingouins_analysis_of_variance():
    pingouin, pandas = pytest.importorskip("pingouin"), pytest.importorskip("pandas")
    chance = random.Random(3)
    cells = [[[round(60 + d + chance.gauss(0, 1), 2) for _ in range(3)] for _ in range(4)] for d in range(5)]
    rows = [(d, e, x) for d, row in enumerate(cells) for e, cell in enumerate(row) for x in cell]
    frame = pandas.DataFrame(rows, columns=["dog", "evaluator", "height"])
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        table = pingouin.anova(frame, dv="height", between=["dog", "evaluator"]).set_index("Source")
    hand, both, one = (table.loc[name, "MS"] for name in ("Residual", "dog * evaluator", "evaluator"))
    found = precision(cells)
    assert found.repeatability.value**2 == pytest.approx(hand)
    total = hand * (1 - 1 / 3) + both * (1 / 3 - 1 / 15) + one / 15
    assert found.reproducibility.value**2 == pytest.approx(total)


def test_without_repeats_there_is_reproducibility_alone():
    found = precision([[[60.0], [61.0]], [[64.0], [64.0]], [[70.0], [72.0]]])
    assert (found.r, found.repeatability, found.evaluator, found.lasting_share) == (1, None, None, None)
    assert found.reproducibility.low < found.reproducibility.value < found.reproducibility.high


def test_a_few_repeats_tell_of_the_hand_alone():
    # Two evaluators, two repeats of one: too few degrees of freedom; then three of one.
    assert precision([[[60.0, 61.0], [61.0]], [[64.0, 65.0], [64.0]]]).repeatability is None
    found = precision([[[60.0, 61.0], [61.0]], [[64.0, 65.0, 64.5], [64.0]]])
    assert found.repeatability.value == pytest.approx(math.sqrt((0.5 + 0.5) / 3))
    assert precision([[[60.0], []], [[61.0], []]]) is None


def test_sessions_repeated_within_a_week_tell_how_a_hand_repeats_itself():
    sessions = [
        held(take("height", x), name=f"Dog {d}", by=f"E{e}", on=f"2024-06-0{1 + n}")
        for d, row in enumerate(BY_HAND)
        for e, cell in enumerate(row)
        for n, x in enumerate(cell)
    ]
    later = held(take("height", 64.0), name="Dog 0", by="E0", on="2023-01-01")
    found = agreement([*sessions, later])
    height = next(one for one in found.points if one.id == "height")
    assert height.precision == precision(BY_HAND), "a session of another year is no repeat"
    (told,) = precision_sentences(found.points)
    assert told.startswith("Height: by one hand 0.91 cm [")
    assert "2 times each" in told
    assert agreement_document(found)["points"][0]["precision"]["repeats"] == 2


@pytest.mark.parametrize("times", [1, 2, 3])
@pytest.mark.parametrize("values", [(64.1,), (64.1, 58.3), (0.1, 0.3, 0.7), (110.7, 25.9)])
def test_readings_that_are_all_the_same_scatter_by_nothing(values, times):
    cells = [[[values[d % len(values)]] * times for _ in range(3)] for d in range(5)]
    found = precision(cells)
    spreads = (found.repeatability, found.reproducibility, found.evaluator, found.evaluator_by_dog)
    ends = [end for one in spreads if one is not None for end in (one.value, one.low, one.high)]
    assert ends
    assert ends == [0.0] * len(ends), "no rounding noise"
    assert found.lasting_share is None


def test_what_cancels_leaves_nothing():
    # The hand alone scatters.
    cells = [[[60.1, 60.3], [60.1, 60.3]], [[60.1, 60.3], [60.1, 60.3]]]
    found = precision(cells)
    assert (found.evaluator.value, found.evaluator_by_dog.value, found.lasting) == (0.0, 0.0, 0.0)
    same = Precision(3, 2, 2, Spread(math.sqrt(0.3), 0, 1), Spread(math.sqrt(0.1 + 0.2), 0, 1))
    assert same.lasting == 0.0, "0.1 + 0.2 less 0.3"


@pytest.mark.parametrize(
    ("spread", "words"),
    [
        (Spread(0.0, 0.0, 0.0), "0 cm, every reading the same"),
        (Spread(0.91, 1.1e-8, 2.04), "0.91 cm [0 to 2]"),
        (Spread(121.0, 96.0, 350.0), "120 cm [96 to 350]"),
        (Spread(0.5, 0.31, 6.0), "0.5 cm [0.31 to far more]"),
    ],
)
def test_a_spread_is_told_without_noise(spread, words):
    found = agreement([held(take("height", 64.0), by=who) for who in ("E1", "E2")])
    one = next(point for point in found.points if point.id == "height")
    (told,) = precision_sentences([replace(one, precision=Precision(3, 2, 1, None, spread))])
    assert told == f"Height: between hands {words} (3 dogs, 2 evaluators)"
