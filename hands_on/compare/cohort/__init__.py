"""Many dogs together: a litter, the offspring of a sire or dam, a kennel, years."""
