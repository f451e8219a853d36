"""A cohort as CSV: a row a fault and a row a measurement, safe for spreadsheets."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping

from hands_on.compare.cohort.cohort import Cohort
from hands_on.plain_text import spreadsheet_text
from hands_on.wording.labels import label_words

__all__ = ["COLUMNS", "cohort_csv"]

COLUMNS = (
    *("about", "id", "label", "sex", "unit", "dogs", "count", "share", "low", "high"),
    *("mean", "spread", "least", "most", "asked_from", "asked_to", "outside", "classes", "degrees"),
)
"""`low` and `high` are the ends of the 95 % interval: of the share, or of the mean."""


def cohort_csv(found: Cohort, labels: Mapping[str, str]) -> str:
    """The table (RFC 4180); what does not apply stays empty. `labels` names the classes."""
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, COLUMNS, restval="")
    writer.writeheader()
    for fault in found.frequencies:
        share = fault.share
        classes = "; ".join(f"{labels.get(name, name)} {count}" for name, count in fault.classes.items())
        degrees = "; ".join(f"{name or 'not said'} {count}" for name, count in fault.degrees.items())
        writer.writerow(
            {
                "about": "fault",
                "id": spreadsheet_text(fault.fault),
                "label": spreadsheet_text(label_words(fault.named)),
                "dogs": share.n,
                "count": share.count,
                "share": share.value,
                "low": share.low,
                "high": share.high,
                "classes": spreadsheet_text(classes),
                "degrees": spreadsheet_text(degrees),
            }
        )
    for size in found.spreads:
        asked_from, asked_to = size.asked or (None, None)
        cells = {
            "about": "measurement",
            "id": spreadsheet_text(size.id),
            "label": spreadsheet_text(label_words(size.named)),
            "sex": size.sex,
            "unit": size.unit,
            "dogs": size.n,
            "low": size.low,
            "high": size.high,
            "mean": size.mean,
            "spread": size.sd,
            "least": size.least,
            "most": size.most,
            "asked_from": asked_from,
            "asked_to": asked_to,
            "outside": size.outside.count if size.outside is not None else None,
        }
        writer.writerow({name: value for name, value in cells.items() if value is not None})
    return text.getvalue()
