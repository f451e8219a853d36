"""Parts that screens are made of: each does one thing on a screen and knows it by a small protocol."""
