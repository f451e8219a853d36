"""What the parts of rulesets and sessions are made of: models that are pydantic's to check, and cost nothing
until it has to.

Pydantic takes a third of the time of a short command to load, and most sessions are sound. So a model here
is a plain class with fields. What stands in it as it should is taken as it is (`plain`); whatever is not
plainly right goes to pydantic (`checking`), whose word counts and who says what is wrong, and so does all
that is written. For the type checker these are pydantic's own names.
"""

from typing import TYPE_CHECKING

__all__ = ["BeforeValidator", "Field", "Model", "StringConstraints", "field_validator", "model_validator"]

if TYPE_CHECKING:
    from pydantic import BaseModel as Model
    from pydantic import BeforeValidator, Field, StringConstraints, field_validator, model_validator
else:
    from hands_on.models.fields import (
        BeforeValidator,
        Field,
        StringConstraints,
        field_validator,
        model_validator,
    )
    from hands_on.models.model import Model
