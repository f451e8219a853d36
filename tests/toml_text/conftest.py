"""An edition to check sessions against."""

from __future__ import annotations

import pytest

from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets


@pytest.fixture(scope="module")
def rules() -> Ruleset:
    return Library([shipped_rulesets()]).load("hovawart-fci-190")
