"""halfdrop: measures, judges, proposes, proves, counts, draws and documents for a residential decorator."""

__version__ = "0.1.0"
