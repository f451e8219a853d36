"""Dogs held against each other: side by side, the order, a dog that comes back, sire and dam."""
