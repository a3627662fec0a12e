"""The one door in Python: a request as a mapping or as JSON, an answer as a dict."""

from __future__ import annotations

import datetime
import json

import pytest

import libfeed

BIN = {"libfeed": 1, "bed": {"container": "60 L tote", "worms": "1 lb", "temperature": "20 C"}}


def test_a_request_is_a_mapping_or_its_json() -> None:
    request = {"verb": "ration", "file": {**BIN, "blend": ["300 g carrot"]}, "date": "2026-03-14"}
    answer = libfeed.call(request)
    assert answer == libfeed.call(json.dumps(request))
    assert answer == libfeed.call({**request, "date": datetime.date(2026, 3, 14)})
    assert answer["answer"] in ("act_first", "wait", "feed_less", "feed")
    assert answer["date"] == "2026-03-14"


def test_the_answer_is_that_of_the_file() -> None:
    text = "libfeed: 1\nblend: [500 g carrot, 100 g shredded cardboard]\n"
    file = libfeed.read_feed_text(text, name="bin.yaml")
    given = libfeed.call({"verb": "blend", "file": text, "name": "bin.yaml"})
    assert given == json.loads(libfeed.answer_json("blend", file))


def test_all_problems_come_as_one_error() -> None:
    with pytest.raises(libfeed.FeedError) as caught:
        libfeed.call({"verb": "forecast", "untis": "us", "days": 400, "file": BIN})
    fields = {problem.field for problem in caught.value.errors}
    assert fields == {"request", "days"}
    assert "units" in str(caught.value)
    with pytest.raises(libfeed.FeedFormatError):
        libfeed.call("{")
    with pytest.raises(TypeError, match="set is no part of a request"):
        libfeed.call({"verb": "table", "words": {"coffee"}})


def test_a_note_gives_the_entry_that_an_app_keeps() -> None:
    kept = {**BIN, "observations": []}
    note = libfeed.call(
        {"verb": "note", "file": kept, "words": "half gone", "date": "2026-03-14", "by": "Ada"}
    )
    assert note["section"] == "observations"
    assert note["entry"]["date"] == "2026-03-14" and note["entry"]["by"] == "Ada"
