"""A client in Python's ctypes, with nothing but feed.h to go by: balances a feeding and prints it.

client_ctypes.py LIBRARY WORDS_OF_THE_SCRAPS KILOGRAMS
"""

from __future__ import annotations

import ctypes
import sys


class Error(ctypes.Structure):
    """feed_error."""

    _fields_ = [
        ("struct_size", ctypes.c_uint32),
        ("code", ctypes.c_int32),
        ("line", ctypes.c_int32),
        ("column", ctypes.c_int32),
        ("problem_count", ctypes.c_int32),
        ("field", ctypes.c_char * 96),
        ("value", ctypes.c_char * 96),
        ("allowed", ctypes.c_char * 160),
        ("message", ctypes.c_char * 400),
    ]


class Entry(ctypes.Structure):
    """feed_entry."""

    _fields_ = [
        ("struct_size", ctypes.c_uint32),
        ("use_up_priority", ctypes.c_int32),
        ("feedstock", ctypes.c_void_p),
        ("label", ctypes.c_char_p),
        ("least_wet_kg", ctypes.c_double),
        ("most_wet_kg", ctypes.c_double),
        ("cost_per_wet_kg", ctypes.c_double),
        ("usual_wet_kg", ctypes.c_double),
    ]


class Summary(ctypes.Structure):
    """feed_answer_summary."""

    _fields_ = [
        ("struct_size", ctypes.c_uint32),
        ("status", ctypes.c_int32),
        ("grade", ctypes.c_int32),
        ("has_mend", ctypes.c_int32),
        ("portion_count", ctypes.c_size_t),
        ("reached_count", ctypes.c_size_t),
        ("conflict_count", ctypes.c_size_t),
        ("assumption_count", ctypes.c_size_t),
        ("mend_add_wet_kg", ctypes.c_double),
        ("mend_label", ctypes.c_char_p),
        ("unbounded_label", ctypes.c_char_p),
    ]


def main() -> int:
    library = ctypes.CDLL(sys.argv[1])
    nothing = ctypes.c_void_p()
    none = float("nan")
    error = Error(struct_size=ctypes.sizeof(Error))

    def ask(function: str, *arguments: object) -> None:
        code = getattr(library, function)(*arguments, ctypes.byref(error))
        if code != 0:
            print(f"{error.field.decode()}: {error.message.decode()}", file=sys.stderr)
            raise SystemExit(code)

    problem = ctypes.c_void_p()
    answer = ctypes.c_void_p()
    ask("feed_problem_create", nothing, ctypes.byref(problem))
    ask("feed_problem_use_target_set", problem, ctypes.c_int32(0))
    scraps = (sys.argv[2].encode(), float(sys.argv[3]), float(sys.argv[3]))
    for words, least, most in (scraps, (b"cardboard", 0.0, none), (b"water", 0.0, none)):
        feedstock = ctypes.c_void_p()
        ask("feed_feedstock_look_up", words, nothing, ctypes.byref(feedstock))
        entry = Entry(ctypes.sizeof(Entry), 0, feedstock, words, least, most, none, none)
        ask("feed_problem_add_entry", problem, ctypes.byref(entry))
        library.feed_feedstock_free(feedstock)
    ask("feed_balance", problem, nothing, ctypes.byref(answer))
    summary = Summary(struct_size=ctypes.sizeof(Summary))
    ask("feed_answer_describe", answer, ctypes.byref(summary))
    print("solved" if summary.status == 0 else f"status {summary.status}")
    for index in range(summary.portion_count):
        wet_kg = ctypes.c_double()
        label = ctypes.c_char_p()
        place = ctypes.c_size_t(index)
        ask("feed_answer_portion", answer, place, ctypes.byref(wet_kg), ctypes.byref(label))
        print(f"{(label.value or b'').decode()}: {wet_kg.value!r}")
    library.feed_answer_free(answer)
    library.feed_problem_free(problem)
    return 0


if __name__ == "__main__":
    sys.exit(main())
