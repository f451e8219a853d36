"""Choosing a numbered line, by digit, by number and Enter where there are more than nine, or by arrows."""

from __future__ import annotations

from hands_on.exam.dialogue.base import STAY, Dialogue, Line, Step

__all__ = ["Numbered"]


class Numbered(Dialogue):
    """A dialogue whose current question is answered by a line's number."""

    def lines(self) -> tuple[Line, ...]:
        """The answers to the current question."""
        raise NotImplementedError

    def choose(self, key: str) -> Step:
        """The line with this key was chosen."""
        raise NotImplementedError

    def confirm(self) -> Step:
        """Enter with nothing typed and nothing selected."""
        return self.pass_on("the number of a line")

    def pick(self, key: str) -> Step | None:
        """Handle digits, arrows and Enter; None when the key is another."""
        self.refused = False
        lines = self.lines()
        keys = [line.key for line in lines]
        if key in ("up", "down"):
            return self.move_cursor(key, len(lines))
        if key == "backspace" and self.typed:
            self.typed = self.typed[:-1]
            return STAY
        if len(key) == 1 and key.isascii() and key.isdigit():
            return self._digit(key, keys)
        if key == "enter":
            if self.typed:
                chosen, self.typed = self.typed, ""
                return self._chosen(chosen, keys)
            if self.cursor is not None and self.cursor < len(lines):
                return self._chosen(keys[self.cursor], keys)
            return self.confirm()
        return None

    def _digit(self, digit: str, keys: list[str]) -> Step:
        """A digit chooses at once; where some numbers have two figures, every number but 0 waits for Enter.

        Otherwise Enter, pressed by habit after a number that was already taken, would act a second time.
        """
        number = self.typed + digit
        if number == "0":
            return self._chosen(number, keys)
        longest = max(map(len, keys), default=1)
        if number in keys and longest == 1:
            self.typed = ""
            return self._chosen(number, keys)
        if any(key.startswith(number) for key in keys):
            self.typed = number
            self.message = f"{number}: Enter takes it." if number in keys else ""
            return STAY
        self.typed = ""
        return self._unknown(number, keys)

    def _chosen(self, key: str, keys: list[str]) -> Step:
        if key not in keys:
            return self._unknown(key, keys)
        self.message = ""
        self.cursor = None
        return self.choose(key)

    def _unknown(self, key: str, keys: list[str]) -> Step:
        self.refused = True
        known = f": {keys[0]} to {keys[-1]}" if keys else ""
        self.message = f"There is no {key} here{known}."
        return STAY
