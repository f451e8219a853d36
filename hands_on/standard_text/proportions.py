"""Proportions and differences in a sentence -> limits."""

from __future__ import annotations

import re
from typing import Any, Final

from hands_on.standard_text.measures import RATIO_SIDES, Mention, mentions
from hands_on.standard_text.ratio_limit import ABOUT, outside, ratio_limit
from hands_on.standard_text.share_of import share_of

__all__ = ["of_one_sex", "proportions"]

_PAIR: Final = re.compile(r"(\d+(?:\.\d+)?)\s*(?::|/|(?<=\d) to (?=\d)|(?<=\d)-to-(?=\d))\s*(\d+(?:\.\d+)?)")
_SHARE: Final = re.compile(r"(?<![\d/:])(\d+)/(\d+)(?![\d/])")
_ALONE: Final = re.compile(
    r"^(?:about |approx\.? |approximately )?([0-3]?\.\d+)(?:\s*(?:-|to)\s*([0-3]?\.\d+))?\s*\.?$"
)
"""A ratio as one number, under a heading that names both lengths."""
_PER_CENT: Final = re.compile(r"(\d+(?:\.\d+)?)(?:\s*(?:-|to|and)\s*(\d+(?:\.\d+)?))?\s*(?:%|per ?cent)")
_RATIO_WORD: Final = re.compile(r"ratio|like \d|proportion|relat(?:ion|es|ed)|as \d|scale of|compared")
_EQUAL: Final = re.compile(
    r"\bequal(?:s|led|ling|ed|ing)?\b|\bsame (?:length|as|height|distance)|as (?:long|high|deep|"
    r"wide|broad|tall) as|as (?:long|deep|wide|broad)\b[^.;]{0,50}"
    r"\bas (?:it is |they are )?(?:high|long|deep|wide|tall)\b|"
    r"\bof the length of\b|of (?:the )?same length|\b(?:is|are) (?:the )?(?:same|alike)\b|"
    r"corresponds? to|identical|has (?:about |roughly |approximately |almost )?the (?:same )?length of"
)
_TWICE: Final = re.compile(r"\btwice\b|\bdouble the\b")
_TIMES: Final = re.compile(r"(?<![\d/.])(\d+(?:\.\d+)?) times\b")
_LONGER: Final = re.compile(
    r"(?P<how>just |only |very |rather |a )?(?P<much>slightly|somewhat|little|a trifle|"
    r"barely|marginally|fractionally|bit)? ?"
    r"(?P<way>longer|greater|deeper|wider|broader|more|exceeds?|shorter|less|narrower|"
    r"smaller)(?: in length)?(?: (?:than|the)\b)?"
)
_JOINED: Final = re.compile(
    r",? *(?:to|and|or|but|-|up to)(?: (?:at|the|a|most|"
    r"least|not|no|to|exceed\w*|more|less|than|over|under|about))* *"
)
_SAID_AGAIN: Final = re.compile(
    r" (?:of )?(?:the |its )?(?:height|length|depth)?(?: (?:at|of) the withers)?"
    r"(?:, (?:that is |about |i\.e\. )*|,? and may reach (?:up to )?| \()"
)
"""`more than half the height, 52 to 54 %`."""
_OF_IT: Final = re.compile(r"\s*(?:of )?(?:it|this|that|the same)\b")


def proportions(low: str, heading: str) -> tuple[list[tuple[str, dict[str, Any]]], int]:
    """The ratios and differences that a plain sentence asks, and how many figures they hold."""
    named = _named(low, heading)
    further = _OR_FURTHER.search(low)
    if further and len({one.measure for one in named}) > 1:
        pair = _pair_of(low, named, (further.start(), further.end()), words=True)
        if pair in RATIO_SIDES:
            asked = {"from": 1.0, "to": round(1 + _part(further.group("n")), 3)}
            name = f"{pair[0]}-to-{pair[1]}"
            bands = outside(asked, RATIO_SIDES[pair])
            return [(name, {"id": name, "ratio": list(pair), "asked": asked, "bands": bands})], 1
    percent = list(_PER_CENT.finditer(low))
    out: list[tuple[str, dict[str, Any]]] = []
    since, before = 0, ("", "")
    for share, span in _shares(low, percent):
        near = [one for one in named if one.start >= since] if out else named
        pair = _pair_of(low, near, span, words=False)
        if not out and (pair is None or any(one.start < 0 and one.measure in pair for one in near)):
            pair = share_of(low, span, heading) or pair
        if (
            pair is None
            and not out
            and re.search(r"(?:longer|more) than (?:it is |they are )?(?:tall|high)\b", low)
        ):
            pair = ("body-length", "height")
        if pair is not None and pair[0] == before[1] and _OF_IT.match(low[span[1] :]):
            pair = (near[-1].measure, before[1])
        between = low[since : span[0]]
        if pair is None and out and (_JOINED.fullmatch(between) or _SAID_AGAIN.fullmatch(between)):
            pair = before
        if pair is not None:
            less, more = share
            fresh = ratio_limit(pair, less, more, low, span)
            if pair == before and fresh:
                out[-1:] = [_joined(out[-1], fresh[0])]
            else:
                out += [one for one in fresh if one[0] not in dict(out)]
            since, before = span[1], pair
    if out:
        return out, len(out)
    found = _difference(low, named)
    if found is not None:
        return [found], 1
    return _in_words(low, named, heading)


_OF_ONE_SEX: Final = re.compile(
    r"^(?:and |but )?(?:in|for) (?:the )?(?P<sex>bitches|females|dogs|males)\b[^.;%]*?(?P<end>up to|"
    r"at most|not over) "
    r"(?:about )?(?P<n>\d+(?:\.\d+)?) ?(?:%|per ?cent)"
)


def of_one_sex(low: str, before: dict[str, Any]) -> list[tuple[str, dict[str, Any]]]:
    """`in bitches up to 10 % is allowed` after a ratio `before`: its upper end in one sex."""
    found = _OF_ONE_SEX.search(low)
    asked = before.get("asked", {})
    if found is None or not asked:
        return []
    share = float(found.group("n")) / 100
    end = round(1 + share if share < 0.5 and max(asked.values()) >= 1 else share, 3)
    sex = "female" if found.group("sex")[0] in "bf" else "male"
    ends = {key: value for key, value in asked.items() if key in ("from", "above")} | {"to": end}
    if min(ends.values()) > end:
        return []
    name = f"{before['id']}-{sex}"
    kept = {key: value for key, value in before.items() if key not in ("reading", "bands", "asked")}
    bands = outside(ends, RATIO_SIDES.get(tuple(before["ratio"]), ("", "")))
    return [(name, kept | {"id": name, "when": {"sex": sex}, "asked": ends, "bands": bands})]


_OR_FURTHER: Final = re.compile(
    r"as (?:long|deep|wide|broad|high) as\b(?=[^.;]*\bor (?:is )?(?:longer|greater|deeper|wider|"
    r"more) by (?:up to |at most )?"
    r"(?P<n>\d+/\d+|\d+(?:\.\d+)? ?%))"
)
"""`as long as the skull, or longer by up to a tenth`."""


def _part(text: str) -> float:
    top, _, bottom = text.partition("/")
    return int(top) / int(bottom) if bottom else float(text.rstrip(" %")) / 100


def _joined(
    first: tuple[str, dict[str, Any]], second: tuple[str, dict[str, Any]]
) -> tuple[str, dict[str, Any]]:
    """`not less than 1 : 1 and not more than 1.1 : 1`, `9 : 10 to 10 : 11`: both are ends of one stretch."""
    name, table = first
    asked, other = table["asked"], second[1]["asked"]
    if len(asked) == 1 and len(other) == 2 and "reading" not in second[1]:
        return second  # `slightly more than half, 52 to 54 %`: the range says it
    if len(asked) == len(other) == 1:
        ends = asked | other
    else:
        middles = sorted(sum(one.values()) / len(one) for one in (asked, other))
        ends = {"from": round(middles[0], 3), "to": round(middles[1], 3)}
    if len(ends) < 2 or min(ends.values()) >= max(ends.values()):
        return first
    kept = {key: value for key, value in table.items() if key != "reading"}
    return name, kept | {
        "asked": ends,
        "bands": outside(ends, RATIO_SIDES.get(tuple(table["ratio"]), ("", ""))),
    }


def _shares(low: str, percent: list[re.Match[str]]) -> list[tuple[tuple[float, float], tuple[int, int]]]:
    """Shares as first to second, with their place."""
    out: list[tuple[tuple[float, float], tuple[int, int]]] = []
    for found in _PAIR.finditer(low):
        first, second = float(found.group(1)), float(found.group(2))
        colon = ":" in found.group()
        worded = bool(_RATIO_WORD.search(low))
        if (
            second
            and 0.1 <= first / second <= 10
            and (colon or worded)
            and not re.match(r"\s*(?:cm|mm|inch|in\b|kg|lb|\u00b0|deg)", low[found.end() :])
        ):
            out.append(((first / second, first / second), found.span()))
    if out:
        return out
    alone = _ALONE.match(low)
    if alone:
        first, second = float(alone.group(1)), float(alone.group(2) or alone.group(1))
        return [((first, second), alone.span())]
    for found in _SHARE.finditer(low):
        bottom = int(found.group(2))
        if (
            bottom
            and not re.match(r"\s*(?:cm|mm|inch|in\b|kg|lb|\"|the? tooth)", low[found.end() :])
            and not re.search(r"\d\s*$", low[: found.start()])
        ):
            share = int(found.group(1)) / bottom
            more, less = _further(low, found.span())
            share = 1 + share if more else 1 - share if less else share
            out.append(((share, share), found.span()))
    for found in percent:
        first = float(found.group(1)) / 100
        second = float(found.group(2)) / 100 if found.group(2) else first
        more, less = _further(low, found.span())
        base = 1.0 if more else -1.0 if less else 0.0
        out.append(((base + first, base + second) if base >= 0 else (1 - second, 1 - first), found.span()))
    times = _TIMES.search(low)
    if times and not out:
        out.append(((float(times.group(1)), float(times.group(1))), times.span()))
    twice = _TWICE.search(low)
    if twice and not out:
        out.append(((2.0, 2.0), twice.span()))
    return out


def _further(low: str, span: tuple[int, int]) -> tuple[bool, bool]:
    """Whether a share comes on top of the whole, or is wanting: `exceeds by 1/10`, `1/3 less`."""
    before, after = low[: span[0]], low[span[1] :]
    more = re.match(r"\s*(?:longer|greater|more|deeper|above)", after) or re.search(
        r"(?:exceed\w*|surpass\w*|longer|greater|more)\b[^.;]*\bby\s+"
        r"(?:about |approx\w*\.? |around |more than |at most |up to |not more than )?(?:an? )?$",
        before,
    )
    less = re.match(r"\s*(?:shorter|less|smaller|narrower)", after)
    return bool(more), bool(less)


def _named(low: str, heading: str) -> list[Mention]:
    """The lengths named; a bare part counts as its length, a heading's part comes first where it must."""
    out = [one for one in mentions(low) if one.measure not in ("weight", "teeth-count")]
    if len({one.measure for one in out}) < 2:
        head = [one for one in mentions(heading.lower()) if one.measure not in {m.measure for m in out}]
        out = [
            Mention(one.measure, -1, -1, False)
            for one in head
            if one.measure not in ("weight", "teeth-count", "tail-length")
        ] + out
    return out


def _pair_of(low: str, named: list[Mention], span: tuple[int, int], *, words: bool) -> tuple[str, str] | None:
    """First and second of a ratio: those round the figure, or both before it, or both after."""
    kinds = list(dict.fromkeys(one.measure for one in named))
    if len(kinds) < 2:
        return None
    before = [one for one in named if one.end <= span[0]]
    after = [one for one in named if one.start >= span[1]]
    colon = ":" in low[span[0] : span[1]] or " to " in low[span[0] : span[1]]
    if before and after and (not colon or len({one.measure for one in before}) < 2):
        first, second = before[-1].measure, after[0].measure
        if not colon:
            subject = [one for one in before if one.outright] or before
            first = subject[-1].measure if len(subject) == 1 else subject[0].measure
            if not any(one.outright for one in before) and "," in low[before[0].end : before[-1].start]:
                first = before[-1].measure  # `the head is broad, the skull as long as the muzzle`
        if first != second:
            return first, second
    group = before if len({one.measure for one in before}) >= 2 else after
    order = list(dict.fromkeys(one.measure for one in reversed(group)))
    order = order[::-1] if group is not before else order[:2][::-1]
    if len(order) >= 2:
        pair = (order[-2], order[-1]) if group is before and len(order) > 2 else (order[0], order[1])
        return pair
    return (kinds[0], kinds[1]) if len(kinds) == 2 else None


def _difference(low: str, named: list[Mention]) -> tuple[str, dict[str, Any]] | None:
    """`girth 10 cm more than the height`."""
    found = re.search(
        (
            r"(?:by )?(?P<a>\d+(?:\.\d+)?)(?:\s*(?:-|to)\s*(?P<b>\d+(?:\.\d+)?))?\s*(?P<u>cm|inch(?:es)?|"
            r"in)\.? (?P<way>more|longer|greater|less|shorter|above|over|below)(?: than)?"
        ),
        low,
    )
    if found is None:
        found = re.search(
            (
                r"exceeds?[^.;]*?(?P<way>by)\s+(?:about |approx\w*\.? )?(?P<a>\d+(?:\.\d+)?)(?:\s*(?:-|"
                r"to)\s*(?P<b>\d+(?:\.\d+)?))?\s*(?P<u>cm|inch(?:es)?|in)"
            ),
            low,
        )
    if found is None:
        return None
    kinds = list(dict.fromkeys(one.measure for one in named))
    before = [one.measure for one in named if one.end <= found.start()]
    if len(kinds) < 2 or not before:
        return None
    first = before[0]
    second = next(name for name in kinds if name != first)
    if found.group("way") in ("less", "shorter", "below"):
        first, second = second, first
    less = float(found.group("a"))
    more = float(found.group("b") or less)
    unit = "cm" if found.group("u") == "cm" else "in"
    table: dict[str, Any] = {"id": f"{first}-less-{second}", "difference": [first, second], "unit": unit}
    if less == more:
        spread = 2.0 if unit == "cm" else 1.0
        less, more = less - spread, more + spread
        table["reading"] = f"One figure is named and no width: {spread:g} either way is ours."
    table["asked"] = {"from": less, "to": more}
    table["bands"] = outside(table["asked"], RATIO_SIDES.get((first, second), ("", "")))
    if ABOUT.search(low):
        table["about"] = True
    return str(table["id"]), table


def _in_words(low: str, named: list[Mention], heading: str) -> tuple[list[tuple[str, dict[str, Any]]], int]:
    """`muzzle slightly shorter than skull`, `square`, `as long as`."""
    if re.search(
        (
            r"\bsquare(?:ly)?[- ]?(?:built|in (?:outline|build|profile)|outline|build|proportion)|"
            r"nearly square|almost square|(?:body|build|outline|dog|appearance)[^.;]{0,24}\bsquare\b|"
            r"^square\b"
        ),
        low,
    ) and not (
        re.search(r"not (?:\w+ )?square|muzzle|stand", low)
        or re.search(r"muzzle|head|skull|mouth|teeth|jaw", heading.lower())
    ):
        found = ratio_limit(("body-length", "height"), 1.0, 1.0, low)
        further = re.search(r"square\b[^.;]{0,12}\bor (?:\w+ ){0,2}(?:longer|off)", low)
        return (_free_above(found) if further else found), 0
    longer = _LONGER.search(low)
    if longer and longer.group("way").startswith("exceed") and re.match(r"\s*\d", low[longer.end() :]):
        longer = None
    if longer and (re.search(r"than (?:it is |they are )?(?:tall|high|its height)", low[longer.start() :])):
        return _compared(("body-length", "height"), longer, low), 0
    if len({one.measure for one in named}) < 2:
        return [], 0
    equal = _EQUAL.search(low)
    if equal and not re.search(r"equal (?:size|height|width|distance from)", low):
        pair = _pair_of(low, named, equal.span(), words=True)
        if pair is not None and (pair in RATIO_SIDES or (pair[1], pair[0]) in RATIO_SIDES):
            return _at_or_beside(ratio_limit(pair, 1.0, 1.0, low), pair, longer, equal, low), 0
    if longer:
        pair = _pair_of(low, named, longer.span(), words=True)
        if pair is not None and (pair in RATIO_SIDES or (pair[1], pair[0]) in RATIO_SIDES):
            return _compared(pair, longer, low), 0
    return [], 0


def _free_above(found: list[tuple[str, dict[str, Any]]]) -> list[tuple[str, dict[str, Any]]]:
    """`square or slightly longer`: what is longer is free as far as a slight difference goes."""
    asked = {"from": 1.0, "to": 1.12}
    return [
        (
            name,
            table
            | {
                "asked": asked,
                "bands": outside(asked, RATIO_SIDES[tuple(table["ratio"])]),
                "reading": "The text gives a direction and no figure: up to 0.12 is ours.",
            },
        )
        for name, table in found
    ]


def _at_or_beside(
    found: list[tuple[str, dict[str, Any]]],
    pair: tuple[str, str],
    longer: re.Match[str] | None,
    equal: re.Match[str],
    low: str,
) -> list[tuple[str, dict[str, Any]]]:
    """`equal to or slightly shorter than`: one side is free."""
    if longer is None or not re.search(
        r"\bor\b", low[min(equal.end(), longer.end()) : max(equal.start(), longer.start())]
    ):
        return found
    (name, table), *_ = found
    more = longer.group("way") not in ("shorter", "less", "narrower", "smaller")
    if pair not in RATIO_SIDES:
        more = not more
    asked = {"from": 1.0} if more else {"to": 1.0}
    return [
        (
            name,
            {
                "id": name,
                "ratio": table["ratio"],
                "asked": asked,
                "bands": outside(asked, RATIO_SIDES[tuple(table["ratio"])]),
            },
        )
    ]


def _compared(pair: tuple[str, str], longer: re.Match[str], low: str) -> list[tuple[str, dict[str, Any]]]:
    more = longer.group("way") not in ("shorter", "less", "narrower", "smaller")
    if pair not in RATIO_SIDES:
        pair, more = (pair[1], pair[0]), not more
    slight = longer.group("much") or longer.group("how") in ("just ", "very ")
    far = 0.2 if pair[0] != "body-length" else 0.12
    asked: dict[str, float] = {"above": 1.0} if more else {"below": 1.0}
    table: dict[str, Any] = {"id": f"{pair[0]}-to-{pair[1]}", "ratio": list(pair)}
    if slight:
        asked = {"above": 1.0, "to": 1 + far} if more else {"from": 1 - far, "below": 1.0}
        table["reading"] = f"The text gives a direction and no figure: up to {far:g} is ours."
    table["asked"] = asked
    table["bands"] = outside(asked, RATIO_SIDES[pair])
    return [(str(table["id"]), table)]
