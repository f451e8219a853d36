"""The report of one examination."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.compare.examined import Examined
from hands_on.evaluate.result import Evaluation, MeasureResult, RuleResult
from hands_on.exam.cautions import Caution
from hands_on.exam.session import Session
from hands_on.exam.walk import progress, stops
from hands_on.figure.asked import asked_figure
from hands_on.figure.drawn import dog_figure
from hands_on.frozen import dataclass
from hands_on.measure.gum import coverage_factor
from hands_on.measure.units import decimals_for, format_measured, format_value
from hands_on.report.blocks import Drawing, Facts, Part, Report, Rows, Table, Text
from hands_on.report.dossier import Dossier, dossier
from hands_on.report.drawn_dogs import drawn
from hands_on.report.kept import signature_words
from hands_on.report.measured import computed_alone
from hands_on.report.record import point_rows
from hands_on.report.standing import dog_words
from hands_on.report.statement import Statement
from hands_on.wording.ages import age_text
from hands_on.wording.labels import label_words
from hands_on.wording.rules import band_words, chance_words, point_label

__all__ = ["Written", "one_dog"]

_SEXES = {"male": "male", "female": "female"}
_KINDS = {"full": "examination", "recheck": "re-check", "round": "one of a round of several evaluators"}


@dataclass(frozen=True)
class Written:
    """The critique to be printed."""

    paragraphs: tuple[str, ...]
    language: str
    edited: bool


def one_dog(one: Examined, session: Session, critique: Written, cautions: tuple[Caution, ...]) -> Report:
    """Everything about one examination; `session` as it stands in its file."""
    found = dossier(one.ruleset, session, one.evaluation, full=True)
    note = "In the evaluator's own words." if critique.edited else "Drafted from the answers recorded."
    parts = [
        Part(
            "standing", "How the dog stands", (Facts(tuple((lead.label, lead.text) for lead in found.lead)),)
        ),
        Part("dog", "Dog and examination", (Facts(tuple(_identity(one))), Facts(tuple(_held(one, session))))),
        Part("critique", "Critique", (Text(critique.paragraphs, note, critique.language),)),
        *_said(found, "findings", "allowed"),
        Part("measurements", "Measurements and proportions", tuple(_measured(one.evaluation))),
        *_said(found, "growth"),
        Part("drawing", "Drawing", (_drawing(one),)),
        *_said(found, "evaluator"),
        Part("notes", "Notes", (Rows(tuple(_notes(one))),)),
        Part("examined", "What was examined", (_examined(one),)),
        *_said(found, "again", "gaps"),
        Part("recorded", "What was recorded", (_recorded(one),)),
        Part("cautions", "Cautions", (Rows(tuple(_cautions(cautions, session))),)),
        Part("sources", "Edition and sources", (Facts(_edition(one)), Rows(_sources(found)))),
    ]
    title = f"{dog_words(one.session, one.evaluation)}"
    return Report(title, f"{one.ruleset.edition.title}. {signature_words(session)}.", tuple(parts))


def _said(found: Dossier, *names: str) -> Iterator[Part]:
    for section in found.sections:
        if section.id in names:
            rows = section.statements or ((Statement(section.empty),) if section.empty else ())
            yield Part(section.id, section.title, (Rows(rows),))


def _identity(one: Examined) -> Iterator[tuple[str, str]]:
    dog, known = one.session.dog, one.ruleset.edition.attributes
    rows = [
        ("Registered name", dog.registered_name),
        ("Call name", dog.call_name),
        ("Sex", _SEXES.get(dog.sex or "", "")),
        ("Born", f"{dog.born:%d %B %Y}" if dog.born else ""),
        ("Age", age_text(one.age) if one.age is not None else "not known"),
        ("Chip", dog.chip),
        ("Tattoo", dog.tattoo),
        ("Registration", dog.registration),
        ("Sire", dog.sire),
        ("Dam", dog.dam),
        ("Litter", dog.litter),
        ("Variety", dog.variety),
        ("Colour", dog.colour),
        *((known[name].label if name in known else name, value) for name, value in dog.attributes.items()),
    ]
    yield from ((name, value) for name, value in rows if value)


def _held(one: Examined, session: Session) -> Iterator[tuple[str, str]]:
    held = session.examination
    rows = [
        ("Examined", f"{held.started:%d %B %Y, %H:%M}" if held.started else ""),
        ("Evaluator", held.evaluator),
        ("Scribe", held.scribe),
        ("Place", ", ".join(filter(None, (held.place, held.country)))),
        ("Purpose", held.purpose),
        ("Kind", _KINDS.get(held.kind, held.kind)),
        ("Chosen rules", ", ".join(held.switches)),
        ("Held under", session.ruleset.id if session.ruleset.id != one.ruleset.id else ""),
    ]
    yield from ((name, value) for name, value in rows if value)


def _measured(evaluation: Evaluation) -> Iterator[Table]:
    head = ("Measurement", "Value ± u", "95 % interval", "Takes", "Asked", "Verdict")
    rules = [rule for rule in evaluation.rules if rule.verdict != "not-measured"]
    rows = []
    for one in evaluation.measures:
        own = [rule for rule in rules if rule.measures == (one.id,) and rule.side in (None, one.side)]
        label = point_label(evaluation, one.id) + (f", {one.side}" if one.side else "")
        first = (
            label,
            format_measured(one.value, one.u, one.unit),
            _interval(one),
            str(one.takes or "chart"),
        )
        young = f"too young until {one.judged_from:g} months" if one.judged_from else ""
        rows += [(*first, _asked(rule), _verdict(rule)) for rule in own] or [(*first, "", young)]
    yield Table("Measurements, with the standard uncertainty u", head, tuple(rows), (1, 2, 3))
    made = [
        (
            label_words(rule.named),
            format_measured(rule.value or 0.0, rule.u or 0.0, rule.unit),
            _around(rule.value or 0.0, rule.u or 0.0, 1.96, rule.unit),
            _asked(rule),
            _verdict(rule),
        )
        for rule in rules
        if len(rule.measures) != 1 and rule.value is not None
    ]
    made += [
        (
            label_words(one.named) or one.id,
            format_measured(one.value, one.u, one.unit),
            _around(one.value, one.u, 1.96, one.unit),
            "",
            "",
        )
        for one in computed_alone(evaluation, rules)
    ]
    made_of = ("Proportion", "Value ± u", "95 % interval", "Asked", "Verdict")
    yield Table("Proportions, computed from the measurements", made_of, tuple(made), (1, 2))


def _interval(one: MeasureResult) -> str:
    """Value and 95 % interval by Student's t for the degrees of freedom (JCGM 100:2008, G.4.1)."""
    return _around(one.value, one.u, coverage_factor(one.dof if one.dof else float("inf")), one.unit)


def _around(value: float, u: float, factor: float, unit: str) -> str:
    if u <= 0:
        return ""
    digits = decimals_for(u)
    return f"{value - factor * u:.{digits}f} to {format_value(value + factor * u, unit, digits)}"


def _asked(rule: RuleResult) -> str:
    if rule.words or rule.asked is None:
        return rule.words
    about = "about " if rule.about else ""
    return f"{about}{band_words(rule.asked, rule.unit)}"


def _verdict(rule: RuleResult) -> str:
    """Within or not, how sure, and what stands in the way of judging."""
    chance = chance_words(rule.p_inside) if rule.p_inside is not None else ""
    words = {
        "inside": f"within{f', {chance} sure' if chance and rule.u else ''}",
        "outside": f"outside{f', {chance} that it is within' if chance and rule.u else ''}",
        "undecided": f"undecided, {chance} that it is within" if chance else "undecided",
        "not-yet": f"not judged before {rule.from_age or 0:g} months",
        "not-measured": "",
    }[rule.verdict]
    if rule.sorts:
        words = rule.band or "none of those named"
    if rule.too_narrow and rule.verdict == "undecided":
        words += "; narrower than this hand can tell"
    young = f"too young until {rule.judged_from:g} months" if rule.judged_from is not None else ""
    practice = "practice, not counted" if rule.optional else ""
    return "; ".join(filter(None, (words, young, practice)))


def _drawing(one: Examined) -> Drawing:
    figure = dog_figure(one.ruleset, one.evaluation)
    asked = asked_figure(one.ruleset, one.evaluation).figure
    return drawn(one.ruleset, figure, one.dog, asked, "as the edition asks")


def _notes(one: Examined) -> Iterator[Statement]:
    regions = {region.id: region.label for region in one.ruleset.regions}
    for note in one.session.notes:
        by = f"{note.by}: " if note.by else ""
        about = f" ({regions.get(note.region, note.region)})" if note.region else ""
        yield Statement(f"{by}{note.text}{about}")


def _examined(one: Examined) -> Table:
    walk = stops(one.ruleset, one.session)
    rows = tuple(
        (
            row.region.label,
            str(row.answered),
            str(row.skipped) if row.skipped else "",
            str(row.total - row.answered - row.skipped or ""),
        )
        for row in progress(walk, one.session)
    )
    head = ("Region", "Points answered", "Skipped", "Left open")
    return Table("What was examined and what not", head, rows, (1, 2, 3))


def _recorded(one: Examined) -> Table:
    rows = tuple(
        (
            row.label,
            row.region,
            row.answer if row.state == "answered" else f"skipped: {row.answer or 'no reason given'}",
        )
        for row in point_rows(one)
    )
    return Table("Every answer, in the order of the examination", ("Point", "Region", "Answer"), rows)


def _cautions(cautions: tuple[Caution, ...], session: Session) -> Iterator[Statement]:
    answers = {row.id: row.answer for row in session.cautions}
    for caution in cautions:
        answer = answers.get(caution.id, "")
        told = f" Answered: {answer}." if answer else " Not acknowledged in this examination."
        yield Statement(f"{caution.label}. {caution.text}{told}", more=(caution.advice(answer),))
    yield Statement("What was found tells of the day.")


def _edition(one: Examined) -> tuple[tuple[str, str], ...]:
    edition = one.ruleset.edition
    rows = [("Edition", edition.title), ("Text of", edition.edition), ("In this program", edition.id)]
    held = one.session.ruleset
    if held.digest and held.id == edition.id:
        same = "as when the dog was examined" if held.digest == one.ruleset.digest else "changed since"
        rows.append(("Its data", same))
    return tuple(rows)


def _sources(found: Dossier) -> tuple[Statement, ...]:
    return tuple(Statement(f"[{mark}] {text}") for mark, text in found.sources)
