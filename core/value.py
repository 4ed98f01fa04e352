"""Values that are given to programs, or taken from a file, as JSON."""

from __future__ import annotations

from typing import Annotated, Any, Self

from pydantic import BaseModel, ConfigDict, SkipValidation

Sentence = Annotated[str, SkipValidation]
"""Text for people: kept as it was said, where a checked field makes a plain `str` of it."""


class Value(BaseModel):
    """An immutable value; unknown fields are bugs."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)

    def revised(self, **changes: Any) -> Self:
        """The same value with some fields changed; unlike `model_copy` it keeps nothing cached."""
        fields = {name: getattr(self, name) for name in type(self).model_fields}
        return type(self)(**(fields | changes))
