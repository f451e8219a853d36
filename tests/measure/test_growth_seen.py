"""A young dog measured several times: held against dogs drawn as the model says, whose truth is known."""

from __future__ import annotations

import math

import numpy as np
import pytest

from hands_on.measure.growth import project
from hands_on.measure.growth_curves import TIMING, GrowthProblem, curve_error, curve_of
from hands_on.measure.growth_seen import Seen, project_seen

SEM = 0.6


def dog(random: np.random.Generator, ages: tuple[float, ...]) -> list[float]:
    """Heights of a large dog at ages, each with the error of curve and hand."""
    curve, error = curve_of("height", "large"), curve_error("height", "large") / math.sqrt(2)
    shift = random.normal(0, TIMING["large"])
    sizes = [64.0 * curve(age + shift) * math.exp(random.normal(0, error)) for age in ages]
    return [size + random.normal(0, SEM) for size in sizes]


def test_one_earlier_measurement_is_the_plain_projection() -> None:
    made = project_seen([Seen(52.0, SEM, 6.0)], 12.0, "height", "large", sem=SEM)
    assert made == project(52.0, SEM, 6.0, 12.0, "height", "large", sem2=SEM)


def test_of_two_alike_the_second_says_no_more_than_the_curve() -> None:
    one = project(52.0, SEM, 6.0, 12.0, "height", "large", sem2=SEM)
    curve = curve_of("height", "large")
    seen = [Seen(52.0 * curve(4.0) / curve(6.0), SEM, 4.0), Seen(52.0, SEM, 6.0)]
    two = project_seen(seen, 12.0, "height", "large", sem=SEM)
    assert two.expected == pytest.approx(one.expected, rel=0.01)
    assert (two.sessions, two.u < one.u) == (2, True)


def test_a_dog_ahead_of_its_curve_has_less_before_it() -> None:
    # what a dog grew from 4 to 6 months tells whether it is early or late
    early = project_seen([Seen(50.0, SEM, 4.0), Seen(54.0, SEM, 6.0)], 12.0, "height", "large")
    late = project_seen([Seen(42.0, SEM, 4.0), Seen(54.0, SEM, 6.0)], 12.0, "height", "large")
    assert early.expected + 2.0 < late.expected


def test_the_range_holds_95_of_100_dogs_and_is_narrower_than_from_the_last_alone() -> None:
    random = np.random.default_rng(20240601)
    ages, held, plain, widths = (4.0, 5.0, 6.5, 12.0), 0, 0, []
    n = 150
    for _ in range(n):
        sizes = dog(random, ages)
        seen = [Seen(size, SEM, age) for size, age in zip(sizes[:-1], ages[:-1], strict=True)]
        made = project_seen(seen, ages[-1], "height", "large", sem=SEM)
        last = project(sizes[2], SEM, ages[2], ages[3], "height", "large", sem2=SEM)
        held += abs(sizes[-1] - made.expected) <= 1.96 * made.u
        plain += abs(sizes[-1] - last.expected) <= 1.96 * last.u
        widths.append(made.u / last.u)
    # 95 % of 150 is 142.5, and its standard deviation 2.7 (binomial)
    assert 134 <= held <= 149
    assert plain >= 134
    assert np.mean(widths) < 0.9


def test_what_the_curve_refuses_is_refused() -> None:
    with pytest.raises(GrowthProblem):
        project_seen([Seen(50.0, SEM, 4.0), Seen(54.0, SEM, 30.0)], 31.0, "height", "large")
    made = project_seen([Seen(20.0, SEM, 1.0), Seen(54.0, SEM, 6.0)], 12.0, "height", "large")
    assert made.sessions == 1, "a pup younger than the curves is left out"


def test_few_takes_ask_for_students_t() -> None:
    from scipy import stats

    from hands_on.measure.growth import agrees

    known = project(60.0, 2.0, 10.0, 10.0, "height", "large", sem2=2.0)
    few = project(60.0, 2.0, 10.0, 10.0, "height", "large", sem2=2.0, dof1=6, dof2=6)
    assert agrees(few, 61.0).sdc == pytest.approx(stats.t.ppf(0.975, 12) * 2.0 * math.sqrt(2))
    assert agrees(known, 61.0).sdc == pytest.approx(1.96 * 2.0 * math.sqrt(2), rel=1e-3)
    far = known.expected + 3.0 * known.u
    # JCGM 100:2008, G.4.1: the curve's own error has no doubt of its own here
    parts = [2.0 / 60, 0.02, 2.0 / known.expected]
    dof = sum(u * u for u in parts) ** 2 / (parts[0] ** 4 / 6 + parts[2] ** 4 / 6)
    assert few.dof == pytest.approx(dof)
    assert agrees(few, far).z == pytest.approx(stats.norm.isf(stats.t.sf(3.0, dof)))
    assert few.high > known.high
