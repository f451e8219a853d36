"""Answers: the point exists, takes this kind of answer, and the answer is one it can have."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.exam.checks.readings import check_reading
from hands_on.exam.session import Amendment, Choice, Grade, NoteFinding, Session, Skip, Take, Teeth
from hands_on.ruleset.points import ChoicePoint, GradePoint, MeasurePoint, Point, ScalePoint, faults_of
from hands_on.ruleset.ruleset import Ruleset
from hands_on.toml_text.explain import listed
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report

__all__ = ["AnswerChecks"]

_TABLE = {
    "measure": '[[takes]] with value, for instance value = 64.5 and unit = "cm"',
    "grade": "[[grades]] with as_asked = true or fault",
    "scale": "[[grades]] with step",
    "choice": "[[choices]] with choice",
    "teeth": "[teeth] with missing, unseen, ...",
}
"""Where the answer to each kind of point is written."""


class _Present:
    """Faults graded so far, each by where it stood first, so that a long list is gone through once."""

    def __init__(self) -> None:
        self._at: dict[tuple[str, str | None, str | None], int] = {}
        self._anywhere: dict[tuple[str | None, str | None], int] = {}

    def note(self, n: int, grade: Grade) -> None:
        self._at.setdefault((grade.point, grade.fault, grade.side), n)
        self._anywhere.setdefault((grade.fault, grade.side), n)

    def same(self, grade: Grade) -> int | None:
        """Where the same fault stands at the same point and side."""
        return self._at.get((grade.point, grade.fault, grade.side))

    def facing(self, fault: str, side: str | None) -> int | None:
        """Where `fault` stands first, other than on the other side of the dog."""
        other = {"left": "right", "right": "left"}.get(side or "", "nowhere")
        found = [n for (name, held), n in self._anywhere.items() if name == fault and held != other]
        return min(found, default=None)


class AnswerChecks:
    """Checks the answers of one session against one edition."""

    def __init__(self, report: Report, rules: Ruleset, session: Session) -> None:
        self.report = report
        self.rules = rules
        self.session = session
        self._regions = [region.id for region in rules.regions]

    def check(self) -> None:
        """Everything answered, amendments included."""
        session = self.session
        self._answers((), session, session.teeth)
        self._skips((), session.skips)
        self._findings()
        for n, amendment in enumerate(session.amendments):
            path: Path = ("amendments", n)
            if amendment.point:
                self._known((*path, "point"), amendment.point)
            self._answers(path, amendment, amendment.teeth)
            self._skips(path, amendment.skips)

    def _answers(self, path: Path, holder: Session | Amendment, teeth: Teeth | None) -> None:
        self._takes((*path, "takes"), holder.takes)
        self._grades((*path, "grades"), holder.grades)
        self._choices((*path, "choices"), holder.choices)
        if teeth is not None:
            self._teeth((*path, "teeth"), teeth)

    # --- points ----------------------------------------------------------------------------------

    def _known(self, path: Path, name: str) -> Point | None:
        point = self.rules.points.get(name)
        if point is None:
            right = self.report.offer(name, list(self.rules.points), "point")
            if name in self.rules.faults:
                holders = self.rules.points_of_fault.get(name, ())
                what = f'"{name}" is a fault, not a point.'
                at = listed(f'point = "{holder}"' for holder in holders) or "a point"
                self.report.error(path, what, f'{at} with fault = "{name}".')
                return None
            self.report.error(path, f'there is no point "{name}".', right)
            return None
        sex = self.session.dog.sex
        if point.only_sex is not None and sex is not None and sex != point.only_sex:
            what = f'"{name}" is for the {point.only_sex} only; this dog is {sex}.'
            self.report.warn(path, what, "the answer left out, or the dog's sex mended.")
        return point

    def _of_kind(self, path: Path, name: str, kinds: tuple[str, ...]) -> Point | None:
        point = self._known(path, name)
        if point is None:
            return None
        if point.kind not in kinds:
            what = f'"{name}" is a {point.kind} point and takes no answer of this kind.'
            self.report.error(path, what, f"{_TABLE[point.kind]}.")
            return None
        return point

    # --- takes -----------------------------------------------------------------------------------

    def _takes(self, path: Path, takes: Sequence[Take]) -> None:
        for n, take in enumerate(takes):
            where: Path = (*path, n)
            point = self._of_kind((*where, "point"), take.point, ("measure",))
            if not isinstance(point, MeasurePoint):
                continue
            check_reading(self.report, where, take, point)
            if take.side == "both":
                what = "one reading is taken on one side."
                self.report.error((*where, "side"), what, '"left" or "right", a take for each.')
            elif take.side is not None and not point.sides:
                what = f'"{point.id}" has no sides.'
                self.report.warn((*where, "side"), what, "the line left out.")

    # --- grades and choices ------------------------------------------------------------------------

    def _grades(self, path: Path, grades: Sequence[Grade]) -> None:
        asked: set[str] = {grade.point for grade in grades if grade.as_asked}
        present = _Present()
        for n, grade in enumerate(grades):
            where: Path = (*path, n)
            point = self._of_kind((*where, "point"), grade.point, ("grade", "scale"))
            if isinstance(point, ScalePoint):
                self._step(where, grade, point)
            elif isinstance(point, GradePoint):
                self._grade(where, grade, point)
            if grade.fault is not None and grade.status == "present":
                if grade.point in asked:
                    what = f'"{grade.point}" is as asked in one answer and a fault in this one.'
                    self.report.error((*where, "fault"), what, "one of the two.")
                self._against_others(where, grade, present)
                present.note(n, grade)

    def _step(self, where: Path, grade: Grade, point: ScalePoint) -> None:
        steps = [step.value for step in point.steps]
        if grade.fault is not None:
            what = f'"{point.id}" has a scale of its own.'
            self.report.error((*where, "fault"), what, f"step = a number from {steps[0]} to {steps[-1]}.")
        elif grade.step is not None and grade.step not in steps:
            what = f'step {grade.step} is not on the scale of "{point.id}".'
            self.report.error((*where, "step"), what, f"a number from {steps[0]} to {steps[-1]}.")

    def _grade(self, where: Path, grade: Grade, point: GradePoint) -> None:
        if grade.step is not None:
            what = f'"{point.id}" has no steps; it is graded by departures.'
            right = f"as_asked = true, or fault = {listed(_quoted(point.departures))} with a degree."
            self.report.error((*where, "step"), what, right)
        elif grade.fault is not None:
            if self._fault_at((*where, "fault"), grade.fault, point):
                self._side(where, grade.side, grade.fault, point)
        elif grade.degree is not None:
            what = "a degree, yet nothing departs from what is asked."
            self.report.warn((*where, "degree"), what, "the line left out, or a fault instead of as_asked.")

    def _fault_at(self, path: Path, fault: str, point: Point) -> bool:
        own = faults_of(point)
        if fault in own:
            return True
        if fault not in self.rules.faults:
            right = self.report.offer(fault, [*own, *self.rules.faults], "fault")
            self.report.error(path, f'there is no fault "{fault}".', right)
            return False
        places = self.rules.points_of_fault.get(fault, ())
        right = listed(f'point = "{place}"' for place in places) if places else "a note with this finding"
        own_text = f"; at {point.id} it is {listed(_quoted(own))}" if own else ""
        self.report.error(path, f'"{fault}" does not belong to "{point.id}".', f"{right}{own_text}.")
        return False

    def _side(self, where: Path, side: str | None, fault: str, point: GradePoint) -> None:
        if side is None or point.sides:
            return
        known = self.rules.faults.get(fault)
        if known is not None and not known.sides:
            what = f'"{fault}" has no sides.'
            self.report.warn((*where, "side"), what, "the line left out.")

    def _against_others(self, where: Path, grade: Grade, earlier: _Present) -> None:
        first = earlier.same(grade)
        if first is not None:
            what = f'"{grade.fault}" is recorded here twice, the first time in grades[{first + 1}].'
            self.report.warn((*where, "fault"), what, "one of the two; it counts once.")
        known = self.rules.faults.get(grade.fault or "")
        for fault in known.opposite if known is not None else ():
            first = earlier.facing(fault, grade.side)
            if first is not None:
                what = f'"{grade.fault}" and "{fault}" (grades[{first + 1}]) cannot hold together.'
                self.report.warn((*where, "fault"), what, "one of the two, or a side with each.")

    def _choices(self, path: Path, choices: Sequence[Choice]) -> None:
        for n, choice in enumerate(choices):
            where: Path = (*path, n)
            point = self._of_kind((*where, "point"), choice.point, ("choice",))
            if not isinstance(point, ChoicePoint):
                continue
            options = [option.id for option in point.options]
            for place, name in enumerate(choice.choice):
                at: Path = (*where, "choice", place) if len(choice.choice) > 1 else (*where, "choice")
                self.report.expect(at, name, options, f"option at {point.id}")
            if len(choice.choice) > 1 and not point.several:
                what = f'"{point.id}" takes one option; here are {len(choice.choice)}.'
                self.report.error((*where, "choice"), what, "one of them.")
            if choice.side is not None and not point.sides:
                what = f'"{point.id}" has no sides.'
                self.report.warn((*where, "side"), what, "the line left out.")

    def _teeth(self, path: Path, teeth: Teeth) -> None:
        for n, number in enumerate(teeth.missing):
            other = next((key for key in ("worn", "broken", "unseen") if number in getattr(teeth, key)), None)
            if other is not None:
                what = f"{number} is missing and {other} at once."
                self.report.error((*path, "missing", n), what, "the number in one of the two lists.")
        for key in ("missing", "unseen", "worn", "broken", "milk"):
            numbers: tuple[int, ...] = getattr(teeth, key)
            seen: set[int] = set()
            for n, number in enumerate(numbers):
                if number in seen:
                    what = f"{number} stands twice in {key}."
                    self.report.warn((*path, key, n), what, "each tooth once.")
                seen.add(number)

    # --- skips, notes, decisions ---------------------------------------------------------------------

    def _skips(self, path: Path, skips: Sequence[Skip]) -> None:
        session = self.session
        rows: tuple[Take | Grade | Choice, ...] = (*session.takes, *session.grades, *session.choices)
        answered = set() if path else {row.point for row in rows}
        for n, skip in enumerate(skips):
            where: Path = (*path, "skips", n)
            if skip.region:
                self.report.expect((*where, "region"), skip.region, self._regions, "region")
            elif (
                self._known((*where, "point"), skip.point) is not None and skip.point in answered and not path
            ):
                what = f'"{skip.point}" is skipped and answered.'
                self.report.warn((*where, "point"), what, "the skip left out; the answer counts.")
            if not skip.reason:
                self.report.warn(where, "a skip without a reason.", 'reason = "...".')

    def _findings(self) -> None:
        for n, note in enumerate(self.session.notes):
            path: Path = ("notes", n)
            if note.region:
                self.report.expect((*path, "region"), note.region, self._regions, "region")
            if note.point:
                self._known((*path, "point"), note.point)
            for place, finding in enumerate(note.findings):
                self._finding((*path, "findings", place), finding)
        for n, decision in enumerate(self.session.decisions):
            self.report.expect(("decisions", n, "fault"), decision.fault, self.rules.faults, "fault")
            if decision.class_ is not None:
                self.report.expect(("decisions", n, "class"), decision.class_, self.rules.classes, "class")
                if not decision.reason:
                    what = "another class than the edition gives, without a reason."
                    self.report.error(("decisions", n, "class"), what, 'reason = "..." beside it.')

    def _finding(self, path: Path, finding: NoteFinding) -> None:
        self.report.expect((*path, "fault"), finding.fault, self.rules.faults, "fault")
        if finding.confidence is not None and not 0 <= finding.confidence <= 1:
            what = f"a confidence of {finding.confidence:g}."
            self.report.error((*path, "confidence"), what, "a number from 0 to 1.")


def _quoted(names: Sequence[str]) -> list[str]:
    return [f'"{name}"' for name in names]
