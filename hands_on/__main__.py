"""`python -m hands_on`."""

from hands_on.cli import main

raise SystemExit(main())
