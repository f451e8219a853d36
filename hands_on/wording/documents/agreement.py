"""The agreement of evaluators as a JSON document."""

from __future__ import annotations

from typing import Any

from hands_on.compare.agreement.by_point import Agreement, PointAgreement
from hands_on.compare.agreement.lean import Lean
from hands_on.compare.agreement.precision import Precision
from hands_on.wording.agreement import ORDER, reason_words, remark_words

__all__ = ["agreement_document"]


def agreement_document(found: Agreement) -> dict[str, Any]:
    """As `hands-on agree --json` prints it."""
    board = found.board
    every = (*found.points, *([found.order] if found.order is not None else []))
    return {
        "evaluators": list(board.evaluators),
        "dogs": list(board.dogs),
        "sessions": [
            {"dog": board.dogs[d], "evaluator": board.evaluators[e], "session": one.name}
            for (d, e), one in sorted(board.cells.items())
        ],
        "points": list(map(_point, every)),
        "lean": list(map(_lean, found.lean)),
        "strictness": list(map(_lean, found.strictness)),
        "most_apart": [one.id for one in found.most_apart],
        "remarks": list(map(remark_words, found.remarks)),
    }


def _point(one: PointAgreement) -> dict[str, Any]:
    estimate, beside = one.estimate, one.beside
    return {
        "id": one.id,
        "label": one.label or ORDER,
        "level": one.level,
        "statistic": estimate.statistic,
        "value": estimate.value,
        "low": estimate.low,
        "high": estimate.high,
        "n": estimate.n,
        "comparisons": estimate.comparisons,
        "reason": reason_words(estimate),
        "unequal": one.unequal,
        "apart": one.apart,
        "p_chance": one.p_chance,
        "beside": None
        if beside is None
        else {
            "statistic": beside.statistic,
            "value": beside.value,
            "low": beside.low,
            "high": beside.high,
        },
        "precision": None if one.precision is None else _precision(one.precision),
    }


def _precision(one: Precision) -> dict[str, Any]:
    spreads = {
        "repeatability": one.repeatability,
        "reproducibility": one.reproducibility,
        "evaluator": one.evaluator,
        "evaluator_by_dog": one.evaluator_by_dog,
    }
    return {
        "dogs": one.n,
        "evaluators": one.k,
        "repeats": one.r,
        **{
            name: None if sd is None else {"value": sd.value, "low": sd.low, "high": sd.high}
            for name, sd in spreads.items()
        },
        "lasting_share": one.lasting_share,
    }


def _lean(one: Lean) -> dict[str, Any]:
    return {
        "evaluator": one.evaluator,
        "point": one.point,
        "value": one.value,
        "u": one.u,
        "n": one.n,
        "unit": one.unit,
        "faults": list(one.faults),
        "heavier": one.heavier if one.faults else None,
        "p": one.p,
        "p_corrected": one.p_corrected,
        "clear": one.clear,
    }
