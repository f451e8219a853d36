"""Hands On: a hands-on examination of a dog against its breed's written standard."""

__version__ = "0.1.0"
