"""Seminar rounds on the screens: begin one, take part in one, where its sessions are."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.store.errors import StoreError
from hands_on.toml_text.problems import BadText

if TYPE_CHECKING:
    from hands_on.exam.round import Round
    from hands_on.exam.session import Session
    from hands_on.tui.app import HandsOn

MOST = 2000
"""Newest sessions of rounds that are looked through for those of one round."""


@dataclass(frozen=True)
class Kept:
    """A session of a round."""

    path: Path
    session: Session
    number: str
    """The dog's number in the round."""

    @property
    def evaluator(self) -> str:
        """Who examined."""
        return self.session.examination.evaluator


def open_round(app: HandsOn, path: Path) -> bool:
    """Open the round in `path`, or tell what is wrong with it; False where the file holds no round."""
    from hands_on.store.round_file import read_round

    try:
        found = read_round(path)
    except BadText as error:
        app.say("This round can't be opened", f"{error}\n\nThe file is left as it is.")
        return True
    if found is None:
        return False
    show_round(app, path, found)
    return True


def show_round(app: HandsOn, path: Path, found: Round) -> None:
    """The dogs of a round, once its edition is known to be here."""
    from hands_on.tui.screens.round import RoundScreen

    try:
        ruleset = app.library.load(found.ruleset.id)
    except (StoreError, BadText) as error:
        app.say("This round can't be opened", f"{error}\n\nIts edition must be here first.")
        return
    app.push_screen(RoundScreen(path, found, ruleset))


def begin_round(app: HandsOn) -> None:
    """Ask whether to begin a round or to take part in one."""
    from hands_on.exam.dialogue import Line
    from hands_on.store.round_file import rounds_folder, rounds_in
    from hands_on.tui.screens.numbered import NumberedScreen
    from hands_on.tui.screens.typed import TypedScreen

    here = rounds_in(rounds_folder(app.sessions))
    lines = [
        Line("1", "begin a new round: edition, dogs, a small file for everybody"),
        Line("2", "take part: the round's file is somewhere else (typed)"),
        *(
            Line(str(n), f"open: {one.round.title or one.round.id}", aside=_in_short(one))
            for n, (_, one) in enumerate(here, 3)
        ),
    ]
    ask = "Everybody goes over the same dogs on their own; how well they agree is shown afterwards."

    def chosen(key: str | None) -> None:
        if key == "1":
            _host(app)
        elif key == "2":
            screen = TypedScreen("Take part in a round", "The round's file:", wrong=_wrong_path)
            app.push_screen(screen, lambda name: _open_typed(app, name))
        elif key is not None:
            path, one = here[int(key) - 3]
            show_round(app, path, one)

    app.push_screen(NumberedScreen("Seminar round", ask, lines), chosen)


def sessions_of(app: HandsOn, found: Round, beside: Path) -> list[Kept]:
    """The sessions here that name the round: among those kept, and beside the round's file."""
    from hands_on.exam.round import place_of
    from hands_on.store import places
    from hands_on.store.records import Records
    from hands_on.store.session_file import read_session

    name = found.round.id
    paths: dict[Path, None] = {}
    try:
        with Records(app.sessions, places.index_path(app.sessions)) as records:
            records.refresh()
            rows = records.list(MOST)
        paths.update((row.path, None) for row in rows if row.kind == "round" and row.problem is None)
    except (StoreError, OSError):
        pass  # the records' own screen tells what is wrong with them
    if beside.parent != app.sessions:
        paths.update((path, None) for path in sorted(beside.parent.glob("*.toml")) if path != beside)
    kept = []
    for path in paths:
        try:
            session = read_session(path)
        except BadText:
            continue
        place = place_of(session)
        if place is not None and place.round == name:
            kept.append(Kept(path, session, place.dog))
    return kept


def _host(app: HandsOn) -> None:
    from hands_on.tui.screens.choose_edition import ChooseEdition

    def chosen(edition: str | None) -> None:
        if edition is None:
            return
        from hands_on.tui.screens.host import HostScreen

        try:
            ruleset = app.library.load(edition)
        except (StoreError, BadText) as error:
            app.say("This edition can't be used", str(error))
            return
        app.push_screen(HostScreen(ruleset))

    app.push_screen(ChooseEdition("New round: under which edition?"), chosen)


def _open_typed(app: HandsOn, name: str | None) -> None:
    if name is not None and not open_round(app, Path(name).expanduser()):
        app.say("This is no round", f"{name}\n\nA round's file has a table [round] and its [[dogs]].")


def _wrong_path(text: str) -> str:
    if not text:
        return "Type the name of the round's file."
    return "" if Path(text).expanduser().is_file() else "There is no such file."


def _in_short(one: Round) -> str:
    dogs = len(one.dogs)
    held = f", {one.round.held}" if one.round.held else ""
    return f"{dogs} dog{'' if dogs == 1 else 's'}{held}"
