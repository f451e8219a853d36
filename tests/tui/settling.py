"""When has the program done all that keys led to? Once nothing of it is left to run.

Textual's pilot waits until the processor idles: at least 40 ms a key, and on a busy machine it goes on too
early. Here the event loop, the queues of the screens and the workers are looked at.
"""

from __future__ import annotations

import asyncio
import time

import pytest
from rich.console import RenderableType
from textual._compositor import Compositor
from textual._context import active_app
from textual.app import App
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet
from textual.message_pump import MessagePump
from textual.screen import Screen

LONGEST = 10.0
"""Seconds; a test may hold a worker back on purpose."""
LONGEST_WORKER = 1.0


async def all_done(*_: float) -> None:
    """Wait until nothing is left to run, no message to be read and no worker at work."""
    app = active_app.get()
    loop = asyncio.get_running_loop()
    began = time.monotonic()
    quiet = 0
    while quiet < 3 and (passed := time.monotonic() - began) < LONGEST:
        await asyncio.sleep(0)
        if loop._ready or _waiting(app):  # type: ignore[attr-defined]
            quiet = 0
        elif _soon(app, passed):
            quiet = 0
            await asyncio.sleep(0.002)
        else:
            quiet += 1
            if app.screen_stack:
                app.screen._on_timer_update()
    _draw(app)


def _soon(app: App[int], passed: float) -> bool:
    """Is a worker at work, or a new size about to be passed on?"""
    at_work = passed < LONGEST_WORKER and any(worker.is_running for worker in app.workers)
    return at_work or app._resize_event is not None


def _waiting(app: App[int]) -> bool:
    pumps: list[MessagePump] = [app]
    for screen in app.screen_stack:
        pumps += screen.walk_children(with_self=True)
    return any(pump._running and (pump.message_queue_size or pump._next_callbacks) for pump in pumps)


_render_update = Compositor.render_update


def _draw_later(
    compositor: Compositor,
    full: bool = False,
    screen_stack: list[Screen] | None = None,
    simplify: bool = False,
) -> RenderableType | None:
    """Nobody sees what a program without a terminal draws between two looks: it is drawn once all is done."""
    if simplify:  # a screenshot
        return _render_update(compositor, full, screen_stack, simplify)
    if full:
        compositor._dirty_regions.add(compositor.size.region)
    return None


def _draw(app: App[int]) -> None:
    """Draw all that has changed since the last look: what can't be drawn ends the test."""
    if app.screen_stack and app._running:
        _render_update(app.screen._compositor, screen_stack=app._background_screens)


_PARSED: dict[tuple[object, ...], list[RuleSet]] = {}
_parse_rules = Stylesheet._parse_rules


def _parsed_once(sheet: Stylesheet, *given: object, **named: object) -> list[RuleSet]:
    """Styles that every app reads are parsed for the first one; what they give depends on these alone."""
    key = (given, *sorted(named.items()), *sorted(sheet._variables.items()))
    if key not in _PARSED:
        _PARSED[key] = _parse_rules(sheet, *given, **named)  # type: ignore[arg-type]
    return _PARSED[key]


def settle_by_queues(patch: pytest.MonkeyPatch) -> None:
    """Let every pilot wait in this way, and no app parse what another has parsed."""
    patch.setattr(Stylesheet, "_parse_rules", _parsed_once)
    patch.setattr(Compositor, "render_update", _draw_later)
    patch.setattr("textual.pilot.wait_for_idle", all_done)
    patch.setattr("textual.app.wait_for_idle", all_done)
