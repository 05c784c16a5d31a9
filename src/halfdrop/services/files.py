"""Write results so that a failed command never leaves half a file."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from halfdrop.base.errors import At, UsageError


def write_bytes(path: Path, data: bytes) -> None:
    """Write a file whole or not at all: to a temporary file beside it, then renamed.

    Raises
    ------
    UsageError
        Where the folder cannot be made or written to.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            os.chmod(name, 0o644)
            os.replace(name, path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise UsageError(f"{path} cannot be written: {error.strerror}", at=At(str(path))) from None
