"""Who stands on the table, who examines, where."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from functools import partial

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from hands_on.exam.dates import DateProblem, in_words, read_birth
from hands_on.exam.left_out import on_walk
from hands_on.exam.session import Dog, Examination, RulesetRef, Session
from hands_on.measure.age import age_months
from hands_on.ruleset.base import Sex
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui import keys
from hands_on.tui.asks import GoOn
from hands_on.tui.current_examination import new_sheet
from hands_on.tui.kept import evaluators_here
from hands_on.tui.last_session import Last, last_session
from hands_on.tui.parts.form import Form
from hands_on.tui.widgets.evaluator_field import EvaluatorField
from hands_on.tui.widgets.field import Field, PickField, Reading, TextField, country_reading
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.wording.ages import age_text

TEXTS = (
    ("registered_name", "Registered name"),
    ("chip", "Chip"),
    ("tattoo", "Tattoo"),
    ("registration", "Registration"),
    ("sire", "Sire"),
    ("dam", "Dam"),
    ("litter", "Litter"),
)
"""Lines of the dog that take any text."""

OWN = ("variety", "colour")
"""Attributes with a place of their own in a session."""


class DogScreen(Form):
    """A form; what is wrong is told at its line and nothing typed is lost."""

    NAME = "dog"
    CSS_PATH = "dog.tcss"
    BINDINGS = keys.bindings("dog")
    FORM = "new-dog"
    NOTHING_YET = "No examination has been started yet."

    def __init__(self, ruleset: Ruleset, walk: str | None = None, *, sheets: bool = False) -> None:
        super().__init__()
        self.ruleset = ruleset
        self._walk = walk
        """A shorter walk that was asked for."""
        self._sheets = sheets

    def compose(self) -> ComposeResult:
        """The lines in the order in which they are asked."""
        last = last_session(self.program.sessions, self.program.now().date())
        yield TitleLine(f"New examination · {self.ruleset.edition.title}")
        with VerticalScroll(can_focus=False, id="form"):
            yield Static("The dog", classes="part", markup=False)
            yield TextField("call_name", "Call name *")
            yield PickField("sex", "Sex *", (("male", "m", "dog (male)"), ("female", "f", "bitch (female)")))
            yield TextField("born", "Born", read=partial(born_reading, today=self.program.now().date()))
            yield from self._attributes()
            for name, label in TEXTS:
                yield TextField(name, label)
            yield Static("The examination", classes="part", markup=False)
            yield from self._examination(last)
            yield from self._switches()
            yield Static("* must be filled in", classes="hint", markup=False)
        yield Static("", id="message", classes="message", markup=False)
        yield FooterLine(self.NAME)

    def _attributes(self) -> ComposeResult:
        for name, attribute in self.ruleset.edition.attributes.items():
            if not attribute.derived:
                options = [(value, "", label) for value, label in attribute.options.items()]
                yield PickField(f"attribute.{name}", attribute.label, options, help_text=attribute.note)

    def _examination(self, last: Last) -> ComposeResult:
        program = self.program
        yield EvaluatorField("evaluator", "Evaluator *", program.examiner, evaluators_here(program))
        same = bool(program.examiner) and program.examiner.casefold() == last.evaluator.casefold()
        yield TextField(
            "scribe",
            "Scribe",
            last.scribe if same else "",
            "Who types while the evaluator calls out; empty if nobody.",
        )
        yield TextField("place", "Place", last.place)
        yield TextField(
            "country", "Country", last.country, "Two letters, for instance DE.", read=country_reading
        )

    def _switches(self) -> ComposeResult:
        for name, switch in self.ruleset.edition.switches.items():
            yield PickField(
                f"switch.{name}", switch.label, (("off", "", "off"), ("on", "", "on")), "off", switch.caution
            )

    def opened(self) -> None:
        """Start at the first line."""
        self.query_one("#message").display = False
        self.take_up()
        self._go(self.query(Field).first())

    def fields(self) -> dict[str, Field]:
        """The lines by name."""
        return {field.field_name: field for field in self.query(Field)}

    def _go(self, field: Field) -> None:
        """Put the focus on a line at once, so that keys pressed fast go there."""
        self.set_focus(field.entry())

    def action_next_field(self) -> None:
        """The line below; from the last one on to the cautions."""
        rows = list(self.query(Field))
        at = next((n for n, field in enumerate(rows) if field.entry() is self.focused), -1)
        if at == len(rows) - 1:
            self.action_go_on()
        else:
            self._go(rows[at + 1])

    def action_previous_field(self) -> None:
        """The line above."""
        rows = list(self.query(Field))
        at = next((n for n, field in enumerate(rows) if field.entry() is self.focused), 1)
        self._go(rows[max(0, at - 1)])

    def action_go_on(self) -> None:
        """Start the examination, or go to the first line that is wrong."""
        wrong = self._wrong()
        if wrong is not None:
            self.tell("Something is missing or wrong at the marked line; everything else stays as it is.")
            self._go(wrong)
            return
        app = self.program
        session = self.as_session(app.now())
        app.examiner = session.examination.evaluator
        sheet = new_sheet(app.sessions, session, self.ruleset, app.library, app.now)
        sheet.by_sheets = self._sheets
        if sheet.on_disk:
            self.taken()
        app.go(GoOn(sheet))

    def values(self) -> dict[str, str]:
        """What is entered, by the line's name."""
        return {name: field.value for name, field in self.fields().items()}

    def fill(self, found: Mapping[str, str]) -> None:
        """The lines that this edition has too."""
        for name, field in self.fields().items():
            if name in found:
                field.fill(found[name])

    def tell(self, text: str) -> None:
        """Tell something above the footer."""
        message = self.query_one("#message", Static)
        message.update(text)
        message.display = True

    def _wrong(self) -> Field | None:
        """The first line that keeps the examination from starting, told what is wrong with it."""
        fields = self.fields()
        needed = {"call_name": "a call name", "sex": "the dog's sex: m or f", "evaluator": "who examines"}
        for name, words in needed.items():
            if not fields[name].value:
                fields[name].tell(Reading(wrong=f"Needed: {words}."))
        return next((field for field in fields.values() if field.reading.wrong), None)

    def as_session(self, now: datetime.datetime) -> Session:
        """The session as it starts."""
        values = {name: field.value for name, field in self.fields().items()}
        attributes = {
            name.removeprefix("attribute."): value
            for name, value in values.items()
            if name.startswith("attribute.") and value
        }
        sex: Sex | None = {"male": "male", "female": "female"}.get(values["sex"])  # type: ignore[assignment]
        dog = Dog(
            call_name=values["call_name"],
            sex=sex,
            born=read_birth(values["born"], now.date()) if values["born"] else None,
            attributes={name: value for name, value in attributes.items() if name not in OWN},
            variety=attributes.get("variety", ""),
            colour=attributes.get("colour", ""),
            **{name: values[name] for name, _ in TEXTS},
        )
        switches = tuple(name for name in self.ruleset.edition.switches if values[f"switch.{name}"] == "on")
        examination = Examination(
            evaluator=values["evaluator"],
            scribe=values["scribe"],
            place=values["place"],
            country=values["country"].upper(),
            started=now,
            switches=switches,
        )
        edition = self.ruleset.edition
        ref = RulesetRef(id=edition.id, edition=edition.edition, digest=self.ruleset.digest)
        session = Session(dog=dog, examination=examination, ruleset=ref)
        return session if self._walk is None else on_walk(session, self.ruleset, self._walk)


def born_reading(text: str, today: datetime.date) -> Reading:
    """What a date of birth is understood as."""
    try:
        born = read_birth(text, today)
    except DateProblem as problem:
        return Reading(wrong=str(problem))
    return Reading(told=f"{in_words(born)}: {age_text(age_months(born, today))} old today")
