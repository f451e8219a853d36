"""The line for whatever the evaluator calls out. What is typed is kept word for word."""

from __future__ import annotations

import re
from typing import Protocol

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Static, TextArea

from hands_on.exam.heard.hands import Draft, Hands
from hands_on.exam.heard.note import (
    Heard,
    HeardFault,
    HeardMeasure,
    Thing,
    as_fault,
    next_degree,
    next_side,
    next_status,
    toggled,
    with_added,
)
from hands_on.exam.heard.right import HeardRight
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui import keys
from hands_on.tui.heard_rows import about
from hands_on.tui.widgets.understood import Understood

LONG = 200
"""Characters of a note that needs all the room a small window has."""


class NoteHost(Protocol):
    """What reads and records for a note line.

    Called at once, not by message: keys typed ahead of what Enter leads to belong to the next call.
    """

    def hear(self, draft: Draft) -> Heard:
        """What a text says here; called for each key."""

    def entered(self, heard: Heard) -> None:
        """Enter."""

    def put_aside(self) -> None:
        """Escape."""

    def pick_other(self, fault: HeardFault) -> None:
        """Another fault was meant."""

    def pick_added(self, heard: Heard) -> None:
        """A fault is wanted for words that nothing was read from."""

    def own_words(self) -> None:
        """The list of the evaluator's own words is wanted."""

    def keys_told(self, screen: str) -> None:
        """Help for the line's keys is wanted."""


class NoteText(TextArea):
    """Several lines; Enter keeps the note, Ctrl+J makes a new line, a paste keeps its lines."""

    async def _on_paste(self, event: events.Paste) -> None:
        """A copied paragraph brings the end of its last line too, and that begins no new one here."""
        event.text = event.text.rstrip("\n")

    async def _on_key(self, event: events.Key) -> None:
        line = self.parent
        if not isinstance(line, NoteLine):
            return
        action = line.actions.get(event.key)
        if action is None or (event.key in ("up", "down") and self.document.line_count > 1):
            return
        event.stop()
        event.prevent_default()
        line.act(action)


class NoteLine(Vertical):
    """The line and, under it, what was understood of it."""

    DEFAULT_CSS = """
    NoteLine { height: 1fr; min-height: 8; }
    NoteLine NoteText { height: auto; min-height: 1; max-height: 4; border: none; padding: 0 1; }
    NoteLine #note-head { height: auto; padding: 0 1; }
    """

    def __init__(self, ruleset: Ruleset, table: str, head: str, host: NoteHost) -> None:
        """`table` names the keys in `keys.KEYS`, `head` says what the line is for, `host` reads, records."""
        super().__init__()
        self.host = host
        self.ruleset, self._head, self._table = ruleset, head, table
        self.actions = keys.in_line(table)
        self.hands: Hands = {}
        """What was changed by hand on what was heard."""
        self._marked = ""
        """The id of what was marked with the keys; empty: the newest is."""

    def compose(self) -> ComposeResult:
        """Heading, line, what was understood."""
        yield Static(self._head, id="note-head", classes="hint", markup=False)
        yield NoteText("", compact=True, soft_wrap=True, show_line_numbers=False, highlight_cursor_line=False)
        yield Understood()

    @property
    def text(self) -> str:
        """As typed."""
        return self.query_one(NoteText).text

    @property
    def draft(self) -> Draft:
        """Text and changes."""
        return Draft(self.text, self.hands)

    @property
    def heard(self) -> Heard:
        """What the text says now."""
        return self.host.hear(self.draft)

    def open(self, draft: Draft) -> None:
        """Show the line with what was put aside earlier."""
        self.display = True
        self.fill(draft)
        self.screen.set_focus(self.query_one(NoteText))  # at once, so that keys pressed fast go here

    def close(self) -> None:
        """Hide the line."""
        self.display = False
        self.screen.set_focus(None)

    def fill(self, draft: Draft) -> None:
        """Another text; empty for the next call."""
        text = self.query_one(NoteText)
        self.hands, self._marked = draft.hands, ""
        text.text = draft.text
        text.move_cursor(text.document.end)
        self.show()

    def on_text_area_changed(self, event: TextArea.Changed) -> None:
        """Read what is typed now."""
        event.stop()
        if not self.text.strip():
            self.hands, self._marked = {}, ""
        self.show()

    def show(self, message: str = "") -> None:
        """What is understood now."""
        heard = self.heard
        self.screen.set_class(len(heard.text) > LONG, "-long")  # a screen may make room for it
        self.query_one(Understood).show(heard, self.ruleset, self.marked(heard), message)

    def marked(self, heard: Heard) -> Thing | None:
        """What the keys act on: what was marked, else the newest words."""
        chosen = next((thing for thing in heard.things if thing.id == self._marked), None)
        return chosen or (heard.things[-1] if heard.things else None)

    # --- keys

    def act(self, action: str) -> None:
        """What a key in the line does."""
        found = re.fullmatch(r"(\w+)(?:\((-?\d+)\))?", action)
        if found is not None:
            arguments = [int(found[2])] if found[2] else []
            getattr(self, f"action_{found[1]}")(*arguments)

    def action_keep(self) -> None:
        """Enter: an empty note is none."""
        if self.text.strip():
            self.host.entered(self.heard)
        else:
            self.host.put_aside()

    def action_put_aside(self) -> None:
        """Escape."""
        self.host.put_aside()

    def action_new_line(self) -> None:
        """A new line in the text."""
        self.query_one(NoteText).insert("\n")

    def action_help(self) -> None:
        """The keys."""
        self.host.keys_told(self._table)

    def action_move(self, step: int) -> None:
        """Mark the next thing heard, round at the ends."""
        heard = self.heard
        self.show()  # the order below is that of the text as it is now
        order, now = self.query_one(Understood).order, self.marked(heard)
        if now is not None:
            at = [thing.id for thing in order].index(now.id)
            self._marked = order[(at + step) % len(order)].id
            self.show()

    def action_take(self) -> None:
        """Take or drop."""
        thing = self._at_hand()
        if isinstance(thing, HeardMeasure) and thing.point is None:
            self.show("This edition knows no such point; the number stays in the words.")
        elif isinstance(thing, HeardRight) and thing.hindered is not None:
            self.show(about(thing, self.ruleset))
        elif thing is not None:
            self._change(thing, toggled(self.hands, thing))

    def action_degree(self) -> None:
        """The next degree."""
        fault = self._fault(
            "A reading has no degree; mend its number in the line.",
            "What is as asked has no degree; drop it with ^T.",
        )
        if fault is not None:
            self._change(fault, next_degree(self.hands, fault))

    def action_side(self) -> None:
        """The next side."""
        thing = self._at_hand()
        if thing is None:
            return
        if isinstance(thing, HeardFault):
            known = self.ruleset.faults.get(thing.fault)
            sides = known is None or known.sides or thing.side is not None
        elif isinstance(thing, HeardRight):
            self.show("What is as asked is so on both sides; drop it with ^T.")
            return
        else:
            sides = thing.point is not None and thing.point.sides
        if sides:
            self._change(thing, next_side(self.hands, thing))
        else:
            self.show("Left and right are not told apart here.")

    def action_status(self) -> None:
        """There, ruled out, unsure."""
        fault = self._fault(
            "A reading is neither ruled out nor unsure; drop it with ^T.",
            "What is called right is as asked or dropped: ^T.",
        )
        if fault is not None:
            self._change(fault, next_status(self.hands, fault))

    def action_other(self) -> None:
        """Another fault was meant."""
        fault = self._fault(
            "This is a reading; mend it in the line.",
            "This calls a point right and names no fault; drop it with ^T.",
        )
        if fault is not None:
            self.host.pick_other(fault)

    def other_picked(self, fault: HeardFault, name: str) -> None:
        """The fault that was meant."""
        self._change(fault, as_fault(self.hands, fault, name))

    def action_add(self) -> None:
        """A fault for words that nothing was read from."""
        heard = self.heard
        if heard.unread:
            self.host.pick_added(heard)
        else:
            self.show("Every word is read; ^O tells that another fault was meant.")

    def added(self, name: str, words: str) -> None:
        """The fault that such words mean."""
        self.hands, self._marked = with_added(self.hands, name, words), name
        self.show()

    def action_own_words(self) -> None:
        """The words of one's own."""
        self.host.own_words()

    def _change(self, thing: Thing, hands: Hands) -> None:
        self.hands, self._marked = hands, thing.id
        self.show()

    def _at_hand(self) -> Thing | None:
        thing = self.marked(self.heard)
        if thing is None:
            self.show("Nothing is understood yet that could be changed.")
        return thing

    def _fault(self, of_reading: str, of_right: str) -> HeardFault | None:
        """The fault marked; of anything else it is told why the key does nothing."""
        thing = self._at_hand()
        if isinstance(thing, HeardMeasure | HeardRight):
            self.show(of_reading if isinstance(thing, HeardMeasure) else of_right)
        return thing if isinstance(thing, HeardFault) else None
