"""What measurements share by running from one landmark, against draws of the landmarks themselves (numpy)."""

import math

import numpy as np
import pytest

from hands_on.measure.derived import Difference, Ratio, Ref, Slope, Sum, Triangle, evaluate
from hands_on.measure.landmarks import Span, Spread, correlations, direction, shared_covariance, variance
from hands_on.measure.takes import LASTING_SHARE

# Places on a straight head, cm: occiput, stop and nose on one line, so that muzzle and skull make the head.
PLACES = {"occiput": (0.0, 0.0), "stop": (14.0, 0.0), "nose": (25.0, 0.0)}
SPREADS = {"occiput": Spread(0.20, 0.2), "stop": Spread(0.22, 0.1), "nose": Spread(0.05, 0.05)}
HEAD = {"skull": ("occiput", "stop"), "muzzle": ("stop", "nose"), "head": ("occiput", "nose")}


def spans(places, lengths):
    return {name: Span(a, b, direction("straight", places[a], places[b])) for name, (a, b) in lengths.items()}


def u_of(found, rest):
    """u of each length: its landmarks and what else a take adds, cm."""
    return {name: math.hypot(math.sqrt(variance(span, SPREADS)), rest) for name, span in found.items()}


def drawn(places, lengths, rest, n=400_000, seed=7):
    """Lengths from landmarks drawn once for all (the lasting share) and once for each length."""
    random = np.random.default_rng(seed)
    own = math.sqrt(1 - LASTING_SHARE**2)
    common = {
        name: (LASTING_SHARE * random.normal(0, [[spread.along, spread.up]], (n, 2)))
        for name, spread in SPREADS.items()
    }
    out = {}
    for name, (a, b) in lengths.items():
        ends = []
        for place in (a, b):
            spread = SPREADS[place]
            anew = own * random.normal(0, [[spread.along, spread.up]], (n, 2))
            ends.append(np.array(places[place]) + common[place] + anew)
        out[name] = np.linalg.norm(ends[1] - ends[0], axis=1) + random.normal(0, rest, n)
    return out


def test_lengths_that_meet_at_a_landmark_err_with_opposite_signs():
    found = spans(PLACES, HEAD)
    # skull ends and muzzle begins at the stop: -0.22^2; skull and head both begin at the occiput: +0.20^2
    assert shared_covariance(found["skull"], found["muzzle"], SPREADS) == pytest.approx(-(0.22**2))
    assert shared_covariance(found["skull"], found["head"], SPREADS) == pytest.approx(0.20**2)
    assert shared_covariance(found["muzzle"], found["head"], SPREADS) == pytest.approx(0.05**2)


def test_a_ratio_over_a_shared_landmark_spreads_as_drawn_landmarks_do():
    found, rest = spans(PLACES, HEAD), 0.15
    u = u_of(found, rest)
    values = {"skull": (14.0, u["skull"]), "muzzle": (11.0, u["muzzle"])}
    tree = Ratio(Ref("muzzle"), Ref("skull"))
    draws = drawn(PLACES, HEAD, rest)
    ratio = draws["muzzle"] / draws["skull"]
    _, naive = evaluate(tree, values)
    _, shared = evaluate(tree, values, correlations(found, u, SPREADS))
    assert shared == pytest.approx(ratio.std(), rel=0.01)
    assert naive < 0.9 * ratio.std()
    # the probability of lying above a limit follows: within 0.01 of the share of draws (normal by JCGM 106)
    for limit in (0.74, 0.77, 0.80, 0.83):
        p = 0.5 * math.erfc((limit - 11 / 14) / shared / math.sqrt(2))
        assert p == pytest.approx((ratio > limit).mean(), abs=0.01)


def test_a_sum_over_a_shared_landmark_closes_better():
    found, rest = spans(PLACES, HEAD), 0.10
    u = u_of(found, rest)
    values = {name: (length, u[name]) for name, length in (("skull", 14.0), ("muzzle", 11.0), ("head", 25.0))}
    tree = Difference(Sum((Ref("muzzle"), Ref("skull"))), Ref("head"))
    draws = drawn(PLACES, HEAD, rest)
    misfit = draws["muzzle"] + draws["skull"] - draws["head"]
    _, naive = evaluate(tree, values)
    _, shared = evaluate(tree, values, correlations(found, u, SPREADS))
    assert shared == pytest.approx(misfit.std(), rel=0.01)
    assert naive > 1.2 * misfit.std()


def test_upright_and_level_lengths_feel_only_their_own_direction():
    spread = {"a": Spread(0.3, 0.0), "b": Spread(0.0, 0.4)}
    upright = Span("a", "b", direction("upright", (0.0, 0.0), (0.2, 1.0)))
    level = Span("a", "b", direction("level", (0.0, 0.0), (0.2, 1.0)))
    assert variance(upright, spread) == pytest.approx(0.16)
    assert variance(level, spread) == pytest.approx(0.09)
    assert shared_covariance(upright, level, spread) == pytest.approx(0.0)


def test_landmarks_in_one_place_give_no_direction():
    with pytest.raises(ValueError, match="level"):
        direction("level", (0.2, 0.0), (0.2, 1.0))


def test_exact_lengths_and_strangers_are_not_correlated():
    found = spans(PLACES, HEAD)
    assert correlations(found, dict.fromkeys(found, 0.0), SPREADS) == {}
    apart = {"one": Span("occiput", "stop", (1, 0, 0)), "other": Span("nose", "ground", (1, 0, 0))}
    assert correlations(apart, {"one": 1.0, "other": 1.0}, SPREADS) == {}


def test_a_joint_angle_from_two_slopes_is_that_of_the_worked_example():
    """Blade 17.2 cm falling 14.0 cm, upper arm 16.6 cm falling 11.5 cm: 54.5 and 43.8 degrees, 98.2 between.

    Worked with atan2 and the package uncertainties 3.2.3 for T (0, 58), P (10, 44), E (-2, 32.5).
    """
    values = {"zT": (58.0, 0.5), "zP": (44.0, 0.5), "zE": (32.5, 0.5)}
    values |= {"blade": (math.hypot(10, 14), 0.7), "arm": (math.hypot(12, 11.5), 0.7)}
    blade = Slope(Difference(Ref("zT"), Ref("zP")), Ref("blade"))
    arm = Slope(Difference(Ref("zP"), Ref("zE")), Ref("arm"))
    assert evaluate(blade, values)[0] == pytest.approx(54.5, abs=0.05)
    assert evaluate(arm, values)[0] == pytest.approx(43.8, abs=0.05)
    angle, u = evaluate(Sum((blade, arm)), values)
    assert angle == pytest.approx(98.2, abs=0.1)
    rng = np.random.default_rng(3)
    n = 200_000
    t, p, e, b, a = (rng.normal(*values[name], n) for name in ("zT", "zP", "zE", "blade", "arm"))
    both = np.degrees(np.arcsin(np.clip((t - p) / b, -1, 1)) + np.arcsin(np.clip((p - e) / a, -1, 1)))
    assert u == pytest.approx(both.std(), rel=0.08)  # first order leaves out that an arc sine bends


def test_a_joint_angle_from_three_lengths_is_that_of_the_worked_example():
    """a = 17.2, b = 16.6, c = 25.6 cm, each to 0.5: 98.5 degrees to 3.8 (the package uncertainties 3.2.3)."""
    values = {"a": (17.2, 0.5), "b": (16.6, 0.5), "c": (25.6, 0.5)}
    angle, u = evaluate(Triangle(Ref("a"), Ref("b"), Ref("c")), values)
    assert (angle, u) == (pytest.approx(98.5, abs=0.05), pytest.approx(3.8, abs=0.05))
