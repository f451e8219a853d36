"""Ways into the screens that compare: which sessions, read with their editions, and the screen for them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.store.errors import StoreError
from hands_on.toml_text.problems import BadText

if TYPE_CHECKING:
    from hands_on.compare.examined import Examined
    from hands_on.store.headers import Row
    from hands_on.tui.app import HandsOn

NEWEST = 500
"""Sessions looked through for those of one dog, or of dogs that several evaluators examined."""


# --- which sessions ----------------------------------------------------------------------------------


def pick_compare(app: HandsOn, first: Path | None = None) -> None:
    """Mark two to six sessions and show them side by side."""
    from hands_on.compare.dogs.side_by_side import MOST
    from hands_on.tui.screens.pick_sessions import PickSessions

    ask = f"Mark two to {MOST}; the first is the left column."
    screen = PickSessions("Compare: which examinations?", ask, 2, MOST, [first] if first is not None else [])
    app.push_screen(screen, lambda paths: show_side_by_side(app, held_here(app, paths)) if paths else None)


def pick_recheck(app: HandsOn) -> None:
    """Pick the earlier session of the dog that comes back."""
    from hands_on.tui.screens.pick_sessions import PickSessions

    ask = "Mark its earlier examination. Its answers stay hidden until the new ones are given."
    screen = PickSessions("Re-check: which dog?", ask, 1, 1)
    app.push_screen(screen, lambda paths: start_recheck(app, paths[0]) if paths else None)


def pick_agree(app: HandsOn) -> None:
    """A round, all dogs that several evaluators examined, a folder, or sessions marked by hand."""
    from hands_on.exam.dialogue import Line
    from hands_on.exam.round import group_rounds
    from hands_on.store.session_file import read_session
    from hands_on.tui.screens.numbered import NumberedScreen

    rows = kept_rows(app)
    named = []
    for row in rows:
        if row.kind == "round":
            try:
                named.append((str(row.path), read_session(row.path)))
            except BadText:
                continue
    groups = [group for group in group_rounds(named) if len(group.evaluators) > 1]
    shared = by_several(rows)
    dogs = len({_dog_of(row) for row in shared})
    lines = [
        Line("1", "all dogs here that several evaluators examined", aside=f"{dogs} of them"),
        Line("2", "a folder (typed)"),
        Line("3", "mark the examinations"),
        *(
            Line(str(n), f"the round {group.round}", aside=_size(len(group.dogs), len(group.evaluators)))
            for n, group in enumerate(groups, 4)
        ),
    ]

    def chosen(key: str | None) -> None:
        if key == "1":
            show_agreement(app, held_here(app, [row.path for row in shared]))
        elif key == "2":
            _ask_folder(app)
        elif key == "3":
            _mark_for_agreement(app)
        elif key is not None:
            show_agreement(app, held_here(app, [Path(name) for name in groups[int(key) - 4].names]))

    ask = "Of which examinations? The same dogs, gone over by several evaluators."
    app.push_screen(NumberedScreen("Agreement of evaluators", ask, lines), chosen)


def _mark_for_agreement(app: HandsOn) -> None:
    from hands_on.tui.screens.pick_sessions import PickSessions

    ask = "Mark the examinations of the same dogs by several evaluators."
    screen = PickSessions("Agreement: which examinations?", ask, 2, NEWEST)
    app.push_screen(screen, lambda paths: show_agreement(app, held_here(app, paths)) if paths else None)


def _ask_folder(app: HandsOn) -> None:
    from hands_on.tui.screens.typed import TypedScreen

    def wrong(text: str) -> str:
        return "" if text and Path(text).expanduser().is_dir() else "There is no such folder."

    def typed(name: str | None) -> None:
        if name is not None:
            paths = sorted(Path(name).expanduser().glob("*.toml"))
            show_agreement(app, held_here(app, paths, strict=False))

    screen = TypedScreen("Agreement", "The folder in which the sessions were gathered:", wrong=wrong)
    app.push_screen(screen, typed)


def kept_rows(app: HandsOn, text: str = "", *, fresh: bool = True) -> list[Row]:
    """The newest sessions kept that can be opened; none where the records can't be read, which is told.

    Without `fresh` the folder is not looked through again.
    """
    from hands_on.store import places
    from hands_on.store.records import Records

    try:
        with Records(app.sessions, places.index_path(app.sessions)) as records:
            if fresh:
                records.refresh()
            return [row for row in records.find(text, NEWEST) if row.problem is None]
    except (StoreError, OSError) as error:
        app.say("The records can't be read", str(error))
        return []


def by_several(rows: Sequence[Row]) -> list[Row]:
    """The sessions of dogs that more than one evaluator examined."""
    ordered = sorted((row for row in rows if row.evaluator and row.answers), key=_dog_of)
    found: list[Row] = []
    for _, group in groupby(ordered, key=_dog_of):
        own = list(group)
        if len({row.evaluator.casefold() for row in own}) > 1:
            found += own
    return found


def _dog_of(row: Row) -> str:
    names = row.chip or row.tattoo or row.registration or row.registered_name or row.call_name
    return names.casefold()


def _size(dogs: int, evaluators: int) -> str:
    return f"{dogs} dog{'' if dogs == 1 else 's'}, {evaluators} evaluators"


def held_here(app: HandsOn, paths: Sequence[Path], *, strict: bool = True) -> list[Examined]:
    """The sessions with their editions; what can't be read is told, and with `strict` then there are none."""
    from hands_on.store.examined import examined_file

    found, problems = [], []
    for path in paths:
        try:
            found.append(examined_file(path, app.library))
        except (StoreError, BadText) as error:
            problems.append(str(error))
    if problems and (strict or not found):
        app.say("These sessions can't be opened", "\n\n".join([*problems, "The files are left as they are."]))
        return []
    return found


# --- their screens -----------------------------------------------------------------------------------


def show_side_by_side(app: HandsOn, sessions: Sequence[Examined]) -> None:
    """A column a session."""
    if not sessions:
        return
    from hands_on.compare.dogs.side_by_side import side_by_side
    from hands_on.tui.screens.compare import CompareScreen

    app.push_screen(CompareScreen(side_by_side(sessions)))


def show_pairing(app: HandsOn, sessions: Sequence[Examined]) -> None:
    """Two sessions as sire and dam."""
    from hands_on.compare.dogs.pairing import pairing
    from hands_on.tui.screens.pairing import PairingScreen

    app.push_screen(PairingScreen(pairing(sessions[0], sessions[1])))


def show_agreement(app: HandsOn, sessions: Sequence[Examined]) -> None:
    """How well the evaluators of these sessions agree."""
    from hands_on.compare.agreement.by_point import agreement
    from hands_on.tui.screens.agree import AgreeScreen

    if not sessions:
        app.say("Agreement", "No examinations to compare here: it takes two evaluators on the same dog.")
        return
    app.push_screen(AgreeScreen(agreement(sessions)))


def start_recheck(app: HandsOn, path: Path) -> None:
    """What to look at again in the dog of a session, and from there its re-check."""
    from hands_on.tui.screens.recheck import RecheckScreen

    for one in held_here(app, [path]):
        app.push_screen(RecheckScreen(path, one))


def show_history(app: HandsOn, path: Path) -> None:
    """The dog of a session over all its examinations kept here."""
    from hands_on.compare.dogs.history import history
    from hands_on.compare.examined import same_dog
    from hands_on.tui.screens.history import HistoryScreen

    for one in held_here(app, [path]):
        rows = kept_rows(app, one.session.dog.identity)
        others = [row.path for row in rows if row.path.resolve() != path.resolve()]
        same = [other for other in held_here(app, others, strict=False) if same_dog(other, one)]
        if not same:
            text = f"{one.dog} was examined once only; a history begins with the second examination."
            app.say("History", text)
            return
        app.push_screen(HistoryScreen(history([*same, one])))
