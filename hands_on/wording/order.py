"""The order of dogs in words. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hands_on.compare.dogs.chances import P_OVERLOOKED, P_RIGHT, P_UNSURE
from hands_on.compare.dogs.class_rank import OtherRule
from hands_on.compare.dogs.order import KIND, ROUGH, SHARE
from hands_on.compare.dogs.order_found import (
    Assumption,
    Basis,
    DecidingAnswer,
    NoOrder,
    Order,
    OrderRemark,
)
from hands_on.compare.examined import Examined, labels
from hands_on.evaluate.result import RuleResult
from hands_on.ruleset.rules import Placing
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.dogs import chance, percent
from hands_on.wording.labels import label_words

__all__ = [
    "answer_label",
    "basis_sentences",
    "counted_label",
    "no_order_words",
    "order_answer",
    "order_remark",
    "order_sentences",
    "rule_sentence",
]

_ASSUMED = (
    "Measurements vary by their uncertainty; what one evaluator's readings share moves all dogs together.",
    f"A degree is right {P_RIGHT:.0%} of the time, else one step less or more: a default, not published.",
    f"Unsure findings are there {P_UNSURE:.0%} of the time.",
    f"A slight departure at a point as asked is overlooked {P_OVERLOOKED:.0%} of the time, the neighbouring "
    "grade only and nothing that disqualifies: a working value.",
    "Choices and the tooth chart stand as recorded.",
)
"""What the chances rest on."""

_NO_ORDER: dict[NoOrder, str] = {
    "too-few": "two dogs at least are needed",
    "different-editions": "the dogs were judged by different editions, whose classes cannot be weighed "
    "together",
    "one-dog": "all sessions are of one dog",
    "dog-twice": "a dog is among them twice; give each dog once for an order",
    "too-little-in-common": f"less than {SHARE:.0%} of what is asked was answered for all of them",
    "too-young": f"one of them is too young for so much that less than {SHARE:.0%} of what is asked can be "
    "judged of all",
    "too-young-for-what-disqualifies": "one of them is ruled out for what another is too young for, so that "
    "nobody can say yet whether both are",
}

_MOST = 6
"""Answers named that the order depends on."""


def no_order_words(reason: NoOrder | None) -> str:
    """Why there is no order; empty where there is one."""
    return _NO_ORDER[reason] if reason is not None else ""


def order_remark(remark: OrderRemark) -> str:
    """What makes the order unfair, in a sentence."""
    if remark.kind == "too-young":
        return f"{remark.dog}: {remark.count} findings are not counted, the dog being too young for them."
    return "The dogs were examined by different evaluators; how strict each is tells in the order."


_RULES: dict[OtherRule, str] = {
    "number": "By the number of findings alone",
    "worst-first": "By the heaviest class first, then the next",
    "doubled": "With each heavier class weighing twice as much again",
}

_ERRORS: dict[Assumption, str] = {
    "degrees": "were every degree right",
    "overlooked": "were nothing overlooked",
    "unsure": "were no unsure finding there",
    "measurements": "were every measurement exact",
}

_LISTED = 8
"""Points named that were not answered for all."""


def rule_sentence(placing: Placing, ruleset: Ruleset) -> str:
    """The rule of the order in one sentence."""
    named = ruleset.classes
    weights = ", ".join(
        f"{named[name].label if name in named else 'without a class'} {weight:g}"
        for name, weight in placing.weights.items()
    )
    degrees = ", ".join(f"{name} {factor:g}" for name, factor in placing.degrees.items())
    return (
        "Rule: a dog with a disqualifying finding comes after every dog without; then the sum over findings "
        f"of the weight of the class ({weights}) times the degree ({degrees}; not said: {placing.unsaid}), "
        f"the least first. {placing.reading or 'No standard gives such weights: they are ours.'}"
    )


def basis_sentences(basis: Basis, dogs: Sequence[str]) -> Iterator[str]:
    """What the dogs were compared on, and what was left aside."""
    yield (
        f"Compared on the {len(basis.points)} of {basis.asked} points that were answered for all "
        f"({percent(basis.share)}); a finding that surely disqualifies counts wherever it was made."
    )
    yield from _left_aside(basis, dogs)


def _left_aside(basis: Basis, dogs: Sequence[str]) -> Iterator[str]:
    if basis.too_young:
        listed = list(basis.too_young[:_LISTED])
        more = len(basis.too_young) - len(listed)
        yield (
            "One of them is too young for these, so they count in none: "
            f"{'; '.join(listed)}{f'; and {more} more' if more > 0 else ''}."
        )
    if basis.rest:
        named = [
            f"{label} ({', '.join(dogs[place] for place in places)} only)"
            for label, places in basis.rest[:_LISTED]
        ]
        more = len(basis.rest) - len(named)
        yield f"Not compared: {'; '.join(named)}{f'; and {more} more' if more > 0 else ''}."


def counted_label(names: Sequence[str], ruleset: Ruleset) -> str:
    """Classes that are counted together."""
    known = ruleset.classes
    return ", ".join(known[name].label if name in known else name for name in names)


def answer_label(deciding: DecidingAnswer) -> str:
    """The answer that an order depends on: a limit, or a finding with degree and side."""
    answer = deciding.answer
    if isinstance(answer, RuleResult):
        return label_words(answer.named)
    unsure = "unsure" if answer.status == "unsure" else ""
    return ", ".join(filter(None, [label_words(answer.named), answer.degree, answer.side, unsure]))


def order_answer(order: Order) -> str:
    """Who comes first, and how sure that is, in a sentence; empty where there is no order."""
    if order.no_order is not None or not order.dogs:
        return ""
    places = ", ".join(f"{one.place}. {one.dog}" for one in order.dogs)
    if order.p_order is None:
        return f"{places}."
    sure = "settled" if order.settled else "not settled"
    return f"{places}: {sure}; the first place holds {chance(order.p_first or 0.0)} of the time."


def order_sentences(order: Order, sessions: Sequence[Examined]) -> Iterator[str]:
    """The order of the dogs, how sure each place is, what it depends on, what the chances rest on."""
    if order.no_order is not None:
        yield f"No order: {no_order_words(order.no_order)}."
        if order.no_order in ("too-little-in-common", "too-young"):
            common, asked = len(order.basis.points), order.basis.asked
            yield f"In common are {common} of {asked} points ({percent(order.basis.share)})."
            yield from _left_aside(order.basis, labels(sessions))
        return
    if order.placing is not None:
        yield rule_sentence(order.placing, sessions[0].ruleset)
    yield from basis_sentences(order.basis, labels(sessions))
    ruleset = sessions[0].ruleset
    for one in order.dogs:
        shared = " (shared)" if one.tied else ""
        counts = ", ".join(f"{counted_label(names, ruleset)} {n}" for names, n in one.counts)
        unsure = f", unsure {one.unsure}" if one.unsure else ""
        places = ", ".join(f"{n}. {chance(p)}" for n, p in enumerate(one.p_place, 1))
        yield f"{one.place}.{shared} {one.dog}: {counts}{unsure}; places: {places}"
    for one, after in zip(order.dogs, order.dogs[1:], strict=False):
        if one.tied and after.tied and one.place == after.place:
            yield f"{one.dog} and {after.dog} tie by this rule."
        elif one.p_before_next is not None and one.p_before_next < order.sure:
            often = chance(one.p_before_next)
            yield f"{one.dog} before {after.dog} is not settled: it holds {often} of the time."
    if order.p_order is not None:
        sure = "holds" if order.settled else "is uncertain: it holds"
        yield (
            f"This order {sure} {chance(order.p_order)} of the time when every answer varies within hand "
            f"error, first place {chance(order.p_first or 0.0)}; it is called settled from {order.sure:.1%} "
            "on."
        )
    if order.p_order_range is not None and order.p_first_range is not None:
        rough, kind = order.p_order_range
        first_rough, first_kind = order.p_first_range
        yield (
            f"With a rough hand (degrees right {ROUGH.right:.0%}, overlooked {ROUGH.overlooked:.0%}) it "
            f"holds {chance(rough)} of the time, first place {chance(first_rough)}; with a sure one "
            f"({KIND.right:.0%}, {100 * KIND.overlooked:.2g} %) {chance(kind)} and {chance(first_kind)}."
        )
    for rule, dogs in order.otherwise:
        verb = "are" if len(dogs) > 1 else "is"
        yield f"{_RULES[rule]} {' and '.join(dogs)} {verb} first."
    for one_kind in order.assumptions:
        without = chance(one_kind.p_without)
        yield f"It depends on what is assumed: {_ERRORS[one_kind.kind]} it would hold {without} of the time."
    for answer in order.depends_on[:_MOST]:
        held, otherwise, changes = map(chance, (answer.p_if_held, answer.p_otherwise, answer.p_changes))
        yield (
            f"It depends on {answer.dog}, {answer_label(answer)}: {held} if that stands, {otherwise} if it "
            f"does not (which happens {changes} of the time)."
        )
    for remark in order.remarks:
        yield f"Note: {order_remark(remark)}"
    yield f"What this rests on ({order.draws} draws, seed {order.seed}): {' '.join(_ASSUMED)}"
