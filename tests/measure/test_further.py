"""Takes still needed to settle a value at its limits: against scipy, and JCGM 100:2008 for means of takes."""

from __future__ import annotations

import math

import pytest
from scipy import stats
from scipy.optimize import brentq

from hands_on.measure.conformity import Band, classify, verdict
from hands_on.measure.further import Resting, _settles
from hands_on.measure.takes import DefaultU, summarise


def test_how_many_more_takes_would_settle_it() -> None:
    """With the takes it names, and not with one fewer, the expected u decides a mean that stays."""
    limits, u_default = Band(None, 70), DefaultU(0.40, 0.006)
    measured = summarise([70.82], u_default, 0.1)
    found = verdict(measured.value, measured.u, limits, resting=Resting(measured.u, measured.u_lasting, 1))
    assert found.outcome == "undecided"
    assert found.takes_more is not None
    assert verdict(70.82, measured.u_after(found.takes_more), limits).outcome == "outside"
    assert verdict(70.82, measured.u_after(found.takes_more - 1), limits).outcome == "undecided"


def test_where_the_lasting_part_is_too_large_more_takes_are_not_promised() -> None:
    found = verdict(70.4, 0.54, Band(None, 70), resting=Resting(0.54, 0.43, 1))
    assert found.takes_more is None
    assert found.takes_reason == "lasting"
    unknown = verdict(70.4, 0.54, Band(None, 70))
    assert unknown.takes_more is None
    assert unknown.takes_reason


def test_a_decided_value_asks_for_no_takes() -> None:
    found = verdict(75, 0.54, Band(None, 70), resting=Resting(0.54, 0.43, 1))
    assert (found.takes_more, found.takes_reason) == (None, None)


def test_all_of_an_uncertainty_may_be_lasting_and_none_of_it() -> None:
    """Then no number of takes helps; or the square root of their number does (JCGM 100:2008, 4.2.3)."""
    lasting = verdict(70.4, 0.5, Band(None, 70), resting=Resting(0.5, 0.5, 1))
    assert (lasting.takes_more, lasting.takes_reason) == (None, "lasting")
    # 0.4 cm is 1.645 u at u = 0.2432, so n > (0.5 / 0.2432)^2 = 4.2: five takes, four more, would settle a
    # mean that stays; the mean may also move inside.
    passing = verdict(70.4, 0.5, Band(None, 70), resting=Resting(0.5, 0.0, 1))
    assert (passing.takes_more, passing.takes_reason) == (3, None)
    assert passing.takes_p is not None
    assert passing.takes_p >= 0.5
    with pytest.raises(ValueError, match="one take"):
        verdict(70.4, 0.5, Band(None, 70), resting=Resting(0.5, 0.0, 0))


@pytest.mark.parametrize("n", [1, 2, 3])
@pytest.mark.parametrize("beyond", [0.2, 0.35, 0.5, 0.62, 0.68, 0.75])
def test_the_number_of_further_takes_and_how_probably_they_settle_it(n: int, beyond: float) -> None:
    """u and dof of n + m takes, and the predictive distribution of their mean; recomputed with scipy."""
    u, lasting, dof_r, dof_l = 0.5, 0.3, 8 + n - 1, 8
    sigma = math.sqrt((u**2 - lasting**2) * n)

    def settles(more: int) -> float:
        repeat = sigma / math.sqrt(n + more)
        then = math.hypot(repeat, lasting)
        dof = then**4 / (repeat**4 / (dof_r + more) + lasting**4 / dof_l)
        reach = stats.t.ppf(0.95, dof) * then
        law = stats.t(dof_r, 70 + beyond, sigma * math.sqrt(more / (n * (n + more))))
        return float(law.sf(70 + reach) + law.cdf(70 - reach))

    chances = {more: settles(more) for more in range(1, 11)}
    least = next((more for more, p in chances.items() if p >= 0.5), None)
    reason = None
    if least is None:
        reason = "lasting" if stats.t.sf(beyond / lasting, dof_l) > 0.05 else "too-many"
    ladder = [Band(None, 70), Band(70, None, low_open=True, weight=1)]
    resting = Resting(u, lasting, n, dof_r, dof_l)
    for found in (
        verdict(70 + beyond, u, ladder[0], dof=10, resting=resting),
        classify(70 + beyond, u, ladder, dof=10, resting=resting),
    ):
        assert (found.takes_more, found.takes_reason) == (least, reason)
        assert found.takes_p == (None if least is None else pytest.approx(chances[least], abs=1e-9))


def test_between_two_limits_the_takes_are_those_that_settle_either_side() -> None:
    """Asked 60 to 62: the middle of means that are settled inside, found by scipy's root finder."""
    u, lasting, n, more = 0.6, 0.3, 1, 3
    sigma = math.sqrt(u**2 - lasting**2)
    repeat = sigma / math.sqrt(n + more)
    then = math.hypot(repeat, lasting)
    dof = then**4 / (repeat**4 / (8 + more) + lasting**4 / 8)
    law_then = stats.t(dof, 0, then)
    half = brentq(lambda d: law_then.cdf(1 - d) - law_then.cdf(-1 - d) - 0.95, 0, 1)
    reach = stats.t.ppf(0.95, dof) * then
    law = stats.t(8, 61.5, sigma * math.sqrt(more / (n * (n + more))))
    p = law.cdf(61 + half) - law.cdf(61 - half) + law.cdf(60 - reach) + law.sf(62 + reach)
    parts = [(60.0, 62.0), (None, 60.0), (62.0, None)]
    assert _settles(61.5, Resting(u, lasting, n, 8, 8), parts, 0.95, more) == pytest.approx(p, abs=1e-6)


def test_more_than_ten_further_takes_are_not_spoken_of() -> None:
    """Ten more at 0.99: the mean of eleven leaves the limit by 0.70 of u with 2 P(Z > 0.736) = 0.46 only."""
    many = verdict(70.0, 1.0, Band(None, 70), 0.99, resting=Resting(1.0, 0.0, 1))
    assert (many.takes_more, many.takes_reason) == (None, "too-many")
    assert verdict(70.0, 1.0, Band(None, 70), 0.98, resting=Resting(1.0, 0.0, 1)).takes_more == 10


def test_between_two_bands_of_a_ladder_nothing_lasting_is_to_blame() -> None:
    """A value that no stretch holds: no number of takes puts it into one."""
    found = classify(71.5, 0.1, [Band(None, 70), Band(73, None, weight=1)], resting=Resting(0.1, 0.0, 1))
    assert (found.called, found.settled, found.takes_more) == (None, False, None)
    assert found.takes_reason == "too-many"
