"""What a ruleset's text alone can't show: that its parts fit each other. `ruleset/check.py` is the way in."""
