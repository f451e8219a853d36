"""Takes to value and uncertainty, and what is odd about takes."""

from __future__ import annotations

import math
from statistics import mean, stdev

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from hands_on.measure.hand import Lasting, OwnHand
from hands_on.measure.takes import (
    Counted,
    DefaultU,
    OddTakes,
    Take,
    Taken,
    critical_range_factor,
    summarise,
    summarise_count,
    take_alarms,
)

HEIGHT = DefaultU(0.40, 0.006, "derived", "ponies, Lamas and others 2007")

READINGS = st.lists(st.floats(20, 90), min_size=1, max_size=12)


@pytest.mark.parametrize(
    ("a", "b", "reading", "u"),
    [
        # proposed defaults of one careful take, printed to two digits: derived and judged figures
        (0.40, 0.006, 60, 0.54),
        (0.40, 0.006, 30, 0.44),
        (0.70, 0.010, 66, 0.96),
        (0.50, 0.012, 27, 0.60),
        (0.60, 0.012, 72, 1.05),
        (0.50, 0.030, 17, 0.71),
        (0.25, 0.020, 11, 0.33),
    ],
)
def test_one_take_has_the_default_uncertainty(a: float, b: float, reading: float, u: float) -> None:
    measured = summarise([reading], DefaultU(a, b), resolution=0.1)
    assert measured.u == pytest.approx(math.hypot(a, b * reading), rel=1e-12)
    assert measured.u == pytest.approx(u, abs=0.006)
    assert (measured.value, measured.n, measured.spread) == (reading, 1, None)


@pytest.mark.parametrize(("n", "share"), [(2, 0.91), (3, 0.87), (5, 0.84)])
def test_takes_with_an_ordinary_spread_gain_what_the_split_allows(n: int, share: float) -> None:
    """u sqrt(0.64 + 0.36/n) of a mean of n: printed shares 0.91, 0.87, 0.84 (judged split 0.6 to 0.8)."""
    u_one = HEIGHT.at(60)
    shape = np.linspace(-1, 1, n)
    takes = 60 + shape / np.std(shape, ddof=1) * 0.6 * u_one  # a spread just as expected
    measured = summarise(list(takes), HEIGHT)
    assert measured.u == pytest.approx(u_one * math.sqrt(0.64 + 0.36 / n), rel=1e-9)
    assert measured.u / u_one == pytest.approx(share, abs=0.006)


def test_the_formula_as_written_down_by_hand() -> None:
    """Three takes recomputed with the standard library from the formula in the module's head."""
    takes = [60.0, 60.5, 61.5]
    u1 = math.sqrt(0.40**2 + (0.006 * mean(takes)) ** 2)
    sigma_r = math.sqrt((8 * (0.6 * u1) ** 2 + 2 * stdev(takes) ** 2) / 10)
    measured = summarise(takes, HEIGHT, 0.5)
    assert measured.value == pytest.approx(mean(takes))
    assert measured.u_repeat == pytest.approx(sigma_r / math.sqrt(3))
    assert measured.u_lasting == pytest.approx(0.8 * u1)
    assert measured.u == pytest.approx(math.hypot(sigma_r / math.sqrt(3), 0.8 * u1))
    # Welch-Satterthwaite with 8 + 2 degrees of freedom behind the repeatable part
    both = measured.u_repeat**4 / 10 + measured.u_lasting**4 / 8  # JCGM 100:2008, G.4.1 and G.3
    assert measured.dof == pytest.approx(measured.u**4 / both)
    assert measured.spread == pytest.approx(stdev(takes))


def test_two_lucky_takes_do_not_make_a_perfect_value() -> None:
    lucky, one = summarise([60.0, 60.0], HEIGHT, 0.5), summarise([60.0], HEIGHT, 0.5)
    assert lucky.u > 0.8 * one.u
    assert lucky.u < one.u


def test_a_wild_spread_raises_the_uncertainty() -> None:
    assert summarise([58.0, 62.0], HEIGHT).u > summarise([60.0], HEIGHT).u


def test_the_pooled_spread_is_right_on_average() -> None:
    """Monte Carlo (numpy, 20 000 dogs of 3 takes): the pooled variance has no bias when the prior is true."""
    rng = np.random.default_rng(7)
    sigma = 0.6 * HEIGHT.at(60)
    draws = 60 + sigma * rng.standard_normal((2000, 3))
    found = [summarise(list(takes), HEIGHT).sigma_r ** 2 for takes in draws]
    assert np.mean(found) == pytest.approx(sigma**2, rel=0.02)


def test_a_coarse_scale_is_a_floor() -> None:
    """step/sqrt(12), JCGM 100:2008, F.2.2.1; what the scale hides is not brought back by repeating."""
    fine = DefaultU(0.05)
    measured = summarise([30.0], fine, resolution=1.0)
    assert measured.u == pytest.approx(1 / math.sqrt(12))
    assert math.hypot(measured.u_repeat, measured.u_lasting) == pytest.approx(measured.u)
    assert measured.u_after(50) > 0.99 / math.sqrt(12)
    assert measured.basis == Taken(1, fine, floored=True)


@given(READINGS, st.floats(0, 2), st.floats(0, 0.05), st.floats(0, 2))
def test_u_is_never_below_resolution_nor_lasting_part(
    values: list[float], a: float, b: float, step: float
) -> None:
    measured = summarise(values, DefaultU(a, b), step)
    assert measured.u >= step / math.sqrt(12) - 1e-12
    assert measured.u >= 0.8 * DefaultU(a, b).at(measured.value) - 1e-9
    assert measured.u == pytest.approx(math.hypot(measured.u_repeat, measured.u_lasting))
    assert min(values) - 1e-9 <= measured.value <= max(values) + 1e-9
    assert measured.dof > 0


def test_the_own_hand_takes_the_place_of_the_repeatable_default() -> None:
    hand = OwnHand(tem=0.15, n_dogs=12, n_repeats=24)
    one = summarise([60.0], HEIGHT, own=hand)
    assert one.u_repeat == pytest.approx(0.15)
    assert one.u == pytest.approx(math.hypot(0.15, 0.8 * HEIGHT.at(60)))
    three = summarise([60.0, 60.2, 60.4], HEIGHT, own=hand)
    pooled = (12 * 0.15**2 + 2 * 0.2**2) / 14
    assert three.sigma_r == pytest.approx(math.sqrt(pooled))
    assert three.basis == Taken(3, HEIGHT, own=hand)


def test_takes_may_carry_their_entered_unit() -> None:
    assert summarise([Take(25, 63.5, "in"), Take(64.5, 64.5, "cm")], HEIGHT).value == 64.0


def test_u_after_further_takes_is_what_they_would_give() -> None:
    measured = summarise([60.0, 60.5], HEIGHT)
    assert measured.u_after(0) == pytest.approx(measured.u)
    assert measured.u_after(2) == pytest.approx(math.hypot(measured.sigma_r / 2, measured.u_lasting))


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="one take"):
        summarise([], HEIGHT)
    with pytest.raises(ValueError, match="finite"):
        summarise([math.nan], HEIGHT)
    with pytest.raises(ValueError, match="resolution"):
        summarise([60.0], HEIGHT, -1)
    with pytest.raises(ValueError, match="negative"):
        DefaultU(-0.1)


def test_counts_are_no_normal_quantities() -> None:
    agreed = summarise_count([42, 42])
    assert agreed.harder == 1.0, "a count is no harder to find in a long coat"
    assert (agreed.value, agreed.u) == (42, 0)
    differing = summarise_count([42, 41])
    assert (differing.value, differing.u) == (41, 1)
    assert (agreed.basis, differing.basis) == (Counted(), Counted((42, 41)))
    assert not agreed.basis.by_chart
    with pytest.raises(ValueError):
        summarise_count([])
    with pytest.raises(ValueError):
        summarise_count([-1, 42])
    with pytest.raises(ValueError):
        summarise_count([-1])


@pytest.mark.parametrize(("n", "printed"), [(2, 2.8), (3, 3.3), (4, 3.6), (5, 3.9)])
def test_critical_range_factors_as_printed(n: int, printed: float) -> None:
    """ISO 5725-6, critical-range factors (from memory)."""
    assert critical_range_factor(n) == printed


@pytest.mark.parametrize("n", range(2, 21))
def test_critical_range_factors_are_the_95_percent_points_of_the_range(n: int) -> None:
    exact = stats.studentized_range.ppf(0.95, n, np.inf)
    assert critical_range_factor(n) == pytest.approx(exact, abs=0.051)


def alarms(values: list[float], **changed: object) -> dict[str, tuple[int, ...]]:
    settings: dict[str, object] = {
        "unit": "cm",
        "sigma_r": 0.6 * HEIGHT.at(60),
        "resolution": 0.5,
        "plausible": (10.0, 115.0),
        "is_height": True,
    }
    found = take_alarms(values, **(settings | changed))  # type: ignore[arg-type]
    return {alarm.kind: alarm.takes for alarm in found}


@pytest.mark.parametrize(("n", "limit"), [(2, 0.9), (3, 1.1), (4, 1.2)])
def test_height_of_a_60_cm_dog_may_vary_so_much(n: int, limit: float) -> None:
    """0.9, 1.1 and 1.2 cm for 2, 3 and 4 takes, from the default u and the ISO 5725-6 factors."""
    within, beyond = [60.0] * (n - 1) + [60 + limit - 0.06], [60.0] * (n - 1) + [60 + limit + 0.06]
    assert "discordant" not in alarms(within)
    assert "discordant" in alarms(beyond)


@pytest.mark.parametrize(
    ("values", "named"),
    [
        ([60.0, 62.0], (1, 2)),
        ([60.0, 60.5, 63.0], (3,)),
        ([57.0, 60.0, 60.5], (1,)),
        ([57.0, 60.0, 62.5], (1,)),
        ([58.0, 60.0, 62.0], (1, 3)),
    ],
)
def test_discordant_takes_are_named(values: list[float], named: tuple[int, ...]) -> None:
    assert alarms(values)["discordant"] == named


def test_one_step_of_the_scale_is_never_discordant() -> None:
    assert alarms([60.0, 60.5], sigma_r=0.01) == {}


def test_implausible_takes_are_named_and_kept() -> None:
    assert alarms([60.0, 645.0])["implausible"] == (2,)


@pytest.mark.parametrize(
    ("values", "drifts"),
    [
        ([60.0, 59.5, 59.0], True),
        ([60.0, 59.8, 59.6], False),  # within one step of the scale
        ([60.0, 59.5, 59.5], False),
        ([60.0, 59.0, 59.5], False),
        ([59.0, 59.5, 60.0], False),
        ([60.0, 59.0], False),
    ],
)
def test_heights_that_only_fall_are_a_settling_dog(values: list[float], drifts: bool) -> None:
    assert ("drift" in alarms(values)) is drifts
    assert "drift" not in alarms(values, is_height=False)


def test_a_single_take_is_never_discordant() -> None:
    assert alarms([60.0]) == {}


def test_beyond_twenty_takes_the_factor_of_twenty_is_used() -> None:
    assert critical_range_factor(21) == critical_range_factor(99) == critical_range_factor(20)


def test_a_range_needs_two_takes() -> None:
    with pytest.raises(ValueError, match="two takes"):
        critical_range_factor(1)


@pytest.mark.parametrize("bad", [(-0.1, 0.0), (0.0, -0.1), (math.inf, 0.0), (0.0, math.inf)])
def test_figures_of_an_uncertainty_are_finite_and_not_negative(bad: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="finite"):
        DefaultU(*bad)
    assert DefaultU(0.0, 0.0).at(60) == 0


@pytest.mark.parametrize(
    ("plausible", "odd"),
    [((60.0, 62.0), (1, 4)), ((60.0, None), (1,)), ((None, 62.0), (4,)), ((None, None), ()), (None, ())],
)
def test_a_take_on_a_plausible_bound_is_plausible(
    plausible: tuple[float | None, float | None] | None, odd: tuple[int, ...]
) -> None:
    found = take_alarms([59.9, 60.0, 62.0, 62.1], unit="cm", sigma_r=5.0, plausible=plausible)
    assert [(one.kind, one.takes, one.n) for one in found] == [("implausible", odd, 4)] * bool(odd)
    values = (59.9, 60.0, 62.0, 62.1)
    assert [one.values for one in found] == [tuple(values[take - 1] for take in odd)] * bool(odd)


def test_odd_takes_are_told_with_how_far_apart_they_lie() -> None:
    """Three takes may lie 3.3 times 0.3 cm apart (ISO 5725-6, from memory)."""
    (odd,) = take_alarms([60.0, 60.5, 63.0], unit="cm", sigma_r=0.3)
    assert (odd.kind, odd.takes, odd.values, odd.unit, odd.n) == ("discordant", (3,), (63.0,), "cm", 3)
    assert (odd.apart, odd.allowed) == (3.0, pytest.approx(0.99))
    (fall,) = take_alarms([61.0, 60.0, 59.0], unit="cm", sigma_r=5.0, resolution=0.5, is_height=True)
    assert (fall.kind, fall.takes, fall.values, fall.apart, fall.n) == (
        "drift", (1, 2, 3), (61.0, 60.0, 59.0), 2.0, 3,
    )  # fmt: skip


def test_a_coarse_scale_takes_what_repeating_leaves() -> None:
    """u of two equal takes by arithmetic: the floor step / sqrt(12), less what the takes themselves give."""
    coarse = summarise([30.0, 30.0], DefaultU(0.1), resolution=1.0)
    repeat = math.sqrt(8 / 9 * 0.06**2 / 2)
    assert coarse.u_repeat == pytest.approx(repeat)
    assert coarse.u_lasting == pytest.approx(math.sqrt(1 / 12 - repeat**2))
    assert coarse.dof == pytest.approx(9 * coarse.u**4 / repeat**4)


def test_the_hands_share_of_one_take_is_the_square_of_its_part() -> None:
    """0.6 of u1 squared (the split at the head of the module); of four takes with nothing odd a quarter."""
    assert summarise([60.0], HEIGHT).hand_share == pytest.approx(0.36)
    shape = np.array([-1.0, 0.0, 0.0, 1.0])
    four = summarise(list(60 + shape / np.std(shape, ddof=1) * 0.6 * HEIGHT.at(60)), HEIGHT)
    assert four.hand_share == pytest.approx(0.09 / (0.64 + 0.09))
    assert summarise([60.0], DefaultU(0.0)).hand_share == 0.0


def test_the_spread_is_the_standard_deviation_of_the_takes() -> None:
    assert summarise([60.0, 61.0], HEIGHT).spread == pytest.approx(math.sqrt(0.5))
    assert summarise([60.0, 61.0, 62.0], HEIGHT).spread == pytest.approx(1.0)


@pytest.mark.parametrize("readings", [[60.0, math.nan], [math.inf, 60.0], [math.nan]])
def test_every_take_must_be_a_number(readings: list[float]) -> None:
    with pytest.raises(ValueError, match="finite"):
        summarise(readings, HEIGHT)


def test_odd_takes_hold_no_figure_that_their_kind_has_not() -> None:
    low, fall = take_alarms(
        [60.0, 59.0, 9.0], unit="cm", sigma_r=50.0, plausible=(10.0, None), resolution=0.5, is_height=True
    )
    assert low == OddTakes("implausible", (3,), (9.0,), "cm", 3, apart=0.0, allowed=0.0)
    assert fall == OddTakes("drift", (1, 2, 3), (60.0, 59.0, 9.0), "cm", 3, apart=51.0, allowed=0.0)


def test_only_of_a_height_is_a_fall_told() -> None:
    taken = [60.0, 59.0, 58.0]
    assert take_alarms(taken, unit="cm", sigma_r=50.0) == ()
    assert [one.kind for one in take_alarms(taken, unit="cm", sigma_r=50.0, is_height=True)] == ["drift"]


def test_how_much_harder_than_on_a_calm_dog_a_take_is() -> None:
    """The lasting part over that of the default, whatever its size; 1 where nothing lasts at all."""
    for a in (0.1, 4.0):
        restless = DefaultU(a, 0.006, factor=1.5)
        assert summarise([60.0], restless).harder == pytest.approx(1.5)
        assert summarise([60.0], DefaultU(a, 0.006)).harder == pytest.approx(1.0)
    assert summarise([60.0], DefaultU(0.0)).harder == 1.0


# --- stands, coats, rounds ------------------------------------------------------------------------------

STOOD = DefaultU(0.40, 0.006, stand_share=0.5)


def simulated(on: list[int], n: int) -> np.ndarray:
    """Errors of the mean of takes of a 60 cm dog: what stays, what each stand does, what each take does."""
    random = np.random.default_rng(20240601)
    u1, takes = HEIGHT.at(60), len(on)
    way = random.normal(0, 0.8 * math.sqrt(0.5) * u1, (n, 1))
    stand = random.normal(0, 0.8 * math.sqrt(0.5) * u1, (n, max(on)))[:, [place - 1 for place in on]]
    hand = random.normal(0, 0.6 * u1, (n, takes))
    return (way + stand + hand).mean(axis=1)


@pytest.mark.parametrize("on", [[1], [1, 1, 1], [1, 2, 3], [1, 1, 2], [1, 1, 1, 2]])
def test_takes_on_one_stand_share_what_it_does_and_a_new_stand_frees_it(on: list[int]) -> None:
    # readings whose spread within a stand is as assumed, so that u is the judged one
    at = 0.6 * HEIGHT.at(60)
    readings: list[float] = []
    for stand in sorted(set(on)):
        shape = np.array([-1.0, 0.0, 1.0][: on.count(stand)])
        shape = shape - shape.mean()
        size = np.std(shape, ddof=1) if len(shape) > 1 else 1.0
        readings += list(60 + shape * at / size)
    found = summarise(readings, STOOD, stands=on)
    assert found.u == pytest.approx(float(np.std(simulated(on, 200_000))), rel=0.01)


def test_a_new_stand_says_more_than_another_take_on_the_same() -> None:
    same = summarise([60.0, 60.0, 60.0], STOOD, stands=[1, 1, 1])
    anew = summarise([60.0, 60.0, 60.0], STOOD, stands=[1, 2, 3])
    assert same.u == pytest.approx(summarise([60.0, 60.0, 60.0], HEIGHT).u)  # as without stands
    # half of the lasting variance is the stand's, and three stands leave a third of it
    assert anew.u_lasting == pytest.approx(math.sqrt(0.5 + 0.5 / 3) * same.u_lasting)
    assert anew.u < same.u
    assert anew.dof_repeat == same.dof_repeat - 2  # the spread between stands is not the hand's


def test_what_one_hand_has_in_common_is_no_stand_of_the_dog() -> None:
    """Half of the lasting variance by judgement, the share that rounds measured where they did."""
    lasting = 0.8 * HEIGHT.at(60.0)
    for stands in ([1, 1, 1], [1, 2, 3]):
        found = summarise([60.0, 60.0, 60.0], STOOD, stands=stands)
        assert found.u_shared == pytest.approx(math.sqrt(0.5) * lasting)
        assert found.u_shared <= found.u_lasting
    rounds = Lasting(0.30, 60.0, 20.0, 5, 10, shared=0.9)
    measured = summarise([60.0], HEIGHT, own=OwnHand(0.2, 12, 24, at=60.0, lasting=rounds))
    assert measured.u_shared == pytest.approx(math.sqrt(0.9) * 0.30)


def test_stands_far_apart_do_not_make_the_hand_worse() -> None:
    apart = summarise([59.0, 59.0, 61.0, 61.0], STOOD, stands=[1, 1, 2, 2])
    assert apart.sigma_r < 0.6 * HEIGHT.at(60)
    with pytest.raises(ValueError):
        summarise([60.0, 61.0], STOOD, stands=[1])


def test_takes_on_two_stands_may_lie_farther_apart() -> None:
    from hands_on.measure.takes import expected_repeatability

    one = expected_repeatability(60, STOOD)
    assert one == pytest.approx(0.6 * STOOD.at(60))
    # JCGM 100:2008, 5.1.2: independent parts add up as squares
    two = math.hypot(one, math.sqrt(0.5) * 0.8 * STOOD.at(60))
    assert expected_repeatability(60, STOOD, stands=2) == pytest.approx(two)


def test_a_coat_makes_every_part_larger() -> None:
    coated = DefaultU(0.40, 0.006, factor=1.5, because=("long coat",))
    takes = [60.0, 60.4]
    plain, found = summarise(takes, HEIGHT), summarise(takes, coated)
    assert coated.at(60) == pytest.approx(1.5 * HEIGHT.at(60))
    assert found.u_lasting == pytest.approx(1.5 * plain.u_lasting)
    assert (plain.harder, found.harder) == (pytest.approx(1.0), pytest.approx(1.5))
    hand = OwnHand(0.15, 12, 24)
    one = summarise([60.0], coated, own=hand)
    assert one.u_repeat == pytest.approx(1.5 * 0.15)


def test_what_rounds_measured_takes_the_place_of_the_judged_lasting_part() -> None:
    lasting = Lasting(sd=0.2, at=60.0, dof=6.5, evaluators=4, dogs=8)
    known = OwnHand(0.15, 12, 24, at=60.0, lasting=lasting)
    found = summarise([60.0], HEIGHT, own=known)
    assert (found.u_lasting, found.dof_lasting) == (pytest.approx(0.2), 6.5)
    assert found.u == pytest.approx(math.hypot(0.15, 0.2))
    small = summarise([30.0], HEIGHT, own=known)
    assert small.u_lasting == pytest.approx(0.2 * HEIGHT.at(30) / HEIGHT.at(60))
