"""Questions asked over a screen; each is dismissed with its answer, or None."""
