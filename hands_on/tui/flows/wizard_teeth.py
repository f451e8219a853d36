"""The wizard's block of teeth: how many, which are not counted, the class of missing ones."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hands_on.exam.dialogue import Line
from hands_on.standard_text import FigureAnswers, figure_limit
from hands_on.store.edition_draft import LADDER, SOURCE, EditionDraft
from hands_on.tui.flows.wizard_blocks import Block
from hands_on.tui.program import Stage
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen

_FREE = ("P1", "P2", "P3", "P4", "M1", "M2", "M3")
_KINDS = (
    ((), "any tooth"), (("I",), "an incisor"), (("C",), "a canine"), (("P",), "a premolar"),
    (("M",), "a molar"),
    (("P1",), "a first premolar"), (("P2",), "a second premolar"), (("P3",), "a third premolar"),
    (("P4",), "a fourth premolar"), (("M1",), "a first molar"), (("M2",), "a second molar"),
    (("M3",), "a third molar"),
)  # fmt: skip


class Teeth(Block):
    """Answered by numbers; `words` asks for a line in the keeper's own words instead."""

    def __init__(
        self, stage: Stage, draft: EditionDraft, menu: Callable[[], object], words: Callable[[], object]
    ) -> None:
        super().__init__(stage, draft, menu)
        self.words = words

    def teeth(self) -> None:
        """What is said so far, and what can be said."""
        rules = self._rules()
        free = self.draft.tables.get("teeth", {}).get("exempt", [])
        count = next(
            (row for row in self.draft.tables.get("limits", []) if row.get("id") == "teeth-count"), None
        )
        lines = [
            Line("0", "in your own words, or as the standard has it"),
            Line("1", "how many teeth are asked for", count is not None, _end(count)),
            Line("2", "teeth that are not counted when they are missing", bool(free), ", ".join(free)),
            Line("3", "a class for missing teeth"),
            *(Line(str(n), f"take out: {_told(row)}") for n, row in enumerate(rules, 4)),
        ]
        asks = {"0": self.words, "1": self._count, "2": self._free, "3": self._kind}

        def chosen(key: str | None) -> None:
            if key is None:
                self.back()
            elif key in asks:
                asks[key]()
            else:
                row = rules[int(key) - 4]
                self.save(lambda: self.draft.drop("[[teeth.rules]]", row, *row))
                self.teeth()

        self.stage.push_screen(NumberedScreen("Teeth", "What does the standard say of teeth?", lines), chosen)

    def _rules(self) -> list[dict[str, Any]]:
        rows: list[dict[str, Any]] = self.draft.tables.get("teeth", {}).get("rules", [])
        return rows

    def _count(self) -> None:
        def typed(value: str | None) -> None:
            if value:
                number = float(value)
                table = figure_limit("teeth-count", "", FigureAnswers(number, number), "cm")
                self.save(lambda: self.draft.put_limit(table))
            self.teeth()

        ask = "How many teeth are asked for: 42 is a full set."
        self.stage.push_screen(TypedScreen("Teeth", ask, wrong=_no_count), typed)

    def _free(self, at: int = 0) -> None:
        free = list(self.draft.tables.get("teeth", {}).get("exempt", []))
        lines = [Line("0", "go on")]
        lines += [
            Line(str(n), name, name in free, "not counted" if name in free else "")
            for n, name in enumerate(_FREE, 1)
        ]

        def chosen(key: str | None) -> None:
            if key in (None, "0"):
                self.teeth()
                return
            name = _FREE[int(str(key)) - 1]
            now = [one for one in _FREE if (one in free) != (one == name)]
            self.save(lambda: self.draft.put_exempt(now))
            self._free(int(str(key)))

        ask = "Which are not counted when they are missing? A number puts a mark or takes it away."
        self.stage.push_screen(NumberedScreen("Teeth", ask, lines, "", "", at), chosen)

    def _kind(self) -> None:
        lines = [Line(str(n), label) for n, (_, label) in enumerate(_KINDS, 1)]

        def chosen(key: str | None) -> None:
            if key is None:
                self.teeth()
            else:
                self._number(int(key) - 1)

        self.stage.push_screen(NumberedScreen("Missing teeth", "Which teeth?", lines), chosen)

    def _number(self, kind: int) -> None:
        lines = [Line(str(n), "one or more" if n == 1 else f"{n} or more") for n in range(1, 8)]

        def chosen(key: str | None) -> None:
            if key is None:
                self._kind()
            else:
                self._class(kind, int(key))

        self.stage.push_screen(
            NumberedScreen("Missing teeth", f"How many, of {_KINDS[kind][1]}?", lines), chosen
        )

    def _class(self, kind: int, least: int) -> None:
        names = ["none", *LADDER]
        lines = [Line("1", "no fault"), *(Line(str(n), LADDER[name][0]) for n, name in enumerate(LADDER, 2))]

        def chosen(key: str | None) -> None:
            if key is None:
                self._number(kind)
                return
            of = _KINDS[kind][0]
            rule: dict[str, Any] = {"of": list(of)} if of else {}
            rule |= {"at_least": least, "class": names[int(key) - 1], "source": SOURCE}
            self.save(lambda: self.draft.put_teeth_rule(rule))
            self.teeth()

        ask = f"{least} or more missing, {_KINDS[kind][1]}: which class?"
        self.stage.push_screen(NumberedScreen("Missing teeth", ask, lines), chosen)


def _end(count: dict[str, Any] | None) -> str:
    return f"{count['asked'].get('from', count['asked'].get('to')):g}" if count and count.get("asked") else ""


def _told(row: dict[str, Any]) -> str:
    which = ", ".join(row.get("of", ())) or "any tooth"
    apart = f" but {', '.join(row['not_of'])}" if row.get("not_of") else ""
    return f"{row.get('at_least', 1)} or more of {which}{apart}: {row.get('class', '')}"


def _no_count(text: str) -> str:
    good = not text or (text.isdigit() and 20 <= int(text) <= 44)
    return "" if good else "A number of teeth, as 42, or Enter alone."
