"""Help: the keys of the screen it was asked from, and how the program is worked."""

from __future__ import annotations

from hands_on.tui import keys
from hands_on.tui.keys.how_to_comparing import COMPARING
from hands_on.tui.keys.key import Key
from hands_on.tui.questions.reading import Paragraph, ReadingScreen

HEARD = """Taken is what will stand among the findings; to be confirmed is what the program is not sure of:
        it stays in the words unless it is taken with ^T (Ctrl and T together). Ruled out means looked for and
        not there. Whoever changes degree, side or status takes the finding.

        A point called right ([=3]) is answered as asked; one to be confirmed only when it is taken, and one
        dropped stays open. What is recorded or found there already stays as it is.

        A number with its measurement becomes a reading at that point; one that cannot be is asked about
        first. The words always stay on record as typed."""

HOW_TO = {
    "start": """
        An examination goes through the dog region by region, in the order of the hands. At every point
        the program says what the standard asks and how the hand finds it; you answer with a number.

        Whatever you answer is saved at once. You may leave at any time, or pull the plug: on the start
        screen Go on takes up where you stopped.

        One hand is enough: in the walk everything but notes works from the numeric keypad.

        Nothing here is a diagnosis. What looks like pain or illness goes to a veterinarian.
        """,
    "dog": """
        Only the call name, the sex and the evaluator must be filled in. Without a date of birth nothing
        can be said about ages, and what is too young to judge is then not told.

        Dates: 2024-03-11, 11.03.2024 or 11 March 2024. The line below says what was understood.
        """,
    "cautions": """
        Each of these is read before the dog is touched; the questions are answered with yes or no, and
        all of it is kept with the examination.
        """,
    "walk": """
        The lines of a point are numbered. A number answers; where the answer is a departure, how far it
        goes and on which side are asked next. 0 says: as asked for.

        A measurement: type the reading and Enter (64.5, 64,5, 64+ for the half, 25 3/8 in, 25"), lift the
        hand off, find the landmark again, and take the next one. Enter alone goes on.

        Teeth: type a tooth's Triadan number and Enter to mark it; * changes the mark; 0 and Enter says
        that all 42 were seen.

        A point that can't be done is skipped with its reason: a missing measurement is a valid result.

        t shows all points of the region on one sheet, and leads back; on the keypad / and then 0.
        """,
    "sheet": """
        All points of a region. The number of a point opens it, to say what departs; 0 then gives the rest of
        the region as asked, each point as an answer of its own, with the note that it was given by region.

        Readings, condition, the tooth chart and choices without one right answer are no part of that: after
        0 they are asked one after the other, and Enter pressed twice leaves one open.

        u takes back one answer, or all that was given by region.
        """,
    "note": f"""
        Write what is called out, in any words. Below the line stands the note with each piece that was
        understood behind its number, and what it was understood as; [?] marks what was not.

        {HEARD}
        """,
    "scribe": f"""
        For whoever types while the evaluator calls out: any part of the dog, in any order, several things
        in one call. Enter records the call and clears the line for the next; the last calls stand below.

        {HEARD}
        """,
    "review": """
        The list shows what was found, heaviest class first, then what needs a second look, what was
        measured, and what was not examined. Enter on a line goes to its point.

        You have the last word: a computed finding may be dismissed, with the reason kept beside it.

        e shows what the same answers give under another edition; the examination keeps its own.

        After the signature nothing is changed silently: each change asks for its reason and is kept as
        an amendment.
        """,
    "editions": """
        Enter reads an edition, each figure with its source. F3 holds it against another, those of its breed
        first: only what differs, rule by rule.

        F2 begins an edition of your own, in a file that you then edit; it says where the file is and how it
        is checked. A file that can't be used stands in the list with what is wrong, and hides no other.
        """,
    "two-editions": """
        Only what the two editions do not say alike, what each says beside its sources, and in words what
        differs. Where limits differ, the stretches of values that they judge otherwise stand below.

        What both say alike is counted at the end; the sources stand there in full.
        """,
    "under-another": """
        The answers belong to the dog and stay as they are; what they are worth belongs to the edition. Each
        verdict or class that changes stands here with the reason. no rule, not found: the other edition does
        not ask for it.

        Only shown: the examination keeps its own edition.
        """,
    **COMPARING,
}
"""How to, by screen; paragraphs with an empty line between."""


class HelpScreen(ReadingScreen):
    """Keys first, then how to."""

    NAME = "help"
    CSS_PATH = "../questions/reading.tcss"
    BINDINGS = keys.bindings("help")

    def __init__(self, screen: str) -> None:
        super().__init__("Help", help_text(screen))


def help_text(screen: str) -> list[Paragraph]:
    """What F1 tells on a screen."""
    rows = keys.KEYS.get(screen, ())
    width = max((len(_written(key)) for key in rows), default=0)
    told = "\n".join(f"{_written(key):{width}}  {key.tells}" for key in rows)
    paragraphs = [Paragraph(told, "Keys on this screen")]
    if screen in HOW_TO:
        texts = [" ".join(text.split()) for text in HOW_TO[screen].split("\n\n")]
        paragraphs.append(Paragraph("\n\n".join(texts), "How to"))
    return paragraphs


def _written(key: Key) -> str:
    return key.shown or key.keys.split(",")[0]
