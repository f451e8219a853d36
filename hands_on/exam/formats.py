"""The formats of a session's file, from the first to the one this program writes. Imports no model."""

from __future__ import annotations

from hands_on.toml_text.formats import Steps, Tables, brought_up

__all__ = ["FORMAT", "up_to_date"]

FORMAT = 1
"""The session format this program writes."""

STEPS: Steps = {}
"""How a session of an older format becomes one of the next; one step for each format before `FORMAT`."""


def up_to_date(tables: Tables) -> Tables:
    """A session's tables in the present format; those of a newer one, or of none, as they are."""
    return brought_up(tables, FORMAT, STEPS)
