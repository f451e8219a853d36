"""The wizard's block of languages: labels and asked texts, each beside the English one."""

from __future__ import annotations

import re
from collections.abc import Sequence

from hands_on.exam.dialogue import Line
from hands_on.tui.flows.usable import loaded
from hands_on.tui.flows.wizard_blocks import Block, anything
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen

__all__ = ["Tongues"]


class Tongues(Block):
    """What the edition says in a second language; what is missing stays in English."""

    def tongues(self) -> None:
        """Which language."""
        known = list(self.draft.tables.get("languages", {}))
        lines = [Line("1", "another language, by its code of two letters: de, fr, it")]
        lines += [Line(str(n), code, aside=self._count(code)) for n, code in enumerate(known, 2)]

        def chosen(key: str | None) -> None:
            if key is None:
                self.back()
            elif key == "1":
                self._code()
            else:
                self._kinds(known[int(key) - 2])

        ask = "The rules stay the same in every language; only what is read on screen is told twice."
        self.stage.push_screen(NumberedScreen("Another language", ask, lines), chosen)

    def _code(self) -> None:
        def wrong(text: str) -> str:
            return "" if re.fullmatch(r"[a-z]{2}", text) else "Two small letters, as de (ISO 639-1)."

        def typed(value: str | None) -> None:
            if value is None:
                self.tongues()
            else:
                self._kinds(value)

        self.stage.push_screen(TypedScreen("Another language", "Its code: de, fr, it.", wrong=wrong), typed)

    def _told(self, code: str, kind: str) -> dict[str, str]:
        told: dict[str, str] = self.draft.tables.get("languages", {}).get(code, {}).get(kind, {})
        return told

    def _count(self, code: str) -> str:
        return f"{len(self._told(code, 'labels'))} labels, {len(self._told(code, 'asked'))} asked texts"

    # --- what can be said

    def _texts(self) -> dict[str, dict[str, str]]:
        """For each kind of text what there is in English: by id."""
        common, tables = self.stage.library.common(), self.draft.tables
        asked = {name: str(row.get("text", "")) for name, row in tables.get("asked", {}).items()}
        faults = {name: str(row.get("label", name)) for name, row in tables.get("faults", {}).items()}
        named = {name for row in tables.get("rulings", []) for name in row.get("faults", ())}
        named |= {
            band["fault"]
            for row in tables.get("limits", [])
            for band in row.get("bands", ())
            if "fault" in band
        }
        points = {row["id"]: str(row.get("label", row["id"])) for row in tables.get("points", [])}
        points |= {name: common.points[name].label for name in asked if name in common.points}
        return {
            "classes": {row["id"]: str(row.get("label", row["id"])) for row in tables.get("classes", [])},
            "asked": asked,
            "faults": faults
            | {name: common.faults[name].label for name in sorted(named) if name in common.faults},
            "points": points,
            "regions": {one.id: one.label for one in common.regions},
        }

    def _kinds(self, code: str) -> None:
        texts = self._texts()
        names = (
            ("classes", "names of the classes"),
            ("asked", "what is asked at each point"),
            ("faults", "faults that this edition names"),
            ("points", "points at which something is asked"),
            ("regions", "regions of the dog"),
        )
        lines = []
        for n, (kind, label) in enumerate(names, 1):
            told = self._told(code, "asked" if kind == "asked" else "labels")
            lines.append(
                Line(str(n), label, aside=f"{sum(one in told for one in texts[kind])} of {len(texts[kind])}")
            )
        there = self._elsewhere(code)
        if there:
            lines.append(
                Line(str(len(lines) + 1), f"take over {len(there)} labels that editions here have in {code}")
            )

        def chosen(key: str | None) -> None:
            if key is None:
                self.tongues()
            elif int(key) > len(names):
                self.save(lambda: self.draft.put_tongue(code, "labels", there))
                self._kinds(code)
            else:
                kind = names[int(key) - 1][0]
                self._one(code, kind, list(texts[kind].items()), 0)

        self.stage.push_screen(
            NumberedScreen(f"In {code}", "Which texts? Each is saved at once.", lines), chosen
        )

    def _elsewhere(self, code: str) -> dict[str, str]:
        """Labels of common ids in this language, from the other editions here, not said yet."""
        mine = self._told(code, "labels")
        common = self.stage.library.common()
        wanted = {*common.faults, *common.points, *(one.id for one in common.regions)}
        out: dict[str, str] = {}
        for head in self.stage.library.heads():
            if head.problem is not None or head.id == self.draft.path.stem:
                continue
            ruleset = loaded(self.stage, head.id)
            tongue = ruleset.edition.languages.get(code) if ruleset is not None else None
            out |= {name: text for name, text in (tongue.labels if tongue else {}).items() if name in wanted}
        return {name: text for name, text in out.items() if name not in mine}

    def _one(self, code: str, kind: str, texts: Sequence[tuple[str, str]], at: int) -> None:
        """Text after text; Enter alone leaves one as it is."""
        if at >= len(texts):
            self._kinds(code)
            return
        name, english = texts[at]
        where = "asked" if kind == "asked" else "labels"
        known = self._told(code, where).get(name, "")

        def typed(value: str | None) -> None:
            if value is None:
                self._kinds(code)
                return
            if value and value != known:
                self.save(lambda: self.draft.put_tongue(code, where, {name: value}))
            self._one(code, kind, texts, at + 1)

        ask = f"{english}\nEnter alone: as it is."
        title = f"In {code}: {name} ({at + 1} of {len(texts)})"
        self.stage.push_screen(TypedScreen(title, ask, known, wrong=anything), typed)
