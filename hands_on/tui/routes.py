"""Which screen leads where: for everything that can be asked for, the flow that does it.

Flows and their screens are brought into memory here when they are first asked for, so that the start screen
paints without them. Beside this page only what is there at the first paint imports late: the app, the start
screen.
"""

from __future__ import annotations

from importlib import import_module

from hands_on.tui import asks
from hands_on.tui.program import Stage

ROUTES: dict[type[asks.Ask], str] = {
    asks.Help: "showing:help_on",
    asks.Records: "showing:records",
    asks.Editions: "showing:editions",
    asks.NewExamination: "examining:new_examination",
    asks.OpenFile: "examining:open_file",
    asks.GoOn: "examining:go_on",
    asks.Walk: "examining:walk",
    asks.Sheet: "examining:on_sheet",
    asks.Review: "examining:review",
    asks.Scribe: "examining:scribe",
    asks.OwnWordsList: "own_words:own_words",
    asks.DogDrawn: "examining:dog_drawn",
    asks.PointDrawn: "examining:point_drawn",
    asks.Practise: "practising:practise",
    asks.Critique: "critiques:critique",
    asks.CritiqueOf: "critiques:critique_of",
    asks.UnderAnother: "editions:under_another",
    asks.Compare: "comparing:pick_compare",
    asks.ShowSideBySide: "comparing:show_side_by_side",
    asks.DogsDrawn: "comparing:dogs_drawn",
    asks.Project: "comparing:project",
    asks.Pairing: "comparing:show_pairing",
    asks.Recheck: "comparing:recheck",
    asks.History: "comparing:show_history",
    asks.Cohort: "cohorts:pick_cohort",
    asks.Agreement: "agreeing:pick_agreement",
    asks.ShowAgreement: "agreeing:show_agreement",
    asks.AgreementFigures: "agreeing:show_figures",
    asks.WhoExamines: "rounds:who_examines",
    asks.SeminarRound: "rounds:begin_round",
    asks.RoundWritten: "rounds:round_written",
    asks.ReadEdition: "editions:read_edition",
    asks.AgainstAnother: "editions:against_another",
    asks.TwoEditions: "editions:show_two_editions",
    asks.NewEdition: "editions:new_edition",
    asks.WriteEdition: "wizard:write_edition",
}
"""The function of a module in `tui.flows`; it is called with the program and the ask."""


def follow(stage: Stage, ask: asks.Ask) -> None:
    """Do what is asked for. Raises KeyError for an ask without a route."""
    module, function = ROUTES[type(ask)].split(":")
    getattr(import_module(f"hands_on.tui.flows.{module}"), function)(stage, ask)
