"""The wizard's second page: looking at the edition, and what few standards need."""

from __future__ import annotations

from collections.abc import Callable

from hands_on.evaluate.samples import samples
from hands_on.exam.dialogue import Line
from hands_on.store.edition_draft import EditionDraft
from hands_on.store.errors import StoreError
from hands_on.store.new_edition import nearest_edition
from hands_on.toml_text.problems import BadText
from hands_on.tui import asks
from hands_on.tui.flows.usable import loaded
from hands_on.tui.flows.wizard_blocks import Block
from hands_on.tui.flows.wizard_kinds import Kinds
from hands_on.tui.flows.wizard_law import LawBlock
from hands_on.tui.flows.wizard_own import OwnPoints
from hands_on.tui.flows.wizard_tongue import Tongues
from hands_on.tui.program import Stage
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.reading import Paragraph, ReadingScreen
from hands_on.wording.preview import sample_text

__all__ = ["More", "problems_of"]

_ROWS = (
    ("check", "Check: what is not sound yet"),
    ("preview", "Preview: three dogs at, inside and outside each limit"),
    ("nearest", "Beside the nearest edition here, rule by rule"),
    ("law", "What the law of some places forbids to judge: tails, ears, dewclaws"),
    ("own_points", "Points that only this breed has"),
    ("kinds", "Colours, coats, varieties that rules hang on"),
    ("grades", "The grades that an examination ends in"),
    ("tongues", "Labels and asked texts in another language"),
)


def problems_of(draft: EditionDraft) -> list[str]:
    """What the check says of the edition's file, or why it can't be read."""
    try:
        return draft.problems()
    except (StoreError, BadText, OSError) as error:
        return [str(error)]


class More(Block):
    """The second page; each line leads to a page or a block and back here."""

    def __init__(self, stage: Stage, draft: EditionDraft, menu: Callable[[], object]) -> None:
        super().__init__(stage, draft, menu)
        self.at: int | None = None

    def more(self) -> None:
        """Which page or block."""
        lines = [Line(str(n), told) for n, (_, told) in enumerate(_ROWS, 1)]

        def chosen(key: str | None) -> None:
            if key is None:
                self.back()
                return
            self.at = int(key) - 1
            try:
                getattr(self, _ROWS[self.at][0])()
            except (StoreError, BadText, OSError) as error:
                self.stage.say("The edition's file", str(error))
                self.more()

        self.stage.push_screen(NumberedScreen("More", "What?", lines, "", "", self.at), chosen)

    def check(self) -> None:
        """All that the check finds."""
        problems = problems_of(self.draft)
        rows = [Paragraph(f"- {one}") for one in problems] or [Paragraph("Nothing: the edition is sound.")]
        self.stage.push_screen(ReadingScreen(f"Check of {self.draft.path.name}", rows), lambda _: self.more())

    def preview(self) -> None:
        """Dogs at, inside and outside each limit."""
        ruleset = loaded(self.stage, self.draft.path.stem)
        if ruleset is None:
            self.more()
            return
        rows, last = [], ""
        for one in samples(ruleset):
            rows.append(Paragraph(sample_text(ruleset, one), "" if one.limit.id == last else one.limit.id))
            last = one.limit.id
        rows = rows or [Paragraph("There is no limit yet.")]
        screen = ReadingScreen(f"Preview of {self.draft.path.stem}", rows)
        self.stage.push_screen(screen, lambda _: self.more())

    def nearest(self) -> None:
        """The edition and the one here whose figures lie nearest."""
        own = loaded(self.stage, self.draft.path.stem)
        name = nearest_edition(self.draft.tables, self.stage.library.heads(), without=self.draft.path.stem)
        other = loaded(self.stage, name) if name and own is not None else None
        if own is not None and other is not None:
            self.stage.go(asks.TwoEditions(own, other, self.more))
        else:
            self.more()

    def law(self) -> None:
        """Rules that are off until they are chosen for an examination."""
        LawBlock(self.stage, self.draft, self.more).law()

    def own_points(self) -> None:
        """Points of the edition's own."""
        OwnPoints(self.stage, self.draft, self.more).own_points()

    def kinds(self) -> None:
        """What else of the dog decides rules."""
        Kinds(self.stage, self.draft, self.more).kinds()

    def grades(self) -> None:
        """A set of grades that editions of one body share, or none."""
        sets = self.stage.library.common().outcome_sets
        now = self.draft.tables.get("outcomes_from", "")
        lines = [Line("1", "none: the edition grades no dog", not now)]
        lines += [
            Line(
                str(n),
                f"as {name.upper()} shows have them",
                name == now,
                ", ".join(one.label for one in grades),
            )
            for n, (name, grades) in enumerate(sets.items(), 2)
        ]

        def chosen(key: str | None) -> None:
            if key is not None:
                name = "" if key == "1" else list(sets)[int(key) - 2]
                self.save(lambda: self.draft.put_grades(name))
            self.more()

        ask = "Which grades? A disqualifying fault then rules all but the last out."
        self.stage.push_screen(NumberedScreen("Grades", ask, lines), chosen)

    def tongues(self) -> None:
        """Labels and asked texts in another language."""
        Tongues(self.stage, self.draft, self.more).tongues()
