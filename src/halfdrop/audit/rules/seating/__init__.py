"""The seating rules."""
