"""Learning an edition's wording takes seconds: what many tests read notes with is learned once."""

from __future__ import annotations

from collections.abc import Callable

from hands_on import notes


def built_once(build: Callable[[notes.WordingSource], notes.Lexicon]) -> Callable[..., notes.Lexicon]:
    """The same wording gives the same lexicon, which nothing changes: for all tests it is built once."""
    known: list[tuple[notes.WordingSource, notes.Lexicon]] = []

    def lexicon(source: notes.WordingSource) -> notes.Lexicon:
        found = next((one for of, one in known if of == source), None)
        if found is None:
            found = build(source)
            known[8:] = []
            known.insert(0, (source, found))
        return found

    return lexicon


def build_once() -> None:
    """Let all of this process do so; to be asked before anything imports `build_lexicon`."""
    notes.build_lexicon = notes.lexicon.build_lexicon = built_once(notes.build_lexicon)
