"""Heights, weights and other single measurements by sex and size of the breed -> limits."""

from __future__ import annotations

import re
from collections.abc import Set
from dataclasses import replace
from typing import Any, Final

from hands_on.standard_text.classing import class_beside
from hands_on.standard_text.cut import Sentence
from hands_on.standard_text.groups import sexes, sizes_of_breed
from hands_on.standard_text.headings import class_words
from hands_on.standard_text.limit_tables import Facts, Key, Sex, limit_table, width_of
from hands_on.standard_text.margins import (
    ONLY_A_MARGIN,
    OUTSIDE,
    TOLERANCE,
    Margins,
    sides_outside,
    sides_said,
)
from hands_on.standard_text.measures import Mention, mentions
from hands_on.standard_text.numbers import Figure, figures
from hands_on.standard_text.which_measure import which_measure

__all__ = ["SizeReader"]

_LEAST_HEIGHT: Final = 12.0
"""In cm; the smallest dogs stand higher."""
_OF_THE_WHOLE: Final = ("height", "body-length", "chest-girth")
_ONLY_IN: Final = re.compile(
    r"\s*(?:at (?:the )?most )?(?:in|for) (?:the )?(?:males?|females?|dogs?|bitch(?:es)?)\b"
)
"""`not above 15 cm in males`: of one sex only."""
_IDEAL: Final = re.compile(r"(?:the )?(?:ideal|preferred|desired|desirable|optimum)\b")
_GAPS: Final = {"overshot-gap": "undershot-gap", "undershot-gap": "overshot-gap"}


class SizeReader:
    """Reads sentence after sentence; remembers what earlier ones asked, for those that say `2 cm more`."""

    def __init__(
        self,
        *,
        dogs_are_males: bool,
        ranged: frozenset[Key] = frozenset(),
        varieties: tuple[str, ...] = (),
        ladder: Set[str] = frozenset(),
    ) -> None:
        """`dogs_are_males`: the text calls females bitches, so dogs are males.

        `ranged`: what the text gives a range for, beside which an ideal is a wish of its own.
        `varieties`: names of the breed's own varieties, in small letters; `ladder`: the classes of the text.
        """
        self.own_varieties, self.ladder = varieties, ladder
        self.variety_named = sizes_of_breed(varieties)
        self.ranged = ranged
        self.dogs_are_males = dogs_are_males
        self.known: dict[Key, Facts] = {}
        self.measure = ""
        self.sex: Sex = ""
        self.variety = ""
        self.paragraph = ""
        self.wished = False
        """The sentence before gave an ideal: one that only names the other sex goes on with it."""
        self.margins = Margins()

    @property
    def ranges(self) -> frozenset[Key]:
        """What was given a range, and not only an ideal figure."""
        return frozenset(
            key
            for key, facts in self.known.items()
            if not key.ideal
            and facts.width is None
            and not any("ideal" in text or "margin" in text for text in facts.readings)
        )

    # --- a sentence

    def read(self, sentence: Sentence, low: str, cls: str) -> tuple[list[tuple[str, dict[str, Any]]], int]:
        """The limits that a sentence asks or changes, and how many of its figures they hold."""
        if sentence.paragraph != self.paragraph:
            self.measure, self.sex, self.variety, self.paragraph = "", "", "", sentence.paragraph
        heading = sentence.paragraph.lower()
        low = self.margins.told(low, sentence.label)
        label = sentence.label.lower()
        if label and not self._sexes(low) and self._sexes(label) and mentions(label):
            low = f"{label}: {low}"  # `Height, males:` before a figure says of whom and what
        found = [one for one in figures(low) if one.unit is not None or self._bare(low, heading)]
        found = _sharing(low, [one for one in found if one.unit not in ("deg", "%")])
        if self.wished and re.match(
            r"(?:and )?(?:for |of )?(?:adult |mature )?(?:bitch|female|dog|male)", low
        ):
            found = [replace(one, ideal=True) if one.single is not None else one for one in found]
        if found and ((found[0].ideal and _IDEAL.match(low)) or _IDEAL.match(label)):
            found = [replace(one, ideal=True) if one.single is not None else one for one in found]
        self.wished = any(one.ideal for one in found)
        named = mentions(low)
        self._remember_group(low, found)
        relative = TOLERANCE.search(low)
        several = len({name for name, _ in class_words(low)}) > 1
        changed: list[Key] = []
        used = 0
        for n, figure in enumerate(found):
            if several:
                cls = class_beside(low, (figure.start, figure.end), self.ladder) or cls
            key = self._key(low, heading, figure, named, found)
            twin = _twin(key, named, low, figure.start)
            if twin is not None:
                changed += self._beyond(figure, twin, cls, low) if cls else [self._asked(figure, twin, low)]
            if key is None or (ONLY_A_MARGIN.search(low[: figure.start]) and not self._stands(key)):
                continue
            if relative and self._is_margin(low, figure, key, relative):
                changed += self._margin(low, figure, key, cls, found, n)
            elif key.measure in _OF_THE_WHOLE and _too_small(figure):
                continue
            elif cls and cls != "none":
                changed += self._beyond(figure, key, cls, low)
            else:
                changed.append(self._asked(figure, key, low))
            used += 1
            self.measure = key.measure
        if not found and cls and cls != "none" and OUTSIDE.search(low):
            changed += self._all_outside(low, cls)
        tables = [
            (key.id, limit_table(key, self.known[key])) for key in dict.fromkeys(changed) if key in self.known
        ]
        return tables, used

    def _stands(self, key: Key) -> bool:
        return any(one.measure == key.measure for one in self.known)

    def _bare(self, low: str, heading: str) -> bool:
        return bool(re.search(r"\bteeth\b", f"{low} {heading}"))

    # --- of whom, and what

    def _remember_group(self, low: str, found: list[Figure]) -> None:
        """A sex or size without a figure is a label for what follows."""
        if found:
            return
        told = self._sexes(low)
        if len(told) == 1 and len(low.split()) <= 5:
            self.sex = told[0][1]
        size = self.variety_named.search(low + " ")
        if size and len(low.split()) <= 5:
            self.variety = size.group(1)

    def _sexes(self, low: str) -> list[tuple[int, Sex, int]]:
        return sexes(low, dogs_are_males=self.dogs_are_males)

    def _key(
        self, low: str, heading: str, figure: Figure, named: list[Mention], found: list[Figure]
    ) -> Key | None:
        told = self._sexes(low)
        grouped = bool(told) or bool(self.variety_named.search(low))
        measure = which_measure(low, heading, figure, named, before_it=self.measure, of_a_group=grouped)
        if measure is None:
            return None
        sex = self._sex(low, heading, figure, found, measure, told)
        variety = self._variety(low, heading, figure, measure)
        if measure not in ("height", "weight", "body-length", "chest-girth"):
            both = {one for _, one, _ in told} == {"male", "female"}
            sex = sex if both or (told and (told[0][0] == 0 or _ONLY_IN.match(low[figure.end :]))) else ""
        return Key(measure, sex, variety)

    def _sex(
        self,
        low: str,
        heading: str,
        figure: Figure,
        found: list[Figure],
        measure: str,
        told: list[tuple[int, Sex, int]],
    ) -> Sex:
        if told:
            led = told[0][0] < found[0].start
            before = [one for one in told if one[2] <= figure.start]
            after = [one for one in told if one[0] >= figure.end]
            if led or not after:
                self.sex = before[-1][1] if before else told[0][1]
            else:
                self.sex = after[0][1]
            return self.sex
        if self.measure and measure != self.measure:
            self.sex = ""
        elif re.search(r"^\s*(?:males?|dogs?)\b", heading.split("/")[-1]) and self.dogs_are_males:
            return "male"
        elif re.search(r"^\s*(?:females?|bitch)", heading.split("/")[-1]):
            return "female"
        return self.sex

    def _variety(self, low: str, heading: str, figure: Figure, measure: str) -> str:
        after = re.match(r"\s*(?:in|for) (?:the )?([\w-]+)", low[figure.end :])
        if after and after.group(1) in self.own_varieties:
            return after.group(1)
        of_size = re.search(r"size|height|weight|variet|withers|\bkg\b", f"{heading} {low}")
        own = measure not in ("height", "weight", "body-length", "chest-girth")
        named = [
            m
            for m in self.variety_named.finditer(low[: figure.start])
            if (of_size or m.group(1) in self.own_varieties)
            and not re.search(r"\b(?:of|is|are|very|rather|fairly|quite) $", low[: m.start()])
            and not re.match(
                r"(?:standard|medium|large|small)\s+(?:for|of|is|height|size\b(?!:))", low[m.start() :]
            )
        ]
        if named and (not own or named[-1].group(1) in self.own_varieties):
            return str(named[-1].group(1))
        if own:
            return ""
        last = self.variety_named.match(heading.split("/")[-1].strip() + " ")
        if measure in ("height", "weight") and last and len(heading.split("/")[-1].split()) <= 3:
            return str(last.group(1))
        return self.variety

    # --- what is asked

    def _asked(self, figure: Figure, key: Key, low: str) -> Key:
        before = self.known.get(key)
        another = before is not None and (before.low, before.high) != (figure.low, figure.high)
        beside = any(
            one.measure == key.measure and one.sex in ("", key.sex) and one.variety in ("", key.variety)
            for one in self.ranged
        )
        if figure.ideal and (another or beside):
            key = replace(key, ideal=True)
        facts = Facts(figure.unit or "teeth")
        old = self.known.get(key)
        if old is not None and _the_same(old, figure):
            return key
        if (
            old is not None
            and (figure.low is None) != (figure.high is None)
            and not (old.low is not None and old.high is not None)
        ):
            facts = old
            if figure.low is not None:
                facts.low, facts.low_open = figure.low, figure.low_open
            if figure.high is not None:
                facts.high, facts.high_open = figure.high, figure.high_open
        else:
            if old is not None:
                facts.under, facts.over = old.under, old.over
            facts.low, facts.high = figure.low, figure.high
            facts.low_open, facts.high_open = figure.low_open, figure.high_open
        facts.about = facts.about or figure.about
        if figure.ideal and not key.ideal:
            facts.readings.append("The text calls it ideal or desired, and no limit.")
        if facts.low is not None and facts.low == facts.high and key.measure != "teeth-count":
            width = width_of(key.measure, facts.low)
            facts.width = width
            facts.low, facts.high = round(facts.low - width, 3), round(facts.high + width, 3)
            facts.readings.append(f"One figure is named and no width: {width:g} either way is ours.")
        self.known[key] = facts
        return key

    # --- what lies beyond

    def _is_margin(self, low: str, figure: Figure, key: Key, relative: re.Match[str]) -> bool:
        """Whether the figure is a margin round others, and no figure of its own."""
        size = (
            figure.single
            if figure.single is not None
            else (figure.low if figure.low is not None else figure.high)
        )
        if size is None:
            return False
        scale = {"height": 0.25, "weight": 0.4}.get(key.measure, 0.2)
        known = [facts for one, facts in self.known.items() if one.measure == key.measure]
        ends = [end for facts in known for end in (facts.low, facts.high) if end]
        same = [
            end
            for one in figures(low)
            for end in (one.low, one.high)
            if end and one.unit == figure.unit and one.start != figure.start
        ]
        larger = [end for end in same if end > 4 * size]  # and no other margin
        least = min([*ends, *larger], default=None) if ends else max(same, default=None)
        return least is not None and size < least * scale

    def _margin(self, low: str, figure: Figure, key: Key, cls: str, found: list[Figure], n: int) -> list[Key]:
        size = (
            figure.single
            if figure.single is not None
            else (figure.low if figure.low is not None else figure.high)
        )
        assert size is not None
        if cls in ("fault", "undesirable") and figure.low is None:
            return []  # `up to 2 cm more: a fault`: what lies just outside is one already
        if cls not in ("", "none") and figure.low is None:
            size = 0.0  # `up to 1 cm outside is a minor fault`: from the end on
        beyond = (
            size == 0
            or (figure.low is not None and figure.high not in (None, figure.low))
            or figure.low_open
            or bool(re.search(r"more than\s*$", low[: figure.start]))
        )
        above, below = sides_said(low, figure)
        if re.search(r"exception", low):
            cls = ""
        keys = [one for one in self.known if one.measure == key.measure and not one.ideal]
        named = {sex for _, sex, _ in self._sexes(low) if sex}
        if key.sex and len(named) == 1:
            keys = [one for one in keys if one.sex in (key.sex, "")]
        if key.variety:
            keys = [one for one in keys if one.variety == key.variety]
        changed = []
        past = bool(
            re.search(
                r"(?:beyond|above|below|over|under|outside|from|exceed\w*|deviat\w*)[^.;]{0,24}toler", low
            )
        )
        for one in keys:
            facts = self.known[one]
            scale = _scale(figure.unit, facts.unit)
            step = size * scale
            if facts.width is not None and facts.low is not None and not (cls and cls != "none"):
                middle = facts.low + facts.width
                facts.low, facts.high, facts.width = round(middle - step, 3), round(middle + step, 3), None
                facts.readings[:] = ["The text names one figure and this margin either way."]
                changed.append(one)
                continue
            top, bottom = facts.outermost(past=past)
            kind = cls if cls and cls != "none" else "tolerated"
            if above and top is not None:
                facts.over.append((round(top + step, 3), not beyond and kind != "tolerated", kind))
            if below and bottom is not None:
                facts.under.append((round(bottom - step, 3), not beyond and kind != "tolerated", kind))
            changed.append(one)
        return changed

    def _all_outside(self, low: str, cls: str) -> list[Key]:
        """`Height outside the limits`: the class begins at the outermost end that is told so far."""
        measure = "weight" if re.search(r"\bweight|weigh", low) and "height" not in low else "height"
        above, below = sides_outside(low)
        changed = [one for one in self.known if one.measure == measure and not one.ideal]
        for one in changed:
            facts = self.known[one]
            top, bottom = facts.outermost(past=True)
            if above and top is not None and facts.width is None:
                facts.over.append((top, False, cls))
            if below and bottom is not None and facts.width is None:
                facts.under.append((bottom, False, cls))
        return changed

    def _beyond(self, figure: Figure, key: Key, cls: str, low: str) -> list[Key]:
        """`over 66 cm` in a list of faults or disqualifications."""
        if cls == "none":
            return []
        keys = [one for one in self.known if one.measure == key.measure and not one.ideal]
        same = [
            one
            for one in keys
            if (not key.sex or one.sex == key.sex or not self._sexes(low))
            and (not key.variety or one.variety == key.variety)
        ]
        changed = []
        for one in same or [key]:
            facts = self.known.setdefault(one, Facts(figure.unit or "cm"))
            scale = _scale(figure.unit, facts.unit)
            if figure.low is not None and figure.high is None:
                end = round(figure.low * scale, 3)
                if facts.high is None:
                    facts.high, facts.high_open = end, not figure.low_open
                facts.over.append((end, not figure.low_open, cls))
            elif figure.high is not None and figure.low is None:
                end = round(figure.high * scale, 3)
                if facts.low is None:
                    facts.low, facts.low_open = end, not figure.high_open
                facts.under.append((end, not figure.high_open, cls))
            else:
                continue
            changed.append(one)
        return changed


def _too_small(figure: Figure) -> bool:
    """A figure that no dog's height or length can be: of something else that stands near its name."""
    ends = [end * _scale(figure.unit, "cm") for end in (figure.low, figure.high) if end is not None]
    return bool(ends) and max(ends) < _LEAST_HEIGHT


def _sharing(low: str, found: list[Figure]) -> list[Figure]:
    """`not less than 15 cm in males and 13 cm in females`: one bound for both."""
    out: list[Figure] = []
    for figure in found:
        last = out[-1] if out else None
        joined = last and re.fullmatch(
            r"[ ,]*(?:in|for) (?:the )?(?:males?|dogs?|females?|bitch\w*),? (?:and|or)(?: for|"
            r" in)?(?: \w+)? ?",
            low[last.end : figure.start],
        )
        if last and joined and figure.single is not None and (last.low is None) != (last.high is None):
            low_end = figure.low if last.high is None else None
            high_end = figure.high if last.low is None else None
            figure = replace(
                figure, low=low_end, high=high_end, low_open=last.low_open, high_open=last.high_open
            )
        out.append(figure)
    return out


def _twin(key: Key | None, named: list[Mention], low: str, at: int) -> Key | None:
    """`undershot or overshot more than 2 mm`: the gap that is named just before the one of `key`."""
    other = _GAPS.get(key.measure) if key is not None else None
    before = [one for one in named if one.measure == other and one.end <= at]
    if key is None or other is None or not before or re.search(r"\d", low[before[-1].end : at]):
        return None
    return replace(key, measure=other)


def _the_same(old: Facts, figure: Figure) -> bool:
    """Whether the figure only gives in another unit what stands already."""
    scale = _scale(figure.unit, old.unit)
    if scale == 1.0:
        return False
    ends = ((old.low, figure.low), (old.high, figure.high))
    return all(
        known is None or given is None or abs(known - given * scale) <= 0.06 * known for known, given in ends
    )


def _scale(given: str | None, wanted: str) -> float:
    to_cm = {"cm": 1.0, "mm": 0.1, "in": 2.54, "ft": 30.48, "kg": 1.0, "g": 0.001, "lb": 0.45359237}
    if given is None or given == wanted or given not in to_cm or wanted not in to_cm:
        return 1.0
    return to_cm[given] / to_cm[wanted]
