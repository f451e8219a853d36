"""A seminar round begun by its host: what it is called, which dogs, and the small file for everybody."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static, TextArea

from hands_on.exam.dates import DateProblem, read_birth
from hands_on.exam.round import About, Round, RoundDog
from hands_on.exam.session import RulesetRef
from hands_on.plain_text import visible
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.errors import NotSaved
from hands_on.store.places import typed_path
from hands_on.store.round_file import new_round_id, rounds_folder, write_round
from hands_on.tui import keys
from hands_on.tui.asks import RoundWritten
from hands_on.tui.last_session import last_session
from hands_on.tui.parts.form import Form
from hands_on.tui.questions.pick_points import PickPoints
from hands_on.tui.questions.pick_sessions import PickSessions
from hands_on.tui.show import plain
from hands_on.tui.widgets.field import Field, PickField, TextField, country_reading
from hands_on.tui.widgets.lines import FooterLine, TitleLine

HOW = (
    "Dogs, one a line: call name, m or f, date of birth. A name may be left out: , m, 2023-05-14\n"
    "Dog 2 once more, to see how a hand repeats itself: again 2"
)


class BadDogs(ValueError):
    """A line that is no dog; `str()` names the line and what would be right."""


def read_dogs(text: str, today: datetime.date) -> tuple[RoundDog, ...]:
    """The dogs as they were typed, numbered from 1; empty lines are left out. Raises BadDogs."""
    dogs: list[RoundDog] = []
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        again = re.fullmatch(r"again\s+(\w+)", line.strip(), re.IGNORECASE)
        if again is not None:
            first = next((dog for dog in dogs if dog.number == again[1] and not dog.again), None)
            if first is None:
                raise BadDogs(f"Line {number}: there is no dog {again[1]} above. Right: again 2")
            dogs.append(RoundDog.model_validate({"number": str(len(dogs) + 1), "again": first.number}))
            continue
        name, *more = (part.strip() for part in line.split(","))
        sex, born = None, None
        for part in more:
            if part.casefold() in ("m", "male", "dog"):
                sex = "male"
            elif part.casefold() in ("f", "female", "bitch"):
                sex = "female"
            elif part:
                try:
                    born = read_birth(part, today)
                except DateProblem as problem:
                    raise BadDogs(f"Line {number}, {part}: {problem}") from problem
        if sex is None:
            raise BadDogs(f"Line {number}: m or f is missing. Right: Arko, m, 2023-05-14")
        dogs.append(
            RoundDog.model_validate(
                {"number": str(len(dogs) + 1), "call_name": name, "sex": sex, "born": born}
            )
        )
    if not dogs:
        raise BadDogs("A round needs at least one dog. Right: Arko, m, 2023-05-14")
    return tuple(dogs)


class HostScreen(Form):
    """A short form; nothing of the answers will stand in the file."""

    NAME = "host"
    CSS_PATH = "host.tcss"
    BINDINGS = keys.bindings("host")
    FORM = "new-round"
    NOTHING_YET = "No round has been written yet."

    def __init__(self, ruleset: Ruleset) -> None:
        super().__init__()
        self.ruleset = ruleset
        self.points: tuple[str, ...] | None = None
        """The points that are examined; None is all."""
        self.known: dict[str, RoundDog] = {}
        """Dogs taken from the records, by the line that stands for them: what else is known of them."""

    def compose(self) -> ComposeResult:
        """Lines, then the dogs."""
        app = self.program
        last = last_session(app.sessions, app.now().date())
        yield TitleLine(f"New round · {self.ruleset.edition.title}")
        with VerticalScroll(can_focus=False, id="form"):
            yield TextField("title", "Title *")
            yield TextField("host", "Host", app.examiner)
            yield TextField("place", "Place", last.place)
            yield TextField("country", "Country", last.country, "Two letters.", read=country_reading)
            yield TextField("file", "Folder for the file", str(rounds_folder(app.sessions)))
            yield PickField(
                "names",
                "Dogs shown",
                (("yes", "", "by name"), ("no", "", "by number only, as a blind repeat needs it")),
                "yes",
            )
            yield Static("", id="points", markup=False)
            yield Static(plain(HOW), id="how", markup=False)
            yield TextArea(soft_wrap=False, show_line_numbers=True, tab_behavior="focus")
        yield Static("", id="message", classes="message", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Begin with the title."""
        self.query_one("#message").display = False
        self._say_points()
        self.take_up()
        self.query(Field).first().entry().focus()

    def values(self) -> dict[str, str]:
        """The lines by name; the dogs as they are typed, and what the records know of them."""
        known = {row: dog.model_dump(mode="json") for row, dog in self.known.items()}
        return {
            **{field.field_name: field.value for field in self.query(Field)},
            "dogs": self.query_one(TextArea).text,
            "points": "" if self.points is None else " ".join(self.points),
            "known": json.dumps(known) if known else "",
        }

    def fill(self, found: Mapping[str, str]) -> None:
        """What was filled in before; points only where this edition asks them."""
        for field in self.query(Field):
            if field.field_name in found:
                field.fill(found[field.field_name])
        self.query_one(TextArea).text = visible(found.get("dogs", ""), keep="\n")
        points = {point.id for point in self.ruleset.walk_points} & set(found.get("points", "").split())
        self._take_points(tuple(p.id for p in self.ruleset.walk_points if p.id in points) or None)
        with suppress(ValueError, AttributeError):  # a file written by hand
            known = json.loads(found.get("known") or "{}")
            self.known = {row: RoundDog.model_validate(dog) for row, dog in known.items()}

    def value(self, name: str) -> str:
        """What stands in a line."""
        return next(field.value for field in self.query(Field) if field.field_name == name)

    # --- keys

    def action_next_field(self) -> None:
        """The line below; behind the last one the dogs, each on a line."""
        area = self.query_one(TextArea)
        if self.focused is area:
            area.insert("\n")
            return
        fields = list(self.query(Field))
        at = next((n for n, field in enumerate(fields) if field.entry() is self.focused), len(fields) - 1)
        if at + 1 < len(fields):
            self.set_focus(fields[at + 1].entry())
        else:
            self.set_focus(self.query_one(TextArea))

    def action_previous_field(self) -> None:
        """The line above."""
        fields = list(self.query(Field))
        at = next((n for n, field in enumerate(fields) if field.entry() is self.focused), len(fields))
        self.set_focus(fields[max(0, at - 1)].entry())

    def action_take_dogs(self) -> None:
        """Dogs of examinations kept here."""
        screen = PickSessions("Dogs for the round", "Mark an examination of each dog.", 1, 100)
        self.app.push_screen(screen, lambda paths: self._take(paths or []))

    def _take(self, paths: list[Path]) -> None:
        from hands_on.store.session_file import read_session
        from hands_on.toml_text.problems import BadText

        area = self.query_one(TextArea)
        rows = area.text.splitlines()
        for path in paths:
            try:
                dog = read_session(path).dog
            except BadText as error:
                self.tell(str(error))
                continue
            sex = {"male": "m", "female": "f"}.get(dog.sex or "", "")
            born = dog.born.isoformat() if dog.born else ""
            name = visible(dog.call_name or dog.registered_name).replace(",", " ")
            row = ", ".join(filter(None, (name, sex, born)))
            if row not in rows:
                rows.append(row)
                self.known[row] = RoundDog.model_validate({**dog.model_dump(), "number": "0"})
        area.text = "\n".join(row for row in rows if row.strip()) + "\n"
        area.move_cursor(area.document.end)
        area.focus()

    def action_choose_points(self) -> None:
        """Which points the round asks."""
        every = tuple(point.id for point in self.ruleset.walk_points)
        self.app.push_screen(PickPoints(self.ruleset, self.points or every), self._take_points)

    def _take_points(self, points: tuple[str, ...] | None) -> None:
        if points is not None:
            every = {point.id for point in self.ruleset.walk_points}
            self.points = None if set(points) >= every else points
            self._say_points()

    def _say_points(self) -> None:
        many = "all" if self.points is None else f"{len(self.points)} of {len(self.ruleset.walk_points)}"
        self.query_one("#points", Static).update(f"Points examined: {many} (F4 chooses)")

    def action_write(self) -> None:
        """Write the file and open the round; what is missing is told first."""
        app = self.program
        today = app.now().date()
        title, country = self.value("title"), self.value("country")
        if not title:
            self.tell("Needed: a title, for instance Seminar at the Old Mill.")
            self.query(Field).first().entry().focus()
            return
        if country and country_reading(country).wrong:
            self.tell(f"Country: {country_reading(country).wrong}")
            return
        try:
            dogs = self._dogs(today)
        except BadDogs as problem:
            self.tell(str(problem))
            self.set_focus(self.query_one(TextArea))
            return
        edition = self.ruleset.edition
        about = About.model_validate(
            {
                "id": new_round_id(title, today.isoformat()),
                "title": title,
                "host": self.value("host"),
                "place": self.value("place"),
                "country": country.upper(),
                "held": today,
                "points": "all" if self.points is None else self.points,
                "names": self.value("names") != "no",
            }
        )
        ref = RulesetRef(id=edition.id, edition=edition.edition, digest=self.ruleset.digest)
        found = Round(round=about, ruleset=ref, dogs=dogs)
        path = typed_path(self.value("file") or str(rounds_folder(app.sessions))) / f"{about.id}.toml"
        try:
            write_round(path, found)
        except NotSaved as error:
            self.tell(str(error))
            return
        self.taken()
        app.go(RoundWritten(path, found, self.ruleset))

    def _dogs(self, today: datetime.date) -> tuple[RoundDog, ...]:
        text = self.query_one(TextArea).text
        rows = [row.strip() for row in text.splitlines() if row.strip()]
        read = read_dogs(text, today)
        return tuple(
            self.known[row].model_copy(update={"number": dog.number}) if row in self.known else dog
            for row, dog in zip(rows, read, strict=True)
        )

    def tell(self, text: str) -> None:
        """Tell something above the footer."""
        message = self.query_one("#message", Static)
        message.update(plain(text))
        message.display = bool(text)
