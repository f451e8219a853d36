"""The wizard's block of the law: rules that are off until they are chosen for an examination."""

from __future__ import annotations

from typing import Any

from hands_on.exam.dialogue import Line
from hands_on.standard_text import LAWS, Law, own_slug
from hands_on.store.edition_draft import LADDER
from hands_on.tui.flows.wizard_blocks import Block
from hands_on.tui.flows.wizard_kinds import named_fault
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen

__all__ = ["LawBlock"]


class LawBlock(Block):
    """Which faults count only where somebody chooses it, and in which class; recorded in any case."""

    def law(self) -> None:
        """The subjects, with what stands of each; another in the keeper's words; taking one out."""
        rules = self._rules()
        lines = [Line(str(n), one.asks, aside=self._told(one.switch)) for n, one in enumerate(LAWS, 1)]
        lines.append(Line(str(len(lines) + 1), "something else, by the name of its fault"))
        lines += [Line(str(n), f"take out: {self._rule_told(row)}") for n, row in enumerate(rules, 5)]
        ask = (
            "What does the standard ask that the law of some places forbids? It is off until chosen for "
            "an examination; a caution is shown where it is chosen."
        )

        def chosen(key: str | None) -> None:
            if key is None:
                self.back()
            elif int(key) <= len(LAWS):
                self._fault(LAWS[int(key) - 1])
            elif int(key) == len(LAWS) + 1:
                self._other()
            else:
                row = rules[int(key) - len(LAWS) - 2]
                self.save(lambda: self.draft.drop_switched(row))
                self.law()

        self.stage.push_screen(NumberedScreen("The law of the place", ask, lines), chosen)

    def _rules(self) -> list[dict[str, Any]]:
        return [row for row in self.draft.tables.get("rulings", []) if "switch" in row.get("when", {})]

    def _told(self, switch: str) -> str:
        return "; ".join(self._rule_told(row) for row in self._rules() if row["when"]["switch"] == switch)

    def _rule_told(self, row: dict[str, Any]) -> str:
        names = ", ".join(self._label(name).lower() for name in row["faults"])
        return f"{names}: {self._class_label(row.get('class', ''))}"

    def _label(self, fault: str) -> str:
        known = self.stage.library.common().faults.get(fault)
        own = self.draft.tables.get("faults", {}).get(fault, {})
        return known.label if known else str(own.get("label", fault))

    def _class_label(self, name: str) -> str:
        rows = self.draft.tables.get("classes", [])
        known = next((row.get("label") for row in rows if row.get("id") == name), None)
        return str(known or LADDER.get(name, (name, False))[0]).lower()

    def _fault(self, subject: Law) -> None:
        lines = [Line(str(n), self._label(name)) for n, name in enumerate(subject.faults, 1)]

        def chosen(key: str | None) -> None:
            if key is None:
                self.law()
            else:
                self._class(subject, subject.faults[int(key) - 1])

        ask = "Which of these is a fault in this standard?"
        self.stage.push_screen(NumberedScreen(subject.asks, ask, lines), chosen)

    def _other(self) -> None:
        def typed(value: str | None) -> None:
            if value is None:
                self.law()
                return
            fault = named_fault(self, value)
            label = self._label(fault)
            self._class(Law(f"{own_slug(label)}-judged", label, f"Judge: {label.lower()}", (fault,)), fault)

        ask = "The fault, by its name or the beginnings of its words: ta na for Tail natural."
        wrong = "No fault of that name here."
        self.stage.push_screen(
            TypedScreen(
                "The law of the place", ask, wrong=lambda text: "" if named_fault(self, text) else wrong
            ),
            typed,
        )

    def _class(self, subject: Law, fault: str) -> None:
        own = {row["id"]: str(row.get("label", row["id"])) for row in self.draft.tables.get("classes", [])}
        classes = {**{name: label for name, (label, _) in LADDER.items()}, **own}
        names = list(classes)
        lines = [Line(str(n), classes[name]) for n, name in enumerate(names, 1)]

        def chosen(key: str | None) -> None:
            if key is None:
                self._fault(subject) if len(subject.faults) > 1 else self.law()
                return
            self.save(
                lambda: self.draft.put_switched(subject.switch, subject.table, fault, names[int(key) - 1])
            )
            self.law()

        ask = f"{self._label(fault)}: in which class, where it is judged?"
        self.stage.push_screen(NumberedScreen(subject.asks, ask, lines), chosen)
