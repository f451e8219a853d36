"""The language data of critiques on disk: `rulesets/common/critique/`."""

from __future__ import annotations

from pathlib import Path
from typing import TypeVar
from weakref import WeakKeyDictionary

from pydantic import BaseModel

from hands_on.store.errors import UnknownLanguage
from hands_on.store.library import Library
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.parse import validate
from hands_on.toml_text.tables import explained, parse_tables
from hands_on.wording.critique.language import Language, Plan

PLAN = "plan"
_READ: WeakKeyDictionary[Library, dict[str, BaseModel]] = WeakKeyDictionary()

Model = TypeVar("Model", bound=BaseModel)


def critique_languages(library: Library) -> list[str]:
    """The codes of the languages that a critique can be drafted in, English first."""
    names = {path.stem for path in library.critique_folder().glob("*.toml")} - {PLAN}
    return sorted(names, key=lambda name: (name != "en", name))


def critique_tongue(library: Library, shown: str) -> str:
    """The language to draft in for an edition that is shown in `shown`: that one, or else English."""
    return shown if shown in critique_languages(library) else "en"


def critique_language(library: Library, name: str) -> Language:
    """The language data of this code, read once. Raises UnknownLanguage, or BadText."""
    known = critique_languages(library)
    if name not in known:
        raise UnknownLanguage(name, known)
    return _read(library, name, Language)


def critique_plan(library: Library) -> Plan:
    """What is the same in every language, read once. Raises BadText."""
    return _read(library, PLAN, Plan)


def _read(library: Library, name: str, model: type[Model]) -> Model:
    read = _READ.setdefault(library, {})
    if name not in read:
        path = Path(library.critique_folder() / f"{name}.toml")
        text = decode(read_bytes(path), str(path))
        with explained(str(path)):
            read[name] = validate(model, parse_tables(text, str(path)), text, str(path))
    found = read[name]
    assert isinstance(found, model)
    return found
