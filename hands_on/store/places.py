"""Every place on disk that the program knows of."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from hands_on.store.private import close_to_others

_APP = "hands-on"

SESSIONS_VARIABLE = "HANDS_ON_SESSIONS"
RULESETS_VARIABLE = "HANDS_ON_RULESETS"
LANGUAGE_VARIABLES = ("HANDS_ON_LANG", "LC_ALL", "LC_MESSAGES", "LANG")


def language() -> str:
    """Two letters: the language of HANDS_ON_LANG, or the system's own; editions that have it show it."""
    told = next((value for name in LANGUAGE_VARIABLES if (value := os.environ.get(name))), "")
    return told[:2].lower()


def shipped_rulesets() -> Path:
    """The rulesets that came with the program."""
    return _shipped() / "rulesets"


def shipped_sessions() -> Path:
    """The demo sessions that came with the program; `demo.demo_folder` makes a copy to work on."""
    return _shipped() / "sessions"


def sessions_folder(given: Path | None = None) -> Path:
    """Where sessions are kept: the folder given, else HANDS_ON_SESSIONS, else the user's data folder.

    The folder need not exist yet.
    """
    return given or _from_environment(SESSIONS_VARIABLE) or user_data() / "sessions"


def own_rulesets(given: Path | None = None) -> Path:
    """Where the user's own editions are: the folder given, else HANDS_ON_RULESETS, else the data folder."""
    return given or _from_environment(RULESETS_VARIABLE) or user_data() / "rulesets"


def ruleset_folders(given: Path | None = None) -> tuple[Path, ...]:
    """The folders of rulesets, shipped one first; an edition in a later folder stands for an earlier one."""
    return (shipped_rulesets(), own_rulesets(given))


def user_data() -> Path:
    """The user's data folder, as this system has it."""
    import platformdirs

    return Path(platformdirs.user_data_dir(_APP, appauthor=False))


def user_cache() -> Path:
    """The user's cache folder: all in it can be made again."""
    import platformdirs

    return Path(platformdirs.user_cache_dir(_APP, appauthor=False))


def demo_root() -> Path:
    """The folder that copies of the demo sessions are made in."""
    return user_cache() / "demo"


def index_path(sessions: Path) -> Path:
    """The index of a sessions folder. A copy of the demo carries its own, so that both go together."""
    folder = Path(os.path.realpath(sessions))
    if folder.is_relative_to(os.path.realpath(demo_root())):
        return folder / ".index.sqlite"
    key = hashlib.sha256(os.fsencode(folder)).hexdigest()[:16]
    return user_cache() / f"index-{key}.sqlite"


def own_words_path(sessions: Path) -> Path:
    """The evaluator's own words. A copy of the demo carries its own, so that yours stay as they are."""
    folder = Path(os.path.realpath(sessions))
    if folder.is_relative_to(os.path.realpath(demo_root())):
        return folder / ".own-words.toml"
    return user_data() / "own-words.toml"


def close_own_folders() -> None:
    """Take the program's own folders, made by an earlier version, away from everybody else's eyes."""
    for folder in (user_data(), user_cache()):
        close_to_others(folder)


def typed_path(text: str) -> Path:
    """A path as typed: `~` and `~name` stand for a home where there is one, else for themselves."""
    return Path(os.path.expanduser(text))


def can_be_named(path: Path) -> bool:
    """Can the system have a file of this name at all, whether it is there or not?"""
    try:
        return b"\0" not in os.fsencode(path)
    except ValueError:
        return False


def _shipped() -> Path:
    """The source checkout where the package lies in one, else the data inside the installed package."""
    package = Path(__file__).resolve().parents[1]
    checkout = package.parent
    if (checkout / "pyproject.toml").is_file() and (checkout / "rulesets").is_dir():
        return checkout
    return package / "data"


def _from_environment(name: str) -> Path | None:
    value = os.environ.get(name, "")
    return typed_path(value) if value.strip() else None
