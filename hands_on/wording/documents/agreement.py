"""The agreement of evaluators as a JSON document."""

from __future__ import annotations

from typing import Any

from hands_on.compare.agreement.by_point import Agreement, PointAgreement
from hands_on.compare.agreement.lean import Lean
from hands_on.compare.agreement.precision import Precision
from hands_on.compare.agreement.reference import AgainstReference, against_reference, own_repeats
from hands_on.wording.agreement import ORDER, reason_words, remark_words
from hands_on.wording.agreement_grid import grid_of, standing_words

__all__ = ["agreement_document"]


def agreement_document(found: Agreement, reference: int | None = None) -> dict[str, Any]:
    """As `hands-on agree --json` prints it; with a reference's column everybody held against it."""
    board = found.board
    every = (*found.points, *([found.order] if found.order is not None else []))
    return {
        "evaluators": list(board.evaluators),
        "dogs": list(board.dogs),
        "sessions": [
            {
                "dog": board.dogs[d],
                "evaluator": board.evaluators[e],
                "session": one.name,
                "standing": standing_words(board.standing(d, e)),
            }
            for (d, e), one in sorted(board.cells.items())
        ],
        "points": [_point(one, None if one is found.order else _answers(found, one)) for one in every],
        "reference": None if reference is None else _against(found, reference),
        "own_repeats": [_held_against(one) for one in own_repeats(found.board, found.points)],
        "lean": list(map(_lean, found.lean)),
        "strictness": list(map(_lean, found.strictness)),
        "most_apart": [one.id for one in found.most_apart],
        "remarks": list(map(remark_words, found.remarks)),
    }


def _answers(found: Agreement, one: PointAgreement) -> list[dict[str, Any]]:
    """Who said what of which dog, and how often which."""
    grid = grid_of(found.board, one)
    return [{"dog": row.dog, "answers": list(row.cells), "tally": row.tally} for row in grid.rows]


def _against(found: Agreement, reference: int) -> dict[str, Any]:
    rows = against_reference(found.board, found.points, reference)
    return {
        "evaluator": found.board.evaluators[reference],
        "others": list(map(_held_against, rows)),
    }


def _held_against(one: AgainstReference) -> dict[str, Any]:
    return {
        "evaluator": one.evaluator,
        "compared": one.compared,
        "same": one.same,
        "near": one.near,
        "apart": one.apart,
        "most": [{"label": label, "apart": n, "of": of} for label, n, of in one.most],
    }


def _point(one: PointAgreement, answers: list[dict[str, Any]] | None) -> dict[str, Any]:
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
        "answers": answers,
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
