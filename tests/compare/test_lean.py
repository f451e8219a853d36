"""Who is named as leaning: corrected for the number of leans, in the direction of the fault."""

from __future__ import annotations

import random

import numpy as np
import pytest
from scipy import stats

from hands_on.compare.agreement.by_point import agreement
from hands_on.compare.agreement.lean import leans
from hands_on.compare.several import benjamini_hochberg, holm
from hands_on.ruleset.points import GradePoint
from hands_on.wording.agreement import lean_sentences
from tests.bench.seminars import named, points, seminar
from tests.compare.test_agree import HOCKS, _hocks, _sessions
from tests.evaluate.build import take

P = [0.001, 0.04, 0.03, 0.5, 0.012]


def test_holm_and_benjamini_hochberg_are_those_of_the_libraries():
    # pingouin.multicomp (Holm) and scipy.stats.false_discovery_control (Benjamini and Hochberg)
    pingouin = pytest.importorskip("pingouin")
    assert holm(P) == pytest.approx(list(pingouin.multicomp(P, method="holm")[1]))
    assert benjamini_hochberg(P) == pytest.approx(list(stats.false_discovery_control(P)))
    assert (holm([]), benjamini_hochberg([])) == ([], [])


def test_a_lean_is_corrected_for_all_leans_of_the_seminar():
    # Eight dogs, E1 0.5 above with a spread of 0.39: p under 0.01 alone, and not worth naming among all.
    extra = [0.9, 0.0, 1.0, 0.2, 0.8, 0.1, 0.7, 0.3]
    table = [[60.0 + n, 60.0 + n + more, 60.0 + n] for n, more in enumerate(extra)]
    found = agreement(_sessions(table, lambda x: take("height", x)))
    one = next(one for one in found.lean if one.evaluator == "E1")
    assert one.p < 0.01
    # Three leans at one point, and a quarter of the 5 % for whether anybody leans there.
    assert one.p_corrected == pytest.approx(4 * 3 * one.p)
    assert one.p_corrected > 0.05
    assert not one.clear


def test_who_leans_drags_no_other_along():
    # E2 alone reads 3 cm above: against a mean that holds E2 the others would be 1 cm below.
    noise = [0.1, -0.2, 0.2, -0.1, 0.0, 0.1, -0.1, 0.0]
    table = [[60 + n + x, 60 + n - x, 63 + n, 60 + n] for n, x in enumerate(noise)]
    found = agreement(_sessions(table, lambda x: take("height", x)))
    assert [one.evaluator for one in found.lean if one.clear] == ["E2"]
    assert next(one for one in found.lean if one.evaluator == "E3").value == pytest.approx(0.0, abs=0.01)


def test_one_of_four_who_leans_is_named_and_no_other_in_drawn_seminars():
    """Three graders who scatter evenly and one two degrees off; the rates: tests/bench/seminars.py."""
    chance = random.Random(4)
    named = []
    for _ in range(30):
        table = []
        for _ in range(6):
            truth = chance.choice([-1, 0, 0, 1])
            row = [truth + chance.choice([0, 0, 0, 1, -1]) for _ in range(4)]
            row[2] -= 2
            table.append([min(max(grade, -4), 4) for grade in row])
        found = agreement(_sessions(table, _hocks))
        named += [one.evaluator for one in (*found.lean, *found.strictness) if one.clear]
    assert set(named) == {"E2"}
    assert len(named) >= 5


def test_one_between_two_others_leans_neither_way():
    # E1 lies one degree over E0 and one under E2: surely off both, and no way off.
    found = agreement(_sessions([[60 + n, 61 + n, 62.2 + n] for n in range(9)], lambda x: take("height", x)))
    assert not next(one for one in found.lean if one.evaluator == "E1").clear


@pytest.mark.parametrize(
    ("places", "told"),
    [
        # Cow hocks stand below the middle of the scale: one step further down is one degree heavier.
        ((-1, -1, -2), "graded cow hocks 1.0 ± 0.1 degrees heavier than the others"),
        ((-2, -2, -1), "graded cow hocks 1.0 ± 0.1 degrees lighter than the others"),
        ((1, 1, 3), "graded bowed hocks 2.0 ± 0.1 degrees heavier than the others"),
        ((0, 0, -2), "graded cow hocks 2.0 ± 0.1 degrees heavier than the others"),
    ],
)
def test_a_lean_is_told_in_the_direction_of_the_fault(places, told):
    found = agreement(_sessions([list(places)] * 10, _hocks))
    assert list(lean_sentences(found.lean)) == [f"E2 {told}, over 10 dogs"]


def test_two_dogs_name_nobody():
    # One step on both of two dogs: t = 4.9 with one degree of freedom, p = 0.13.
    found = agreement(_sessions([[0, 1], [0, 1]], _hocks))
    assert [one.clear for one in (*found.lean, *found.strictness)] == [False] * 4
    assert HOCKS in {one.point for one in found.lean}


EVERY = points()


def test_in_whole_seminars_who_leans_is_found_and_nobody_else_is_named():
    """Two degrees at three of eighty points, six dogs and four evaluators; and without any lean."""
    chance = random.Random(21)
    leaning = [named(seminar(EVERY, 6, 4, 2.0, chance), 4) for _ in range(10)]
    assert set().union(*leaning) == {0}
    assert leaning.count({0}) >= 9
    assert [named(seminar(EVERY, 6, 4, 0.0, chance), 4) for _ in range(12)] == [set()] * 12


@pytest.mark.parametrize(("dogs", "freedom"), [(3, 2), (6, 5)])
def test_the_scatter_at_all_points_counts_from_four_dogs_on(dogs, freedom):
    """Of three dogs p is that of Student's t with their own spread (scipy); of six it has more freedom."""
    tables = seminar(EVERY, dogs, 4, 2.0, random.Random(5))
    name, (_, rows) = next((n, t) for n, t in tables.items() if isinstance(t[0], GradePoint))
    places = [[answer.position for answer in row] for row in rows]
    gaps = [row[0] - sum(row[1:]) / 3 for row in places]
    lean = next(one for one in leans(list("0123"), tables, str) if (one.evaluator, one.point) == ("0", name))
    own = 2 * stats.t.sf(abs(lean.value) / (max(np.std(gaps, ddof=1), 12**-0.5) / dogs**0.5), freedom)
    assert lean.value == pytest.approx(np.mean(gaps))
    assert (lean.p == pytest.approx(own)) == (dogs == 3)
    if dogs > 3:
        t = abs(lean.value) / lean.u
        assert stats.norm.sf(t) * 2 < lean.p < stats.t.sf(t, 5) * 2
