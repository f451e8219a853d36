"""Answers written out for tests of findings."""

from tests.evaluate.build import grade

COW, BOWED, HOCKS = "hindquarters.cow-hocks", "hindquarters.bowed-hocks", "hindquarters.hocks"
ODD = "general.odd"
PUPPY = 'sex = "male"\nborn = 2023-10-01'
"""Eight months old at the examination; the tests' faults are judged from 12 in a large breed."""

HEIGHT = """
[[limits]]
id = "height"
measure = "height"
asked = { from = 63, to = 70 }
bands = [
    { below = 63, fault = "general.under-height", class = "out" },
    { above = 70, fault = "general.over-height", class = "severe" },
]
source = "reading"
"""


def cow(degree: str = "", side: str = "", more: str = "") -> str:
    return grade(COW, degree, side, HOCKS, more)


def note(fault: str, rest: str = "") -> str:
    more = f", {rest}" if rest else ""
    return f'[[notes]]\ntext = "as typed"\nfindings = [{{ fault = "{fault}"{more} }}]\n'


def decision(what: str, fault: str = COW, more: str = "") -> str:
    return f'[[decisions]]\nfault = "{fault}"\ndecision = "{what}"\nreason = "stood badly"\n{more}'
