"""Editions compared: rule by rule, and one session judged under two of them."""
