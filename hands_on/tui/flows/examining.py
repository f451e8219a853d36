"""From a dog on the table to its review: new, gone on with, cautions, walk, scribe's line."""

from __future__ import annotations

from typing import Any

from hands_on.tui import asks
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.flows.rounds import open_round
from hands_on.tui.flows.usable import loaded, opened
from hands_on.tui.program import Stage
from hands_on.tui.questions.choose_edition import ChooseEdition
from hands_on.tui.screens.cautions import CautionsScreen, all_read
from hands_on.tui.screens.dog import DogScreen
from hands_on.tui.screens.figure import figure_of_sheet
from hands_on.tui.screens.point_figure import PointFigureScreen
from hands_on.tui.screens.review import ReviewScreen
from hands_on.tui.screens.scribe import ScribeScreen
from hands_on.tui.screens.sheet import SheetScreen
from hands_on.tui.screens.walk import WalkScreen


def new_examination(stage: Stage, ask: asks.NewExamination) -> None:
    """Choose the edition unless it is given, then the dog."""

    def chosen(edition: str | None) -> None:
        ruleset = loaded(stage, edition) if edition is not None else None
        if ruleset is None:
            return
        if ask.walk is not None and ask.walk not in ruleset.walks:
            known = ", ".join(ruleset.walks)
            stage.say("There is no such walk", f"{ask.walk} is none of this edition's walks: {known}.")
            return
        stage.push_screen(DogScreen(ruleset, ask.walk, sheets=ask.sheets))

    if ask.edition is None:
        stage.push_screen(ChooseEdition(), chosen)
    else:
        chosen(ask.edition)


def open_file(stage: Stage, ask: asks.OpenFile) -> None:
    """Open a session's file; that of a seminar round opens the round."""
    if open_round(stage, ask.path):
        return
    sheet = opened(stage, ask.path)
    if sheet is None:
        return
    sheet.by_sheets = sheet.by_sheets or ask.sheets
    stage.push_screen(screen_for(stage, sheet))


def go_on(stage: Stage, ask: asks.GoOn) -> None:
    """An opened examination where it stands."""
    screen = screen_for(stage, ask.sheet)
    if ask.instead:
        stage.switch_screen(screen)
    else:
        stage.push_screen(screen)


def screen_for(stage: Stage, sheet: CurrentExamination) -> Any:
    """The screen on which an opened examination goes on."""
    if sheet.session.signature is not None:
        return ReviewScreen(sheet)
    if not sheet.read_only and not all_read(sheet, stage.library):
        return CautionsScreen(sheet)
    return _where_it_stood(sheet)


def _where_it_stood(sheet: CurrentExamination, message: str = "") -> Any:
    """The sheet of the region the walk stood in, or its point."""
    if sheet.by_sheets:
        return SheetScreen(sheet, sheet.sheet_of(sheet.stops[sheet.place]), message)
    return WalkScreen(sheet, message=message)


def walk(stage: Stage, ask: asks.Walk) -> None:
    """The walk."""
    if ask.at is None:
        stage.switch_screen(_where_it_stood(ask.sheet, ask.message))
    else:
        stage.switch_screen(WalkScreen(ask.sheet, ask.at, ask.message, in_turn=ask.in_turn))


def on_sheet(stage: Stage, ask: asks.Sheet) -> None:
    """A region's sheet."""
    stage.switch_screen(SheetScreen(ask.sheet, ask.region, ask.message))


def review(stage: Stage, ask: asks.Review) -> None:
    """The review."""
    stage.switch_screen(ReviewScreen(ask.sheet, ask.then))


def scribe(stage: Stage, ask: asks.Scribe) -> None:
    """The scribe's line."""

    def closed(_: None) -> None:
        ask.done()

    stage.push_screen(ScribeScreen(ask.sheet, ask.unit), closed)


def dog_drawn(stage: Stage, ask: asks.DogDrawn) -> None:
    """The dog over what its edition asks."""
    stage.push_screen(figure_of_sheet(ask.sheet, ask.at))


def point_drawn(stage: Stage, ask: asks.PointDrawn) -> None:
    """A point drawn large."""
    stage.push_screen(PointFigureScreen(ask.ruleset, ask.point, ask.sex))
