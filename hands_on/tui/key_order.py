"""Keys keep their order, however fast they come and whatever opens meanwhile.

A key runs from what has the focus up to the program. By then another screen may have opened, and keys that
were sent straight to it would overtake those that come back.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Awaitable, Callable
from typing import Any

from textual.app import App
from textual.events import Key, Paste
from textual.message_pump import MessagePump


class KeyOrder:
    """Lets one key at a time on its way; what comes meanwhile waits.

    A key that nothing took, though something else has the focus by now than what it was sent to, goes there
    before those that wait.
    """

    def __init__(self, app: App[Any], send: Callable[[Key | Paste], Awaitable[None]]) -> None:
        """`send` passes a key on to what has the focus, or does at once what it is bound to."""
        self._app, self._send = app, send
        self._on_its_way = False
        self._waiting: deque[Key | Paste] = deque()
        self._back: list[Key] = []

    async def take(self, event: Key | Paste) -> None:
        """Send a key on, or let it wait for the one before."""
        if self._on_its_way:
            self._waiting.append(event)
            return
        target = self._now
        event.meant_for = target  # type: ignore[union-attr]
        await self._send(event)
        self._on_its_way = event.is_forwarded and self._follow(event, target)

    def comes_back(self, event: Key) -> bool:
        """Nothing took a key: was it sent to something else than has the focus now? Then it goes there."""
        now = self._now
        if not self._back and getattr(event, "meant_for", now) is now:
            return False
        self._back.append(Key(event.key, event.character))
        if not self._on_its_way:
            self._on_its_way = self._app.call_later(self._arrived)
        return True

    @property
    def _now(self) -> MessagePump:
        return self._app.focused or self._app.screen

    def _follow(self, event: Key | Paste, pump: MessagePump | None) -> bool:
        """Go behind a key from queue to queue; False where the program takes nothing any more."""
        while pump is not None and pump is not self._app:
            if pump.call_later(self._passed, event, pump):
                return True
            pump = pump._parent
        return self._app.call_later(self._arrived)

    def _passed(self, event: Key | Paste, pump: MessagePump) -> None:
        """A widget has seen the key: it took it, or leaves it to what it stands in.

        What a screen passes on to the program is marked as taken by Textual all the same.
        """
        if not event._stop_propagation or pump._parent is self._app:
            self._follow(event, pump._parent)
        elif self._waiting or self._back:
            self._app.call_later(self._arrived)
        else:
            self._on_its_way = False

    async def _arrived(self) -> None:
        """The key has been dealt with: now those that came back, then those that wait."""
        self._on_its_way = False
        self._waiting.extendleft(reversed(self._back))
        self._back.clear()
        while self._waiting and not self._on_its_way and self._app.screen_stack:
            await self.take(self._waiting.popleft())
