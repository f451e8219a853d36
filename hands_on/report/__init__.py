"""Readable text from rulesets and evaluations."""
