"""Blocks of the wizard that ask point by point: regions, silences, classes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from hands_on.exam.dialogue import Line
from hands_on.ruleset.points import ChoicePoint, GradePoint, Point, faults_of
from hands_on.store.edition_draft import LADDER, SOURCE, EditionDraft, measures_of
from hands_on.store.errors import StoreError
from hands_on.store.new_edition import nearest_edition
from hands_on.toml_text.problems import BadText
from hands_on.tui.flows.usable import loaded
from hands_on.tui.program import Stage
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen

_OFTEN_SILENT = (
    "weight", "height", "body-length", "chest-depth", "chest-girth", "elbow-height", "muzzle-length",
    "teeth-count", "ear-length", "neck-length", "tail-length", "coat-length-flank", "blade-slope",
    "shoulder-angle", "pastern-slope", "croup-slope", "stifle-angle", "hock-angle",
    "forefeet.dewclaw-state", "hindfeet.dewclaw-state", "croup-tail.tail-state", "movement.gait",
)  # fmt: skip
_SILENT, _AS_THERE = "-", "="
_LEADS = (
    "Lowers the grade in proportion to its degree.",
    "Weighs more than an ordinary fault.",
    "No highest grade.",
    "The dog is out.",
)


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
        nearest = self._nearest()
        ask = (
            "What is asked for, in your own words. Enter alone: as it is.\n"
            f"{_SILENT} alone: the standard is silent on the rest of this region."
            + (f"\n{_AS_THERE} alone: the rest as in {nearest}, after you have seen it." if nearest else "")
            + usual
        )

        def typed(value: str | None) -> None:
            if value is None:
                self.regions()
                return
            if value == _SILENT:
                self._silent_rest(points[at:])
                return
            if value == _AS_THERE and nearest:
                self._as_there(nearest, points, at)
                return
            if value and value != known:
                self.save(lambda: self.draft.put_asked(point.id, value))
            self._departures(points, at)

        self.stage.push_screen(
            TypedScreen(f"{point.label} ({at + 1} of {len(points)})", ask, known, wrong=anything), typed
        )

    def _nearest(self) -> str | None:
        heads = self.stage.library.heads()
        return nearest_edition(self.draft.tables, heads, without=self.draft.path.stem)

    def _open(self, points: Sequence[Point]) -> list[Point]:
        """Those that nothing is asked at yet."""
        asked = self.draft.tables.get("asked", {})
        return [point for point in points if point.id not in asked]

    def _silent_rest(self, points: Sequence[Point]) -> None:
        """The standard says no more of this region: its open points are silences."""
        rest = self._open(points)
        if rest:
            regions = self.stage.library.common().regions
            label = next(one.label for one in regions if one.id == rest[0].region)
            self.save(lambda: self.draft.put_silent(f"{label}: the rest", [one.id for one in rest]))
        self.regions()

    def _as_there(self, name: str, points: Sequence[Point], at: int) -> None:
        """What another edition asks at the open points of this region, taken only when confirmed."""
        ruleset = loaded(self.stage, name)
        theirs = ruleset.edition.asked if ruleset is not None else {}
        rest = [point for point in self._open(points[at:]) if point.id in theirs]
        if not rest:
            self.stage.say("Nothing to take over", f"{name} asks nothing more in this region.")
            self._point(points, at)
            return
        told = "\n".join(f"{point.label}: {theirs[point.id].text}" for point in rest)
        lines = [Line("1", "take it over"), Line("2", "take none of it")]

        def chosen(key: str | None) -> None:
            if key != "1":
                self._point(points, at)
                return
            reading = f"Taken over from {name}; not read in this standard."

            def take_over() -> None:
                for point in rest:
                    self.draft.put_asked(point.id, theirs[point.id].text, reading)

            self.save(take_over)
            self.regions()

        self.stage.push_screen(NumberedScreen(f"As in {name}", told, lines), chosen)

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

    def silent(self, at: int = 0) -> None:
        """Things that standards often leave out, each marked or not by its number; others in own words."""
        common = self.stage.library.common()
        told = {row.get("about", ""): row for row in self.draft.tables.get("silent", [])}
        ruled = {name for row in self.draft.tables.get("limits", []) for name in measures_of(row)}
        named = {point for row in told.values() for point in row.get("points", ())}
        rows = [name for name in _OFTEN_SILENT if name in common.points]
        own = [about for about, row in told.items() if not set(row.get("points", ())) & set(rows)]
        lines = [Line("0", "go on"), Line("1", "something else, in your own words")]
        for name in rows:
            aside = "a figure stands in this edition" if name in ruled else ""
            lines.append(Line(str(len(lines)), common.points[name].label, name in named, aside))
        lines += [Line(str(len(lines) + n), f"take out: {about}") for n, about in enumerate(own)]

        def chosen(key: str | None) -> None:
            n = int(key or 0)
            if n == 0:
                self.back()
                return
            if n == 1:
                self._silent_words()
                return
            if n > len(rows) + 1:
                self._drop_silence(own[n - len(rows) - 2])
            elif rows[n - 2] in named:
                about = next(about for about, row in told.items() if rows[n - 2] in row.get("points", ()))
                self._drop_silence(about)
            else:
                point = common.points[rows[n - 2]]
                table = {"about": point.label, "points": [point.id], "source": SOURCE}
                self.save(lambda: self.draft.put("[[silent]]", table, "about"))
            self.silent(n)

        ask = "What does the standard say nothing of? A number puts a mark or takes it away."
        self.stage.push_screen(
            NumberedScreen("What the standard is silent on", ask, lines, "", "", at), chosen
        )

    def _drop_silence(self, about: str) -> None:
        self.save(lambda: self.draft.drop("[[silent]]", {"about": about}, "about"))

    def _silent_words(self) -> None:
        common = self.stage.library.common()

        def typed(value: str | None) -> None:
            if value:
                low = value.lower()
                points = [p.id for p in common.points.values() if low in (p.id, p.label.lower())]
                table = {"about": value, "source": SOURCE} | ({"points": points} if points else {})
                self.save(lambda: self.draft.put("[[silent]]", table, "about"))
            self.silent(1)

        ask = (
            "What the standard says nothing of: docking, or the label of a point. Enter alone: nothing more."
        )
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

            named = {**row, "label": label}
            self.save(lambda: self.draft.put("[[classes]]", named, "id"))
            self._leads(named)

        self.stage.push_screen(
            TypedScreen("Class", "The edition's own word for it.", row.get("label", "")), labelled
        )

    def _leads(self, row: dict[str, Any]) -> None:
        """What the class leads to, by number or in own words."""
        known = row.get("leads_to", "")
        lines = [Line(str(n), text, text == known) for n, text in enumerate(_LEADS, 1)]
        own = len(lines) + 1
        lines.append(Line(str(own), "in your own words", bool(known) and known not in _LEADS, known))

        def keep(text: str | None) -> None:
            if text is not None:
                self.save(lambda: self.draft.put("[[classes]]", {**row, "leads_to": text}, "id"))
            self.classes()

        def chosen(key: str | None) -> None:
            if key is None:
                self.classes()
            elif int(key) == own:
                ask = "What a fault of this class leads to."
                self.stage.push_screen(TypedScreen(row["label"], ask, known, wrong=anything), keep)
            else:
                keep(_LEADS[int(key) - 1])

        ask = "What does a fault of this class lead to?"
        self.stage.push_screen(NumberedScreen(str(row["label"]), ask, lines), chosen)


def _describable(point: Point) -> bool:
    return isinstance(point, GradePoint | ChoicePoint)
