"""The C library through ctypes, with the types of feed.h that the tests need."""

from __future__ import annotations

import ctypes
from pathlib import Path

import c_header as header
import c_layout as layout

Scalar = ctypes.c_double | ctypes.c_int32 | ctypes.c_uint32 | ctypes.c_size_t | ctypes.c_void_p

SCALARS: dict[str, type[Scalar]] = {
    "double": ctypes.c_double,
    "int32_t": ctypes.c_int32,
    "size_t": ctypes.c_size_t,
    "feed_code": ctypes.c_int32,
}


def load(build_dir: Path) -> ctypes.CDLL:
    """The shared library with argument types set from the header."""
    loaded = ctypes.CDLL(str(build_dir / "bindings/c/libfeed.so"))
    for function in header.functions():
        entry = getattr(loaded, function.name)
        entry.restype = ctypes.c_int32 if function.returns == "feed_code" else None
        entry.argtypes = [
            SCALARS.get(parameter.type, ctypes.c_void_p) for parameter in function.parameters
        ]
    return loaded


class Sized:
    """A struct of the header as raw bytes: struct_size first, fields found by the layout."""

    def __init__(self, name: str) -> None:
        sizes: dict[str, int] = {}
        self.offsets: dict[str, tuple[int, int]] = {}
        current = ""
        for line in layout.LAYOUT.read_text(encoding="utf-8").splitlines():
            parts = line.split()
            if not line.startswith(" "):
                current = parts[0]
                sizes[current] = int(parts[1])
            elif current == name:
                self.offsets[parts[0]] = (int(parts[1]), int(parts[2]))
        self.bytes = ctypes.create_string_buffer(sizes[name])
        if "struct_size" in self.offsets:
            ctypes.memmove(self.bytes, ctypes.byref(ctypes.c_uint32(sizes[name])), 4)

    def pointer(self) -> int:
        """The address to hand to the library."""
        return ctypes.addressof(self.bytes)

    def set(self, field: str, value: Scalar) -> None:
        """Writes one field; value must be of the field's C type."""
        offset, size = self.offsets[field]
        assert ctypes.sizeof(value) == size, field
        ctypes.memmove(self.pointer() + offset, ctypes.byref(value), size)

    def double(self, field: str, at: int = 0) -> float:
        """Reads a double, `at` counting doubles from the field's start."""
        offset, _ = self.offsets[field]
        return float(ctypes.c_double.from_buffer(self.bytes, offset + 8 * at).value)

    def integer(self, field: str) -> int:
        """Reads a 32-bit integer."""
        return int(ctypes.c_int32.from_buffer(self.bytes, self.offsets[field][0]).value)

    def count(self, field: str) -> int:
        """Reads a size_t."""
        return int(ctypes.c_size_t.from_buffer(self.bytes, self.offsets[field][0]).value)

    def text(self, field: str) -> str:
        """Reads a text: a pointer to one, or characters in the struct."""
        offset, size = self.offsets[field]
        if size == ctypes.sizeof(ctypes.c_void_p):
            found = ctypes.c_char_p.from_buffer(self.bytes, offset).value
            return "" if found is None else found.decode()
        return self.bytes.raw[offset : offset + size].split(b"\0")[0].decode()


class OwnValue(ctypes.Structure):
    """feed_own_value."""

    _fields_ = [
        ("property", ctypes.c_int32),
        ("value", ctypes.c_double),
        ("low", ctypes.c_double),
        ("high", ctypes.c_double),
    ]
