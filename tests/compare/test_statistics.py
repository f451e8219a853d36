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
from hands_on.compare.agreement.estimate import Estimate
from hands_on.compare.agreement.f_and_chi_squared import (
    chi2_quantile,
    chi2_upper_tail,
    f_quantile,
    f_upper_tail,
)
from hands_on.compare.agreement.gwet import gwet, gwet_error, in_use
from hands_on.compare.agreement.icc import icc, icc_forms, mean_squares
from hands_on.compare.agreement.kappa import (
    kappa_of_table,
    linear,
    quadratic,
    unweighted,
    weighted_kappa,
)
from hands_on.compare.agreement.lean import Lean
from hands_on.wording.agreement import estimate_words, reason_words, strict_sentences
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
    # 88 dogs: the jackknife comes near the large-sample interval of the source.
    error = CASES["kappa-skin-condition"]["expected"]["ase_quadratic"]
    assert (found.high - found.low) / 2 == pytest.approx(1.959963985 * error, rel=0.1)


def test_kappa_is_undefined_where_nothing_varies():
    case = CASES["kappa-undefined"]
    assert kappa_of_table(case["inputs"]["table"], unweighted(2)) is None
    found = weighted_kappa([[0, 0]] * 12, range(2))
    assert found.value is None
    assert "12 of 12 agree" in reason_words(found)


def test_kappa_refuses_a_grade_off_the_scale():
    with pytest.raises(ValueError, match="scale"):
        weighted_kappa([[0, 5], [1, 1]], range(3))


# --- Gwet --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("weights", "field"),
    [(None, "gwet_identity"), (linear(5), "gwet_linear"), (quadratic(5), "gwet_quadratic")],
)
def test_gwets_ac1_and_ac2(weights, field):
    case = CASES["gwet-ac1-ac2-four-raters"]
    found = gwet(table_of(case["inputs"]), [1, 2, 3, 4, 5], weights=weights)
    assert found.value == near(case, field)
    assert gwet_error(table_of(case["inputs"]), [1, 2, 3, 4, 5], weights=weights) == near(case, f"{field}_se")
    assert found.low < found.value < found.high < 1.0


def test_ac2_goes_over_the_grades_in_use():
    # A choice, its reason in compare/agreement/gwet.py: steps nobody used make any agreement look better.
    table = [[-1.0, 0.0], [0.0, 1.0], [1.0, 1.0], [0.0, 0.0], [0.0, -1.0]]
    scale = [float(step) for step in range(-4, 5)]
    assert in_use(table, scale) == [-1.0, 0.0, 1.0]
    assert gwet(table, in_use(table, scale), weights=quadratic(3)).value < 0.7
    assert gwet(table, scale, weights=quadratic(9)).value > 0.97
    assert in_use([[4.0, 4.0]], scale) == [3.0, 4.0]
    assert in_use([[-4.0]], scale) == [-4.0, -3.0]


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


def test_the_interval_is_a_jackknife_on_the_log_scale():
    # Values without each dog by the krippendorff library, Student's t by scipy: the formula written again.
    library, stats = pytest.importorskip("krippendorff"), pytest.importorskip("scipy.stats")
    numpy = pytest.importorskip("numpy")
    table = numpy.array(measured(5, 8, 3))
    logs = [
        math.log(1 - library.alpha(numpy.delete(table, n, 0).T, level_of_measurement="interval"))
        for n in range(8)
    ]
    reach = math.exp(stats.t.ppf(0.975, 3.5) * math.sqrt(7 * numpy.var(logs) + 0.5 / 8))
    found = alpha(table.tolist(), "interval")
    assert found.low == pytest.approx(1 - (1 - found.value) * reach, abs=1e-9)
    assert found.high == pytest.approx(1 - (1 - found.value) / reach, abs=1e-9)


def test_no_interval_where_nearly_all_dogs_get_one_answer():
    # Six dogs, three of them graded anything but 0: simulated, such intervals hold the truth too seldom.
    alike = [[0, 0], [0, 0], [0, 0], [0, 1], [1, 1], [2, 1]]
    found = alpha(alike, "ordinal")
    assert (found.low, found.high, found.reason) == (None, None, "nearly-all-alike")
    assert gwet(alike, [0, 1, 2]).reason == "nearly-all-alike"
    told = alpha([*alike[:-3], [1, 0], *alike[-3:]], "ordinal")
    assert told.low is not None


def test_no_interval_where_one_dog_alone_differs():
    found = alpha([[0, 0], [1, 1], [2, 2], [3, 3], [4, 4], [0, 1]], "ordinal")
    assert 0.8 < found.value < 1.0
    assert (found.low, found.high) == (None, None)
    assert "one dog decides" in reason_words(found)


def test_too_few_dogs_for_an_interval_is_said():
    found = alpha([[1, 2], [2, 2], [3, 3]], "ordinal")
    assert alpha([[1, 2], [2, 2], [3, 3], [3, 4]], "ordinal").low is None
    assert found.value is not None
    assert (found.low, found.high) == (None, None)
    assert "3 dogs only" in reason_words(found)


def test_alpha_of_a_constant_and_of_nothing():
    assert "undefined" in reason_words(alpha([[2, 2, 2]] * 4, "ordinal"))
    assert alpha([[2, 2, 2]] * 4, "ordinal").value is None
    assert "no dog" in reason_words(alpha([[1, None], [None, 2]], "nominal"))
    one = alpha([[1, 2, 2]], "ordinal")
    assert (one.value, one.n) == (None, 1)
    assert "one dog only" in reason_words(one)


@given(st.lists(st.lists(st.integers(0, 4), min_size=2, max_size=2), min_size=2, max_size=9))
@settings(max_examples=60)
def test_alpha_never_exceeds_one_and_keeps_its_value_under_relabelling(rows):
    found = alpha(rows, "nominal")
    again = alpha([[7 - x for x in row] for row in rows], "nominal")
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


def test_w_of_three_dogs_by_two_evaluators_is_counted_out():
    # One of the six orders of the second evaluator is that of the first: 1/6.
    found = concordance([[1, 1], [2, 2], [3, 3]])
    assert (found.estimate.value, found.p, found.p_by) == (
        pytest.approx(1.0),
        pytest.approx(1 / 6),
        "counted",
    )


def test_chance_of_w_is_that_of_scipys_permutation_test():
    # scipy.stats.permutation_test, every arrangement of every evaluator's ranks, ties among them.
    stats, numpy = pytest.importorskip("scipy.stats"), pytest.importorskip("numpy")
    for ranks in (
        [[1, 2, 3, 4], [2, 1, 3, 4], [1, 3, 2, 4]],
        [[1, 2.5, 2.5, 4], [1.5, 1.5, 3.5, 3.5], [1, 2, 3, 4]],
    ):

        def s(*judges):
            return float(((numpy.sum(judges, axis=0) - 7.5) ** 2).sum())

        wanted = stats.permutation_test(
            ranks, s, permutation_type="pairings", alternative="greater", n_resamples=numpy.inf
        ).pvalue
        assert concordance(list(zip(*ranks, strict=True))).p == pytest.approx(wanted, abs=1e-12)


def test_chance_of_w_in_a_large_table_is_drawn_and_near_chi_squared():
    found = concordance(graded(4, 12, 6, 9, 0.0))
    assert found.p_by == "drawn"
    assert found.p == pytest.approx(found.p_chi2, abs=0.03)
    assert found == concordance(graded(4, 12, 6, 9, 0.0)), "the same each time"


def test_full_concordance():
    found = concordance([[1, 10, 3], [2, 20, 4], [3, 30, 5], [4, 40, 9]])
    assert found.estimate.value == pytest.approx(1.0)
    # Three evaluators in one order of four dogs: one of 24 x 24 arrangements (counted).
    assert (found.p, found.p_by) == (pytest.approx(1 / 576), "counted")


# --- against libraries, on random tables with gaps and ties ------------------------------------------


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("level", ["nominal", "ordinal", "interval"])
def test_alpha_is_that_of_the_krippendorff_library(seed, level):
    library = pytest.importorskip("krippendorff")
    numpy = pytest.importorskip("numpy")
    table = graded(seed, 4 + seed, 2 + seed % 4, 5, 0.2)
    data = numpy.array([[math.nan if x is None else x for x in row] for row in table]).T
    wanted = library.alpha(reliability_data=data, level_of_measurement=level)
    assert alpha(table, level).value == pytest.approx(wanted, abs=1e-10)


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
        for p in (0.001, 0.025, 0.5, 0.975, 0.9999):
            assert chi2_quantile(p, dof) == pytest.approx(float(stats.chi2.ppf(p, dof)), rel=1e-9)
        for x in (0.01, 1.0, 9.5, 60.0):
            assert chi2_upper_tail(x, dof) == pytest.approx(float(stats.chi2.sf(x, dof)), rel=1e-11)


@given(st.floats(0.001, 0.999), st.floats(0.5, 60), st.floats(0.5, 60))
@settings(max_examples=60)
def test_f_quantile_and_tail_undo_each_other(p, dof1, dof2):
    assert 1 - f_upper_tail(f_quantile(p, dof1, dof2), dof1, dof2) == pytest.approx(p, abs=1e-9)


@pytest.mark.parametrize("value", [64.1, 0.1, 110.7])
@pytest.mark.parametrize("k", [2, 3])
def test_readings_that_do_not_vary_have_no_icc_whatever_their_mean_rounds_to(value, k):
    found = icc([[value] * k] * 7)
    assert (found.value, found.reason) == (None, "no-spread")


def test_evaluators_apart_on_the_same_dogs_leave_no_noise_in_the_mean_squares():
    # Every dog 64.1 by one and 64.4 by the other: 7 dogs x 2 x 0.15^2 between evaluators, and nothing else.
    found = mean_squares([[64.1, 64.4]] * 7)
    assert (found.dogs, found.error) == (0.0, 0.0)
    assert found.evaluators == pytest.approx(7 * 2 * 0.15**2)


def test_no_minus_stands_before_nought():
    assert estimate_words(Estimate("alpha", -0.001, -0.004, -1e-17, 9, 9)) == "0.00 [0.00 to 0.00]"
    assert estimate_words(Estimate("alpha", -0.006, None, None, 9, 9)) == "-0.01"
    (told,) = strict_sentences([Lean("M. Quill", "", "", -1e-16, 0.12, 5, "degree", clear=True)])
    assert told == "M. Quill: 0.00 ± 0.12 degrees a point apart from the others"
