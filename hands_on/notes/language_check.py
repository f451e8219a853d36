"""Is the language file sound? What its model can't see: missing tables, and phrases in the wrong list.

A phrase twice in a list, or in two lists that exclude each other, is an error: the second meaning would
silently win or lose. So is a name (a part, a quality, a class, a landmark) that stands nowhere.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import BaseModel

from hands_on.notes.language import Language
from hands_on.toml_text.explain import dotted, nearest
from hands_on.toml_text.lines import Path, key_lines, line_of
from hands_on.toml_text.parse import validate
from hands_on.toml_text.problems import Problem

__all__ = ["check_language", "read_language"]

Found = tuple[Path, str, str]
"""Where, what is wrong, what would be right."""

_CLASS = re.compile(r"\{([^}]*)\}")
_MARKS = "!~?"


def read_language(tables: dict[str, Any], text: str, file: str) -> Language:
    """The language file as a model. Raises BadText where a table, key or value is not known."""
    return validate(Language, tables, text, file)


def check_language(
    language: Language, text: str, file: str, faults: Mapping[str, object] | None = None
) -> list[Problem]:
    """What is wrong in a language file that could be read. Ids are checked where `faults` are given."""
    lines = key_lines(text)
    found = [
        *_missing(language, ()),
        *_twice(language),
        *_wrong_list(language),
        *_names(language),
        *(_faults(language, faults) if faults is not None else ()),
    ]
    problems = [Problem(file, line_of(lines, path), dotted(path), what, right) for path, what, right in found]
    return sorted(problems, key=lambda problem: problem.line or 0)


def _missing(table: BaseModel, path: Path) -> Iterator[Found]:
    """Every table and list of the model must be written down, if only as an empty one."""
    for name, field in type(table).model_fields.items():
        key = field.alias or name
        value = getattr(table, name)
        if name not in table.model_fields_set:
            kind = "table" if isinstance(value, (BaseModel, dict)) else "list of words"
            yield (
                (*path, key),
                f"the {kind} `{key}` is missing.",
                "it written out; the head of the file tells what it holds.",
            )
        elif isinstance(value, BaseModel):
            yield from _missing(value, (*path, key))


def phrase_lists(language: Language) -> dict[Path, tuple[str, ...]]:
    """Every list of phrases of the file, by its path."""
    found: dict[Path, tuple[str, ...]] = {}

    def walk(value: object, path: Path) -> None:
        if isinstance(value, BaseModel):
            for name, field in type(value).model_fields.items():
                walk(getattr(value, name), (*path, field.alias or name))
        elif isinstance(value, dict):
            for key, inner in value.items():
                walk(inner, (*path, key))
        elif isinstance(value, tuple):
            found[path] = value

    walk(language, ())
    return found


def _twice(language: Language) -> Iterator[Found]:
    for path, phrases in phrase_lists(language).items():
        seen: set[str] = set()
        for position, phrase in enumerate(phrases):
            if phrase in seen:
                yield (*path, position), f'"{phrase}" stands here twice.', "each phrase once."
            seen.add(phrase)


_SIDES: tuple[Path, ...] = (("sides", "left"), ("sides", "right"), ("sides", "both"))
_DEGREES: tuple[Path, ...] = tuple(("degrees", d) for d in ("slight", "moderate", "marked", "extreme"))
_REMARKS: tuple[Path, ...] = (
    *(("status", name) for name in ("absent_before", "absent_after", "unsure_before", "unsure_after")),
    *(("talk", name) for name in ("right", "praise", "verdict", "people", "idioms")),
)


def _wrong_list(language: Language) -> Iterator[Found]:
    """A phrase of a side or degree in a second list that gives it another meaning."""
    lists = phrase_lists(language)
    owner: dict[str, Path] = {}
    for path in (*_DEGREES, *_SIDES):
        for position, phrase in enumerate(lists.get(path, ())):
            if owner.get(phrase, path) != path:
                what = f'"{phrase}" stands under {dotted(owner[phrase])} too.'
                yield (*path, position), what, "in one of the two lists alone."
            owner.setdefault(phrase, path)
    for path in _REMARKS:
        for position, phrase in enumerate(lists.get(path, ())):
            if phrase in owner:
                kind = "side" if owner[phrase] in _SIDES else "degree"
                what = f'"{phrase}" is a {kind} already, in {dotted(owner[phrase])}.'
                yield (*path, position), what, "in one of the two lists alone."
    qualities = (
        {word for phrases in language.qualities.values() for word in phrases if " " not in word}
        - language.sets.particles
        - {"left", "right", "near", "off"}
    )
    for path in _SIDES:
        for position, phrase in enumerate(lists.get(path, ())):
            stray = next((w for w in phrase.split() if w in qualities or w in ("without", "not", "no")), None)
            if stray is not None:
                yield (
                    (*path, position),
                    f'"{phrase}" names no side: "{stray}".',
                    "the phrase in the list it belongs to, for instance talk.right.",
                )


def _names(language: Language) -> Iterator[Found]:
    """Names that stand nowhere."""
    classes, parts, qualities = language.classes, language.parts, language.qualities
    for path, phrases in phrase_lists(language).items():
        for position, phrase in enumerate(phrases):
            for name in _CLASS.findall(phrase):
                if name not in classes:
                    yield _unknown((*path, position), name, "class of words", classes)
    for part, entry in parts.items():
        for key in entry.gives:
            for quality in key.split():
                if quality not in qualities:
                    yield _unknown(("parts", part, "gives", key), quality, "quality", qualities)
    for region, screen in language.regions.items():
        for position, part in enumerate(screen.parts):
            if part not in parts:
                yield _unknown(("regions", region, "parts", position), part, "part", parts)
        for quality in screen.bare:
            if quality not in qualities:
                yield _unknown(("regions", region, "bare", quality), quality, "quality", qualities)
    for place, stands_for in language.locations.items():
        for position, part in enumerate(stands_for.parts):
            if part not in parts:
                yield _unknown(("locations", place, "parts", position), part, "part", parts)
    for point, words in language.affirms.items():
        for key, names in (("parts", words.parts), ("of", words.of)):
            for position, part in enumerate(names):
                if part not in parts:
                    yield _unknown(("affirms", point, key, position), part, "part", parts)
    for point, shades in language.seen.items():
        for position, part in enumerate(shades.of):
            if part not in parts:
                yield _unknown(("seen", point, "of", position), part, "part", parts)
    landmarks = language.measures.landmarks
    for key in language.measures.between:
        for point in key.split():
            if point not in landmarks:
                yield _unknown(("measures", "between", key), point, "landmark", landmarks)


def _faults(language: Language, faults: Mapping[str, object]) -> Iterator[Found]:
    """Ids of faults that the vocabulary does not have."""
    named: list[tuple[Path, str]] = []
    for part, entry in language.parts.items():
        named += [(("parts", part, "gives", key), text) for key, text in entry.gives.items()]
    for region, screen in language.regions.items():
        named += [(("regions", region, "bare", key), text) for key, text in screen.bare.items()]
    named += [(("status", "absence"), fault) for fault in sorted(language.status.absence)]
    named += [(("talk", "askable"), fault) for fault in sorted(language.talk.askable)]
    for path, text in named:
        for fault in text.split():
            if fault.rstrip(_MARKS) not in faults:
                yield _unknown(path, fault.rstrip(_MARKS), "fault", faults)


def _unknown(path: Path, name: str, kind: str, known: Mapping[str, object]) -> Found:
    close = nearest(name, known)
    return (
        path,
        f"there is no {kind} `{name}`.",
        f"`{close}`?" if close else f"the name of a {kind} that exists.",
    )
