"""Coefficients of agreement against published tables and against scipy, scikit-learn and krippendorff.

Sources of the tables stand beside them in tests/data/agreement_cases.toml.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hands_on.compare.agreement.alpha import alpha
from hands_on.compare.agreement.concordance import concordance, mid_ranks
from hands_on.compare.agreement.f_and_chi_squared import chi2_upper_tail, f_quantile, f_upper_tail
from hands_on.compare.agreement.gwet import gwet
from hands_on.compare.agreement.icc import icc, icc_forms, mean_squares
from hands_on.compare.agreement.kappa import (
    fleiss_kappa,
    kappa_of_table,
    linear,
    quadratic,
    unweighted,
    weighted_kappa,
)
from hands_on.wording.agreement import reason_words
from tests.compare.cases import CASES, graded, measured, near, of_kind, table_of

SEEDS = range(8)


def _trials(case):
    inputs = case["inputs"]
    return inputs.get("ratings") or [
        list(pair) for pair in zip(inputs["first"], inputs["second"], strict=True)
    ]


# --- measurements ------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["shrout-fleiss-1979", "weir-data-set-a", "weir-data-set-b"])
def test_all_six_forms_of_the_intraclass_correlation(name):
    case = CASES[name]
    for form, value in icc_forms(_trials(case)).items():
        assert value == near(case, f"icc_{form.replace(',', '_')}")


def test_the_interval_of_shrout_and_fleiss():
    case = CASES["shrout-fleiss-1979"]
    found = icc(case["inputs"]["ratings"])
    low, high = case["expected"]["icc_2_1_ci95"]
    assert found.value == near(case, "icc_2_1")
    assert (found.low, found.high) == (pytest.approx(low, abs=1e-6), pytest.approx(high, abs=1e-6))
    assert (found.n, found.comparisons) == (6, 36)


def test_mean_squares_of_shrout_and_fleiss():
    case = CASES["shrout-fleiss-1979"]
    found = mean_squares(_trials(case))
    assert found.dogs == near(case, "ms_between")
    assert found.within == near(case, "ms_within")
    assert found.evaluators == near(case, "ms_judges")
    assert found.error == near(case, "ms_error")


def test_dogs_that_one_evaluator_left_out_do_not_count():
    rows = measured(1, 6, 3)
    assert icc([*rows, [60.0, None, 61.0]]) == icc(rows)


def test_negative_correlation_is_shown():
    # One evaluator's order is the other's turned round.
    assert icc([[1, 4], [2, 3], [3, 2], [4, 1]]).value < 0


@pytest.mark.parametrize(
    ("table", "value", "reason"),
    [
        ([[60.0, 60.0], [60.0, 60.0], [60.0, 60.0]], None, "do not vary"),
        ([[60.0, 60.0], [65.0, 65.0], [62.0, 62.0]], 1.0, "no interval"),
        ([[60.0, 60.5]], None, "two dogs"),
        ([[60.0], [61.0]], None, "two evaluators"),
        ([], None, "two dogs"),
    ],
)
def test_what_cannot_be_computed_is_said(table, value, reason):
    found = icc(table)
    assert (found.value, found.low, found.high) == (value, None, None)
    assert reason in reason_words(found)


def test_a_constant_shift_leaves_consistency_whole_and_agreement_less():
    rows = [[60.0, 62.0], [65.0, 67.0], [62.0, 64.0], [70.0, 72.0]]
    assert icc_forms(rows)["3,1"] == pytest.approx(1.0)
    found = icc(rows)
    assert 0.7 < found.value < 1.0
    assert found.low < found.value < found.high <= 1.0


# --- kappa -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["kappa-skin-condition", "kappa-cohen-1968", "kappa-empty-column"])
@pytest.mark.parametrize(
    ("weights", "suffix"), [(unweighted, ""), (linear, "_linear"), (quadratic, "_quadratic")]
)
def test_kappa_and_its_standard_error(name, weights, suffix):
    case = CASES[name]
    table = case["inputs"]["table"]
    value, error = kappa_of_table(table, weights(len(table)))
    assert value == near(case, f"kappa{suffix}")
    assert error == near(case, f"ase{suffix}")


def test_weights_of_ones_own():
    case = CASES["kappa-cohen-1968"]
    value, _ = kappa_of_table(case["inputs"]["table"], case["inputs"]["disagreement_weights"])
    assert value == near(case, "kappa_own_weights")


def test_quadratic_kappa_of_two_columns_and_the_near_icc():
    # Fleiss and Cohen 1973: quadratic kappa is close to ICC(2,1).
    case = CASES["weighted-kappa-to-grades"]
    table = case["inputs"]["table"]
    rows = [[i, j] for i, row in enumerate(table) for j, count in enumerate(row) for _ in range(count)]
    found = weighted_kappa(rows, range(4))
    assert found.value == near(case, "kappa_quadratic")
    assert icc(rows).value == near(case, "icc_2_1")
    reach = 1.959963985 * CASES["kappa-skin-condition"]["expected"]["ase_quadratic"]
    assert found.high - found.value == pytest.approx(reach, abs=1e-8)


def test_kappa_is_undefined_where_nothing_varies():
    case = CASES["kappa-undefined"]
    assert kappa_of_table(case["inputs"]["table"], unweighted(2)) is None
    found = weighted_kappa([[0, 0]] * 12, range(2))
    assert found.value is None
    assert "12 of 12 agree" in reason_words(found)


def test_kappa_refuses_a_grade_off_the_scale():
    with pytest.raises(ValueError, match="scale"):
        weighted_kappa([[0, 5], [1, 1]], range(3))


@pytest.mark.parametrize("case", of_kind("fleiss"))
def test_fleiss_kappa(case):
    assert fleiss_kappa(case["inputs"]["counts"]) == near(case, "kappa")


def test_fleiss_kappa_undefined_and_uneven():
    assert fleiss_kappa([[3, 0], [3, 0]]) is None
    with pytest.raises(ValueError, match="same number"):
        fleiss_kappa([[3, 0], [2, 0]])


# --- Gwet --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("weights", "field"),
    [(None, "gwet_identity"), (linear(5), "gwet_linear"), (quadratic(5), "gwet_quadratic")],
)
def test_gwets_ac1_and_ac2(weights, field):
    case = CASES["gwet-ac1-ac2-four-raters"]
    found = gwet(table_of(case["inputs"]), [1, 2, 3, 4, 5], weights=weights)
    assert found.value == near(case, field)
    # t with 11 degrees of freedom, 95 %: 2.200985 (scipy.stats.t.ppf); an upper end is cut at 1.
    error = (found.value - found.low) / 2.2009851600916
    assert error == near(case, f"{field}_se")


def test_gwet_stays_high_where_nearly_all_dogs_are_alike():
    table = [[0.0, 0.0]] * 9 + [[0.0, 1.0]]
    assert gwet(table, [0, 1]).value > 0.85
    assert weighted_kappa(table, [0, 1]).value == pytest.approx(0.0)


# --- alpha -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("case", of_kind("alpha"))
@pytest.mark.parametrize("level", ["nominal", "ordinal", "interval"])
def test_krippendorffs_alpha_with_gaps(case, level):
    found = alpha(table_of(case["inputs"]), level)
    assert found.value == near(case, level)
    assert found.low < found.value < found.high


def test_alpha_of_gwets_table():
    case = CASES["gwet-ac1-ac2-four-raters"]
    assert alpha(table_of(case["inputs"]), "nominal").value == near(case, "krippendorff")


def test_the_bootstrap_is_the_same_each_time():
    table = graded(3, 10, 4, 5, 0.1)
    assert alpha(table, "ordinal") == alpha(table, "ordinal")
    assert alpha(table, "ordinal", seed=1) != alpha(table, "ordinal", seed=2)


def test_the_bootstrap_interval_is_that_of_scipy():
    # scipy.stats.bootstrap, percentile method, over dogs; both are random, so they meet within their noise.
    stats = pytest.importorskip("scipy.stats")
    numpy = pytest.importorskip("numpy")
    table = measured(5, 12, 3)
    ours = alpha(table, "interval", resamples=4000)

    def value(index):
        found = alpha([table[int(place)] for place in index], "interval", resamples=0).value
        return math.nan if found is None else found

    theirs = stats.bootstrap(
        (numpy.arange(12),),
        value,
        n_resamples=2000,
        method="percentile",
        vectorized=False,
        rng=numpy.random.default_rng(7),
    ).confidence_interval
    assert ours.low == pytest.approx(theirs.low, abs=0.05)
    assert ours.high == pytest.approx(theirs.high, abs=0.02)


def test_too_few_dogs_for_an_interval_is_said():
    found = alpha([[1, 2], [2, 2], [3, 3]], "ordinal")
    assert found.value is not None
    assert (found.low, found.high) == (None, None)
    assert "3 dogs only" in reason_words(found)


def test_alpha_of_a_constant_and_of_nothing():
    assert "undefined" in reason_words(alpha([[2, 2, 2]] * 4, "ordinal"))
    assert alpha([[2, 2, 2]] * 4, "ordinal").value is None
    assert "no dog" in reason_words(alpha([[1, None], [None, 2]], "nominal"))


@given(st.lists(st.lists(st.integers(0, 4), min_size=2, max_size=2), min_size=2, max_size=9))
@settings(max_examples=60)
def test_alpha_never_exceeds_one_and_keeps_its_value_under_relabelling(rows):
    found = alpha(rows, "nominal", resamples=0)
    again = alpha([[7 - x for x in row] for row in rows], "nominal", resamples=0)
    assert found.value == again.value or found.value == pytest.approx(again.value)
    assert found.value is None or found.value <= 1.0


# --- order -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("case", of_kind("kendall_w"))
def test_kendalls_w(case):
    found = concordance(list(zip(*case["inputs"]["ranks"], strict=True)))
    assert found.s == near(case, "S")
    assert found.tie_term == near(case, "tie_term")
    assert found.estimate.value == near(case, "W")
    assert found.chi2 == near(case, "chi2")
    assert found.p_chi2 == near(case, "p")


def test_kendalls_w_where_all_is_tied_or_lacking():
    assert "undefined" in reason_words(concordance([[1, 1], [1, 1], [1, 1]]).estimate)
    assert "two dogs" in reason_words(concordance([[1, 2]]).estimate)
    assert "two evaluators" in reason_words(concordance([[1], [2]]).estimate)


def test_full_concordance():
    found = concordance([[1, 10, 3], [2, 20, 4], [3, 30, 5], [4, 40, 9]])
    assert found.estimate.value == pytest.approx(1.0)
    assert found.p_f == 0.0


# --- against libraries, on random tables with gaps and ties ------------------------------------------


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("level", ["nominal", "ordinal", "interval"])
def test_alpha_is_that_of_the_krippendorff_library(seed, level):
    library = pytest.importorskip("krippendorff")
    numpy = pytest.importorskip("numpy")
    table = graded(seed, 4 + seed, 2 + seed % 4, 5, 0.2)
    data = numpy.array([[math.nan if x is None else x for x in row] for row in table]).T
    wanted = library.alpha(reliability_data=data, level_of_measurement=level)
    assert alpha(table, level, resamples=0).value == pytest.approx(wanted, abs=1e-10)


@pytest.mark.parametrize("seed", SEEDS)
def test_kappa_is_that_of_scikit_learn(seed):
    metrics = pytest.importorskip("sklearn.metrics")
    table = graded(seed, 12, 2, 5, 0.0)
    first, second = zip(*table, strict=True)
    for name, weights in ((None, unweighted(5)), ("linear", linear(5)), ("quadratic", None)):
        wanted = metrics.cohen_kappa_score(first, second, labels=[0, 1, 2, 3, 4], weights=name)
        assert weighted_kappa(table, range(5), weights=weights).value == pytest.approx(wanted, abs=1e-10)


@pytest.mark.parametrize("seed", SEEDS)
def test_w_is_that_of_scipys_friedman_test(seed):
    stats = pytest.importorskip("scipy.stats")
    table = graded(seed, 7, 4, 5, 0.0)
    chi2, p = stats.friedmanchisquare(*table)  # a sample a dog
    found = concordance(table)
    assert found.chi2 == pytest.approx(chi2, abs=1e-10)
    assert found.p_chi2 == pytest.approx(p, abs=1e-10)
    assert mid_ranks([row[0] for row in table]) == list(stats.rankdata([row[0] for row in table]))


def test_tails_are_those_of_scipy():
    stats = pytest.importorskip("scipy.stats")
    for dof1, dof2 in ((1, 1), (2, 7.5), (5, 2.3), (30, 4), (7, 35)):
        for p in (0.001, 0.025, 0.5, 0.975, 0.9999):
            f = float(stats.f.ppf(p, dof1, dof2))
            assert f_quantile(p, dof1, dof2) == pytest.approx(f, rel=1e-9)
            assert f_upper_tail(f, dof1, dof2) == pytest.approx(1 - p, rel=1e-8)
    for dof in (1, 2, 3, 8, 15):
        for x in (0.01, 1.0, 9.5, 60.0):
            assert chi2_upper_tail(x, dof) == pytest.approx(float(stats.chi2.sf(x, dof)), rel=1e-11)


@given(st.floats(0.001, 0.999), st.floats(0.5, 60), st.floats(0.5, 60))
@settings(max_examples=60)
def test_f_quantile_and_tail_undo_each_other(p, dof1, dof2):
    assert 1 - f_upper_tail(f_quantile(p, dof1, dof2), dof1, dof2) == pytest.approx(p, abs=1e-9)
