"""Blocks of the wizard that ask point by point: regions, silences, classes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from hands_on.exam.dialogue import Line
from hands_on.ruleset.points import ChoicePoint, GradePoint, Point, faults_of
from hands_on.store.edition_draft import LADDER, SOURCE, EditionDraft
from hands_on.store.errors import StoreError
from hands_on.toml_text.problems import BadText
from hands_on.tui.program import Stage
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen


class Block:
    """Questions about one edition; `menu` is where they lead back to."""

    def __init__(self, stage: Stage, draft: EditionDraft, menu: Callable[[], object]) -> None:
        self.stage, self.draft, self.back = stage, draft, menu

    def save(self, act: Callable[[], object]) -> bool:
        try:
            act()
        except (StoreError, BadText, OSError) as error:
            self.stage.say("Not written", str(error))
            return False
        return True


def anything(text: str) -> str:
    """Takes every line, an empty one too."""
    return ""


class Regions(Block):
    """What is asked at each point, which departures are allowed, and what the standard is silent on."""

    # --- regions

    def regions(self) -> None:
        """The regions in the order of the examination."""
        common = self.stage.library.common()
        rows = list(common.regions)
        asked = self.draft.tables.get("asked", {})
        lines = []
        for n, region in enumerate(rows, 1):
            points = [p for p in common.points.values() if p.region == region.id and _describable(p)]
            lines.append(
                Line(str(n), region.label, aside=f"{sum(p.id in asked for p in points)} of {len(points)}")
            )

        def chosen(key: str | None) -> None:
            if key is None:
                self.back()
            else:
                region = rows[int(key) - 1].id
                self._point([p for p in common.points.values() if p.region == region and _describable(p)], 0)

        self.stage.push_screen(NumberedScreen("Region by region", "Which region?", lines), chosen)

    def _point(self, points: Sequence[Point], at: int) -> None:
        if at >= len(points):
            self.regions()
            return
        point = points[at]
        known = self.draft.tables.get("asked", {}).get(point.id, {}).get("text", "")
        usual = f"\nMost standards: {point.ideal}." if point.ideal else ""
        ask = f"What is asked for, in your own words. Enter alone: as it is.{usual}"

        def typed(value: str | None) -> None:
            if value is None:
                self.regions()
                return
            if value and value != known:
                header = f'[asked."{point.id}"]'
                self.save(lambda: self.draft.put(header, {"text": value, "source": SOURCE}))
            self._departures(points, at)

        self.stage.push_screen(
            TypedScreen(f"{point.label} ({at + 1} of {len(points)})", ask, known, wrong=anything), typed
        )

    def _departures(self, points: Sequence[Point], at: int, mark: int = 0) -> None:
        """Which side is a departure, and which is right here though it is a fault elsewhere."""
        point = points[at]
        common = self.stage.library.common()
        faults = list(faults_of(point))
        free = self._free()
        lines = [Line("0", "go on")] + [
            Line(
                str(n),
                common.faults[name].label,
                aside="no fault in this breed" if name in free else "a departure",
            )
            for n, name in enumerate(faults, 1)
            if name in common.faults
        ]

        def chosen(key: str | None) -> None:
            if key is None:
                self._point(points, at)
            elif key == "0":
                self._point(points, at + 1)
            else:
                fault = faults[int(key) - 1]
                table = {
                    "faults": [fault],
                    "class": "none",
                    "text": "Asked for or allowed here.",
                    "source": SOURCE,
                }
                if fault in free:
                    self.save(lambda: self.draft.drop("[[rulings]]", table, "faults", "class"))
                else:
                    self.save(lambda: self.draft.put("[[rulings]]", table, "faults"))
                self._departures(points, at, int(key))

        if not faults:
            self._point(points, at + 1)
            return
        ask = "Choose what is asked for or allowed in this breed; the others are departures."
        self.stage.push_screen(NumberedScreen(point.label, ask, lines, "", "", mark), chosen)

    def _free(self) -> set[str]:
        rows = self.draft.tables.get("rulings", [])
        return {name for row in rows if row.get("class") == "none" for name in row.get("faults", [])}

    # --- silences

    def silent(self) -> None:
        """A measurement or point that no rule names."""
        common = self.stage.library.common()
        told = [row.get("about", "") for row in self.draft.tables.get("silent", [])]
        ask = "What the standard says nothing of, one thing a line: weight. Enter alone when done."
        if told:
            ask += f"\nSo far: {', '.join(told)}."

        def typed(value: str | None) -> None:
            if not value:
                self.back()
                return
            low = value.lower()
            points = [p.id for p in common.points.values() if low in (p.id, p.label.lower())]
            table = {"about": value, "source": SOURCE} | ({"points": points} if points else {})
            self.save(lambda: self.draft.put("[[silent]]", table, "about"))
            self.silent()

        self.stage.push_screen(TypedScreen("What the standard is silent on", ask, wrong=anything), typed)


class Classes(Block):
    """The classes of the edition and the general clause."""

    # --- classes

    def classes(self) -> None:
        """The ladder, lightest first, and the general clause."""
        tables = self.draft.tables
        rows = {row["id"]: row for row in tables.get("classes", []) if "id" in row}
        names = [*LADDER, *(name for name in rows if name not in LADDER)]
        lines = [
            Line(str(n), rows[name].get("label", name) if name in rows else LADDER[name][0], name in rows)
            for n, name in enumerate(names, 1)
        ]
        clause = "general_clause" in tables
        more = len(names) + 1
        lines.append(Line(str(more), "General clause: every departure is a fault", clause))

        def chosen(key: str | None) -> None:
            if key is None:
                self.back()
            elif int(key) == more:
                table = {
                    "class": "fault",
                    "text": "Every departure is a fault, by how far it goes.",
                    "source": SOURCE,
                }
                act = self.draft.drop if clause else self.draft.put
                self.save(lambda: act("[general_clause]", table))
                self.classes()
            else:
                self._class(names[int(key) - 1])

        ask = "The classes of the edition, the lightest first. Choose one to name it."
        self.stage.push_screen(NumberedScreen("Classes", ask, lines), chosen)

    def _class(self, name: str) -> None:
        if not self.save(lambda: self.draft.add_class(name)):
            return
        row: dict[str, Any] = next(row for row in self.draft.tables["classes"] if row.get("id") == name)

        def labelled(label: str | None) -> None:
            if label is None:
                self.classes()
                return

            def leads(to: str | None) -> None:
                if to is not None:
                    table = {**row, "label": label, "leads_to": to}
                    self.save(lambda: self.draft.put("[[classes]]", table, "id"))
                self.classes()

            ask = "What a fault of this class leads to."
            self.stage.push_screen(TypedScreen(label, ask, row.get("leads_to", ""), wrong=anything), leads)

        self.stage.push_screen(
            TypedScreen("Class", "The edition's own word for it.", row.get("label", "")), labelled
        )


def _describable(point: Point) -> bool:
    return isinstance(point, GradePoint | ChoicePoint)
