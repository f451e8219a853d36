"""The order of dogs in words. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.compare.dogs.chances import P_OVERLOOKED, P_RIGHT, P_UNSURE
from hands_on.compare.dogs.order import SURE, NoOrder, Order, OrderRemark
from hands_on.wording.dogs import percent

__all__ = ["no_order_words", "order_remark", "order_sentences"]

_ASSUMED = (
    "Measurements vary by their uncertainty; what one evaluator's readings share moves all dogs together.",
    f"A degree is right {P_RIGHT:.0%} of the time, else one step less or more: a default, not published.",
    f"Unsure findings are there {P_UNSURE:.0%} of the time.",
    f"A slight departure at a point as asked is overlooked {P_OVERLOOKED:.0%} of the time: a working value.",
    "Choices and the tooth chart stand as recorded.",
)
"""What the chances rest on."""

_NO_ORDER: dict[NoOrder, str] = {
    "too-few": "two dogs at least are needed",
    "different-editions": "the dogs were judged by different editions, whose classes cannot be weighed "
    "together",
    "one-dog": "all sessions are of one dog",
    "dog-twice": "a dog is among them twice; give each dog once for an order",
}

_MOST = 6
"""Answers named that the order depends on."""


def no_order_words(reason: NoOrder | None) -> str:
    """Why there is no order; empty where there is one."""
    return _NO_ORDER[reason] if reason is not None else ""


def order_remark(remark: OrderRemark) -> str:
    """What makes the order unfair, in a sentence."""
    if remark.kind == "not-examined":
        return f"{remark.dog}: {remark.count} points not examined that were in others; nothing counts there."
    if remark.kind == "too-young":
        return f"{remark.dog}: {remark.count} findings are not counted, the dog being too young for them."
    return "The dogs were examined by different evaluators; how strict each is tells in the order."


def order_sentences(order: Order) -> Iterator[str]:
    """The order of the dogs, how sure each place is, what it depends on, what the chances rest on."""
    if order.no_order is not None:
        yield f"No order: {no_order_words(order.no_order)}."
        return
    for one in order.dogs:
        shared = " (shared)" if one.tied else ""
        counts = ", ".join(f"{label} {n}" for label, n in one.counts)
        unsure = f", unsure {one.unsure}" if one.unsure else ""
        places = ", ".join(f"{n}. {percent(p)}" for n, p in enumerate(one.p_place, 1))
        yield f"{one.place}.{shared} {one.dog}: {counts}{unsure}; places: {places}"
    for one, after in zip(order.dogs, order.dogs[1:], strict=False):
        if one.tied and after.tied and one.place == after.place:
            yield f"{one.dog} and {after.dog} tie: the same number in every class and degree."
        elif one.p_before_next is not None and one.p_before_next < SURE:
            often = percent(one.p_before_next)
            yield f"{one.dog} before {after.dog} is not settled: it holds {often} of the time."
    if order.p_order is not None:
        sure = "holds" if order.settled else "is uncertain: it holds"
        yield (
            f"This order {sure} {percent(order.p_order)} of the time when every answer varies within hand "
            f"error, first place {percent(order.p_first or 0.0)}; "
            f"were nothing overlooked at points as asked, {percent(order.p_none_overlooked or 0.0)}."
        )
    for answer in order.depends_on[:_MOST]:
        held, otherwise, changes = map(percent, (answer.p_if_held, answer.p_otherwise, answer.p_changes))
        yield (
            f"It depends on {answer.dog}, {answer.label}: {held} if that stands, {otherwise} if it does not "
            f"(which happens {changes} of the time)."
        )
    for remark in order.remarks:
        yield f"Note: {order_remark(remark)}"
    yield f"What this rests on ({order.draws} draws, always the same): {' '.join(_ASSUMED)}"
