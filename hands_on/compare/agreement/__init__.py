"""Evaluators held against each other on the same dogs: the statistic that fits each point, and who leans."""
