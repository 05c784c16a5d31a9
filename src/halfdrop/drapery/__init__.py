"""The drapery trade."""
