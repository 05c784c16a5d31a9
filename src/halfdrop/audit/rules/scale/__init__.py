"""The scale rules."""
