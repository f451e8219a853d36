"""Parts of screens, named for what they show."""
