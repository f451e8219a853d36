"""A key of a screen; the keys themselves stand in `keys`."""

from __future__ import annotations

from hands_on.frozen import dataclass


@dataclass(frozen=True)
class Key:
    """One thing that can be done on a screen."""

    keys: str
    """Textual's names, commas between; empty where the screen hands keys on to the dialogue at a point."""
    action: str
    label: str
    """A word or two for the footer."""
    tells: str
    """A sentence for the help."""
    shown: str = ""
    """How the keys are written for people; the first of `keys` where empty."""
    footer: bool = True
    priority: bool = False
    """Taken before the line that has the focus sees it."""
    in_line: bool = False
    """Done by the line that has the focus, not by the screen."""


HELP = Key("f1,question_mark,h", "help", "Keys", "This help.", "?")
BACK = Key("escape", "back", "Back", "Back to the screen before.", "Esc")
SAVING = (
    Key("f5", "try_again", "Save again", "Try again to save, where saving failed.", "F5", False),
    Key("f6", "save_elsewhere", "Save elsewhere", "Save to another place, where saving failed.", "F6", False),
)
"""Where an examination is open."""
