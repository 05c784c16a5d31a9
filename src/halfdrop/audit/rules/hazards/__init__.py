"""The hazards rules."""
