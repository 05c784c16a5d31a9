"""Rules of what hangs on the walls."""
