"""The drapery rules."""
