"""The dog drawn: from measurements and graded departures to shapes; pure.

``skeleton`` places the landmarks, ``fitting`` moves them until every measurement is in its place, ``side``,
``front`` and ``rear`` lay an outline round them, ``drawn`` makes figures: a dog, an edition's ideal, a single
departure. Nothing here knows a page or a terminal: ``report.figure_svg`` and ``tui.drawing`` draw.
"""
