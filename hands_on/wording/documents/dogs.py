"""Comparisons of dogs as JSON documents."""

from __future__ import annotations

from typing import Any

from hands_on.compare.dogs.changed import Recheck
from hands_on.compare.dogs.findings import Findings, Held
from hands_on.compare.dogs.history import History
from hands_on.compare.dogs.pairing import OneSided, Pairing, SharedFault
from hands_on.compare.dogs.recheck import Plan
from hands_on.compare.dogs.side_by_side import ComparedTrait, SideBySide
from hands_on.compare.dogs.together import LEVEL
from hands_on.compare.examined import Examined
from hands_on.wording.answers import answer_words
from hands_on.wording.differences import difference_sentence
from hands_on.wording.dogs import remark_sentences
from hands_on.wording.labels import label_words
from hands_on.wording.order import answer_label, counted_label, no_order_words, order_remark, rule_sentence
from hands_on.wording.pairing import CAUTIONS, pairing_remarks, same_end_words, shared_words, sided_words
from hands_on.wording.recheck import RECHECK_REMARKS, reason_words, rechecked_sentence

__all__ = [
    "comparison_document",
    "history_document",
    "pairing_document",
    "plan_document",
    "recheck_document",
]


def comparison_document(compared: SideBySide) -> dict[str, Any]:
    """Sessions side by side, as `hands-on compare --json` prints them."""
    order, ruleset = compared.order, compared.sessions[0].ruleset
    return {
        "dogs": [_dog(one, name) for one, name in zip(compared.sessions, compared.dogs, strict=True)],
        "points": [_trait(row, compared) for row in compared.rows if row.given],
        "proportions": [_trait(row, compared) for row in compared.proportions],
        "findings": _findings(compared.findings),
        "order": [
            {
                "dog": one.dog,
                "session": compared.sessions[one.index].name,
                "place": one.place,
                "tied": one.tied,
                "p_place": list(one.p_place),
                "p_before_next": one.p_before_next,
                "counts": {counted_label(names, ruleset): n for names, n in one.counts},
                "unsure": one.unsure,
            }
            for one in order.dogs
        ],
        "p_order": order.p_order,
        "p_first": order.p_first,
        "p_order_range": order.p_order_range and list(order.p_order_range),
        "p_first_range": order.p_first_range and list(order.p_first_range),
        "order_seed": order.seed,
        "order_rule": rule_sentence(order.placing, ruleset) if order.placing else "",
        "order_basis": {
            "points": list(order.basis.points),
            "asked": order.basis.asked,
            "share": order.basis.share,
            "not_compared": [{"label": label, "in": list(places)} for label, places in order.basis.rest],
            "too_young": list(order.basis.too_young),
        },
        "order_otherwise": [{"rule": rule, "first": list(dogs)} for rule, dogs in order.otherwise],
        "order_assumptions": [{"without": one.kind, "p_order": one.p_without} for one in order.assumptions],
        "hangs_on": [
            {
                "dog": one.dog,
                "label": answer_label(one),
                "point": one.point,
                "p_if_held": one.p_if_held,
                "p_otherwise": one.p_otherwise,
                "p_changes": one.p_changes,
            }
            for one in order.depends_on
        ],
        "table": {
            "rows": compared.table.rows,
            "real": compared.table.real,
            "level": LEVEL,
            "expected_false": compared.table.expected_false,
        },
        "no_order": no_order_words(order.no_order),
        "remarks": [*remark_sentences(compared), *map(order_remark, order.remarks)],
    }


def _dog(one: Examined, name: str) -> dict[str, Any]:
    dog = one.session.dog
    return {
        "label": name,
        "name": one.dog,
        "sex": dog.sex,
        "born": dog.born,
        "age_months": one.age,
        "evaluator": one.evaluator,
        "date": one.day,
        "session": one.name,
        "ruleset": one.ruleset.id,
        "edition": one.ruleset.edition.edition,
    }


def _trait(row: ComparedTrait, compared: SideBySide) -> dict[str, Any]:
    head = row.headline
    return {
        "id": row.id,
        "label": label_words(row.named),
        "region": row.region,
        "kind": row.kind,
        "unit": row.unit,
        "values": [one.value if one.value is not None else one.position for one in row.answers],
        "u": [one.u for one in row.answers],
        "words": [
            answer_words(answer, one.ruleset)
            for answer, one in zip(row.answers, compared.sessions, strict=True)
        ],
        "difference": head.difference if head is not None else None,
        "p_greater": head.p_greater if head is not None else None,
        "verdict": head.verdict if head is not None else None,
        "between": [head.first, head.second] if head is not None else None,
        "pairs": [
            {
                "between": [one.first, one.second],
                "difference": one.difference,
                "sdc": one.sdc,
                "p_greater": one.p_greater,
                "verdict": one.verdict,
                "p_error": one.p_error,
                "wording": difference_sentence(one),
            }
            for one in row.differences
        ],
    }


def _findings(found: Findings) -> dict[str, Any]:
    return {
        "shared": list(map(_held, found.shared)),
        "only": list(map(_held, found.only)),
        "by_edition": list(map(_held, found.by_edition)),
    }


def _held(held: Held) -> dict[str, Any]:
    return {
        "id": held.id,
        "label": label_words(held.named),
        "region": held.region,
        "in": list(held.sessions),
        "findings": [
            {
                "in": place,
                "degree": one.degree,
                "side": one.side,
                "status": one.status,
                "class": one.cls,
                "counts": one.counts,
                "too_young": one.too_young,
                "origin": one.origin,
            }
            for place, one in held.of
        ],
    }


# --- sire and dam ------------------------------------------------------------------------------------


def pairing_document(found: Pairing) -> dict[str, Any]:
    """Sire and dam, as `hands-on compare --pairing --json` prints them."""
    return {
        "sire": found.sire.dog,
        "dam": found.dam.dog,
        "shared": [_shared(one, found) for one in found.shared],
        "mended": [_sided(one, found) for one in found.mended],
        "opposite": [_sided(one, found) for one in found.opposite],
        "open": [_sided(one, found) for one in found.open],
        "same_end": [
            {"label": label_words(one.named), "end": one.end, "sire": sire, "dam": dam}
            for one in found.same_end
            for sire, dam in [same_end_words(one, found)]
        ],
        "remarks": list(pairing_remarks(found)),
        "cautions": list(CAUTIONS),
    }


def _shared(one: SharedFault, found: Pairing) -> dict[str, Any]:
    sire, dam = shared_words(one, found)
    return {
        "ids": list(one.faults),
        "label": label_words(one.named),
        "region": one.region,
        "sire": sire,
        "dam": dam,
        "adds_up": one.adds_up,
    }


def _sided(one: OneSided, found: Pairing) -> dict[str, Any]:
    words, other = sided_words(one, found)
    return {
        "id": one.fault,
        "label": label_words(one.named),
        "region": one.region,
        "in": one.parent,
        "words": words,
        "other": other,
    }


# --- one dog again -----------------------------------------------------------------------------------


def plan_document(found: Plan) -> list[dict[str, Any]]:
    """What to look at again: one object a point, the earlier answers left out."""
    return [
        {
            "id": item.point,
            "label": item.label,
            "region": item.region,
            "first": item.first,
            "reasons": [{"kind": reason.kind, "text": reason_words(reason)} for reason in item.reasons],
        }
        for item in found.items
    ]


def recheck_document(found: Recheck) -> dict[str, Any]:
    """One dog then and now, point by point."""
    then, now = found.earlier, found.later
    return {
        "dog": now.dog,
        "then": {"session": then.name, "date": then.day, "age_months": then.age},
        "now": {"session": now.name, "date": now.day, "age_months": now.age},
        "points": [
            {
                "id": one.point.id,
                "label": one.point.label,
                "then": answer_words(one.then, then.ruleset),
                "now": answer_words(one.now, now.ruleset),
                "difference": one.difference.difference,
                "verdict": one.verdict,
                "unexpected": one.difference.unexpected,
                "sentence": rechecked_sentence(one),
            }
            for one in found.points
        ],
        "remarks": [RECHECK_REMARKS[remark] for remark in found.remarks],
    }


def history_document(found: History) -> dict[str, Any]:
    """One dog over all its examinations."""
    return {
        "dog": found.dog,
        "points": [
            {
                "id": thread.point,
                "label": thread.label,
                "unit": thread.unit,
                "moments": [
                    {
                        "session": one.session.name,
                        "date": one.session.day,
                        "age_months": one.session.age,
                        "evaluator": one.session.evaluator,
                        "words": answer_words(one.answer, one.session.ruleset),
                        "value": one.value,
                        "u": one.answer.u,
                        "too_young": bool(one.answer.too_young),
                    }
                    for one in thread.moments
                ],
            }
            for thread in found.threads
        ],
    }
