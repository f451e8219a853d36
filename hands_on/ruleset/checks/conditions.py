"""`when`: every key is known, and every value one the edition has."""

from __future__ import annotations

import re
from collections.abc import Iterable

from hands_on.ruleset.base import When
from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.files import EditionFile
from hands_on.ruleset.rules import Band, Follow, Outcome, Ruling
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report, parts

__all__ = ["check_conditions", "check_of_dog", "check_switches"]

BUILT_IN = (
    "sex", "age_from", "age_below", "country", "country_not", "purpose", "purpose_not", "switch", "detail",
    "with", "without",
)  # fmt: skip
"""Keys of a condition that need no attribute."""

OF_FINDINGS = ("detail", "with", "without")
"""Keys that ask for what was found: nothing for a rule that goes by the dog alone."""

_COUNTRY = re.compile(r"[A-Z]{2}")


def check_conditions(report: Report, own: EditionFile, edition: EditionFile, known: Known) -> None:
    """Every condition of the file's own rules."""
    for path, part in parts(own):
        when = getattr(part, "when", None)
        if isinstance(when, When):
            faults = part.faults if isinstance(part, Ruling) else _band_faults(getattr(part, "bands", ()))
            _check_when(report, (*path, "when"), when, faults, edition, known)
            if isinstance(part, Follow | Outcome):
                check_of_dog(report, (*path, "when"), when)
    for name, when in own.walk.when.items():
        _check_when(report, ("walk", "when", name), when, (), edition, known)
        check_of_dog(report, ("walk", "when", name), when)


def check_of_dog(report: Report, path: Path, when: When) -> None:
    """A condition that may ask for the dog and the examination only."""
    for key in OF_FINDINGS:
        if key in when.model_fields_set or key in (when.model_extra or {}):
            what = f"`{key}` asks for what was found; this rule goes by the dog and the examination alone."
            report.error((*path, key), what, "sex, age, an attribute, country, purpose or switch.")


def _band_faults(bands: Iterable[Band]) -> tuple[str, ...]:
    return tuple(band.fault for band in bands if band.fault)


def _check_when(
    report: Report, path: Path, when: When, faults: tuple[str, ...], edition: EditionFile, known: Known
) -> None:
    if not when.model_fields_set and not when.model_extra:
        report.error(path, "an empty condition.", "leave `when` out: no condition means always.")
    for key, values in when.attributes.items():
        if report.expect((*path, key), key, [*edition.attributes, *BUILT_IN], "attribute or condition"):
            for value in values:
                report.expect((*path, key), value, edition.attributes[key].options, f"value of {key}")
    for name in when.switch or ():
        report.expect(
            (*path, "switch"),
            name,
            edition.switches,
            "switch",
            f"a table [switches.{name}] with label and caution.",
        )
    for key, countries in (("country", when.country), ("country_not", when.country_not)):
        for country in countries or ():
            if not _COUNTRY.fullmatch(country):
                report.error((*path, key), f'"{country}" is no country code.', 'two capitals, "DE".')
    for key, asked, barred in (
        ("country_not", when.country, when.country_not), ("purpose_not", when.purpose, when.purpose_not)
    ):  # fmt: skip
        if asked and barred:
            plain = key.removesuffix("_not")
            report.error((*path, key), f"`{plain}` beside it says all already.", f"`{plain}` alone.")
    for detail in when.detail or ():
        details = known.details(faults) if faults else ()
        about = listed_faults(faults)
        report.expect(
            (*path, "detail"),
            detail,
            details,
            f"detail of {about}",
            f"no condition: no answer names {about} with a detail." if not details else "",
        )
    for key, names in (("with", when.together_with), ("without", when.without or ())):
        for name in names:
            report.expect((*path, key), name, known.faults, "fault")
    if when.age_from is not None and when.age_below is not None and when.age_from >= when.age_below:
        report.error(
            path,
            f"no age is from {when.age_from:g} and below {when.age_below:g} months.",
            "the smaller number in age_from.",
        )


def listed_faults(faults: tuple[str, ...]) -> str:
    """The faults a rule is about, few of them."""
    return " or ".join(faults[:3]) or "this rule's faults"


def check_switches(report: Report, own: EditionFile, edition: EditionFile) -> None:
    """A switch that turns nothing on was forgotten somewhere."""
    if not own.switches:
        return
    used = {name for _, part in parts(edition) if isinstance(part, When) for name in part.switch or ()}
    for name in own.switches:
        if name not in used:
            report.warn(
                ("switches", name),
                f'no rule waits for the switch "{name}".',
                f'when = {{ switch = "{name}" }} on the rules it turns on.',
            )
