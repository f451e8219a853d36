"""Ruleset + session -> evaluation: pure, recomputed each time, never stored as truth."""
