"""Where tests start the real program it has its modules compiled, as an installed one has."""

from __future__ import annotations

import os
from pathlib import Path

os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
os.environ.setdefault("PYTHONPYCACHEPREFIX", str(Path(__file__).parents[1] / ".pytest_cache" / "compiled"))
