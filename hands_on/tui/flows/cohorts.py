"""Many dogs together: which of them, and the screen for it."""

from __future__ import annotations

import re

from hands_on.compare.cohort.members import Wanted
from hands_on.exam.dialogue import Line
from hands_on.store.session_file import read_session
from hands_on.toml_text.problems import BadText
from hands_on.tui import asks
from hands_on.tui.program import Stage
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.screens.cohort import CohortScreen

_YEARS = re.compile(r"(\d{4})(?:\s*-\s*(\d{4}))?")


def pick_cohort(stage: Stage, ask: asks.Cohort) -> None:
    """All that were found, the marked dog's litter, its parents' offspring, a kennel, years of birth."""
    offered: list[tuple[str, Wanted]] = [(f"all {len(ask.paths)} examinations found", Wanted())]
    if ask.marked is not None:
        try:
            dog = read_session(ask.marked).dog
        except BadText:
            dog = None
        if dog is not None and dog.litter:
            offered.append(
                (f"the litter {dog.litter}", Wanted(litter=dog.litter, sire=dog.sire, dam=dog.dam))
            )
        if dog is not None and dog.sire:
            offered.append((f"offspring of the sire {dog.sire}", Wanted(sire=dog.sire)))
        if dog is not None and dog.dam:
            offered.append((f"offspring of the dam {dog.dam}", Wanted(dam=dog.dam)))
    lines = [Line(str(n), label) for n, (label, _) in enumerate(offered, 1)]
    kennel, breed, born = (str(len(offered) + n) for n in (1, 2, 3))
    lines += [
        Line(kennel, "a kennel, by its name (typed)"),
        Line(breed, "a breed, by its name (typed)"),
        Line(born, "years of birth (typed)"),
    ]

    def show(wanted: Wanted) -> None:
        stage.push_screen(CohortScreen(ask.paths, wanted))

    def chosen(key: str | None) -> None:
        if key == kennel:
            told = "Part of the registered name, as a kennel's name is:"
            stage.push_screen(TypedScreen("A kennel", told), named)
        elif key == breed:
            stage.push_screen(TypedScreen("A breed", "Part of the breed's name:"), of_breed)
        elif key == born:
            screen = TypedScreen("Years of birth", "A year, or 2020-2023:", wrong=_wrong_years)
            stage.push_screen(screen, years)
        elif key is not None:
            show(offered[int(key) - 1][1])

    def named(text: str | None) -> None:
        if text:
            show(Wanted(kennel=text))

    def of_breed(text: str | None) -> None:
        if text:
            show(Wanted(breed=text))

    def years(text: str | None) -> None:
        found = _YEARS.fullmatch(text.strip()) if text else None
        if found is not None:
            show(Wanted(born_from=int(found[1]), born_to=int(found[2] or found[1])))

    stage.push_screen(NumberedScreen("Many dogs together", "Which dogs?", lines), chosen)


def _wrong_years(text: str) -> str:
    return "" if _YEARS.fullmatch(text.strip()) else "Right would be 2023, or 2020-2023."
