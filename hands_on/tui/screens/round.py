"""A seminar round: who works here, which of its dogs stands on the table, how far each one is."""

from __future__ import annotations

import os
from pathlib import Path

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from hands_on.exam.dialogue import Line
from hands_on.exam.round import Round, RoundDog, session_for
from hands_on.exam.session import Session
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.errors import StoreError
from hands_on.store.gather import gather, gathered_folder
from hands_on.store.places import typed_path
from hands_on.toml_text.problems import BadText
from hands_on.tui import keys
from hands_on.tui.asks import GoOn, OpenFile, ShowAgreement, WhoExamines
from hands_on.tui.frame import Home
from hands_on.tui.kept import Kept, held_here, sessions_of
from hands_on.tui.keys.dialogue import figure
from hands_on.tui.opening import new_sheet
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.show import dotted, line, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.wording.gathering import delivered_sentences, gathered_sentences

SEXES = {"male": "dog", "female": "bitch"}


class RoundScreen(Home):
    """Each evaluator sees their own work only; one comes back here from every examination."""

    NAME = "round"
    CSS_PATH = "round.tcss"
    BINDINGS = keys.bindings("round")

    def __init__(self, path: Path, found: Round, ruleset: Ruleset, *, written: bool = False) -> None:
        """`written`: the host has just written the file."""
        super().__init__()
        self.path, self.round, self.ruleset, self.written = path, found, ruleset, written
        self.evaluator = ""
        self.kept: list[Kept] = []

    def compose(self) -> ComposeResult:
        """What the round is, the dogs, who else is here."""
        about = self.round.round
        yield TitleLine(dotted("Round", about.title or about.id, self.ruleset.edition.title))
        yield Static("", id="about", markup=False)
        yield OptionList(id="dogs")
        with VerticalScroll(id="others-scroll", can_focus=False):
            yield Static("", id="others", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Ask who works here."""
        self.refresh_lists()
        self.query_one(OptionList).focus()
        if not self.written:
            self.call_after_refresh(self.action_who)

    def refresh_lists(self) -> None:
        """Read the sessions again."""
        self.kept = sessions_of(self.program, self.round, self.path)
        about, changed = self.round.round, self.round.ruleset.digest not in ("", self.ruleset.digest)
        held = about.held.isoformat() if about.held else ""
        host = f"host {about.host}" if about.host else ""
        who = f"You are {self.evaluator} (w: somebody else)." if self.evaluator else "Who examines? w asks."
        rows = [
            dotted(host, held, about.place, "only some of the points" if about.points != "all" else ""),
            f"Written: {self.path}. Give this file to everybody." if self.written else "",
            "! The edition here is not the one the round was written with." if changed else "",
            f"{who} You see your own work only; what others found stays with them.",
        ]
        self.query_one("#about", Static).update(plain("\n".join(row for row in rows if row)))
        options = self.query_one(OptionList)
        at = options.highlighted
        options.clear_options()
        options.add_options([Option(self._line(n, dog)) for n, dog in enumerate(self.round.dogs, 1)])
        options.highlighted = at or 0
        told = list(delivered_sentences(self._delivered(), [dog.number for dog in self.round.dogs]))
        told += ["g gathers sessions from a folder, a stick or a zip file. a shows how well you agree."]
        self.query_one("#others", Static).update(plain("\n".join(told)))

    def _delivered(self) -> list[tuple[str, str, bool]]:
        """Evaluator, dog's number and whether it is signed, of every session here."""
        return [(one.evaluator, one.number, one.session.signature is not None) for one in self.kept]

    def _line(self, n: int, dog: RoundDog) -> Content:
        shown = self.round.known_dog(dog.number)
        name = (shown.call_name or shown.registered_name) if self.round.round.names else ""
        own = self.own(dog)
        if own is None:
            state = "not begun"
        else:
            answers = len(own.session.takes) + len(own.session.grades) + len(own.session.choices)
            state = (
                "signed" if own.session.signature else f"begun, {answers} answer{'' if answers == 1 else 's'}"
            )
        born = f"born {shown.born}" if shown.born else ""
        told = dotted(f"no. {dog.number}", name, SEXES.get(shown.sex or "", ""), born)
        number = str(n) if n < 10 else " "
        return Content.assemble(
            (number, "bold"), "  ", line(told), "  ", (state if self.evaluator else "", "bold")
        )

    def own(self, dog: RoundDog) -> Kept | None:
        """This evaluator's session of a dog."""
        mine = self.evaluator.casefold()
        return next(
            (one for one in self.kept if one.number == dog.number and one.evaluator.casefold() == mine), None
        )

    # --- keys

    def action_who(self) -> None:
        """Ask who works here."""
        self.program.go(WhoExamines(self._is, self.round.round.title or self.round.round.id))

    def _is(self, name: str) -> None:
        if name:
            self.evaluator = name
            self.refresh_lists()

    def on_key(self, event: Key) -> None:
        """A dog by its line's number."""
        number = figure(event)
        if number and number <= len(self.round.dogs):
            event.stop()
            self.query_one(OptionList).highlighted = number - 1
            self._examine(self.round.dogs[number - 1])

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """The marked dog."""
        self._examine(self.round.dogs[event.option_index])

    def _examine(self, dog: RoundDog) -> None:
        if not self.evaluator:
            self.action_who()
            return
        own = self.own(dog)
        if own is not None:
            self.program.go(OpenFile(own.path))
            return
        app = self.program
        session = self._begun(session_for(self.round, dog.number, self.evaluator, self.ruleset))
        sheet = new_sheet(app.sessions, session, self.ruleset, app.library, app.now)
        app.go(GoOn(sheet, instead=False))

    def _begun(self, session: Session) -> Session:
        examination = session.examination.model_copy(update={"started": self.program.now()})
        return session.model_copy(update={"examination": examination})

    def action_gather(self) -> None:
        """Bring the others' sessions here."""

        def wrong(text: str) -> str:
            return "" if text and os.path.exists(typed_path(text)) else "There is no such folder or file."

        ask = "A folder, a stick or a zip file with sessions of this round. Nothing is overwritten."
        self.app.push_screen(TypedScreen("Gather", ask, wrong=wrong), self._gather)

    def _gather(self, name: str | None) -> None:
        if name is None:
            return
        try:
            found = gather(typed_path(name), self.round, gathered_folder(self.path))
        except (StoreError, BadText) as error:
            self.program.say("Not gathered", str(error))
            return
        told = gathered_sentences(
            found.rows, len(found.there), found.copies, found.others, found.unread, found.more
        )
        self.refresh_lists()
        self.program.say(f"Gathered into {gathered_folder(self.path)}", "\n\n".join(told))

    def action_agree(self) -> None:
        """How well those agree whose sessions are here."""
        if len({one.evaluator.casefold() for one in self.kept}) < 2:
            text = "Here are the sessions of one evaluator at most. g gathers those of the others."
            self.program.say("Agreement", text)
            return
        if not self.evaluator or all(self._signed(dog) for dog in self.round.dogs):
            self._show_agreement("2")
            return
        lines = (Line("1", "no, finish first"), Line("2", "show it: I know that it tells what others found"))
        ask = "You have not signed all your dogs, and what others found would lean on your hand."
        self.app.push_screen(NumberedScreen("Agreement", ask, lines), self._show_agreement)

    def _signed(self, dog: RoundDog) -> bool:
        own = self.own(dog)
        return own is not None and own.session.signature is not None

    def _show_agreement(self, key: str | None) -> None:
        if key == "2":
            sessions = held_here(self.program, [one.path for one in self.kept])
            self.program.go(ShowAgreement(sessions))
