"""Intraclass correlations of random tables against pingouin, which is slow to import (2 to 3 s)."""

from __future__ import annotations

import warnings

import pytest

from hands_on.compare.agreement.icc import icc, icc_forms
from tests.compare.cases import measured

# The names of the six forms differ between its versions.
FORMS = {
    "1,1": ("ICC(1,1)", "ICC1"),
    "2,1": ("ICC(A,1)", "ICC2"),
    "3,1": ("ICC(C,1)", "ICC3"),
    "1,k": ("ICC(1,k)", "ICC1k"),
    "2,k": ("ICC(A,k)", "ICC2k"),
    "3,k": ("ICC(C,k)", "ICC3k"),
}


@pytest.mark.parametrize("seed", range(3))
def test_intraclass_correlations_are_those_of_pingouin(seed):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        pingouin = pytest.importorskip("pingouin")
        pandas = pytest.importorskip("pandas")
        rows = measured(seed, 5 + seed, 3 + seed)
        cells = [(dog, one, x) for dog, row in enumerate(rows) for one, x in enumerate(row)]
        frame = pandas.DataFrame(cells, columns=["dog", "evaluator", "height"])
        table = pingouin.intraclass_corr(frame, targets="dog", raters="evaluator", ratings="height")
    values = {row.Type: row for row in table.itertuples()}
    for form, value in icc_forms(rows).items():
        name = next(name for name in FORMS[form] if name in values)
        assert value == pytest.approx(values[name].ICC, abs=1e-9)
    name = next(name for name in FORMS["2,1"] if name in values)
    column = next(i for i, title in enumerate(table.columns) if title.startswith("CI95")) + 1
    low, high = values[name][column]  # rounded to two digits by the library
    found = icc(rows)
    assert (found.low, found.high) == (pytest.approx(low, abs=0.0051), pytest.approx(high, abs=0.0051))
