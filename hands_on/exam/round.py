"""A seminar round: the same dogs, the same points, every evaluator on their own. Its file is explained in
sessions/README.md.

The host writes the file; each participant's session names the round and the dog's number, so that sessions
gathered in one folder can be put together again.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, field_validator

from hands_on.exam.left_out import NOT_IN_ROUND, all_but
from hands_on.exam.session import Dog, Examination, Record, RulesetRef, Session
from hands_on.exam.walk import stops
from hands_on.frozen import dataclass
from hands_on.ruleset.base import Name, Words
from hands_on.ruleset.ruleset import Ruleset
from hands_on.toml_text.formats import format_problem
from hands_on.toml_text.lines import Path
from hands_on.toml_text.parse import validate
from hands_on.toml_text.problems import BadText, Problem
from hands_on.toml_text.report import Report, offer
from hands_on.toml_text.tables import explained, parse_tables

__all__ = [
    "FORMAT",
    "About",
    "InRound",
    "Round",
    "RoundDog",
    "RoundGroup",
    "check_round",
    "dump_round",
    "group_rounds",
    "is_round",
    "parse_round",
    "place_of",
    "session_for",
]

FORMAT = 1


def _text(value: Any) -> Any:
    return str(value) if isinstance(value, int) and not isinstance(value, bool) else value


class RoundDog(Dog):
    """A dog of the round by its number; everything else of it may be left out."""

    number: Annotated[str, BeforeValidator(_text), Field(min_length=1)]
    again: Annotated[str, BeforeValidator(_text)] = ""
    """The number under which the dog stands already: gone over twice, it tells how a hand repeats itself."""

    def as_dog(self) -> Dog:
        """The dog without its number."""
        return Dog.model_validate(self.model_dump(exclude={"number", "again"}))


class About(Record):
    """What the round is."""

    id: Name
    title: str = ""
    host: str = ""
    held: datetime.date | None = None
    place: str = ""
    country: str = ""
    purpose: str = ""
    points: Literal["all"] | Words = "all"
    """The points that are examined; the others are skipped in every session."""
    names: bool = True
    """Are the dogs shown by name? With false by their numbers only, as a blind repeat needs it."""

    @field_validator("points")
    @classmethod
    def _some(cls, value: Literal["all"] | tuple[str, ...], info: ValidationInfo) -> Any:
        if value == "all" or tuple(value) == ("all",):
            return "all"
        if not value:
            raise ValueError('no points at all. Right: points = "all", or a list of their ids.')
        return value


class Round(Record):
    """A round as it stands in its file."""

    format: int = FORMAT
    round: About
    ruleset: RulesetRef
    dogs: tuple[RoundDog, ...] = Field(min_length=1)

    def dog(self, number: str) -> RoundDog:
        """The dog of that number. Raises KeyError."""
        for dog in self.dogs:
            if dog.number == number:
                return dog
        raise KeyError(number)

    def known_dog(self, number: str) -> Dog:
        """What sessions are told of the dog: of one gone over again what is known of it already, and without
        names only what the rules ask. Raises KeyError."""
        own = self.dog(number)
        dog = (self.dog(own.again) if own.again else own).as_dog()
        if self.round.names:
            return dog
        kept = {"sex", "born", "variety", "colour", "attributes"}
        return Dog.model_validate({**dog.model_dump(include=kept), "call_name": f"Dog {number}"})


def is_round(tables: dict[str, Any]) -> bool:
    """Are these tables a round's, and not a session's?"""
    return "round" in tables and "dogs" in tables


def parse_round(text: str, file: str) -> Round:
    """The round written in `text`. Raises BadText with lines: no TOML, newer format, keys that do not fit,
    a number given twice."""
    tables = parse_tables(text, file)
    unread = format_problem(tables, FORMAT, text, file)
    if unread is not None:
        raise BadText([unread])
    with explained(file):
        found = validate(Round, tables, text, file)
    report = Report(file, text)
    numbers = ((("dogs", n, "number"), dog.number) for n, dog in enumerate(found.dogs))
    report.unique(numbers, "dog's number")
    for n, dog in enumerate(found.dogs):
        if dog.again:
            firsts = [other.number for other in found.dogs if not other.again and other.number != dog.number]
            report.expect(("dogs", n, "again"), dog.again, firsts, "dog's number")
    if report.problems:
        raise BadText(report.problems)
    return found


def check_round(text: str, file: str, rules: Ruleset | None, editions: Iterable[str]) -> list[Problem]:
    """All that is wrong in a round's file; `rules` is its edition, None where that is not here."""
    try:
        found = parse_round(text, file)
    except BadText as bad:
        return bad.problems
    report = Report(file, text)
    report.expect(("ruleset", "id"), found.ruleset.id, editions, "ruleset")
    _tell_unknown(report, parse_tables(text, file))
    if found.round.points != "all":
        report.unique(((("round", "points", n), name) for n, name in enumerate(found.round.points)), "point")
    if rules is not None:
        for n, name in enumerate(found.round.points if found.round.points != "all" else ()):
            report.expect(("round", "points", n), name, rules.points, "point")
        if found.ruleset.digest and found.ruleset.digest != rules.digest:
            what = "the ruleset has changed since the round was written."
            right = (
                f'the edition that was meant, or digest = "{rules.digest}" in the file of every participant.'
            )
            report.warn(("ruleset", "digest"), what, right)
    for n, dog in enumerate(found.dogs):
        if dog.again:
            continue
        if dog.sex is None:
            what = f"the sex of dog {dog.number} is missing, so no limit by sex can be judged."
            report.warn(("dogs", n), what, 'sex = "male" or sex = "female".')
        if dog.born is None:
            what = f"the date of birth of dog {dog.number} is missing, so its age is not known."
            report.warn(("dogs", n), what, "born = 2023-05-14")
    return report.sorted()


def _tell_unknown(report: Report, tables: dict[str, Any]) -> None:
    """Warn of keys that a round does not know: they are kept, and a slip of the finger is likelier."""
    rows: list[tuple[Path, dict[str, Any], type[Record]]] = [
        ((), tables, Round),
        (("round",), tables["round"], About),
        *((("dogs", n), dog, RoundDog) for n, dog in enumerate(tables["dogs"])),
    ]
    for path, row, model in rows:
        for key in row.keys() - set(model.model_fields):
            report.warn((*path, key), f"a round knows no `{key}`; it is kept and not used.",
                        offer(key, list(model.model_fields), "key"))  # fmt: skip


def dump_round(found: Round) -> str:
    """The file of a round."""
    import tomli_w

    tables = found.model_dump(exclude_none=True, exclude_defaults=True)
    dogs = tables.pop("dogs")
    parts = [tomli_w.dumps({"format": found.format} | tables)]
    for dog in dogs:
        nested = {key: value for key, value in dog.items() if isinstance(value, dict)}
        plain = {"number": dog["number"]} | {k: v for k, v in dog.items() if k not in nested}
        rows = [
            f"{key}.{tomli_w.dumps({name: one})}" for key, row in nested.items() for name, one in row.items()
        ]
        parts.append("[[dogs]]\n" + tomli_w.dumps(plain) + "".join(rows))
    return "\n".join(parts)


def session_for(found: Round, number: str, evaluator: str, rules: Ruleset) -> Session:
    """An evaluator's empty session of one dog of the round; points that are not asked are skipped.

    Raises KeyError where there is no dog of that number.
    """
    about, again = found.round, found.dog(number).again
    examination = Examination.model_validate(
        {
            "evaluator": evaluator,
            "place": about.place,
            "country": about.country,
            "purpose": about.purpose,
            "kind": "round",
            "round": about.id,
            "round_dog": number,
            **({"round_again": again} if again else {}),
        }
    )
    ref = RulesetRef(id=rules.id, edition=rules.edition.edition, digest=rules.digest)
    session = Session(dog=found.known_dog(number), examination=examination, ruleset=ref)
    if about.points == "all":
        return session
    skips = all_but(stops(rules, session), about.points, NOT_IN_ROUND)
    return session.model_copy(update={"skips": skips})


@dataclass(frozen=True)
class InRound:
    """Where in a round a session belongs."""

    round: str
    dog: str
    """The dog's number."""
    again: str = ""
    """The number under which it stands too, where it was gone over twice."""

    @property
    def same_dog(self) -> str:
        """One number for one dog."""
        return self.again or self.dog


def place_of(session: Session) -> InRound | None:
    """The round and the dog's number that a session names; None where it names none."""
    extra: dict[str, Any] = session.examination.model_extra or {}
    name, number = extra.get("round"), extra.get("round_dog")
    if not isinstance(name, str) or not name:
        return None
    again = extra.get("round_again")
    return InRound(name, str(number) if number is not None else "", str(again) if again is not None else "")


@dataclass(frozen=True)
class RoundGroup:
    """The sessions of one round found together."""

    round: str
    sessions: tuple[tuple[str, str, str], ...]
    """Dog's number, evaluator, and the session's name, by number."""

    @property
    def evaluators(self) -> tuple[str, ...]:
        """Each once, as first met."""
        return tuple(dict.fromkeys(evaluator for _, evaluator, _ in self.sessions))

    @property
    def dogs(self) -> tuple[str, ...]:
        """Numbers, each once."""
        return tuple(dict.fromkeys(dog for dog, _, _ in self.sessions))

    @property
    def names(self) -> tuple[str, ...]:
        """The sessions' names."""
        return tuple(name for _, _, name in self.sessions)

    @property
    def missing(self) -> tuple[tuple[str, str], ...]:
        """Dog and evaluator of whom there is no session."""
        there = {(dog, evaluator) for dog, evaluator, _ in self.sessions}
        return tuple((d, e) for d in self.dogs for e in self.evaluators if (d, e) not in there)

    def of_dog(self, number: str) -> tuple[str, ...]:
        """The names of all sessions of one dog, for the evaluators side by side."""
        return tuple(name for dog, _, name in self.sessions if dog == number)


def group_rounds(sessions: Sequence[tuple[str, Session]]) -> tuple[RoundGroup, ...]:
    """Sessions by the round that they name, in the order first met; those of no round are left out."""
    rows: dict[str, list[tuple[str, str, str]]] = {}
    for name, session in sessions:
        place = place_of(session)
        if place is not None:
            rows.setdefault(place.round, []).append((place.dog, session.examination.evaluator, name))

    def by_number(row: tuple[str, str, str]) -> tuple[int, str]:
        return (int(row[0]) if row[0].isdecimal() and len(row[0]) < 10 else 10**9, row[0])

    return tuple(RoundGroup(name, tuple(sorted(found, key=by_number))) for name, found in rows.items())
