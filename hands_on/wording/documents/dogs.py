"""Comparisons of dogs as JSON documents."""

from __future__ import annotations

from typing import Any

from hands_on.compare.dogs.findings import Findings, Held
from hands_on.compare.dogs.side_by_side import ComparedTrait, SideBySide
from hands_on.compare.examined import Examined
from hands_on.wording.order import no_order_words, order_remark

__all__ = ["comparison_document"]


def comparison_document(compared: SideBySide) -> dict[str, Any]:
    """Sessions side by side, as `hands-on compare --json` prints them."""
    order = compared.order
    return {
        "dogs": [_dog(one, name) for one, name in zip(compared.sessions, compared.dogs, strict=True)],
        "points": [_trait(row) for row in compared.rows if row.given],
        "proportions": [_trait(row) for row in compared.proportions],
        "findings": _findings(compared.findings),
        "order": [
            {
                "dog": one.dog,
                "session": compared.sessions[one.index].name,
                "place": one.place,
                "tied": one.tied,
                "p_place": list(one.p_place),
                "p_before_next": one.p_before_next,
                "counts": dict(one.counts),
                "unsure": one.unsure,
            }
            for one in order.dogs
        ],
        "p_order": order.p_order,
        "p_first": order.p_first,
        "p_order_if_none_overlooked": order.p_none_overlooked,
        "hangs_on": [
            {
                "dog": one.dog,
                "label": one.label,
                "point": one.point,
                "p_if_held": one.p_if_held,
                "p_otherwise": one.p_otherwise,
                "p_changes": one.p_changes,
            }
            for one in order.depends_on
        ],
        "no_order": no_order_words(order.no_order),
        "remarks": [*compared.remarks, *map(order_remark, order.remarks)],
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


def _trait(row: ComparedTrait) -> dict[str, Any]:
    head = row.headline
    return {
        "id": row.id,
        "label": row.label,
        "region": row.region,
        "kind": row.kind,
        "unit": row.unit,
        "values": [one.value if one.value is not None else one.position for one in row.answers],
        "u": [one.u for one in row.answers],
        "words": [one.words for one in row.answers],
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
                "wording": one.wording,
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
        "label": held.label,
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
