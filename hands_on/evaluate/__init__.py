"""Ruleset + session -> evaluation: pure, recomputed each time, never stored as truth."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hands_on.evaluate.evaluation import evaluate as evaluate
    from hands_on.evaluate.result import Evaluation as Evaluation

_HOME = {"evaluate": "evaluation", "Evaluation": "result"}


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
