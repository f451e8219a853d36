"""Rules as data: the model of a ruleset, how it is read and built on another, how it is checked.

text -> files.py (one file's model) -> assemble.py -> ruleset.py (an edition, complete)
"""
