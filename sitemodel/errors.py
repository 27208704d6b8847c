"""The two ways to say no.

::

    SiteModelError
    |-- InputError      what was given is wrong: where, what was given, what is allowed
    |-- InputErrors     several of them at once
    |-- OutsideScope    the question lies outside the limits of use of a clause
"""

from sitemodel.units import Ratio


class SiteModelError(Exception):
    """Any refusal of the site model; its text is one line that a designer can act on."""


class InputError(SiteModelError):
    """What was given is wrong.

    Args:
        where: the field of the brief, as a dotted path.
        given: what was given, as text.
        allowed: what is allowed instead.
    """

    def __init__(self, where: str, *, given: object, allowed: str) -> None:
        self.where = where
        self.given = str(given)
        self.allowed = allowed
        super().__init__(f"{where}: given {self.given}; allowed: {allowed}")


class InputErrors(SiteModelError):
    """Several mistakes reported at once.

    Args:
        errors: every mistake, in the order in which they were found; never empty.
    """

    def __init__(self, errors: tuple[InputError, ...]) -> None:
        self.errors = errors
        super().__init__("\n".join(str(error) for error in errors))


class OutsideScope(SiteModelError):
    """A clause was asked for a value outside its limits of use; it is never stretched.

    Args:
        quantity: name of the argument.
        value: the value asked for.
        allowed: the range of the clause.
        clause: key of the source and the place in it.
    """

    def __init__(self, quantity: str, *, value: Ratio | str, allowed: str, clause: str) -> None:
        self.quantity = quantity
        self.value = value
        self.allowed = allowed
        self.clause = clause
        shown = value if isinstance(value, str) else f"{value:g}"
        super().__init__(f"{quantity} {shown} is outside the scope of {clause}: {allowed}")
