"""Stack-back: the cloth's own width when it is drawn off the glass, by each published rule."""

from halfdrop.drapery.stack.flat import stack_flat
from halfdrop.drapery.stack.half import stack_half
from halfdrop.drapery.stack.per_width import stack_per_width
from halfdrop.drapery.stack.percent import Make, stack_percent
from halfdrop.drapery.stack.share import stack_of_rod
from halfdrop.drapery.stack.spread import StackAnswer, stack_back
from halfdrop.drapery.stack.table import stack_table
from halfdrop.drapery.stack.third import stack_third

__all__ = [
    "Make",
    "StackAnswer",
    "stack_back",
    "stack_flat",
    "stack_half",
    "stack_of_rod",
    "stack_per_width",
    "stack_percent",
    "stack_table",
    "stack_third",
]
