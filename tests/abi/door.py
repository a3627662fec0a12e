"""The one door in a test: requests through feed_call of the C library."""

from __future__ import annotations

import ctypes
import json
from pathlib import Path
from typing import Any

import c_library as library


class Door:
    """feed_call; every answer is a text in UTF-8."""

    def __init__(self, build_dir: Path) -> None:
        self.lib = library.load(build_dir)

    def raw(self, request: bytes) -> tuple[int, str]:
        """The code of a call, and the text of its answer."""
        error = library.Sized("feed_error")
        out = ctypes.c_void_p()
        held = ctypes.create_string_buffer(request)
        code = self.lib.feed_call(ctypes.addressof(held), None, ctypes.byref(out), error.pointer())
        assert error.integer("code") == code
        data = ctypes.c_char_p()
        length = ctypes.c_size_t()
        assert self.lib.feed_text_get(out, ctypes.byref(data), ctypes.byref(length), None) == 0
        assert data.value is not None and len(data.value) == length.value
        text = data.value.decode("utf-8")
        assert ("errors" in json.loads(text)) == (code != 0)
        self.lib.feed_text_free(out)
        return code, text

    def text(self, **request: Any) -> str:
        """The answer to a request, an error or not, as it comes."""
        return self.raw(json.dumps(request, ensure_ascii=False).encode())[1]

    def answer(self, **request: Any) -> dict[str, Any]:
        """The answer to a request that must be right."""
        code, text = self.raw(json.dumps(request).encode())
        assert code == 0, text
        answer: dict[str, Any] = json.loads(text)
        return answer

    def errors(self, request: bytes) -> list[dict[str, Any]]:
        """The errors of a request that must be wrong."""
        code, text = self.raw(request)
        assert code != 0, text
        errors: list[dict[str, Any]] = json.loads(text)["errors"]
        return errors
