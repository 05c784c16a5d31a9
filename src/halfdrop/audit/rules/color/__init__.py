"""The color rules."""
