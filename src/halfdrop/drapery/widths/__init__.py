"""Flat widths by named method, and the widths of cloth they take."""

from halfdrop.drapery.widths.after import flat_after
from halfdrop.drapery.widths.as_built import flat_as_built
from halfdrop.drapery.widths.count import WidthsAnswer, count_widths
from halfdrop.drapery.widths.lump import flat_lump
from halfdrop.drapery.widths.uk import flat_uk, uk_ease

__all__ = ["WidthsAnswer", "count_widths", "flat_after", "flat_as_built", "flat_lump", "flat_uk", "uk_ease"]
