"""Editions: one to read, two of them rule by rule, an examination under another, a new one begun."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from hands_on.compare.editions.rule_by_rule import compare_editions
from hands_on.evaluate import evaluate
from hands_on.exam.dialogue import Line
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.edition_heads import EditionHead
from hands_on.store.errors import StoreError
from hands_on.store.new_edition import begin, flaw_of_new, guide, next_steps
from hands_on.toml_text.problems import BadText
from hands_on.tui import asks
from hands_on.tui.current_examination import own_hand
from hands_on.tui.flows.usable import loaded, usable
from hands_on.tui.program import Stage
from hands_on.tui.questions.choose_edition import ChooseEdition
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.reading import Paragraph, ReadingScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.screens.two_editions import TwoEditionsScreen
from hands_on.tui.screens.under_another import UnderAnotherScreen
from hands_on.wording.edition import sections

# --- two editions ------------------------------------------------------------------------------------


def read_edition(stage: Stage, ask: asks.ReadEdition) -> None:
    """An edition to read, each figure with its source."""
    ruleset = usable(stage, ask.head)
    if ruleset is None:
        return
    paragraphs = [
        Paragraph(
            "- " + entry.text + (f"  [{entry.source}]" if entry.source else ""),
            section.title if not number else "",
            entry.note,
        )
        for section in sections(ruleset)
        for number, entry in enumerate(section.entries)
    ]
    stage.push_screen(ReadingScreen(ask.head.title, paragraphs))


def against_another(stage: Stage, ask: asks.AgainstAnother) -> None:
    """Pick the edition to compare the one of a row with, those of its breed first, and show both."""
    head = ask.head
    first = usable(stage, head)
    if first is None:
        return

    def chosen(name: str | None) -> None:
        second = loaded(stage, name) if name is not None else None
        if second is not None:
            show_two_editions(stage, asks.TwoEditions(first, second))

    stage.push_screen(another(f"{first.edition.title}: against which edition?", first), chosen)


def another(title: str, own: Ruleset) -> ChooseEdition:
    """Asks for another edition than `own`, those of its breed first."""
    return ChooseEdition(title, breed=own.edition.breed, without=own.id, broken=True)


def show_two_editions(stage: Stage, ask: asks.TwoEditions) -> None:
    """Two editions rule by rule."""

    def left(_: None) -> None:
        if ask.done is not None:
            ask.done()

    stage.push_screen(TwoEditionsScreen(compare_editions(ask.first, ask.second)), left)


def under_another(stage: Stage, ask: asks.UnderAnother) -> None:
    """Pick another edition, those of the breed first, and show what an examination gives under it."""
    sheet = ask.sheet

    def chosen(name: str | None) -> None:
        other = loaded(stage, name) if name is not None else None
        if other is None:
            return
        session, path = sheet.session, sheet.path
        hand = own_hand(stage.sessions, other, session.examination.evaluator, path)
        after = evaluate(other, session, name=path.name, hand=hand)
        stage.push_screen(UnderAnotherScreen(sheet.evaluation, after, sheet.ruleset, other))

    stage.push_screen(another("Under which other edition? Nothing is stored.", sheet.ruleset), chosen)


# --- a new edition -----------------------------------------------------------------------------------


def new_edition(stage: Stage, ask: asks.NewEdition) -> None:
    """Ask for the id and what to begin with, write the file, say what is next; `done` gets the id."""

    heads = stage.library.heads()
    told = (
        "Its id: small letters and digits with single hyphens, the breed and whose edition it is; "
        "for instance my-breed-fci-1."
    )

    def typed(name: str | None) -> None:
        if name is not None:
            _ask_origin(stage, name, heads, ask.marked, ask.done)

    stage.push_screen(TypedScreen("New edition", told, wrong=lambda name: flaw_of_new(name, heads)), typed)


def _ask_origin(
    stage: Stage,
    name: str,
    heads: Sequence[EditionHead],
    marked: EditionHead | None,
    done: Callable[[str], object],
) -> None:

    nearest = marked if marked is not None and marked.problem is None else None
    lines = [
        Line("1", "a commented start, each kind of rule explained"),
        Line("2", "a copy of another edition"),
        *([Line("3", f"a copy of the one marked: {nearest.title}")] if nearest is not None else []),
    ]

    def copied(origin: str | None) -> None:
        if origin:
            _begin(stage, name, heads, origin, done)

    def chosen(key: str | None) -> None:
        if key == "1":
            _begin(stage, name, heads, None, done)
        elif key == "2":
            screen = ChooseEdition("Copy which edition?", breed=nearest.breed if nearest is not None else "")
            stage.push_screen(screen, copied)
        elif key == "3" and nearest is not None:
            _begin(stage, name, heads, nearest.id, done)

    stage.push_screen(NumberedScreen(f"New edition: {name}", "Begin with what?", lines), chosen)


def _begin(
    stage: Stage,
    name: str,
    heads: Sequence[EditionHead],
    origin: str | None,
    done: Callable[[str], object],
) -> None:

    path = stage.own_rulesets / f"{name}.toml"
    try:
        begin(name, heads, origin, path)
    except (StoreError, BadText) as error:
        stage.say("No new edition was written", str(error))
        return

    def read(_: None) -> None:
        done(name)

    def chosen(key: str | None) -> None:
        if key == "1":
            stage.go(asks.WriteEdition(path, lambda: done(name)))
        else:
            stage.push_screen(ReadingScreen(f"New edition: {name}", _next(name, path)), read)

    lines = [Line("1", "here, block by block"), Line("2", "in a text editor: say what comes next")]
    stage.push_screen(NumberedScreen(f"New edition: {name}", "How will you write it?", lines), chosen)


def _next(name: str, path: Path) -> list[Paragraph]:

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
