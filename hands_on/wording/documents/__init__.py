"""Comparisons as the JSON documents that commands print, their sentences put in."""
