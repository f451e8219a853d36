"""How to work the screens that compare, and seminar rounds; paragraphs with an empty line between."""

from __future__ import annotations

COMPARING = {
    "pick-sessions": """
        The newest examination stands first. Mark lines with Space or by their number: the sign in front
        counts in which order, and the first one marked stands at the left. / searches.
        """,
    "compare": """
        A column for each dog, region by region. At the right stands how far they are apart and what that
        is worth. Real: more than two honest hands differ by. Within hand error: it may be the hand and not
        the dog. Growth, too young: of one dog at two ages, and of dogs too young to be judged there.

        Of more than two dogs the right column names the two that differ most, by their numbers.

        Takes and grades belong to the dog and are compared under any editions. Classes, and the order of
        the dogs, only within one edition; the order says how sure each place is and what it depends on.
        """,
    "projector": """
        For a room: first the question and the dogs, then, at the next Enter, the answers and whether the
        difference is real. Enlarge the letters of the terminal too, until the back row can read them.

        In a wide window what fits is drawn in big letters; a high window has more room between.
        """,
    "figure": """
        What was measured is drawn to scale, in full lines; what was graded in plain ones, stronger than it
        was felt; what is neither is dotted and as the edition asks. Read measurements as numbers, not here.

        Laid over what the edition asks: each measurement outside what is asked is brought to the nearer end
        of it, at this dog's height, and nothing departs. Where both lines fall together the dog is as asked.
        Of two dogs, what really differs is drawn heavier.
        """,
    "point-figure": """
        As asked at the left, then the departure slight and marked. Rings show where the hand goes, a chain of
        blocks where stick, tape or goniometer lies. What departs is drawn stronger than it is felt: a drawing
        teaches where to look, the hand decides.
        """,
    "pairing": """
        What two dogs' conformation says of putting them together, and no more: read the cautions first.
        Adds up: both have the fault beyond slight, or it disqualifies.
        """,
    "recheck": """
        What was found then stays hidden until you have answered anew, because it would lean on the hand.
        On leaving a point both answers show, with the verdict: changed, no change shown, as growth would
        have it, or too young to judge then. They stand in the review too.

        At a measurement take all readings first: the earlier one shows when you go on.
        """,
    "history": """
        Every point that was answered more than once, over the dog's age. The figures are printed; the
        plots only show their way, the lowest value at the bottom and the highest at the top.
        """,
    "agree-grid": """
        One point at a time: a row for each dog, a column for each evaluator, and under each dog how often
        which answer was given. Begin with this; f leads to the figures. A star stands behind an answer whose
        examination is not signed, a question mark behind one that was unsure.

        r holds everybody against one evaluator: answers apart from theirs have an exclamation mark in front.
        A reference is not the truth: where all others agree against it, look at the dog again.
        """,
    "cohort": """
        A dog counts once, by its signed and latest examination. In brackets stands the interval that holds
        the share, or the mean, of many more such dogs 95 times of 100: of few dogs it is wide, and that is
        the answer. What moves over the years is told only where chance gives as much in one cohort of twenty
        at most, all that is looked at taken together.

        Of a measurement stand its mean, the spread (standard deviation between the dogs), the least and the
        most. Littermates are alike, and one evaluator sees with one eye: neither is in the intervals.
        """,
    "agree": """
        How well evaluators agree on the same dogs, point by point. Two columns tell it: the statistic for
        the kind of point with its 95 % interval, and in plain words how many pairs of answers differ.

        Few dogs say little of other dogs, and the interval shows it. Where nearly all dogs got the same
        answer kappa and alpha are low or not defined; AC1 or AC2 below them tell more then.
        """,
    "host": """
        The round's file says which dogs, which edition and which points; nobody's answers stand in it. Give
        it to everybody: they open it with Seminar round on the start screen, or hands-on examine FILE.

        All points are asked. For some of them only, put points = ["height", ...] under [round] in the file.
        """,
    "round": """
        Say who you are, then go over the dogs in any order; each is an examination of your own. You see your
        own work only.

        When everybody has signed, gather all session files in one records folder: agreement then shows how
        well you agree, and from there the evaluators side by side on one dog.
        """,
}
