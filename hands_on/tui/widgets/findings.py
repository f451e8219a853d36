"""What has been found so far, heaviest class first, and how many things need a second look."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from hands_on.evaluate import Evaluation
from hands_on.evaluate.result import Finding
from hands_on.ruleset.base import DEGREES, Degree
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui.show import dotted, fitted, plain
from hands_on.wording.alarms import alarm_text
from hands_on.wording.findings import reading_mark, side_words
from hands_on.wording.labels import label_words
from hands_on.wording.outlook import finding_class_words

NOT_SETTLED = "Class not settled"
"""The heading of what a measurement leaves between classes."""

NO_CLASS_WORDS = {"none": "no fault here", "observation": "observed, not counted", "unclassed": "no class"}

TOO_YOUNG = "Too young to judge"
"""The heading of what is recorded but not judged at this age."""


def class_label(ruleset: Ruleset, name: str | None) -> str:
    """A class in the edition's words."""
    known = ruleset.classes.get(name or "")
    return known.label if known else NO_CLASS_WORDS.get(name or "unclassed", name or "no class")


def finding_words(finding: Finding, evaluation: Evaluation | None = None) -> str:
    """A finding with degree, side and what else must be known; with `evaluation` the classes left open."""
    chances = finding_class_words(evaluation, finding) if evaluation is not None else ""
    aside = [
        finding.degree or "",
        side_words(finding.side, finding.worse),
        "unsure" if finding.status == "unsure" else "",
        {"dismiss": "dismissed", "uphold": "upheld"}.get(finding.decision, ""),
        reading_mark(finding) if finding.counts else "",
    ]
    words = "; ".join(filter(None, (", ".join(part for part in aside if part), chances)))
    label = label_words(finding.named)
    return f"{label} ({words})" if words else label


def by_class(ruleset: Ruleset, evaluation: Evaluation) -> list[tuple[str, list[Finding]]]:
    """The findings under their classes' labels, heaviest first, within a class the gravest degree first; what
    is too young to judge comes last.

    A class beside a finding that does not count yet would only frighten.
    """
    rows: dict[str, list[Finding]] = {}
    order = sorted(
        evaluation.findings,
        key=lambda one: (one.too_young, -_rank(ruleset, evaluation, one), -degree_rank(one.degree)),
    )
    for finding in order:
        label = TOO_YOUNG if finding.too_young else class_label(ruleset, finding.cls)
        one = evaluation.outlook.of(finding)
        if one is not None and one.chances:
            label = NOT_SETTLED
        rows.setdefault(label, []).append(finding)
    return list(rows.items())


def _rank(ruleset: Ruleset, evaluation: Evaluation, finding: Finding) -> int:
    """How heavy the heaviest class is that is left open of a finding."""
    one = evaluation.outlook.of(finding)
    return max(ruleset.rank(finding.cls), ruleset.rank(one.heaviest) if one is not None else 0)


def degree_rank(degree: Degree | None) -> int:
    """1 for slight to 4 for extreme; 0 where it was not said."""
    return 0 if degree is None else DEGREES.index(degree) + 1


class FindingList(Static):
    """The live list beside the walk; in a narrow window its heaviest part on a few lines."""

    def __init__(self, id: str | None = None) -> None:
        super().__init__("", id=id, markup=False)
        self._content: tuple[Ruleset, Evaluation] | None = None
        self.in_short = False

    def show(self, ruleset: Ruleset, evaluation: Evaluation, *, in_short: bool) -> None:
        """The list as it is now."""
        self._content, self.in_short = (ruleset, evaluation), in_short
        self._draw()

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def _draw(self) -> None:
        if self._content is None or not self.size.width:
            return
        if self.in_short:
            self.update(
                plain(
                    fitted(
                        self._short(*self._content), self.content_size.width, max(1, self.content_size.height)
                    )
                )
            )
        else:
            self.update(self._full(*self._content))

    @staticmethod
    def _short(ruleset: Ruleset, evaluation: Evaluation) -> str:
        groups = [
            f"{label}: {', '.join(finding_words(finding, evaluation) for finding in findings)}"
            for label, findings in by_class(ruleset, evaluation)
        ]
        return dotted(head(evaluation), *groups)

    @staticmethod
    def _full(ruleset: Ruleset, evaluation: Evaluation) -> Content:
        rows = [Content.styled(head(evaluation), "bold")]
        for label, findings in by_class(ruleset, evaluation):
            rows += [Content(""), plain(label, "bold")]
            rows += [
                plain(f"- {finding_words(finding, evaluation)}", "" if finding.counts else "dim")
                for finding in findings
            ]
        if evaluation.alarms:
            rows += [Content(""), Content.styled("Look again", "bold")]
            rows += [plain(f"! {alarm_text(evaluation, alarm)}") for alarm in evaluation.alarms]
        return Content("\n").join(rows)


def head(evaluation: Evaluation) -> str:
    """How many of each."""
    found = len(evaluation.findings)
    alarms = len(evaluation.alarms)
    return dotted(
        f"{found} finding{'' if found == 1 else 's'}" if found else "Nothing found yet",
        f"{alarms} to look at again" if alarms else "",
    )
