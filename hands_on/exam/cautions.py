"""What is read, and asked, before the dog is touched. The texts are data: `common/cautions.toml`."""

from __future__ import annotations

from typing import Literal

from hands_on.exam.session import Session
from hands_on.ruleset.base import Name, Part, Source
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Caution", "CautionsFile", "cautions_for", "unread"]


class Caution(Part):
    """One thing to know before touching the dog."""

    id: Name
    label: str
    text: str
    question: str = ""
    """Not empty: answered with yes or no."""
    advice_yes: str = ""
    """What follows from a yes."""
    advice_no: str = ""
    """What follows from a no."""
    stop: Literal["", "yes", "no"] = ""
    """The answer after which the examination does not begin."""
    words: Literal["", "yes", "no"] = ""
    """The answer after which what is known is asked in words."""
    source: Source

    def advice(self, answer: str) -> str:
        """What follows from an answer."""
        return {"yes": self.advice_yes, "no": self.advice_no}.get(answer, "")


class CautionsFile(Part):
    """`common/cautions.toml`."""

    format: Literal[1]
    sources: dict[str, str] = {}
    cautions: tuple[Caution, ...]


def cautions_for(file: CautionsFile, ruleset: Ruleset, session: Session) -> tuple[Caution, ...]:
    """What is read before this examination: what all dogs share, and what the chosen switches say."""
    chosen = [name for name in session.examination.switches if name in ruleset.edition.switches]
    own = [
        Caution(
            id=f"switch.{name}",
            label=ruleset.edition.switches[name].label,
            text=ruleset.edition.switches[name].caution,
            source=("common practice",),
        )
        for name in chosen
    ]
    return (*file.cautions, *own)


def unread(cautions: tuple[Caution, ...], session: Session) -> tuple[Caution, ...]:
    """Those not yet acknowledged, or answered so that the examination does not begin."""
    answers = {row.id: row.answer for row in session.cautions}
    return tuple(
        row for row in cautions if row.id not in answers or (row.stop and answers[row.id] == row.stop)
    )
