"""Measurements, each a ratio against a named reference in the same run. `make bench` prints them all."""
