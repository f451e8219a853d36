"""One line of a form: what it is, what is entered, what was understood or is wrong."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Key
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from hands_on.plain_text import visible
from hands_on.tui.show import plain


@dataclass(frozen=True)
class Reading:
    """What a field's text means: a value for the record, and what to tell beside it."""

    told: str = ""
    wrong: str = ""


class Field(Vertical):
    """Label, entry and one line under it where there is something to tell."""

    DEFAULT_CSS = """
    Field { height: auto; }
    Field .row { height: auto; }
    Field .label { width: 20; height: 1; }
    Field .told { margin-left: 21; height: auto; }
    Field .wrong { text-style: bold; }
    Field Input, Field Pick { width: 1fr; }
    """

    class Changed(Message):
        """The entry changed."""

    def __init__(self, name: str, label: str, help_text: str = "") -> None:
        super().__init__()
        self.field_name, self.label, self.help_text = name, label, help_text
        self.reading = Reading()

    @property
    def value(self) -> str:
        """What is entered, blanks at the ends dropped."""
        raise NotImplementedError

    def tell(self, reading: Reading) -> None:
        """Show what was understood, or what is wrong."""
        self.reading = reading
        line = self.query_one(".told", Static)
        text = f"! {reading.wrong}" if reading.wrong else reading.told or self.help_text
        line.update(plain(text))
        line.set_class(bool(reading.wrong), "wrong")
        line.display = bool(text)

    def fill(self, value: str) -> None:
        """Put in what was entered before; what does not fit is left out."""
        raise NotImplementedError

    def entry(self) -> Widget:
        """The widget that takes the focus."""
        raise NotImplementedError

    def on_mount(self) -> None:
        """Nothing told yet."""
        self.tell(self.reading)


class TextField(Field):
    """A line of text."""

    def __init__(
        self,
        name: str,
        label: str,
        value: str = "",
        help_text: str = "",
        read: Callable[[str], Reading] | None = None,
    ) -> None:
        super().__init__(name, label, help_text)
        self._start, self._read = visible(value), read

    def compose(self) -> ComposeResult:
        """Label and line."""
        with Horizontal(classes="row"):
            yield Static(plain(self.label), classes="label", markup=False)
            yield Input(self._start, select_on_focus=False)
        yield Static("", classes="told", markup=False)

    @property
    def value(self) -> str:
        """What is typed."""
        return self.query_one(Input).value.strip()

    def fill(self, value: str) -> None:
        """A text as it was typed."""
        self.query_one(Input).value = visible(value)

    def entry(self) -> Widget:
        """The line."""
        return self.query_one(Input)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Say what was understood."""
        event.stop()
        self.tell(self._read(self.value) if self._read and self.value else Reading())
        self.post_message(self.Changed())


class Pick(Static, can_focus=True):
    """A few answers beside each other, one of them chosen by its key, by its number or with the arrows."""

    @dataclass
    class Picked(Message):
        """Another answer holds."""

        value: str

    def __init__(self, options: Sequence[tuple[str, str, str]], value: str) -> None:
        """`options`: value, key, label; the first key works as well as the number."""
        super().__init__("", markup=False)
        self.options, self.value = tuple(options), value

    def on_mount(self) -> None:
        """Show the answers."""
        self._draw()

    def watch_has_focus(self, has_focus: bool) -> None:
        """Show whether the keys go here."""
        super().watch_has_focus(has_focus)
        self._draw()

    def on_key(self, event: Key) -> None:
        """Choose by key, number or arrow."""
        values = [value for value, _, _ in self.options]
        keys = {key: value for value, key, _ in self.options if key}
        keys |= {str(number): value for number, value in enumerate(values, 1) if number < 10}
        if event.character and event.character.lower() in keys:
            self.pick(keys[event.character.lower()])
        elif event.key in ("left", "right", "space"):
            at = values.index(self.value) if self.value in values else -1
            step = -1 if event.key == "left" else 1
            self.pick(values[(at + step) % len(values)] if at >= 0 else values[0 if step > 0 else -1])
        else:
            return
        event.stop()
        event.prevent_default()

    def pick(self, value: str) -> None:
        """Take an answer."""
        self.value = value
        self._draw()
        self.post_message(self.Picked(value))

    def _draw(self) -> None:
        parts: list[Content] = []
        for number, (value, key, label) in enumerate(self.options, 1):
            chosen = value == self.value
            written = f"({'●' if chosen else ' '}) {key or number} {label}"
            parts.append(
                plain(written, "bold reverse" if chosen and self.has_focus else "bold" if chosen else "")
            )
        marker = "> " if self.has_focus else "  "
        self.update(Content.assemble(marker, Content("  ").join(parts)))


class PickField(Field):
    """A choice among a few."""

    def __init__(
        self,
        name: str,
        label: str,
        options: Sequence[tuple[str, str, str]],
        value: str = "",
        help_text: str = "",
    ) -> None:
        super().__init__(name, label, help_text)
        self._options, self._start = options, value

    def compose(self) -> ComposeResult:
        """Label and answers."""
        with Horizontal(classes="row"):
            yield Static(plain(self.label), classes="label", markup=False)
            yield Pick(self._options, self._start)
        yield Static("", classes="told", markup=False)

    @property
    def value(self) -> str:
        """The answer that holds; empty when none does."""
        return self.query_one(Pick).value

    def fill(self, value: str) -> None:
        """An answer, where it is among those offered."""
        pick = self.query_one(Pick)
        if value in {offered for offered, _, _ in pick.options}:
            pick.pick(value)

    def entry(self) -> Widget:
        """The answers."""
        return self.query_one(Pick)

    def on_pick_picked(self, event: Pick.Picked) -> None:
        """The choice settles what was wrong."""
        event.stop()
        self.tell(Reading())
        self.post_message(self.Changed())


def country_reading(text: str) -> Reading:
    """Two letters."""
    if len(text) == 2 and text.isascii() and text.isalpha():
        return Reading()
    return Reading(wrong="Two letters, for instance DE, GB or US.")
