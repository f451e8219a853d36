"""What was gathered for a round, in sentences. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

__all__ = ["delivered_sentences", "gathered_sentences"]

_NAMED = 20


def gathered_sentences(
    taken: Sequence[tuple[str, str, str]],
    there: int,
    copies: Sequence[tuple[str, str]],
    others: int,
    unread: Sequence[str],
    more: bool,
) -> Iterator[str]:
    """What came of a source.

    `taken`: evaluator, dog's number and file of each session new here; `copies`: file here, file beside it.
    """
    yield f"{len(taken)} new session{'' if len(taken) == 1 else 's'} taken."
    by_evaluator: dict[str, list[str]] = {}
    for evaluator, number, _ in taken:
        by_evaluator.setdefault(evaluator or "evaluator not named", []).append(number)
    for evaluator, numbers in by_evaluator.items():
        yield f"{evaluator}: {'dog' if len(numbers) == 1 else 'dogs'} {', '.join(numbers)}."
    if there:
        yield f"{there} were here already, to the letter."
    for here, beside in copies[:_NAMED]:
        yield (
            f"{beside} is another state of the examination in {here} (same dog, evaluator and start). Both "
            "are kept; the signed one counts, else the one with more answers."
        )
    if others:
        yield f"{others} other file{' is' if others == 1 else 's are'} not of this round, and left alone."
    yield from (f"Left out: {reason}" for reason in unread[:_NAMED])
    if len(unread) > _NAMED:
        yield f"Left out: {len(unread) - _NAMED} more."
    if more:
        yield "There was more than is looked at: point at a smaller folder for the rest."


def delivered_sentences(sessions: Sequence[tuple[str, str, bool]], dogs: Sequence[str]) -> Iterator[str]:
    """Who has signed, begun and lacks which dog; `sessions`: evaluator, dog's number, whether signed."""
    by_evaluator: dict[str, dict[str, bool]] = {}
    names: dict[str, str] = {}
    for evaluator, number, signed in sessions:
        who = names.setdefault(evaluator.casefold(), evaluator or "evaluator not named")
        states = by_evaluator.setdefault(who, {})
        states[number] = states.get(number, False) or signed
    for who, states in sorted(by_evaluator.items()):
        parts = [
            _numbers("signed", [dog for dog in dogs if states.get(dog)]),
            _numbers("begun", [dog for dog in dogs if states.get(dog) is False]),
            _numbers("lacks", [dog for dog in dogs if dog not in states]),
        ]
        yield f"{who}: {'; '.join(part for part in parts if part)}."


def _numbers(word: str, dogs: Sequence[str]) -> str:
    return f"{word} {', '.join(dogs)}" if dogs else ""
