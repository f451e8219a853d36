"""The keys of the screens on which dogs are examined, and of what they ask."""

from __future__ import annotations

from hands_on.tui.keys.key import BACK, HELP, SAVING, Key


def _in_line(keys: str, action: str, label: str, tells: str, shown: str, footer: bool = True) -> Key:
    return Key(keys, action, label, tells, shown, footer, in_line=True)


F1 = Key("f1", "help", "Keys", "This help.", "F1", False)

IN_THE_LINE = (
    _in_line("ctrl+n,down", "move(1)", "Next", "Mark the next thing heard (Ctrl+N).", "^N ↓", False),
    _in_line("ctrl+p,up", "move(-1)", "Before", "Mark the one before (Ctrl+P).", "^P ↑", False),
    _in_line("ctrl+t,f2", "take", "Take/drop", "Take the marked one, or drop it (Ctrl+T or F2).", "^T"),
    _in_line(
        "ctrl+d,f3", "degree", "Degree", "The next degree: slight to extreme, none (Ctrl+D or F3).", "^D"
    ),
    _in_line("ctrl+s,f4", "side", "Side", "The next side: left, right, both, none (Ctrl+S or F4).", "^S"),
    _in_line(
        "ctrl+r,f7", "status", "Status", "There, ruled out, or unsure: to be seen again (Ctrl+R or F7).", "^R"
    ),
    _in_line(
        "ctrl+o,f8", "other", "Other", "Another fault was meant: pick it from the list (Ctrl+O or F8).", "^O"
    ),
    _in_line(
        "ctrl+g,f9",
        "add",
        "Add",
        "A fault for words that nothing was read from; they are known next time (Ctrl+G or F9).",
        "^G",
        False,
    ),
    _in_line(
        "ctrl+l,f10",
        "own_words",
        "Your words",
        "Your own words, remembered from what you put right by hand (Ctrl+L or F10).",
        "^L",
        False,
    ),
    _in_line("ctrl+j,shift+enter", "new_line", "New line", "A new line in the note (Ctrl+J).", "^J", False),
    _in_line("f1", "help", "Keys", "This help.", "F1"),
)
"""What the line for notes does with what it heard."""

EXAMINING: dict[str, tuple[Key, ...]] = {
    "start": (
        Key("1,g", "go_on", "Go on", "Go on with an examination that is not finished.", "1 g", False),
        Key("2,n", "new", "New", "A new examination.", "2 n", False),
        Key(
            "3,x",
            "recheck",
            "Re-check",
            "A later examination of a dog that was examined before.",
            "3 x",
            False,
        ),
        Key("4,c", "compare", "Compare", "Two to six examinations side by side.", "4 c", False),
        Key("5,a", "agree", "Agreement", "How well several evaluators agree on the same dogs.", "5 a", False),
        Key("6,s", "host", "Round", "Begin a seminar round, or take part in one.", "6 s", False),
        Key("7,r", "records", "Records", "The examinations kept here.", "7 r", False),
        Key("8,e", "editions", "Rulesets", "The breed standards known, each with its sources.", "8 e", False),
        Key("9,h,f1,question_mark", "help", "Help", "How to work with the program, and the keys.", "9 h ?"),
        Key("p", "practise", "Practise", "Drawn dogs to grade, with what was drawn told afterwards.", "p"),
        Key(
            "o",
            "own_words",
            "Your words",
            "Your own words, remembered from what you put right by hand in notes.",
            "o",
        ),
        Key("w", "who", "Who examines", "Say who examines here; their own examinations stand first.", "w"),
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
        Key("f2", "recheck", "Re-check", "Examine the dog of the marked examination again.", "F2"),
        Key("f3", "compare", "Compare", "Compare it with others, side by side.", "F3"),
        Key("f4", "history", "History", "The dog of the marked examination over all its examinations.", "F4"),
        Key("f6", "critique", "Critique", "The critique of the marked examination.", "F6", False),
        Key(
            "f5", "cohort", "Cohort", "All dogs found, a litter, offspring, a kennel or years together.", "F5"
        ),
        Key(
            "",
            "",
            "",
            "Type any part of a name, evaluator, place, number, date or ruleset.",
            "letters",
            False,
        ),
        Key("down,up", "", "Move", "Move through the list.", "↑ ↓", False),
        Key("f1", "help", "Keys", "This help.", "F1"),
        BACK,
    ),
    "editions": (
        Key("enter", "", "Read", "Read the marked edition with its sources.", "Enter"),
        Key("f3", "compare", "Compare", "The marked edition and another of them, rule by rule.", "F3"),
        Key("f2", "new", "New", "Begin a new edition: a commented start, or a copy of another.", "F2"),
        Key("f4", "write", "Write", "Go on writing an edition of your own, block by block.", "F4"),
        Key("", "", "", "Type any part of the breed, title or number.", "letters", False),
        Key("down,up", "", "Move", "Move through the list.", "↑ ↓"),
        Key("f1", "help", "Keys", "This help.", "F1"),
        BACK,
    ),
    "choose-edition": (
        Key("enter", "", "Take it", "Take the marked edition.", "Enter"),
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
        F1,
    ),
    "two-editions": (
        Key("enter,space,plus", "part(1)", "On", "The next part. On the keypad also +.", "Enter"),
        Key("b,minus", "part(-1)", "Back", "The part before. On the keypad -.", "b"),
        Key("j,slash", "jump", "Jump", "Jump to a part by its number. On the keypad /.", "j"),
        Key("down,up,pagedown,pageup", "", "Move", "Move through the rules.", "↑ ↓"),
        HELP,
        Key("escape,q,left", "back", "Leave", "Back to the screen before.", "Esc"),
    ),
    "under-another": (
        Key("down,up", "", "Move", "Move through the text.", "↑ ↓"),
        Key("pagedown,space", "page(1)", "Page on", "A page on.", "PgDn"),
        Key("pageup", "page(-1)", "Page back", "A page back.", "PgUp", False),
        Key("r", "rules", "Rule by rule", "Both editions rule by rule, the dog apart.", "r"),
        HELP,
        Key("escape,q,enter,left,minus", "back", "Back", "Back to the review.", "Esc"),
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
        *SAVING,
    ),
    "review": (
        Key("enter", "", "Go there", "Go to the point of the marked line.", "Enter"),
        Key("w,b,minus", "walk", "Walk", "Back to the walk.", "w"),
        Key("2", "move(1)", "Down", "The next line. On the keypad 2.", "2", False),
        Key("8", "move(-1)", "Up", "The line before. On the keypad 8.", "8", False),
        Key(
            "full_stop,decimal,comma,separator",
            "more",
            "Menu",
            "All that can be done here, by number, for a keypad.",
            ".",
            False,
        ),
        Key("d,plus", "decide", "Decide", "Uphold or dismiss the marked finding, with a reason.", "d"),
        Key("s", "summary", "Summary", "Write the summary in your own words.", "s"),
        Key("c", "scribe", "Calls", "The scribe's line: calls for the whole dog, in any order.", "c"),
        Key("o", "outcome", "Outcome", "Choose the outcome, where the edition has any.", "o"),
        Key("g,f2", "sign", "Sign", "Sign the examination.", "g"),
        Key("l", "figure", "Drawing", "The dog drawn over what the edition asks.", "l"),
        Key(
            "e",
            "under_another",
            "Other edition",
            "What changes under another edition, and why; nothing is stored.",
            "e",
            False,
        ),
        Key("t", "critique", "Critique", "The critique: drafted, edited, kept.", "t", False),
        Key("h,f1,question_mark", "help", "Keys", "This help.", "F1"),
        Key("q,escape", "leave", "Leave", "Leave; everything is saved.", "q"),
        *SAVING,
    ),
    "own-words": (
        Key("enter,w", "words", "Words", "Change the words of the marked phrase.", "Enter"),
        Key("m", "meaning", "Meaning", "Change what the marked phrase means.", "m"),
        Key("d,delete", "remove", "Take out", "Take the marked phrase out (asked first).", "d"),
        Key("down,up", "", "Move", "Move through the list.", "↑ ↓"),
        HELP,
        BACK,
    ),
    "numbered": (
        Key("", "", "Take it", "The number of a line, or arrows and Enter.", "0-9 Enter"),
        Key("escape,minus,left", "back", "Back", "Back without choosing. On the keypad -.", "Esc -"),
        F1,
    ),
    "note": (
        _in_line(
            "enter", "keep", "Record", "Record the words, the findings taken and the readings.", "Enter"
        ),
        *IN_THE_LINE,
        _in_line(
            "escape",
            "put_aside",
            "Put aside",
            "Put the note aside; what is typed stays for the next time.",
            "Esc",
            False,
        ),
    ),
    "scribe": (
        _in_line(
            "enter",
            "keep",
            "Record",
            "Record the call: its words, the findings taken, the readings; then the next call.",
            "Enter",
        ),
        *IN_THE_LINE,
        _in_line(
            "escape", "put_aside", "Leave", "Leave; what is typed stays for the next time.", "Esc", False
        ),
        *SAVING,
    ),
    "fault": (
        Key("enter", "", "Take it", "Take the marked fault.", "Enter"),
        Key("down,up", "", "Move", "Move through the list.", "↑ ↓"),
        BACK,
        F1,
    ),
    "practise": (
        Key("enter", "", "Take it, on", "Take the answer; after it, the next figure.", "Enter"),
        Key("escape", "back", "Leave", "Leave; every answer given is kept.", "Esc"),
        F1,
    ),
    "standard-text": (
        Key("enter", "", "Take", "Take what the marked sentence proposes, and go on to the next.", "Enter"),
        Key("space,s", "skip", "Skip", "On without taking it.", "s"),
        Key("a", "take_block", "All of block", "Take what the whole block proposes, after looking.", "a"),
        Key("n", "block(1)", "Next block", "To the next block.", "n"),
        Key("p", "block(-1)", "Block before", "To the block before.", "p", False),
        Key("u", "unread", "Unread", "Only sentences without a proposal, or all again.", "u"),
        BACK,
        F1,
    ),
    "pasted": (
        Key("f2", "take", "Read it", "Read the text.", "F2", priority=True),
        BACK,
        F1,
    ),
    "typed": (
        Key("enter", "", "Take it", "Take what is typed.", "Enter"),
        BACK,
        F1,
    ),
    "sign": (
        Key("enter", "", "Sign", "The first Enter asks once more, the second signs.", "Enter"),
        BACK,
        F1,
    ),
    "summary": (
        Key("f2,escape", "back", "Keep it", "Keep the summary and go back.", "F2"),
        F1,
    ),
    "critique": (
        Key("f2,escape", "back", "Keep it", "Keep what was changed and go back.", "F2"),
        Key("f3", "length", "Length", "Three lines, a paragraph, a page.", "F3"),
        Key("f4", "language", "Language", "The next language of the draft.", "F4"),
        Key("f8", "draft", "Draft", "The draft again, in place of your words.", "F8"),
        Key(
            "f9", "report", "Report", "The whole report with this critique, as HTML beside the session.", "F9"
        ),
        F1,
        *SAVING,
    ),
    "help": (
        Key("down,up", "", "Move", "Move through the text.", "↑ ↓"),
        Key("escape,q,h,f1,question_mark,enter", "back", "Back", "Back to the screen before.", "Esc"),
    ),
}
