"""Dogs compared: side by side, the order, a dog that comes back, sire and dam."""
