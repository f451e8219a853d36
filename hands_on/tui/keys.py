"""Every key of every screen, said once: bindings, footer and help are made from this."""

from __future__ import annotations

import re
from dataclasses import dataclass

from textual.binding import Binding, BindingType


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


HELP = Key("f1,question_mark,h", "help", "Keys", "This help.", "?")
BACK = Key("escape", "back", "Back", "Back to the screen before.", "Esc")

KEYS: dict[str, tuple[Key, ...]] = {
    "start": (
        Key("1,g", "go_on", "Go on", "Go on with an examination that is not finished.", "1 g", False),
        Key("2,n", "new", "New", "A new examination.", "2 n", False),
        Key("3,r", "records", "Records", "The examinations kept here.", "3 r", False),
        Key("4,e", "editions", "Rulesets", "The breed standards known, each with its sources.", "4 e", False),
        Key("5,h,f1,question_mark", "help", "Help", "How to work with the program, and the keys.", "5 h ?"),
        Key("0,q", "leave", "Leave", "Leave the program.", "0 q"),
        Key("", "", "", "Move through the list; Enter opens.", "↑ ↓ Enter", False),
    ),
    "records": (
        Key(
            "enter",
            "",
            "Open",
            "Open the marked examination: the walk if unfinished, else the review.",
            "Enter",
        ),
        Key(
            "",
            "",
            "",
            "Type any part of a name, evaluator, place, number, date or ruleset.",
            "letters",
            False,
        ),
        Key("down,up", "", "Move", "Move through the list.", "↑ ↓"),
        Key("f1", "help", "Keys", "This help.", "F1"),
        BACK,
    ),
    "editions": (
        Key("enter", "", "Read", "Read the marked edition with its sources.", "Enter"),
        Key("", "", "", "Type any part of the breed, title or number.", "letters", False),
        Key("down,up", "", "Move", "Move through the list.", "↑ ↓"),
        Key("f1", "help", "Keys", "This help.", "F1"),
        BACK,
    ),
    "choose-edition": (
        Key("enter", "", "Take it", "Examine under the marked edition.", "Enter"),
        Key("", "", "", "Type any part of the breed, title or number.", "letters", False),
        Key("down,up", "", "Move", "Move through the list.", "↑ ↓"),
        Key("f1", "help", "Keys", "This help.", "F1"),
        BACK,
    ),
    "reading": (
        Key("down,up", "", "Move", "Move through the text.", "↑ ↓"),
        Key("pagedown,space", "page(1)", "Page on", "A page on.", "PgDn"),
        Key("pageup", "page(-1)", "Page back", "A page back.", "PgUp", False),
        Key("escape,q,enter,left,minus", "back", "Back", "Back to the screen before.", "Esc"),
    ),
    "dog": (
        Key(
            "enter,down", "next_field", "Next", "The next line; what is typed stays.", "Enter", priority=True
        ),
        Key("up", "previous_field", "Line before", "The line before.", "↑", False, priority=True),
        Key("f2", "go_on", "Go on", "All is filled in: go on. Also Enter on the last line.", "F2"),
        Key("f1", "help", "Keys", "This help.", "F1"),
        Key("escape", "back", "Leave", "Leave without starting an examination (asked first).", "Esc"),
    ),
    "cautions": (
        Key("enter", "read", "Read", "This one is read; on to the next.", "Enter"),
        Key("y,1", "answer('yes')", "Yes", "Answer a question with yes.", "y 1"),
        Key("n,2", "answer('no')", "No", "Answer a question with no.", "n 2"),
        Key("down,plus", "move(1)", "Down", "The next one.", "↓ +", False),
        Key("up,minus", "move(-1)", "Up", "The one before.", "↑ -", False),
        Key("h,f1,question_mark", "help", "Keys", "This help.", "?"),
        Key("escape,q", "leave", "Leave", "Leave; what was entered is saved.", "q"),
    ),
    "walk": (
        Key(
            "",
            "",
            "",
            "Answer with the number of a line; type a reading and Enter takes it.",
            "0-9 Enter",
            False,
        ),
        Key("", "", "", "With nothing typed: on to the next point without an answer.", "Enter →", False),
        Key("b", "step('back')", "Back", "The point before. On the keypad -.", "b - ←"),
        Key(
            "s",
            "step('skip')",
            "Skip/more",
            "Skip with a reason, take back, explain. On the keypad a point.",
            "s .",
        ),
        Key("j", "step('jump')", "Jump", "Jump to a region. On the keypad /.", "j /"),
        Key(
            "", "", "", "This answer is unsure; at a length cm or inches; at teeth another mark.", "*", False
        ),
        Key("", "", "", "At a measurement: left, right or no side.", "+", False),
        Key(
            "",
            "",
            "",
            "Mark a line; Enter takes it. In the tooth chart: move from tooth to tooth.",
            "↑ ↓",
            False,
        ),
        Key("n", "note", "Note", "Write a note, or what the evaluator calls out.", "n"),
        Key("f", "fault", "Fault", "Pick a fault from the list of all, wherever it was seen.", "f"),
        Key(
            "question_mark,f1",
            "explain",
            "Explain",
            "How this point is found, what is asked, why it matters.",
            "?",
        ),
        Key(
            "u",
            "take_back",
            "Take back",
            "Take back what is recorded here; a reading stays on record, struck.",
            "u",
            False,
        ),
        Key("o", "next_open", "Next open", "The next point without an answer.", "o", False),
        Key("r", "review", "Review", "What was found, the summary, the signature.", "r"),
        Key("h", "help", "Keys", "This help.", "h", False),
        Key("q", "leave", "Leave", "Leave; everything is saved.", "q", False),
        Key("f5", "try_again", "Save again", "Try again to save, where saving failed.", "F5", False),
        Key(
            "f6",
            "save_elsewhere",
            "Save elsewhere",
            "Save to another place, where saving failed.",
            "F6",
            False,
        ),
    ),
    "review": (
        Key("enter", "", "Go there", "Go to the point of the marked line.", "Enter"),
        Key("w,b", "walk", "Walk", "Back to the walk.", "w"),
        Key("d", "decide", "Decide", "Uphold or dismiss the marked finding, with a reason.", "d"),
        Key("s", "summary", "Summary", "Write the summary in your own words.", "s"),
        Key("o", "outcome", "Outcome", "Choose the outcome, where the edition has any.", "o", False),
        Key("g,f2", "sign", "Sign", "Sign the examination.", "g"),
        Key("h,f1,question_mark", "help", "Keys", "This help.", "?"),
        Key("q,escape", "leave", "Leave", "Leave; everything is saved.", "q"),
        Key("f5", "try_again", "Save again", "Try again to save, where saving failed.", "F5", False),
        Key(
            "f6",
            "save_elsewhere",
            "Save elsewhere",
            "Save to another place, where saving failed.",
            "F6",
            False,
        ),
    ),
    "numbered": (
        Key("", "", "Take it", "The number of a line, or arrows and Enter.", "0-9 Enter"),
        Key("escape,minus,left", "back", "Back", "Back without choosing. On the keypad -.", "Esc -"),
    ),
    "note": (
        Key("enter", "", "Keep it", "Keep the note.", "Enter", False),
        Key("ctrl+j", "", "New line", "A new line in the note.", "Ctrl+J", False),
        Key(
            "escape",
            "",
            "Put aside",
            "Put the note aside; what is typed stays for the next time.",
            "Esc",
            False,
        ),
    ),
    "fault": (
        Key("enter", "", "Take it", "Take the marked fault.", "Enter"),
        Key("down,up", "", "Move", "Move through the list.", "↑ ↓"),
        BACK,
    ),
    "typed": (
        Key("enter", "", "Take it", "Take what is typed.", "Enter"),
        BACK,
    ),
    "sign": (
        Key("enter", "", "Sign", "The first Enter asks once more, the second signs.", "Enter"),
        BACK,
    ),
    "summary": (Key("f2,escape", "back", "Keep it", "Keep the summary and go back.", "F2"),),
    "help": (
        Key("down,up", "", "Move", "Move through the text.", "↑ ↓"),
        Key("escape,q,h,f1,question_mark,enter", "back", "Back", "Back to the screen before.", "Esc"),
    ),
}


def bindings(screen: str) -> list[BindingType]:
    """The bindings of a screen; keys that a widget handles itself are left to it."""
    return [
        Binding(
            key.keys,
            key.action,
            key.label,
            key_display=key.shown or None,
            show=key.footer,
            priority=key.priority,
            id=_id(screen, key),
        )
        for key in KEYS[screen]
        if key.keys and key.action
    ]


def footer(screen: str) -> list[tuple[str, str]]:
    """What the footer tells: how the key is written, and its word."""
    return [(key.shown or key.keys.split(",")[0], key.label) for key in KEYS[screen] if key.footer]


def help_key(screen: str) -> list[tuple[str, str]]:
    """How help is asked for on a screen; empty where it has none."""
    found = [key for key in KEYS[screen] if key.action == "help"]
    return [(key.shown or key.keys.split(",")[0], key.label) for key in found]


def _id(screen: str, key: Key) -> str:
    return re.sub(r"[^a-z_.]+", "-", f"{screen}.{key.action}").strip("-")
