"""Evaluators compared on the same dogs: the statistic that fits each point, and who leans."""
