"""A standard's text, each sentence beside what it proposes; nothing is taken without a key."""

from __future__ import annotations

from collections.abc import Mapping

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from hands_on.plain_text import one_line
from hands_on.standard_text import Proposal, Read, StandardText
from hands_on.store.edition_draft import EditionDraft
from hands_on.store.errors import StoreError
from hands_on.toml_text.problems import BadText
from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.wording.proposals import proposal_text


class StandardTextScreen(Frame[None]):
    """A sentence a row. Enter takes what the marked one proposes, a all of its block."""

    NAME = "standard-text"
    CSS_PATH = "standard_text.tcss"
    BINDINGS = keys.bindings("standard-text")
    AUTO_FOCUS = "OptionList"

    def __init__(self, draft: EditionDraft, text: StandardText, labels: Mapping[str, str]) -> None:
        super().__init__()
        self.draft, self.standard, self.labels = draft, text, labels
        self.only_unread = False
        self.last = {(p.kind, p.key): p for one in text.reads for p in one.proposals}
        """A later sentence may say more of the same rule: what it proposes holds the earlier."""
        self.rows: list[Read] = []

    def compose(self) -> ComposeResult:
        """What is under the marker in full, and the sentences."""
        yield TitleLine(f"{self.draft.path.stem}: what the text proposes")
        yield OptionList(id="sentences")
        yield Static("", id="state", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """All sentences, the first with a proposal marked."""
        self._list()
        first = next((n for n, one in enumerate(self.rows) if one.proposals), 0)
        self.query_one(OptionList).highlighted = first if self.rows else None

    def _list(self) -> None:
        reads = self.standard.unread if self.only_unread else self.standard.reads
        self.rows = [one for one in reads if one.proposals or not one.sentence.heading]
        options = self.query_one(OptionList)
        options.clear_options()
        options.add_options([Option(self._row(n), id=str(n)) for n in range(len(self.rows))])
        self._tell()

    def _row(self, n: int) -> Content:
        read = self.rows[n]
        before = self.rows[n - 1].sentence.paragraph if n else None
        lines: list[Content] = []
        if read.sentence.paragraph != before:
            lines.append(plain(one_line(read.sentence.paragraph) or "(no heading)", "bold"))
        lines.append(plain(f"{read.sentence.number:3}  {one_line(read.sentence.text)}"))
        for one in read.proposals:
            mark = "[x]" if self._taken(one) else "[ ]"
            lines.append(plain(f"     {mark} {proposal_text(one, self.labels)}"))
        if not read.proposals:
            lines.append(plain("     no proposal: read it yourself"))
        return Content("\n").join(lines)

    def _taken(self, one: Proposal) -> bool:
        return self.draft.taken(one) or self.draft.taken(self.last[(one.kind, one.key)])

    def _tell(self, text: str = "") -> None:
        open_ = sum(1 for one in self.standard.reads for p in one.proposals if not self._taken(p))
        told = text or dotted(
            f"{open_} proposals not taken", f"{len(self.standard.unread)} sentences without one"
        )
        self.query_one("#state", Static).update(plain(told))

    @property
    def _at(self) -> int | None:
        return self.query_one(OptionList).highlighted

    def _take(self, reads: list[Read]) -> None:
        try:
            for read in reads:
                for one in read.proposals:
                    if not self._taken(one):
                        self.draft.take(one)
        except (StoreError, BadText, OSError) as error:
            self._tell(f"Not written: {error}")
            return
        options = self.query_one(OptionList)
        for n in range(len(self.rows)):
            if self.rows[n] in reads:
                options.replace_option_prompt_at_index(n, self._row(n))
        self._tell()

    # --- keys

    def on_option_list_option_selected(self) -> None:
        """Take what the marked sentence proposes, and go on to the next."""
        at = self._at
        if at is None:
            return
        self._take([self.rows[at]])
        if at + 1 < len(self.rows):
            self.query_one(OptionList).highlighted = at + 1

    def action_take_block(self) -> None:
        """Take what the whole block proposes, after looking."""
        at = self._at
        if at is not None:
            paragraph = self.rows[at].sentence.paragraph
            self._take([one for one in self.rows if one.sentence.paragraph == paragraph])
            self.action_block(1)

    def action_skip(self) -> None:
        """On to the next sentence without taking this one."""
        at = self._at
        if at is not None and at + 1 < len(self.rows):
            self.query_one(OptionList).highlighted = at + 1

    def action_block(self, way: int) -> None:
        """To the next block, or the one before."""
        at = self._at
        if at is None:
            return
        here = self.rows[at].sentence.paragraph
        places = range(at + 1, len(self.rows)) if way > 0 else range(at - 1, -1, -1)
        for n in places:
            if self.rows[n].sentence.paragraph != here:
                self.query_one(OptionList).highlighted = n
                return

    def action_unread(self) -> None:
        """Only the sentences without a proposal, or all again."""
        self.only_unread = not self.only_unread
        self._list()
        self.query_one(OptionList).highlighted = 0 if self.rows else None
