"""Valid handles and values for every parameter of the C interface: then one can be made wrong."""

from __future__ import annotations

import ctypes
from pathlib import Path

import c_header as header
import c_library as library

# What stands in every output before a call.
POISON = 0x5A
# Its ration has something of everything: to take out, to put in, to keep back, a reason, a number
# to measure and a caution.
DIARY = b"""libfeed: 1
bed: {container: tote, worms: 1500 worms, temperature: 20 C, age: 1 year, squeeze: drops}
blend: [200 g bacon, 4 kg carrot, 1 kg onion]
"""
OWN = b"till roll: {like: newspaper}\n"
BLEND = b"libfeed: 1\nblend:\n  - 1 kg coffee grounds\n"

TEXTS = {"feed_diary_from_text": DIARY, "feed_feedstock_from_text": OWN}


class World:
    """Valid handles and values for every parameter of the header."""

    def __init__(self, build_dir: Path) -> None:
        self.lib = library.load(build_dir)
        self.keep: list[object] = []
        self.feedstock = self.make("feed_feedstock_look_up", b"coffee grounds", None)
        self.portions = (ctypes.c_double * 2)()
        ctypes.memmove(self.portions, ctypes.byref(ctypes.c_void_p(self.feedstock)), 8)
        self.portions[1] = 1.0
        self.description = library.Sized("feed_bed_description")
        assert self.lib.feed_bed_description_init(self.description.pointer(), None) == 0
        self.describe_own()
        self.bed = self.make("feed_bed_create", self.description.pointer(), None)
        self.problem = self.make("feed_problem_create", None)
        entry = library.Sized("feed_entry")
        entry.set("feedstock", ctypes.c_void_p(self.feedstock))
        entry.set("least_wet_kg", ctypes.c_double(1.0))
        entry.set("most_wet_kg", ctypes.c_double(1.0))
        entry.set("cost_per_wet_kg", ctypes.c_double(float("nan")))
        entry.set("usual_wet_kg", ctypes.c_double(float("nan")))
        self.entry = entry
        assert self.lib.feed_problem_add_entry(self.problem, entry.pointer(), None) == 0
        self.target = library.Sized("feed_target")  # of C:N
        for field, number in (("low", 20.0), ("high", float("nan")), ("aim", float("nan"))):
            self.target.set(field, ctypes.c_double(number))
        assert self.lib.feed_problem_use_target_set(self.problem, 0, None) == 0
        self.answer = self.make("feed_balance", self.problem, None)
        self.forecast = self.make("feed_forecast_bed", self.bed, 3, None)
        self.diary = self.make("feed_diary_from_text", DIARY, b"diary", None)
        self.result = self.make("feed_diary_check", self.diary, None)
        self.text = self.make("feed_json", b"blend", BLEND, b"blend", None)

    def describe_own(self) -> None:
        """A feedstock of one's own, a nutrition label and a laboratory report."""
        nan = float("nan")
        name = ctypes.create_string_buffer(b"till roll")
        # Moisture and C:N, each {property, value, low, high}.
        self.values = (library.OwnValue * 2)(
            library.OwnValue(0, 0.06, nan, nan), library.OwnValue(3, 320.0, nan, nan)
        )
        self.keep.append(name)
        self.own = library.Sized("feed_own_feedstock")
        self.named = library.Sized("feed_own_feedstock")
        for struct in (self.own, self.named):
            for field in ("roles", "stance", "decay_class", "cautions"):
                struct.set(field, ctypes.c_int32(-1))
            struct.set("name", ctypes.c_void_p(ctypes.addressof(name)))
        self.own.set("values", ctypes.c_void_p(ctypes.addressof(self.values)))
        self.own.set("value_count", ctypes.c_size_t(len(self.values)))
        self.label = library.Sized("feed_nutrition_label")
        self.report = library.Sized("feed_laboratory_report")
        for struct in (self.label, self.report):
            for field, (_, size) in struct.offsets.items():
                if size == 8:
                    struct.set(field, ctypes.c_double(nan))
        for field, number in (("protein", 0.03), ("fat", 0.01), ("carbohydrate", 0.09)):
            self.label.set(field, ctypes.c_double(number))
        for field, number in (("moisture_wet", 0.35), ("carbon", 0.42), ("nitrogen", 0.012)):
            self.report.set(field, ctypes.c_double(number))

    @staticmethod
    def address(thing: ctypes.Array[ctypes.c_double]) -> int:
        return ctypes.addressof(thing)

    def make(self, name: str, *arguments: object) -> int:
        out = ctypes.c_void_p()
        error = library.Sized("feed_error")
        entry = getattr(self.lib, name)
        given = [
            ctypes.cast(ctypes.c_char_p(a), ctypes.c_void_p) if isinstance(a, bytes) else a
            for a in arguments
        ]
        code = entry(*given, ctypes.byref(out), error.pointer())
        assert code == 0, f"{name}: {error.text('message')}"
        assert out.value is not None
        return out.value

    def valid(self, function: header.Function, parameter: header.Parameter) -> object:
        """A value with which the call succeeds, or at least is well-formed."""
        if not parameter.is_pointer:
            number = 0 if parameter.name == "index" else 1
            return {"size_t": number, "double": 1.0}.get(parameter.type, 0)
        kind = parameter.type.removeprefix("const ").removesuffix("*").strip()
        if kind == "char" and function.name == "feed_amount_to_wet_kg" and parameter.name == "how":
            buffer = ctypes.create_string_buffer(64)
            self.keep.append(buffer)
            return ctypes.addressof(buffer)
        texts = {
            "words": b"coffee grounds",
            "amount": b"1 kg",
            "request": b'{"verb": "show", "words": "carrot"}',
            "verb": b"blend",
            "name": b"text",
            "text": TEXTS.get(function.name, BLEND),
        }
        if kind == "char" and parameter.name in texts and parameter.type.startswith("const"):
            held = ctypes.create_string_buffer(texts[parameter.name])
            self.keep.append(held)
            return ctypes.addressof(held)
        handles = {
            "feed_feedstock": self.feedstock,
            "feed_bed": self.bed,
            "feed_problem": self.problem,
            "feed_answer": self.answer,
            "feed_check_result": self.result,
            "feed_forecast": self.forecast,
            "feed_diary": self.diary,
            "feed_text": self.text,
            "feed_entry": self.entry.pointer(),
            "feed_target": self.target.pointer(),
            "feed_bed_description": self.description.pointer(),
            "feed_own_feedstock": (
                self.own if function.name == "feed_feedstock_define" else self.named
            ).pointer(),
            "feed_nutrition_label": self.label.pointer(),
            "feed_laboratory_report": self.report.pointer(),
        }
        if parameter.type == "const double*":
            numbers = (ctypes.c_double * 1)(20.0)
            self.keep.append(numbers)
            return self.address(numbers)
        if parameter.type.endswith("**") or kind in ("size_t", "double", "char *", "char*"):
            space = (ctypes.c_double * 8)()
            ctypes.memset(space, POISON, ctypes.sizeof(space))
            self.keep.append(space)
            return self.address(space)
        if kind in handles:
            return handles[kind]
        if kind == "feed_portion":
            return self.address(self.portions)
        if kind == "feed_allocator":
            return None
        if kind.startswith("feed_") and parameter.is_pointer:
            struct = library.Sized(kind)
            self.keep.append(struct)
            return struct.pointer()
        raise AssertionError(f"no value for {parameter.type} {parameter.name} of {function.name}")
