"""The one kind of error a person is meant to read."""


class UserError(Exception):
    """Something went wrong; the message is one plain sentence saying what and what to do."""


class InputError(UserError):
    """What was typed cannot be understood; the message names it and shows a right example."""
