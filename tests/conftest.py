"""Property tests: the same examples on every machine, no clock.

`pytest --hypothesis-profile=deep` searches longer, and elsewhere each time.
"""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, database=None)
settings.register_profile("deep", deadline=None, max_examples=3000, print_blob=True)
settings.load_profile("steady")
