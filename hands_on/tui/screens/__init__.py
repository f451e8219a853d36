"""One module a screen, named for what is on it, with its styles beside it."""
