"""The delivery rules."""
