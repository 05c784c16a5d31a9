"""What can go wrong with a store, each told apart by its class."""

from __future__ import annotations

from halfdrop.base.errors import At, HalfdropError, InputError
from halfdrop.store.records import Revision


class StoreError(HalfdropError):
    """The store cannot be opened, read or written; nothing unacknowledged is kept as if it were."""


class Busy(StoreError):  # noqa: N818  (the trade of databases calls it so)
    """Another process holds the store longer than `engine.PATIENCE`."""


class Missing(InputError):  # noqa: N818
    """There is no such job, revision or file in the store."""


class TooLarge(InputError):  # noqa: N818
    """What is to be kept is larger than allowed."""


class Conflict(HalfdropError):  # noqa: N818
    """A change meets later changes to the same thing, and was not kept.

    Attributes
    ----------
    revisions : tuple of Revision
        The later revisions it meets, oldest first.
    meets : tuple of str
        The JSON pointers of those revisions at which they meet; empty where the change, made later, no
        longer gives a valid job.
    """

    def __init__(
        self,
        message: str,
        *,
        at: At | None = None,
        hint: str | None = None,
        revisions: tuple[Revision, ...] = (),
        meets: tuple[str, ...] = (),
    ) -> None:
        super().__init__(message, at=at, hint=hint)
        self.revisions = revisions
        self.meets = meets

    def placed(self, at: At) -> Conflict:
        """Return the same conflict with its place filled in where it was unknown."""
        old = self.at or At()
        new = At(old.file or at.file, old.line or at.line, old.path or at.path)
        return Conflict(self.message, at=new, hint=self.hint, revisions=self.revisions, meets=self.meets)
