"""One door to everything that needs no file, clock or locale: a request and an answer in JSON."""

from __future__ import annotations

import datetime
import json
from collections.abc import Mapping
from typing import Any

from . import _core


def _plain(value: object) -> str:
    """What JSON has no form for: a day."""
    if isinstance(value, datetime.date):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} is no part of a request")


def call(request: Mapping[str, object] | str) -> dict[str, Any]:
    """
    The answer to a request: every verb and option of the command that needs no file or clock.

    Parameters
    ----------
    request : mapping or str
        ``verb`` and what it takes, or the same as JSON text. Verbs and members: docs/door.md.

    Returns
    -------
    dict
        What ``feed VERB --json`` prints.

    Raises
    ------
    FeedError
        Every problem of the request and of the file in it at once.

    Examples
    --------
    >>> libfeed.call({"verb": "blend", "things": "1 kg carrot"})["wet_mass_kg"]
    1
    """
    text = request if isinstance(request, str) else json.dumps(request, default=_plain)
    answer: dict[str, Any] = json.loads(_core._answer_request(text))
    return answer
