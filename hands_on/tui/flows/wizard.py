"""A new edition written on screen, block by block; each answer is in its file before the next question."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path

from hands_on.exam.dialogue import Line
from hands_on.standard_text import Proposal, in_full, read_standard
from hands_on.store.edition_draft import SOURCE, EditionDraft
from hands_on.store.errors import StoreError
from hands_on.store.places import typed_path
from hands_on.store.standard_file import standard_text
from hands_on.store.wording import lexicon
from hands_on.toml_text.problems import BadText
from hands_on.tui import asks
from hands_on.tui.flows.wizard_blocks import Block, Classes, Regions, anything
from hands_on.tui.flows.wizard_figures import Figures
from hands_on.tui.flows.wizard_kinds import named_fault
from hands_on.tui.flows.wizard_more import More, problems_of
from hands_on.tui.flows.wizard_teeth import Teeth
from hands_on.tui.program import Stage
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.pasted import PastedScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.screens.standard_text import StandardTextScreen
from hands_on.wording.proposals import proposal_text

_HEAD = (
    ("breed", "The breed's name."),
    ("body", "Who publishes the standard: FCI, a national body, a club."),
    ("number", "Its number there; Enter alone where it has none."),
    ("edition", "The year or number of this edition."),
    ("published", "The date on the text, as 2012-03-14; Enter alone where it has none."),
    (
        "size_class",
        "Small, medium, large or giant, for the ages at which things can be judged; Enter alone: not said.",
    ),
    ("valid", "From when it holds, as 2013-01-01; Enter alone where it is not said."),
    ("title", "How the edition is called in lists: breed, body, number, year."),
)
_BLOCKS = (
    ("head", "Breed, body, number, edition, date, source"),
    ("text", "The standard's text: read it and confirm what it proposes"),
    ("sizes", "Sizes and weights"),
    ("proportions", "Proportions and angles"),
    ("teeth", "Teeth"),
    ("regions", "Region by region: what is asked, what is allowed"),
    ("silent", "What the standard is silent on"),
    ("classes", "Classes, what they lead to, the general clause"),
    ("faults", "Which fault falls in which class"),
)
_LINES = {
    "sizes": (
        "SIZE",
        "Sizes and weights in your own words, for instance: dogs 56-61 cm, bitches 51-56 cm; or: dogs over "
        "64 cm are disqualified; or: tolerance 1 cm; or: ideal height for dogs 58 cm; or: weight dogs 30 kg.",
    ),
    "proportions": (
        "PROPORTIONS",
        "A proportion or an angle, for instance: body length to height 10 : 9; or: depth of chest half the "
        "height at the withers; or: shoulder blade and upper arm at about 100 degrees.",
    ),
    "teeth": (
        "TEETH",
        "A rule on teeth, for instance: 42 teeth; or: missing P1 are not counted; or: one or more missing "
        "incisors are disqualifying; or: two missing P2 are a serious fault.",
    ),
}
_SAID = {
    "minor": "a minor fault",
    "fault": "a fault",
    "serious": "a serious fault",
    "severe": "a severe fault",
    "disqualifying": "disqualifying",
}
_HEADINGS = {
    "undesirable": "UNDESIRABLE",
    "highly-undesirable": "HIGHLY UNDESIRABLE",
    "minor": "MINOR FAULTS",
    "fault": "FAULTS",
    "serious": "SERIOUS FAULTS",
    "severe": "SEVERE FAULTS",
    "disqualifying": "DISQUALIFYING FAULTS",
}


def write_edition(stage: Stage, ask: asks.WriteEdition) -> None:
    """The blocks of the edition in `ask.path`, until it is left; `ask.done` is called then."""
    _Wizard(stage, EditionDraft(ask.path, stage.library), ask.done).menu()


class _Wizard(Block):
    def __init__(self, stage: Stage, draft: EditionDraft, done: Callable[[], object]) -> None:
        super().__init__(stage, draft, self.menu)
        self.done, self.at = done, 0

    def sizes(self) -> None:
        """Sizes and weights, by number or in own words."""
        self._figures().sizes()

    def proportions(self) -> None:
        """Proportions and angles, by number or in own words."""
        figures = self._figures("proportions")
        figures.proportions()

    def teeth(self) -> None:
        """Teeth, by number or in own words."""
        Teeth(self.stage, self.draft, self.menu, lambda: self._own_line("teeth", self.teeth)).teeth()

    def _figures(self, name: str = "sizes") -> Figures:
        back = self.sizes if name == "sizes" else self.proportions
        return Figures(self.stage, self.draft, self.menu, lambda: self._own_line(name, back))

    def _own_line(self, name: str, back: Callable[[], object]) -> None:
        self.line(*_LINES[name], dict(_BLOCKS)[name], back)

    def regions(self) -> None:
        """Region by region, then back here."""
        Regions(self.stage, self.draft, self.menu).regions()

    def silent(self) -> None:
        """What no rule names."""
        Regions(self.stage, self.draft, self.menu).silent()

    def classes(self) -> None:
        """The ladder."""
        Classes(self.stage, self.draft, self.menu).classes()

    # --- the menu

    def menu(self) -> None:
        """The blocks; what the check says of the file stands above them."""
        problems = problems_of(self.draft)
        state = "The file is sound." if not problems else f"{len(problems)} to mend: {problems[0]}"
        lines = [Line(str(n), told) for n, (_, told) in enumerate(_BLOCKS, 1)]
        lines.append(Line("0", "More: check, preview, beside another; law, own points, languages"))
        screen = NumberedScreen(
            f"Edition {self.draft.path.stem}",
            "Which block? Each answer is saved at once.",
            lines,
            state,
            "",
            self.at,
        )
        self.stage.push_screen(screen, self._chosen)

    def _chosen(self, key: str | None) -> None:
        if key is None:
            self.done()
            return
        self.at = (int(key) - 1) % (len(_BLOCKS) + 1)
        name = "more" if key == "0" else _BLOCKS[self.at][0]
        try:
            getattr(self, name)()
        except (StoreError, BadText, OSError) as error:
            self.stage.say("The edition's file", str(error))
            self.menu()

    # --- head and source

    def head(self, at: int = 0) -> None:
        """Breed, body, number, edition, date, title, then the source."""
        if at < len(_HEAD):
            key, ask = _HEAD[at]
            known = _said(self.draft.tables.get(key, ""))
            if key == "title" and (not known or known.endswith("a new edition")):
                head = self.draft.tables
                body = " ".join(part for part in (head.get("body", ""), head.get("number", "")) if part)
                known = ", ".join(
                    part
                    for part in (head.get("breed", ""), body, f"edition {head.get('edition', '')}")
                    if part
                )
            screen = TypedScreen("Head", ask, known, wrong=_WRONG.get(key, anything))

            def typed(value: str | None) -> None:
                if value is None:
                    self.menu()
                    return
                if value:
                    self.save(lambda: self.draft.head(key, value))
                self.head(at + 1)

            self.stage.push_screen(screen, typed)
            return
        known = _said(self.draft.tables.get("sources", {}).get(SOURCE, ""))

        def named(value: str | None) -> None:
            if value is not None:
                self.save(lambda: self.draft.source(value))
            self.menu()

        self.stage.push_screen(
            TypedScreen("Source", "The standard: body, number, title, date, which text was read.", known),
            named,
        )

    # --- the standard's text

    def text(self) -> None:
        """From a file, or pasted."""
        lines = [Line("1", "from a file"), Line("2", "paste it")]
        hint = "The text is read and not kept: figures, ids, single words and the names of paragraphs are."
        self.stage.push_screen(NumberedScreen("The standard's text", "Where from?", lines, hint), self._from)

    def _from(self, key: str | None) -> None:
        if key == "1":
            self.stage.push_screen(TypedScreen("The standard's text", "The file's name."), self._file)
        elif key == "2":
            ask = "Paste the standard's text here, then press F2."
            self.stage.push_screen(PastedScreen("The standard's text", ask), self._read)
        else:
            self.menu()

    def _file(self, name: str | None) -> None:
        if name is None:
            self.menu()
            return
        try:
            text = standard_text(Path(typed_path(name)))
        except (StoreError, BadText, OSError, ValueError) as error:
            self.stage.say("The standard's text", str(error))
            self.menu()
            return
        self._read(text)

    def _read(self, text: str | None) -> None:
        if text is None or not text.strip():
            self.menu()
            return
        read = read_standard(text, lexicon(self.stage.library, "any-dog"), self._unit())
        self.stage.push_screen(StandardTextScreen(self.draft, read, self._labels()), lambda _: self.menu())

    def _unit(self) -> str:
        """The unit that the edition asks lengths in."""
        return str(self.draft.tables.get("unit", "cm"))

    def _labels(self) -> dict[str, str]:
        common = self.stage.library.common()
        return {name: one.label for name, one in common.faults.items()} | {
            name: one.label for name, one in common.points.items()
        }

    # --- a line in the keeper's words

    def line(self, heading: str, ask: str, title: str, back: Callable[[], object]) -> None:
        """A line is read as the standard's text is; what it proposes is taken only when confirmed."""

        def typed(value: str | None) -> None:
            if not value:
                back()
                return
            self._confirm(self._proposals(heading, value), lambda: self.line(heading, ask, title, back))

        self.stage.push_screen(TypedScreen(title, f"{ask}\nEnter alone when done.", wrong=anything), typed)

    def _proposals(self, heading: str, value: str) -> list[Proposal]:
        known = self._known_sizes() if heading == "SIZE" else []
        if heading in _HEADINGS.values():
            value = in_full(value, [one.label for one in self.stage.library.common().faults.values()])
        told = "\n\n".join([heading, *known, value])
        read = read_standard(told, lexicon(self.stage.library, "any-dog"), self._unit())
        own = [one for one in read.reads if not one.sentence.heading and one.sentence.text not in known]
        found = {(p.kind, p.key): p for one in own for p in one.proposals}
        return [one for one in found.values() if one.kind != "asked" and not self.draft.taken(one)]

    def _known_sizes(self) -> list[str]:
        """What stands already of heights and weights, for a line that says `2 cm more`."""
        out = []
        for limit in self.draft.tables.get("limits", []):
            asked, sex = limit.get("asked", {}), limit.get("when", {}).get("sex", "")
            measure, unit = limit.get("measure"), limit.get("unit", "cm")
            if measure not in ("height", "weight") or limit.get("ideal") or not asked:
                continue
            who = {"male": "dogs", "female": "bitches"}.get(sex, "")
            name = f"{measure.capitalize()} {who}".strip()
            if "from" in asked and "to" in asked:
                out.append(f"{name} {asked['from']:g} to {asked['to']:g} {unit}.")
            elif "to" in asked or "from" in asked:
                end = f"not over {asked['to']:g}" if "to" in asked else f"at least {asked['from']:g}"
                out.append(f"{name} {end} {unit}.")
            for band in limit.get("bands", []):
                words = _SAID.get(band.get("class", ""))
                if words and "above" in band:
                    out.append(f"{name} over {band['above']:g} {unit} is {words}.")
                if words and "below" in band and "from" not in band:
                    out.append(f"{name} under {band['below']:g} {unit} is {words}.")
        return out

    def _confirm(self, found: list[Proposal], again: Callable[[], object]) -> None:
        if not found:
            self.stage.say(
                "Not understood",
                "Nothing new was read in this line. Say it in other words.",
            )
            again()
            return
        labels = self._labels()
        lines = [Line("1", "take it" if len(found) == 1 else "take all of it"), Line("2", "take none of it")]
        told = "\n".join(proposal_text(one, labels) for one in found)

        def chosen(key: str | None) -> None:
            if key == "1":
                self.save(lambda: self.draft.take_all(found))
            again()

        self.stage.push_screen(NumberedScreen("This is what was read", told, lines), chosen)

    def faults(self) -> None:
        """A class, and lines of faults that fall in it."""
        rows = [row for row in self.draft.tables.get("classes", []) if row.get("id") in _HEADINGS]
        lines = [Line(str(n), row.get("label", row["id"])) for n, row in enumerate(rows, 1)]
        lines += [Line(str(len(rows) + n), told) for n, told in enumerate(_FREE.values(), 1)]

        def chosen(key: str | None) -> None:
            if key is None:
                self.menu()
                return
            if int(key) > len(rows):
                self._free(list(_FREE)[int(key) - len(rows) - 1])
                return
            row = rows[int(key) - 1]
            ask = (
                "Faults of this class in your own words, with a degree where it counts: light eyes; marked "
                "roach back. The beginnings of their words do: li ey; ro ba."
            )
            self.line(_HEADINGS[row["id"]], ask, row.get("label", row["id"]), self.faults)

        self.stage.push_screen(NumberedScreen("Which fault in which class", "Which class?", lines), chosen)

    def _free(self, cls: str) -> None:
        """Faults that are none in this breed, or only recorded; each line names one or several."""

        def named(text: str) -> list[str]:
            return [named_fault(self, one) for one in text.split(";") if one.strip()]

        def wrong(text: str) -> str:
            return "" if all(named(text)) else "No fault of that name here; a semicolon stands between two."

        def typed(value: str | None) -> None:
            if not value:
                self.faults()
                return
            for fault in named(value):
                self.save(lambda fault=fault: self.draft.put_class_of(fault, cls))  # type: ignore[misc]
            self._free(cls)

        ask = "Their names or the beginnings of their words: li ey; ro ba. Enter alone when done."
        self.stage.push_screen(TypedScreen(_FREE[cls], ask, wrong=wrong), typed)

    def more(self) -> None:
        """Looking at it, and what few standards need."""
        More(self.stage, self.draft, self.menu).more()


_FREE = {"none": "allowed: no fault in this breed", "observation": "recorded, never counted"}


def _no_size(text: str) -> str:
    sizes = ("small", "medium", "large", "giant")
    return "" if not text or text in sizes else f"One of {', '.join(sizes)}, or Enter alone."


def _no_date(text: str) -> str:
    if not text:
        return ""
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        return "A date is written as 2012-03-14."
    return ""


def _said(value: object) -> str:
    """A value of the head, or nothing where it is still what the start of a file holds."""
    text = str(value)
    starts = ("Name of the breed", "A new edition", "0", "Body, number, title and date of the standard")
    return "" if text.startswith(starts) and not text[1:2].isdigit() else text


_WRONG = {"published": _no_date, "valid": _no_date, "size_class": _no_size}
