"""Beginnings of words stand for a fault only where they are those of one fault."""

from hands_on.standard_text import in_full

LABELS = ("Light eyes", "Roach back", "Round eyes", "Cow hocks", "Eyes too deep-set", "Roman nose")


def test_the_beginnings_of_the_words_of_one_label_stand_for_it():
    assert in_full("li ey; cow ho", LABELS) == "light eyes; cow hocks"
    assert in_full("marked ro ba, rom no", LABELS) == "marked roach back, roman nose"


def test_what_begins_several_labels_or_none_stays_as_typed():
    assert in_full("ro ey no; r n; a long tail", (*LABELS, "Rosy nose")) == "ro ey no; r n; a long tail"
    assert in_full("ro no", (*LABELS, "Rosy nose")) == "ro no"
