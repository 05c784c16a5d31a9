"""The circulation rules."""
