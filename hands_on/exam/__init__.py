"""One examination of one dog: the session as a model, its answers, the walk through the points."""
