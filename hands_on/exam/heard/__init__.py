"""What was heard in a note, and what whoever types makes of it before it goes on record."""
