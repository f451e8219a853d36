"""The shipped wording as a lexicon, read straight from the TOML files."""

import json
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from hands_on.notes import Lexicon, WordingSource, build_lexicon, wording_from_documents
from hands_on.notes.language import Language
from hands_on.notes.source import ordinary_words

RULESETS = Path(__file__).resolve().parents[2] / "rulesets"


def shipped_wording() -> WordingSource:
    """Common wording and that of every edition."""
    common = sorted(p for p in (RULESETS / "common").glob("*.toml") if p.name != "language.toml")
    editions = sorted(RULESETS.glob("*.toml"))
    documents = [tomllib.loads(p.read_text(encoding="utf-8")) for p in [*common, *editions]]
    language = tomllib.loads((RULESETS / "common" / "language.toml").read_text(encoding="utf-8"))
    ordinary = ordinary_words((RULESETS / "common" / "ordinary-words.txt").read_text(encoding="utf-8"))
    return wording_from_documents(documents, Language.model_validate(language), ordinary, examples())


def examples() -> list[dict[str, Any]]:
    """The labelled notes that the reader learns from."""
    folder = RULESETS / "common" / "examples"
    return [
        json.loads(line) for p in sorted(folder.glob("*.jsonl")) for line in p.read_text("utf-8").splitlines()
    ]


@cache
def shipped_lexicon() -> Lexicon:
    """The lexicon the program works with."""
    return build_lexicon(shipped_wording())
