"""The keys at a point and on a region's sheet: the same key does the same on both."""

from __future__ import annotations

from hands_on.tui.keys.key import SAVING, Key

_NUMBER = Key(
    "", "", "", "Choose the numbered line; 0 is as asked or, after an answer, nothing more.", "0-9", False
)
_JUMP = "Jump to a region; there 0 changes between single points and the sheet. On the keypad /."
_MEASURES = Key(
    "i",
    "measures",
    "Measures",
    "All measures of this region that can be taken, asked or not. On the keypad +, on a sheet or where no "
    "side is asked.",
    "i +",
)
_CALLS = Key("c", "scribe", "Calls", "The scribe's line: calls for the whole dog, in any order.", "c")
_FAULT = Key("f", "fault", "Fault", "Pick a fault from the list of all, wherever it was seen.", "f")
_OPEN = Key("o", "next_open", "Open", "The next point without an answer.", "o")
_REVIEW = Key("r", "review", "Review", "What was found, the summary, the signature.", "r")
_FIGURE = Key("l", "figure", "Drawing", "The dog drawn over what the edition asks.", "l")
_LOOK = Key("k", "look", "Look", "This point drawn: where it is found, what each answer looks like.", "k")
_LEAVE = Key("q", "leave", "Leave", "Leave; everything is saved.", "q")
_KEYS = Key("h,f1", "help", "Keys", "This help.", "F1")

WALKING: dict[str, tuple[Key, ...]] = {
    "walk": (
        _NUMBER,
        Key(
            "",
            "",
            "",
            "Enter goes on from an answer; an open point is left open by a second Enter, or by →.",
            "Enter →",
            False,
        ),
        Key("b", "step('back')", "Back", "The point before, or the sheet. On the keypad -.", "b -"),
        Key(
            "s",
            "step('skip')",
            "More",
            "Skip with a reason, take back, explain. On the keypad a point.",
            "s .",
        ),
        Key("j", "step('jump')", "Jump", _JUMP, "j /"),
        Key("t", "other_way", "Sheet", "All points of this region on one screen; t there comes back.", "t"),
        _MEASURES,
        Key(
            "",
            "",
            "",
            "Unsure; at a length cm or inches; behind a reading take it and go on; at teeth another mark.",
            "*",
            False,
        ),
        Key(
            "",
            "",
            "",
            "At a measurement of both sides: the side. Behind a number: and a half.",
            "+",
            False,
        ),
        Key(
            "",
            "",
            "",
            "Mark a line; Enter takes it. In the tooth chart: move from tooth to tooth.",
            "↑ ↓",
            False,
        ),
        Key("n", "note", "Note", "Write a note, or what the evaluator calls out.", "n"),
        _CALLS,
        _FAULT,
        Key(
            "u",
            "take_back",
            "Take back",
            "Take back what is recorded here, one thing of several by its number; a reading stays, struck.",
            "u",
        ),
        _OPEN,
        Key(
            "question_mark",
            "explain",
            "Explain",
            "How this point is found, what is asked, why it matters.",
            "?",
        ),
        _REVIEW,
        _FIGURE,
        _LOOK,
        Key(
            "m",
            "hide",
            "Hide",
            "Hide the readings at a measurement and take it again: such repeats show how sure the hand is.",
            "m",
            False,
        ),
        Key(
            "pagedown,space",
            "page(1)",
            "More text",
            "On through the guidance of the point, where it is longer than its room.",
            "PgDn space",
            False,
        ),
        Key("pageup", "page(-1)", "Text back", "Back through it.", "PgUp", False),
        _LEAVE,
        _KEYS,
        *SAVING,
    ),
    "sheet": (
        Key("", "", "", "Open the point with this number, to say what departs.", "1-9", False),
        Key(
            "",
            "",
            "",
            "The rest of this region is as asked; then, one after the other, what is entered by itself.",
            "0",
            False,
        ),
        Key(
            "",
            "",
            "",
            "The next region; one with open points is left by a second Enter, or by →.",
            "Enter →",
            False,
        ),
        Key("b", "step('back')", "Back", "The region before. On the keypad -.", "b -"),
        Key(
            "s", "step('skip')", "More", "Skip the region, take back, explain. On the keypad a point.", "s ."
        ),
        Key("j", "jump", "Jump", _JUMP, "j /"),
        Key("t", "other_way", "Points", "Point by point, from where one stands; t there comes back.", "t"),
        _MEASURES,
        Key("", "", "", "Mark a line; Enter opens it.", "↑ ↓", False),
        _CALLS,
        _FAULT,
        Key(
            "u",
            "take_back",
            "Take back",
            "Take back one point's answer, or all that was given by region.",
            "u",
        ),
        _OPEN,
        Key("question_mark", "explain", "Explain", "How the points of this region are found.", "?"),
        _REVIEW,
        _FIGURE,
        Key("pagedown,space", "page(1)", "Page on", "On through a long list.", "PgDn", False),
        Key("pageup", "page(-1)", "Page back", "Back through it.", "PgUp", False),
        _LEAVE,
        _KEYS,
        *SAVING,
    ),
}
