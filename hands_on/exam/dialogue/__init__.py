"""The dialogue at one point: keys in, answers out.

It knows nothing of the screen: `prompt` says what to show, `press` takes a key and says what follows.
Every step can be done from a numeric keypad (digits, `+ - . / *`, Enter).
"""

from hands_on.exam.dialogue.base import Dialogue, Line, Prompt, Step
from hands_on.exam.dialogue.for_point import dialogue_for

__all__ = ["Dialogue", "Line", "Prompt", "Step", "dialogue_for"]
