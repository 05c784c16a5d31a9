"""What else is sewn of the cloth: ties, cushions, valances."""

from halfdrop.drapery.sewn.made import cushion_strips, tie_strips, valance_strips
from halfdrop.drapery.sewn.strips import StripsAnswer, strips

__all__ = ["StripsAnswer", "cushion_strips", "strips", "tie_strips", "valance_strips"]
