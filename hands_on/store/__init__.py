"""The only layer that touches files: rulesets and sessions on disk, the index of records, locks.

text_file -> library (rulesets), session_file (sessions) -> open_session (the one being examined)
atomic -> session_file; records (what is kept, by index); places (where it all lies)
"""
