"""Editions held against each other: rule by rule, and one session judged under two of them."""
