"""How records of the store read as JSON."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from halfdrop.store import Appended, FileRef, Revision


def time_text(time: datetime) -> str:
    """Return a time in UTC to the second, as ISO 8601."""
    return time.strftime("%Y-%m-%dT%H:%M:%SZ")


def revision_json(revision: Revision) -> dict[str, Any]:
    """Return a revision without its inverse."""
    return {
        "revision": revision.number,
        "author": revision.author,
        "time": time_text(revision.time),
        "message": revision.message,
        "kind": revision.kind,
        "base": revision.base,
        "merged": revision.merged,
        "undoes": revision.undoes,
        "patch": [dict(op) for op in revision.patch],
    }


def appended_json(done: Appended) -> dict[str, Any]:
    """Return what came of a change."""
    return {
        "revision": done.revision,
        "merged": done.merged,
        "message": done.message,
        "undoes": done.undoes,
        "patch": [dict(op) for op in done.patch],
    }


def file_json(file: FileRef) -> dict[str, Any]:
    """Return a file of a job, without its bytes."""
    return {
        "sha256": file.sha256,
        "media_type": file.media_type,
        "size": file.size,
        "name": file.name,
        "attached": file.attached,
        "added": time_text(file.added),
        "url": f"/api/files/{file.sha256}",
    }
