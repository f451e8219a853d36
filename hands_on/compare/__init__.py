"""Sessions compared: side by side, re-check, pairing, order of dogs, agreement of evaluators.

Pure: sessions, rulesets and evaluations come in, results go out; nothing here knows the terminal, files or
the clock.
"""
