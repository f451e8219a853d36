"""An examination under another edition: what changes in verdicts and classes, and why. Nothing is stored."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from hands_on.compare.editions.under_another import Change, changes
from hands_on.evaluate.result import Evaluation
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui import keys
from hands_on.tui.asks import TwoEditions
from hands_on.tui.questions.reading import Paragraph, ReadingScreen
from hands_on.wording.another_edition import (
    CAUSES,
    change_sources,
    change_title,
    change_why,
    count_words,
)


class UnderAnotherScreen(ReadingScreen):
    """A text to read; both editions rule by rule are a key away."""

    NAME = "under-another"
    CSS_PATH = "../questions/reading.tcss"
    BINDINGS = keys.bindings("under-another")

    def __init__(self, before: Evaluation, after: Evaluation, a: Ruleset, b: Ruleset) -> None:
        """`before` and `after` are of one session, under `a` and under `b`."""
        self.a, self.b = a, b
        super().__init__(f"Under another edition · {b.edition.title}", paragraphs(before, after, a, b))

    def action_rules(self) -> None:
        """The two editions rule by rule."""
        self.program.go(TwoEditions(self.a, self.b))


def paragraphs(before: Evaluation, after: Evaluation, a: Ruleset, b: Ruleset) -> list[Paragraph]:
    """How it counts under both, then each change with its reason, then the sources they name."""
    found = changes(before, after, a, b)
    rows = [
        Paragraph(f"{one.edition.title} ({one.id}): {count_words(one, evaluation)}.", heading)
        for one, evaluation, heading in (
            (a, before, "The same answers under both editions"),
            (b, after, ""),
        )
    ]
    rows.append(Paragraph("Only shown: the examination keeps its own edition, and nothing is stored."))
    if not found:
        return [*rows, Paragraph("Nothing: no verdict and no class differs.", "What changes")]
    why = Counter(CAUSES[change.cause] for change in found)
    rows.append(
        Paragraph(
            "; ".join(f"{cause}: {count}" for cause, count in why.most_common()), "What changes, by reason"
        )
    )
    sources = list(dict.fromkeys(text for change in found for text in change_sources(change)))
    for kind, title in (("finding", "Findings"), ("rule", "Measured, against what is asked")):
        told = [change for change in found if change.kind == kind]
        rows += _told(told, f"{title}: {len(told)} differ{'s' if len(told) == 1 else ''}", sources)
    rows += [Paragraph(f"[{n}] {text}", "Sources" if n == 1 else "") for n, text in enumerate(sources, 1)]
    return rows


def _told(found: Sequence[Change], title: str, sources: Sequence[str]) -> Iterator[Paragraph]:
    for number, change in enumerate(found):
        named = "".join(f" [{sources.index(text) + 1}]" for text in change_sources(change))
        yield Paragraph(
            f"- {change_title(change)}",
            title if not number else "",
            f"{CAUSES[change.cause]}: {change_why(change)}{named}",
        )
