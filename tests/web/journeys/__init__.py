"""Whole tasks done in a browser, to their end."""
