"""The wizard's block of colours, coats and varieties: what else of the dog decides rules."""

from __future__ import annotations

from typing import Any

from hands_on.exam.dialogue import Line
from hands_on.standard_text import in_full, own_slug
from hands_on.store.edition_draft import LADDER
from hands_on.tui.flows.wizard_blocks import Block
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen

__all__ = ["Kinds", "named_fault"]

_FREE = {"none": "no fault", "observation": "recorded, never counted"}


class Kinds(Block):
    """Attributes of the dog that are asked with its details, and the classes that hang on them."""

    def kinds(self) -> None:
        """The attributes there are, and a new one."""
        rows = self._rows()
        lines = [Line("1", "another: colour, coat, variety")]
        lines += [
            Line(str(n), str(row.get("label", name)), aside=", ".join(row.get("options", {}).values()))
            for n, (name, row) in enumerate(rows.items(), 2)
        ]

        def chosen(key: str | None) -> None:
            if key is None:
                self.back()
            elif key == "1":
                self._label()
            else:
                self._one(list(rows)[int(key) - 2])

        ask = "What else of the dog decides rules? It is asked with the dog's details."
        self.stage.push_screen(NumberedScreen("Colours, coats, varieties", ask, lines), chosen)

    def _rows(self) -> dict[str, dict[str, Any]]:
        rows: dict[str, dict[str, Any]] = self.draft.tables.get("attributes", {})
        return {name: row for name, row in rows.items() if not row.get("derived")}

    def _label(self) -> None:
        def typed(value: str | None) -> None:
            if value is None:
                self.kinds()
            else:
                self._options(own_slug(value), value)

        self.stage.push_screen(
            TypedScreen("What decides", "What it is called: Colour, Coat, Variety."), typed
        )

    def _options(self, name: str, label: str) -> None:
        known = self._rows().get(name, {}).get("options", {})

        def typed(value: str | None) -> None:
            if value is None:
                self.kinds()
                return
            told = [one.strip() for one in value.split(";") if one.strip()]
            options = {own_slug(one): one for one in told}
            self.save(lambda: self.draft.put_attribute(name, label, options))
            self._one(name)

        ask = "Its kinds, a semicolon between them: black; brown; merle."
        self.stage.push_screen(TypedScreen(label, ask, "; ".join(known.values())), typed)

    def _one(self, name: str) -> None:
        row = self._rows()[name]
        rules = [one for one in self.draft.tables.get("rulings", []) if name in one.get("when", {})]
        lines = [
            Line("1", "its kinds", aside=", ".join(row.get("options", {}).values())),
            Line("2", "a fault that is judged otherwise in one of them"),
            *(Line(str(n), f"take out: {self._told(one, name)}") for n, one in enumerate(rules, 3)),
        ]

        def chosen(key: str | None) -> None:
            if key is None:
                self.kinds()
            elif key == "1":
                self._options(name, str(row.get("label", name)))
            elif key == "2":
                self._fault(name)
            else:
                out = rules[int(key) - 3]
                self.save(lambda: self.draft.drop("[[rulings]]", out, "faults", "when"))
                self._one(name)

        self.stage.push_screen(NumberedScreen(str(row.get("label", name)), "What of it?", lines), chosen)

    def _told(self, rule: dict[str, Any], name: str) -> str:
        faults = self.stage.library.common().faults
        named = ", ".join(faults[one].label.lower() if one in faults else one for one in rule["faults"])
        kind = rule["when"][name]
        where = kind if isinstance(kind, str) else ", ".join(kind)
        return f"{named} in {where}: {rule.get('class', 'by degree')}"

    def _fault(self, name: str) -> None:
        def typed(value: str | None) -> None:
            if value is None:
                self._one(name)
            else:
                self._option(name, named_fault(self, value))

        ask = "The fault, by its name or the beginnings of its words: li ey for Light eyes."
        wrong = "No fault of that name here."
        screen = TypedScreen("A fault", ask, wrong=lambda text: "" if named_fault(self, text) else wrong)
        self.stage.push_screen(screen, typed)

    def _option(self, name: str, fault: str) -> None:
        options = self._rows()[name].get("options", {})
        lines = [Line(str(n), label) for n, label in enumerate(options.values(), 1)]

        def chosen(key: str | None) -> None:
            if key is None:
                self._one(name)
            else:
                self._class(name, fault, list(options)[int(key) - 1])

        self.stage.push_screen(
            NumberedScreen("In which of them?", "Where is it judged otherwise?", lines), chosen
        )

    def _class(self, name: str, fault: str, option: str) -> None:
        own = {row["id"]: str(row.get("label", row["id"])) for row in self.draft.tables.get("classes", [])}
        classes = {**_FREE, **{one: label for one, (label, _) in LADDER.items()}, **own}
        names = list(classes)
        lines = [Line(str(n), classes[one]) for n, one in enumerate(names, 1)]

        def chosen(key: str | None) -> None:
            if key is not None:
                when = {name: option}
                self.save(lambda: self.draft.put_class_of(fault, names[int(key) - 1], when))
            self._one(name)

        self.stage.push_screen(NumberedScreen("Its class there", "In which class?", lines), chosen)


def named_fault(block: Block, text: str) -> str:
    """The id of the fault that a line names in full or by the beginnings of its words, or nothing."""
    faults = {one.label.lower(): name for name, one in block.stage.library.common().faults.items()}
    own = block.draft.tables.get("faults", {})
    faults |= {str(row.get("label", name)).lower(): name for name, row in own.items()}
    return faults.get(in_full(text.strip(), faults).lower(), "")
