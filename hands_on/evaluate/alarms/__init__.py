"""What an alarm is about, as values: what was recorded (`recorded`) and what was judged (`judged`).

`wording.alarms` says them.
"""

from __future__ import annotations

from hands_on.evaluate.alarms import judged, recorded

__all__ = ["About"]

About = (
    recorded.BornLater
    | recorded.NotKnown
    | recorded.EditionChanged
    | recorded.NoSuchSwitch
    | recorded.TakeRefused
    | recorded.TakesOdd
    | recorded.CountsDiffer
    | recorded.FarFromAsked
    | recorded.TakesUnused
    | recorded.Unclosed
    | recorded.UnknownPoint
    | recorded.UnknownFault
    | recorded.OfOtherSex
    | recorded.NoScale
    | recorded.NoSuchStep
    | recorded.NoChoice
    | recorded.NoSuchAnswer
    | recorded.SeveralAnswers
    | recorded.TeethUnseen
    | recorded.MilkTeeth
    | judged.SwitchChosen
    | judged.SwitchOff
    | judged.NearLimit
    | judged.HeavierNotSure
    | judged.SortedUnsure
    | judged.SortedOtherwise
    | judged.DegreeNeeded
    | judged.DegreeNeededTogether
    | judged.ForVeterinarian
    | judged.Opposed
    | judged.Denied
    | judged.AsAskedBut
    | judged.MeasuredOtherwise
    | judged.FullMouth
    | judged.TogetherAsked
)
