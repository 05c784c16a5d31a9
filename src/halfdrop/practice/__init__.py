"""Every value of the trade, with where it comes from; a house may set its own over any of them."""

from halfdrop.practice.load import SETS, load_practice
from halfdrop.practice.practice import Practice, piece_key
from halfdrop.practice.value import KINDS, SURENESS, PracticeValue

__all__ = ["KINDS", "SETS", "SURENESS", "Practice", "PracticeValue", "load_practice", "piece_key"]
