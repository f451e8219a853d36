"""The wizard's block of points that only this breed has."""

from __future__ import annotations

from typing import Any

from hands_on.exam.dialogue import Line
from hands_on.standard_text import own_fault, own_point, own_slug
from hands_on.store.edition_draft import LADDER
from hands_on.tui.flows.wizard_blocks import Block, anything
from hands_on.tui.flows.wizard_figures import FigureRow, Figures
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen

__all__ = ["OwnPoints"]

_KINDS = (
    ("", "looked at or felt: as asked, or a departure in degrees"),
    ("cm", "measured: a length in cm"),
    ("in", "measured: a length in inches"),
    ("deg", "measured: an angle in degrees"),
    ("share", "estimated: a share of the whole, 0 to 1"),
)


class OwnPoints(Block):
    """Where such a point is, how it is examined, how the hand finds it, what a departure is called."""

    def own_points(self, at: int | None = None) -> None:
        """The points there are, and a new one."""
        rows = self._rows()
        lines = [Line("1", "a new point")]
        lines += [Line(str(n), str(row["label"]), aside=_told(row)) for n, row in enumerate(rows, 2)]

        def chosen(key: str | None) -> None:
            if key is None:
                self.back()
            elif key == "1":
                self._region()
            else:
                self._one(str(rows[int(key) - 2]["id"]))

        ask = (
            "What does this breed have that no other is examined for? A ridge, a pattern of the coat, a fold."
        )
        self.stage.push_screen(NumberedScreen("The breed's own points", ask, lines, "", "", at), chosen)

    def _rows(self) -> list[dict[str, Any]]:
        rows: list[dict[str, Any]] = self.draft.tables.get("points", [])
        return rows

    def _row(self, name: str) -> dict[str, Any]:
        return next(row for row in self._rows() if row.get("id") == name)

    # --- a new one

    def _region(self) -> None:
        regions = self.stage.library.common().regions
        lines = [Line(str(n), one.label) for n, one in enumerate(regions, 1)]

        def chosen(key: str | None) -> None:
            if key is None:
                self.own_points()
            else:
                self._label(regions[int(key) - 1].id)

        self.stage.push_screen(NumberedScreen("A new point", "Where on the dog?", lines), chosen)

    def _label(self, region: str) -> None:
        def taken(text: str) -> str:
            known = {str(row.get("id")) for row in self._rows()} | set(self.stage.library.common().points)
            if not text:
                return "Something must be typed here."
            return "There is such a point already." if f"{region}.{own_slug(text)}" in known else ""

        def typed(value: str | None) -> None:
            if value is None:
                self._region()
                return
            name = f"{region}.{own_slug(value)}"
            departure = f"{value} not as asked"
            fault = f"{region}.{own_slug(departure)}"
            table = own_point(name, region, value, departures=(fault,))
            if self.save(lambda: self.draft.put_own_point(table, {fault: own_fault(departure)})):
                self._kind(name)
            else:
                self.own_points()

        ask = "What the point is called: Ridge on the back."
        self.stage.push_screen(TypedScreen("A new point", ask, wrong=taken), typed)

    # --- one of them

    def _one(self, name: str) -> None:
        """What can be changed at a point."""
        row = self._row(name)
        lines = [
            Line("1", "how it is examined", aside=_told(row)),
            Line("2", "how the hand finds it", aside=str(row.get("find", ""))),
            Line("3", "why it counts", aside=str(row.get("why", ""))),
            Line(
                "4",
                "which figure is asked" if _measured(row) else "what a departure is called, and its class",
            ),
            Line("5", "take the point out"),
        ]
        asks = {"1": self._kind, "2": self._find, "3": self._why, "4": self._departure, "5": self._out}

        def chosen(key: str | None) -> None:
            if key is None:
                self.own_points()
            else:
                asks[key](name)

        self.stage.push_screen(NumberedScreen(str(row["label"]), "What is to be said of it?", lines), chosen)

    def _kind(self, name: str) -> None:
        row = self._row(name)
        now = str(row.get("unit", ""))
        lines = [Line(str(n), told, unit == now) for n, (unit, told) in enumerate(_KINDS, 1)]

        def chosen(key: str | None) -> None:
            if key is None:
                self._one(name)
                return
            unit = _KINDS[int(key) - 1][0]
            if unit != now:
                departure = f"{row['label']} not as asked"
                fault = f"{row['region']}.{own_slug(departure)}"
                table = own_point(name, str(row["region"]), str(row["label"]), unit=unit, departures=(fault,))
                table |= {key: row[key] for key in ("find", "why") if key in row}
                faults = {} if unit else {fault: own_fault(departure)}
                old = [] if faults else list(row.get("other", ()))
                self.save(lambda: self.draft.put_own_point(table, faults))
                for fault in old:
                    self.save(lambda fault=fault: self.draft.drop(f'[faults."{fault}"]', {}))  # type: ignore[misc]
            self._find(name)

        self.stage.push_screen(NumberedScreen(str(row["label"]), "How is it examined?", lines), chosen)

    def _words(self, name: str, key: str, ask: str, then: str) -> None:
        row = self._row(name)

        def typed(value: str | None) -> None:
            if value is None:
                self._one(name)
                return
            self.save(lambda: self.draft.put_own_point({**row, key: value}, {}))
            getattr(self, then)(name)

        self.stage.push_screen(TypedScreen(str(row["label"]), ask, str(row.get(key, ""))), typed)

    def _find(self, name: str) -> None:
        self._words(name, "find", "How the hand or the eye finds it.", "_why")

    def _why(self, name: str) -> None:
        self._words(name, "why", "Why it counts, for the owner.", "_departure")

    def _departure(self, name: str) -> None:
        """The figure of what is measured; the name and the class of a departure that is seen."""
        row = self._row(name)
        if _measured(row):
            figures = Figures(self.stage, self.draft, self.own_points, self.own_points)
            figures.ask(FigureRow(name, "", str(row["label"])), lambda: self._one(name))
            return
        fault = str(row["other"][0])
        known = self.draft.tables.get("faults", {}).get(fault, {})

        def typed(value: str | None) -> None:
            if value is None:
                self._one(name)
                return
            if not value:  # it keeps its name
                self._class(name, fault)
                return
            fresh = {**known, **{key: told for key, told in own_fault(value).items() if key != "function"}}
            self.save(lambda: self.draft.put_own_point(row, {fault: fresh}))
            self._class(name, fault)

        begun = own_fault(f"{row['label']} not as asked")["label"]
        shown = str(known.get("label", ""))
        ask = f"What a departure is called: short ridge. Enter alone: {shown or begun}."
        start = "" if shown == begun else shown
        self.stage.push_screen(TypedScreen(str(row["label"]), ask, start, wrong=anything), typed)

    def _class(self, name: str, fault: str) -> None:
        own = {row["id"]: str(row.get("label", row["id"])) for row in self.draft.tables.get("classes", [])}
        classes = {**{one: label for one, (label, _) in LADDER.items()}, **own}
        names = list(classes)
        lines = [Line("0", "no class is named")]
        lines += [Line(str(n), classes[one]) for n, one in enumerate(names, 1)]

        def chosen(key: str | None) -> None:
            if key and key != "0":
                self.save(lambda: self.draft.put_class_of(fault, names[int(key) - 1]))
            self._one(name)

        self.stage.push_screen(
            NumberedScreen(str(self._row(name)["label"]), "In which class?", lines), chosen
        )

    def _out(self, name: str) -> None:
        self.save(lambda: self.draft.drop_own_point(self._row(name)))
        self.own_points()


def _measured(row: dict[str, Any]) -> bool:
    return row.get("kind") == "measure"


def _told(row: dict[str, Any]) -> str:
    return f"measured in {row.get('unit', '')}" if _measured(row) else "looked at or felt"
