"""What a session's text alone can't show: that its answers fit the edition. `exam/check.py` is the way in."""
