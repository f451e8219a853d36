"""`python -m hands_on`."""

from hands_on.cli import program

raise SystemExit(program())
