"""What a workroom does to panels that hang already: the part of a treatment that says how cloth that is kept was put right."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from halfdrop.job.fields import SizeField
from halfdrop.job.part import Id, Part


class Altered(Part):
    """What is done to panels that hang already; the treatment's `drop` and `fullness` say what they come to.

    `let_down`: taken out of the hem. `band`: depth of a band sewn on at the hem. `joined`: length joined on at the top, its seam
    in the heading. `widths`: widths added, in all. `fabric`: the cloth of band, join and widths, one of the job's.
    """

    let_down: SizeField | None = None
    band: SizeField | None = None
    joined: SizeField | None = None
    widths: Annotated[float, Field(gt=0, le=60)] | None = None
    fabric: Id | None = None

    @model_validator(mode="after")
    def _one_way(self) -> Altered:
        longer = [key for key in ("band", "joined") if getattr(self, key) is not None]
        if len(longer) > 1:
            raise PydanticCustomError("altered", "`band` and `joined` both lengthen a panel; give one", {})
        if self.fabric is not None and not longer and self.widths is None:
            raise PydanticCustomError(
                "altered", "`fabric` is the cloth of a band, a join or widths; give one of them", {}
            )
        return self
