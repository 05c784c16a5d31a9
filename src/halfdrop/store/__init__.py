"""The store: jobs, their revisions, files and original texts, in SQLite or PostgreSQL."""

from halfdrop.store.errors import Busy, Conflict, Missing, StoreError, TooLarge
from halfdrop.store.records import (
    Appended,
    Exported,
    FileRef,
    JobEntry,
    JobHead,
    Revision,
    StoredFile,
)
from halfdrop.store.store import Store

__all__ = [
    "Appended",
    "Busy",
    "Conflict",
    "Exported",
    "FileRef",
    "JobEntry",
    "JobHead",
    "Missing",
    "Revision",
    "Store",
    "StoreError",
    "StoredFile",
    "TooLarge",
]
