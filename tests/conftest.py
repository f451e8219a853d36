"""Settings of all tests: how the real program is started, and how long a property may be tried.

Where tests start the real program it has its modules compiled, as an installed one has. A property that fails
tells the first case found: making it smaller may take five minutes and is asked for by
`--hypothesis-profile=smaller`.
"""

from __future__ import annotations

import os
from pathlib import Path

from hypothesis import Phase, settings

os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
os.environ.setdefault("PYTHONPYCACHEPREFIX", str(Path(__file__).parents[1] / ".pytest_cache" / "compiled"))

settings.register_profile("smaller", deadline=None)
settings.register_profile(
    "suite",
    deadline=None,
    report_multiple_bugs=False,
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
)
settings.load_profile("suite")
