"""The keys of the screens that compare, and of seminar rounds."""

from __future__ import annotations

from hands_on.tui.keys.key import HELP, Key

COMPARING: dict[str, tuple[Key, ...]] = {
    "pick-sessions": (
        Key(
            "space,plus", "mark", "Mark", "Mark the line, or take the mark away. On the keypad +.", "Space +"
        ),
        Key("", "", "", "The number of a line marks it.", "1-9", False),
        Key("enter", "go_on", "Go on", "Go on with what is marked, or with the line alone.", "Enter"),
        Key("down,up", "", "Move", "Move through the list.", "↑ ↓", False),
        Key("slash,f", "search", "Search", "Search names, evaluators, places, dates; Enter ends it.", "/"),
        HELP,
        Key("escape,minus,q", "back", "Back", "Back to the screen before.", "Esc"),
    ),
    "compare": (
        Key("enter,space,plus", "region(1)", "On", "The next region. On the keypad also +.", "Enter"),
        Key("b,minus", "region(-1)", "Back", "The region before. On the keypad -.", "b"),
        Key("d,asterisk", "differing", "Differing", "Only what differs, or everything. Keypad: *.", "d"),
        Key("j,slash", "jump", "Jump", "Jump to a region, the findings, the order. On the keypad /.", "j"),
        Key("o,l", "outline", "Outline", "The dogs' outlines to scale, one over the other.", "o"),
        Key("p", "project", "Project", "Large, one point at a time, for a room.", "p"),
        Key("m", "pair", "Sire & dam", "Two dogs as sire and dam.", "m", False),
        Key("right", "columns(1)", "Columns", "The dogs further right, where not all fit.", "→", False),
        Key("left", "columns(-1)", "Columns back", "The dogs further left.", "←", False),
        Key("down,up,pagedown,pageup", "", "Move", "Move through the rows.", "↑ ↓", False),
        HELP,
        Key("escape,q", "back", "Back", "Back to the screen before.", "Esc", False),
    ),
    "pairing": (
        Key("enter,space,plus", "region(1)", "On", "The next part.", "Enter +"),
        Key("b,minus", "region(-1)", "Back", "The part before.", "b -"),
        Key("down,up,pagedown,pageup", "", "Move", "Move through the rows.", "↑ ↓"),
        HELP,
        Key("escape,q", "back", "Leave", "Back to the screen before.", "Esc"),
    ),
    "projector": (
        Key("enter,space,plus", "on", "On", "Show the answers; then the next point. Also +.", "Enter"),
        Key("b,minus,left", "before", "Back", "Hide the answers; then the point before. Also -.", "b"),
        Key("n,pagedown", "region(1)", "Region on", "The first point of the next region.", "n"),
        Key("pageup", "region(-1)", "Region back", "The first point of the region before.", "PgUp", False),
        Key("d,asterisk", "differing", "Differing", "Only what differs, or everything. Keypad: *.", "d"),
        Key("m", "many", "One/region", "One point at a time, or a region at a time.", "m"),
        HELP,
        Key("escape,q,p", "back", "Leave", "Back to the screen before.", "Esc"),
    ),
    "outline": (
        Key(
            "n,space,enter,plus",
            "other",
            "Next pair",
            "Other dogs over each other, where there are more.",
            "n",
        ),
        HELP,
        Key("escape,q,o,l,minus", "back", "Back", "Back to the screen before.", "Esc"),
    ),
    "recheck": (
        Key("1", "begin('first')", "First", "Go through the points to look at first.", "1"),
        Key("2", "begin('list')", "All listed", "Go through all points of the list.", "2"),
        Key(
            "3",
            "begin('walk')",
            "Whole walk",
            "Go through the whole walk; reasons show at their points.",
            "3",
        ),
        Key("v", "history", "History", "Earlier examinations over age. It shows the earlier answers.", "v"),
        Key("down,up,pagedown,pageup", "", "Move", "Move through the list.", "↑ ↓", False),
        HELP,
        Key("escape,q,minus", "back", "Back", "Back without beginning an examination.", "Esc"),
    ),
    "history": (
        Key("d,asterisk", "differing", "Moved", "Only what moved, or everything.", "d *"),
        Key("down,up,pagedown,pageup", "", "Move", "Move through the list.", "↑ ↓"),
        HELP,
        Key("escape,q,minus", "back", "Back", "Back to the screen before.", "Esc"),
    ),
    "agree": (
        Key(
            "enter,space,plus",
            "part(1)",
            "On",
            "The next part: points, leans, order of the dogs. On the keypad +.",
            "Enter",
        ),
        Key("b,minus", "part(-1)", "Back", "The part before. On the keypad -.", "b"),
        Key("d,asterisk", "differing", "Differing", "Only points with different answers, or all.", "d"),
        Key("s", "sort", "Worst first", "The points in the order of the walk, or the worst first.", "s"),
        Key("c", "compare", "One dog", "The evaluators side by side on one dog.", "c"),
        Key("down,up,pagedown,pageup", "", "Move", "Move through the rows.", "↑ ↓", False),
        HELP,
        Key("escape,q", "back", "Leave", "Back to the screen before.", "Esc"),
    ),
    "host": (
        Key("enter,down", "next_field", "Next", "The next line; among the dogs a new line.", "Enter"),
        Key("up", "previous_field", "Line before", "The line before.", "↑", False),
        Key("f2", "write", "Write it", "Write the round's file.", "F2"),
        Key("f3", "take_dogs", "From records", "Take dogs from the examinations kept here.", "F3"),
        Key("f1", "help", "Keys", "This help.", "F1"),
        Key("escape", "back", "Leave", "Leave without writing a round.", "Esc"),
    ),
    "round": (
        Key("enter", "", "Examine", "Examine the marked dog, or go on with it.", "Enter"),
        Key("", "", "", "The number of a line examines that dog.", "1-9", False),
        Key("w", "who", "Evaluator", "Another evaluator works here.", "w"),
        Key("a", "agree", "Agreement", "How well those agree whose sessions are here.", "a"),
        Key("down,up", "", "Move", "Move through the dogs.", "↑ ↓", False),
        HELP,
        Key("escape,q,minus", "back", "Leave", "Back to the start screen.", "Esc"),
    ),
}
