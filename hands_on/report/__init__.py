"""What leaves the table: an evaluation to read, to hand over, to compute with, and the sheet for paper days.

A dossier holds what is said of a session, once; text, Markdown and HTML show it.
"""
