"""The editions known; one of them to read, with its sources."""

from __future__ import annotations

from textual.app import ComposeResult

from hands_on.tui import keys
from hands_on.tui.screens.frame import Frame
from hands_on.tui.widgets.edition_list import EditionList
from hands_on.tui.widgets.lines import FooterLine, TitleLine


class EditionsScreen(Frame[None]):
    """A list; Enter reads an edition, or tells what is wrong with it."""

    NAME = "editions"
    BINDINGS = keys.bindings("editions")

    def compose(self) -> ComposeResult:
        """All editions, broken ones too."""
        yield TitleLine("Rulesets: the breed standards known here")
        yield EditionList(self.hands_on.library.heads(whole=True), broken=True)
        yield FooterLine(self.NAME)

    def on_search_list_chosen(self, event: EditionList.Chosen) -> None:
        """Read it."""
        from hands_on.report.edition import sections
        from hands_on.store.errors import StoreError
        from hands_on.toml_text.problems import BadText
        from hands_on.tui.screens.reading import Paragraph, ReadingScreen

        head = self.query_one(EditionList).head(event.id)
        if head.problem is not None:
            self.hands_on.say("This edition can't be used", str(head.problem))
            return
        try:
            ruleset = self.hands_on.library.load(head.id)
        except (StoreError, BadText) as error:
            self.hands_on.say("This edition can't be used", str(error))
            return
        paragraphs = [
            Paragraph(
                "- " + entry.text + (f"  [{entry.source}]" if entry.source else ""),
                section.title if not number else "",
                entry.note,
            )
            for section in sections(ruleset)
            for number, entry in enumerate(section.entries)
        ]
        self.app.push_screen(ReadingScreen(head.title, paragraphs))
