"""The shipped lexicon, built once, and a short way to read a note."""

from collections.abc import Callable

import pytest

from hands_on.notes import Lexicon, Reading, read_note
from tests.bench.load import shipped_lexicon


@pytest.fixture(scope="session")
def lexicon() -> Lexicon:
    return shipped_lexicon()


@pytest.fixture(scope="session")
def read(lexicon: Lexicon) -> Callable[..., Reading]:
    def run(note: str, region: str | None = None, point: str | None = None) -> Reading:
        return read_note(note, lexicon, region=region, point=point)

    return run


def findings(reading: Reading) -> set[tuple[str, str]]:
    """Fault and status of each finding."""
    return {(f.id, f.status) for f in reading.faults}
