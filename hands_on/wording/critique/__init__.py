"""A critique drafted from an evaluation, in whole sentences, each with the answers it rests on."""
