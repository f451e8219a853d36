"""Every sentence about a ruleset, an evaluation or a comparison: pure, and unwrapped."""
