"""The start screen. It paints before any ruleset or session is read; counts fill in afterwards."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import work
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option
from textual.worker import get_current_worker

from hands_on.frozen import dataclass
from hands_on.plain_text import one_line
from hands_on.tui import asks, keys
from hands_on.tui.frame import Home
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine

if TYPE_CHECKING:
    from hands_on.store.headers import SessionHeader

SHOWN = 200
"""Unfinished examinations looked for among so many of the newest."""


@dataclass(frozen=True)
class MenuLine:
    """One thing to do from here."""

    action: str
    number: str
    letter: str
    label: str


ENTRIES = (
    MenuLine("go_on", "1", "g", "Go on with an examination"),
    MenuLine("new", "2", "n", "New examination"),
    MenuLine("recheck", "3", "x", "Re-check: a dog that was examined before"),
    MenuLine("compare", "4", "c", "Compare: two to six examinations side by side"),
    MenuLine("agree", "5", "a", "Agreement: several evaluators on the same dogs"),
    MenuLine("host", "6", "s", "Seminar round: the same dogs for several evaluators"),
    MenuLine("records", "7", "r", "Records: the examinations kept here"),
    MenuLine("editions", "8", "e", "Rulesets: the breed standards known"),
    MenuLine("help", "9", "h", "Help"),
    MenuLine("leave", "0", "q", "Leave"),
)


class StartScreen(Home):
    """What to do."""

    NAME = "start"
    BINDINGS = keys.bindings("start")

    @dataclass
    class Read(Message):
        """The folders were looked through."""

        unfinished: tuple[SessionHeader, ...]
        records: int
        editions: int
        broken: int
        problem: str

    def __init__(self) -> None:
        super().__init__()
        self.unfinished: tuple[SessionHeader, ...] | None = None
        """Newest first; None while they are being looked for."""
        self._problem = ""

    def compose(self) -> ComposeResult:
        """Title, menu, what is unfinished."""
        yield TitleLine("Hands On")
        with Vertical(id="middle"):
            yield Static("A dog under the hands, held against its breed's written standard.", markup=False)
            yield Static(plain(self.program.notice), id="notice", markup=False)
            yield OptionList(
                *[Option(self._line(entry, ""), id=entry.action) for entry in ENTRIES], id="menu"
            )
            yield Static("", id="unfinished", markup=False)
        yield FooterLine("start")

    def opened(self) -> None:
        """Start looking through the folders once the screen has been painted."""
        self.query_one("#notice").display = bool(self.program.notice)
        self.call_after_refresh(self.refresh_lists)

    def refresh_lists(self) -> None:
        """Look through the folders again."""
        self._look()

    @work(thread=True, exclusive=True, exit_on_error=False, group="look")
    def _look(self) -> None:
        from hands_on.store import places
        from hands_on.store.errors import StoreError
        from hands_on.store.records import Records

        worker = get_current_worker()
        app = self.program
        rows: tuple[SessionHeader, ...] = ()
        count, problem = 0, ""
        try:
            with Records(app.sessions, places.index_path(app.sessions)) as records:
                problem = records.refresh().problem
                rows, count = records.list(SHOWN), records.count()
        except (StoreError, OSError) as error:
            problem = str(error)
        heads = app.library.heads()
        unfinished = tuple(row for row in rows if not row.signed and row.problem is None)
        broken = sum(1 for head in heads if head.problem)
        if not worker.is_cancelled:
            self.post_message(self.Read(unfinished, count, len(heads) - broken, broken, problem))
        _warm()

    def on_start_screen_read(self, message: Read) -> None:
        """Fill in what was found."""
        mine = self.program.examiner.casefold()
        self.unfinished = tuple(
            sorted(message.unfinished, key=lambda row: bool(mine) and row.evaluator.casefold() != mine)
        )
        menu = self.query_one("#menu", OptionList)
        counts = {
            "go_on": _counted(len(message.unfinished), "unfinished"),
            "records": _counted(message.records, "kept"),
            "editions": dotted(
                _counted(message.editions, "known"), f"{message.broken} broken" if message.broken else ""
            ),
        }
        for entry in ENTRIES:
            if entry.action in counts:
                menu.replace_option_prompt(entry.action, self._line(entry, counts[entry.action]))
        self._problem = message.problem
        self.call_after_refresh(self._list_unfinished)

    def on_resize(self) -> None:
        """As many of the unfinished as there is room for now."""
        if self.unfinished is not None:
            self.call_after_refresh(self._list_unfinished)

    def _list_unfinished(self) -> None:
        """The unfinished examinations below the menu, as far as they fit; the menu counts them."""
        if not self.is_attached or not self.query(FooterLine):
            return
        lines: list[Content] = []
        if self._problem:
            lines.append(plain(f"The records can't be read: {self._problem}", "bold"))
        mine = bool(self.program.examiner)
        own = f", those of {one_line(self.program.examiner)} first" if mine else ""
        rows = [plain(f"  {one_line(in_short(row))}") for row in self.unfinished or ()]
        below = self.query_one("#menu").region.bottom + 1
        room = max(self.query_one(FooterLine).region.y - 1 - below - len(lines), 0)
        if len(rows) + 1 > room:
            kept = rows[: max(room - 2, 0)]
            rows = [*kept, plain(f"  ... and {len(rows) - len(kept)} more: 1 or g")] if kept else []
        if rows:
            lines += [plain(f"Not finished yet, newest first{own}", "bold"), *rows]
        self.query_one("#unfinished", Static).update(Content("\n").join(lines))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Do what was chosen."""
        getattr(self, f"action_{event.option_id}")()

    def action_go_on(self) -> None:
        """Open the unfinished examination, or ask which."""
        if not self.unfinished:
            text = "Looking through the records ..." if self.unfinished is None else "Nothing is unfinished."
            self.query_one("#unfinished", Static).update(text)
            return
        if len(self.unfinished) == 1:
            self.program.go(asks.OpenFile(self.unfinished[0].path))
            return
        from hands_on.exam.dialogue import Line
        from hands_on.tui.questions.numbered import NumberedScreen

        lines = tuple(Line(str(n), in_short(row)) for n, row in enumerate(self.unfinished, 1))
        self.app.push_screen(NumberedScreen("Go on with", "Which examination?", lines), self._open_numbered)

    def _open_numbered(self, number: str | None) -> None:
        if number is not None and self.unfinished:
            self.program.go(asks.OpenFile(self.unfinished[int(number) - 1].path))

    def action_new(self) -> None:
        """A new examination."""
        self.program.go(asks.NewExamination())

    def action_recheck(self) -> None:
        """A later examination of a dog."""
        self.program.go(asks.Recheck())

    def action_compare(self) -> None:
        """Several examinations side by side."""
        self.program.go(asks.Compare())

    def action_agree(self) -> None:
        """How well evaluators agree."""
        self.program.go(asks.Agreement())

    def action_host(self) -> None:
        """A seminar round."""
        self.program.go(asks.SeminarRound())

    def action_records(self) -> None:
        """The records."""
        self.program.go(asks.Records())

    def action_editions(self) -> None:
        """The editions."""
        self.program.go(asks.Editions())

    def action_practise(self) -> None:
        """Drawn dogs to grade."""
        self.program.go(asks.Practise())

    def action_own_words(self) -> None:
        """Words remembered from what was put right by hand."""
        self.program.go(asks.OwnWordsList())

    def action_who(self) -> None:
        """Who examines here: their own examinations stand first from now on."""
        self.program.go(asks.WhoExamines(lambda _: self.refresh_lists()))

    def action_leave(self) -> None:
        """Leave the program."""
        self.app.exit(0)

    @staticmethod
    def _line(entry: MenuLine, count: str) -> Content:
        return Content.assemble(
            (entry.number, "bold"),
            "  ",
            (entry.letter, "bold"),
            f"  {entry.label}",
            (f"  {count}" if count else "", "dim"),
        )


def in_short(row: SessionHeader) -> str:
    """An examination on one line."""
    date = f"{row.started:%Y-%m-%d %H:%M}" if row.started else "no date"
    name = row.call_name or row.registered_name or row.path.name
    answers = f"{row.answers} answer" + ("" if row.answers == 1 else "s")
    return dotted(f"{date}  {name}", row.evaluator, row.ruleset, answers)


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count else f"none {word}"


def _warm() -> None:
    """Import what the next screens need while nobody waits for it."""
    import hands_on.evaluate
    import hands_on.exam.dialogue
    import hands_on.ruleset.assemble  # noqa: F401
