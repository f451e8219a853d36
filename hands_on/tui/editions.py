"""Ways into the screens about editions: two of them rule by rule, an examination under another, a new one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from hands_on.store.errors import StoreError
from hands_on.toml_text.problems import BadText
from hands_on.tui.screens.choose_edition import ChooseEdition
from hands_on.tui.screens.reading import Paragraph, ReadingScreen

if TYPE_CHECKING:
    from pathlib import Path

    from hands_on.ruleset.ruleset import Ruleset
    from hands_on.store.library import EditionHead
    from hands_on.tui.app import HandsOn
    from hands_on.tui.sheet import Sheet


CANT = "This edition can't be used"


def loaded(app: HandsOn, name: str) -> Ruleset | None:
    """The edition `name`; None where it can't be used, which is told."""
    try:
        return app.library.load(name)
    except (StoreError, BadText) as error:
        app.say(CANT, str(error))
        return None


def usable(app: HandsOn, head: EditionHead) -> Ruleset | None:
    """The edition of a row as its file is now; None where it can't be used, which is told."""
    if head.problem is None:
        app.library.look_again()
        return loaded(app, head.id)
    app.say(CANT, str(head.problem))
    return None


# --- two editions ------------------------------------------------------------------------------------


def pick_second(app: HandsOn, head: EditionHead) -> None:
    """Pick the edition to hold against the one of a row, those of its breed first, and show both."""
    first = usable(app, head)
    if first is None:
        return

    def chosen(name: str | None) -> None:
        second = loaded(app, name) if name is not None else None
        if second is not None:
            show_two_editions(app, first, second)

    app.push_screen(another(f"{first.edition.title}: against which edition?", first), chosen)


def another(title: str, own: Ruleset) -> ChooseEdition:
    """Asks for another edition than `own`, those of its breed first."""
    return ChooseEdition(title, breed=own.edition.breed, without=own.id, broken=True)


def show_two_editions(app: HandsOn, a: Ruleset, b: Ruleset) -> None:
    """Two editions rule by rule."""
    from hands_on.compare.editions.rule_by_rule import compare_editions
    from hands_on.tui.screens.two_editions import TwoEditionsScreen

    app.push_screen(TwoEditionsScreen(compare_editions(a, b)))


def under_another(app: HandsOn, sheet: Sheet) -> None:
    """Pick another edition, those of the breed first, and show what an examination gives under it."""
    from hands_on.evaluate import evaluate
    from hands_on.tui.screens.under_another import UnderAnotherScreen
    from hands_on.tui.sheet import own_hand

    def chosen(name: str | None) -> None:
        other = loaded(app, name) if name is not None else None
        if other is None:
            return
        session, path = sheet.session, sheet.path
        hand = own_hand(app.sessions, other, session.examination.evaluator, path)
        after = evaluate(other, session, name=path.name, hand=hand)
        app.push_screen(UnderAnotherScreen(sheet.evaluation, after, sheet.ruleset, other))

    app.push_screen(another("Under which other edition? Nothing is stored.", sheet.ruleset), chosen)


# --- a new edition -----------------------------------------------------------------------------------


def begin_edition(app: HandsOn, marked: EditionHead | None, done: Callable[[str], object]) -> None:
    """Ask for the id and what to begin with, write the file, say what is next; `done` gets the id."""
    from hands_on.store.new_edition import flaw_of_new
    from hands_on.tui.screens.typed import TypedScreen

    heads = app.library.heads()
    ask = (
        "Its id: small letters and digits with single hyphens, the breed and whose edition it is; "
        "for instance my-breed-fci-1."
    )

    def typed(name: str | None) -> None:
        if name is not None:
            _ask_origin(app, name, heads, marked, done)

    app.push_screen(TypedScreen("New edition", ask, wrong=lambda name: flaw_of_new(name, heads)), typed)


def _ask_origin(
    app: HandsOn,
    name: str,
    heads: Sequence[EditionHead],
    marked: EditionHead | None,
    done: Callable[[str], object],
) -> None:
    from hands_on.exam.dialogue import Line
    from hands_on.tui.screens.numbered import NumberedScreen

    nearest = marked if marked is not None and marked.problem is None else None
    lines = [
        Line("1", "a commented start, each kind of rule explained"),
        Line("2", "a copy of another edition"),
        *([Line("3", f"a copy of the one marked: {nearest.title}")] if nearest is not None else []),
    ]

    def chosen(key: str | None) -> None:
        if key == "1":
            _begin(app, name, heads, None, done)
        elif key == "2":
            screen = ChooseEdition("Copy which edition?", breed=nearest.breed if nearest is not None else "")
            app.push_screen(screen, lambda origin: _begin(app, name, heads, origin, done) if origin else None)
        elif key == "3" and nearest is not None:
            _begin(app, name, heads, nearest.id, done)

    app.push_screen(NumberedScreen(f"New edition: {name}", "Begin with what?", lines), chosen)


def _begin(
    app: HandsOn,
    name: str,
    heads: Sequence[EditionHead],
    origin: str | None,
    done: Callable[[str], object],
) -> None:
    from hands_on.store.new_edition import begin

    path = app.ruleset_folders[-1] / f"{name}.toml"
    try:
        begin(name, heads, origin, path)
    except (StoreError, BadText) as error:
        app.say("No new edition was written", str(error))
        return

    def read(_: None) -> None:
        done(name)

    app.push_screen(ReadingScreen(f"New edition: {name}", _next(name, path)), read)


def _next(name: str, path: Path) -> list[Paragraph]:
    from hands_on.store.new_edition import guide, next_steps

    check, read, examine = next_steps(name, path)
    return [
        Paragraph(str(path), "Its file"),
        Paragraph(
            "1. Edit the file with any text editor: sources first, then only what your edition says. No "
            "figure in it is your breed's until you have put it there. Every key is explained in\n"
            f"   {guide()}",
            "What to do next",
        ),
        Paragraph(f"2. Check it after each change, until it is sound:\n   {check}"),
        Paragraph(f"3. Read it as others will:\n   {read}"),
        Paragraph(f"4. Examine a dog under it, with New examination on the start screen or\n   {examine}"),
    ]
