"""How large a job file may be: enough for the largest house, too little to exhaust a machine."""

from __future__ import annotations

#: Size of a file [bytes].
FILE_BYTES = 8 * 1024 * 1024
#: How deep maps and lists may stand in each other.
DEPTH = 40
#: Keys and values of the whole document, an alias counting as all that it stands for.
NODES = 400_000
#: Characters of all texts together, an alias counting as all that it stands for.
CHARACTERS = 16 * 1024 * 1024
#: Characters of one text.
TEXT = 20_000
#: Characters of one number.
NUMBER = 40
#: Faults reported at once.
FAULTS = 200
