"""Many dogs together: shares, spreads, trends, a dog counted once."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from hands_on.commands.cohort import lines
from hands_on.compare.cohort.cohort import cohort
from hands_on.compare.cohort.members import Wanted, member_of
from hands_on.compare.cohort.shares import wilson
from hands_on.compare.cohort.trends import Trend, slope
from hands_on.ruleset.labels import Label
from hands_on.wording.cohort import about_sentences, spread_cells, trend_sentences
from tests.compare.build import asked, held
from tests.evaluate.build import grade, take

HOCKS, COW = "hindquarters.hocks", "hindquarters.cow-hocks"
OF = Trend("size", "height", Label("Height"), "male", "cm")


@pytest.mark.parametrize("count", [0, 1, 3, 9])
def test_a_share_has_wilsons_interval(count):
    # scipy.stats.binomtest: the score interval without continuity correction.
    there = stats.binomtest(count, 9).proportion_ci(0.95, method="wilson")
    found = wilson(count, 9)
    assert (found.low, found.high) == (
        pytest.approx(there.low, abs=1e-9),
        pytest.approx(there.high, abs=1e-9),
    )


def test_of_no_dogs_nothing_is_known():
    assert (wilson(0, 0).low, wilson(0, 0).high) == (0.0, 1.0)
    with pytest.raises(ValueError, match="3 of 2"):
        wilson(3, 2)


@given(st.lists(st.tuples(st.integers(2000, 2030), st.floats(-50, 50)), min_size=10, max_size=40))
def test_a_slope_is_that_of_scipy(rows):
    values = [(float(year), round(value, 3)) for year, value in rows]
    found = slope(OF, values)
    if found.slope is None or found.low == found.high:
        return
    x, y = np.array(values).T
    there = stats.linregress(x, y)
    assert found.slope == pytest.approx(there.slope, rel=1e-7, abs=1e-9)
    assert found.p == pytest.approx(there.pvalue, rel=1e-5, abs=1e-9)
    half = stats.t.ppf(0.975, len(values) - 2) * there.stderr
    assert found.high - found.slope == pytest.approx(half, rel=1e-6, abs=1e-9)


def test_few_dogs_or_years_have_no_trend():
    nine = [(2010.0 + n, float(n)) for n in range(9)]
    two_years = [(2010.0 + n % 2, float(n)) for n in range(20)]
    assert slope(OF, nine).slope is None
    assert slope(OF, two_years).slope is None
    assert slope(OF, [*nine, (2020.0, 9.5)]).slope is not None


def litter(degrees, heights=()):
    """Bitches of one litter; None: as asked."""
    heights = [*heights, *[62.0] * (len(degrees) - len(heights))]
    return [
        held(
            (grade(COW, degree, point=HOCKS) if degree else asked(HOCKS)) + take("height", height),
            name=f"Dog {n}",
        )
        for n, (degree, height) in enumerate(zip(degrees, heights, strict=True))
    ]


def test_a_fault_counts_in_the_dogs_in_which_it_was_looked_for():
    dogs = [*litter(["slight", None, "marked"]), held("", name="Not looked at")]
    found = cohort([member_of(one) for one in dogs])
    (cow,) = [one for one in found.frequencies if one.fault == COW]
    assert (cow.share.count, cow.share.n) == (2, 3)
    assert cow.degrees == {"slight": 1, "marked": 1}
    assert cow.classes == {"fault": 1, "severe": 1}


def test_a_dog_examined_twice_counts_once_by_its_latest():
    earlier = held(grade(COW, "slight", point=HOCKS), on="2023-06-01")
    later = held(asked(HOCKS), on="2024-06-01")
    for order in ([earlier, later], [later, earlier]):
        found = cohort([member_of(one) for one in order])
        assert ([one.day for one in found.members], found.left_out) == (["2024-06-01"], 1)
        assert found.frequencies == ()


def test_heights_have_mean_spread_and_what_is_asked():
    heights = [58.0, 61.0, 62.0, 64.0]
    found = cohort([member_of(one) for one in litter([None] * 4, heights)])
    (height,) = [one for one in found.spreads if one.id == "height"]
    assert height.mean == pytest.approx(np.mean(heights))
    assert height.sd == pytest.approx(np.std(heights, ddof=1))
    there = stats.t.interval(0.95, 3, np.mean(heights), stats.sem(heights))
    assert (height.low, height.high) == pytest.approx(there)
    assert height.asked == (60.0, 65.0)
    assert (height.outside.count, height.outside.n) == (1, 4)


def test_what_is_alike_in_all_has_no_interval():
    found = cohort([member_of(one) for one in litter([None] * 4, [62.0] * 4)])
    (height,) = [one for one in found.spreads if one.id == "height"]
    assert (height.mean, height.sd, height.low, height.high) == (62.0, 0.0, None, None)
    assert spread_cells(height)[1:3] == ("62.0 cm in each", "62.0 cm")


def test_who_is_wanted():
    dogs = [member_of(one) for one in litter(["slight", None])]
    assert len(cohort(dogs, Wanted(born_from=2020, born_to=2020)).members) == 2
    assert len(cohort(dogs, Wanted(born_from=2021)).members) == 0
    assert len(cohort(dogs, Wanted(sex="male")).members) == 0
    assert len(cohort(dogs, Wanted(evaluator="a. EXAMPLE")).members) == 2
    assert len(cohort(dogs, Wanted(breed=dogs[0].breed.upper()[:3])).members) == 2
    assert len(cohort(dogs, Wanted(breed="no such breed")).members) == 0


def test_heights_that_rise_are_told_and_even_ones_are_not():
    def born(year, height, n):
        return member_of(
            held(take("height", height), name=f"{year}-{n}", born=f"{year}-03-01", on="2024-06-01")
        )

    rising = [born(2010 + n % 10, 58 + 0.5 * (n % 10) + 0.3 * (n % 3), n) for n in range(40)]
    even = [born(2010 + n % 10, 62 + 0.5 * (n % 3), n) for n in range(40)]
    told = " ".join(trend_sentences(cohort(rising)))
    assert "Height" in told
    assert "rises by 0.5" in told
    assert "Nothing moves" in " ".join(trend_sentences(cohort(even)))


def test_few_dogs_are_said_to_be_few():
    told = " ".join(about_sentences(cohort([member_of(one) for one in litter([None] * 9)])))
    assert "Fewer than 10 dogs" in told
    assert "9 dogs" in told
    assert math.isclose(wilson(9, 9).low, 0.7008, abs_tol=1e-3)  # 9 / (9 + 1.96^2)


def test_a_fault_that_few_were_looked_at_for_is_said_to_be_so():
    dogs = [*litter(["slight", *[None] * 11])]
    seen = " ".join(about_sentences(cohort([member_of(one) for one in dogs])))
    assert "looked for in fewer" not in seen
    rest = [held(take("height", 62.0), name=f"Other {n}") for n in range(8)]
    few = " ".join(about_sentences(cohort([member_of(one) for one in [*dogs[:4], *rest]])))
    assert "Some faults were looked for in fewer than 10 dogs" in few


@pytest.mark.parametrize("width", [80, 100])
def test_the_text_keeps_to_its_width_and_an_interval_to_one_line(width):
    heights = [61.4 + n / 10 for n in range(12)]
    found = cohort([member_of(one) for one in litter(["slight"] * 3 + [None] * 9, heights)])
    rows = [*lines(found, {"fault": "Disqualifying fault"}, width)]
    assert max(map(len, rows)) <= width
    assert all(row.count("[") == row.count("]") for row in rows)
    assert any("3 of 12, 25 % [9 to 53 %]" in row for row in rows)
    assert not any(row.rstrip().endswith("Disqualify") for row in rows)
