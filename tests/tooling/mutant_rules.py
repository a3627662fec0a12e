"""The rules by which the core is changed for mutation testing; instrument.py says which.

Each finds its places in one header as libclang reads it, and says what to write there.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

import clang.cindex as clang
from clang.cindex import CursorKind as Kind
from clang.cindex import TypeKind

BINARY = {
    "+": ("add", ["+ to -", "right of + dropped"]),
    "-": ("subtract", ["- to +", "right of - dropped"]),
    "*": ("times", ["* to /", "right of * dropped"]),
    "/": ("over", ["/ to *", "right of / dropped"]),
    "<": ("less", ["< to <="]),
    "<=": ("less_equal", ["<= to <"]),
    ">": ("greater", ["> to >="]),
    ">=": ("greater_equal", [">= to >"]),
    "==": ("equal", ["== to !="]),
    "!=": ("unequal", ["!= to =="]),
}
COMPOUND = {
    "+=": ("add_to", ["+= to -=", "+= dropped"]),
    "-=": ("take_from", ["-= to +=", "-= dropped"]),
    "*=": ("times_by", ["*= to /=", "*= dropped"]),
    "/=": ("over_by", ["/= to *=", "/= dropped"]),
}
CALLS = {
    "min": ("least", ["min to max"], 2),
    "max": ("most", ["max to min"], 2),
    "clamp": ("within", ["clamp dropped"], 3),
}
FLOATS = (TypeKind.DOUBLE, TypeKind.FLOAT, TypeKind.LONGDOUBLE)
WHOLE = (
    TypeKind.BOOL, TypeKind.INT, TypeKind.UINT, TypeKind.LONG, TypeKind.ULONG, TypeKind.LONGLONG,
    TypeKind.ULONGLONG, TypeKind.SHORT, TypeKind.USHORT, TypeKind.UCHAR, TypeKind.SCHAR,
    TypeKind.CHAR_S, TypeKind.CHAR_U, TypeKind.ENUM,
)  # fmt: skip
OPERATORS = (Kind.BINARY_OPERATOR, Kind.COMPOUND_ASSIGNMENT_OPERATOR)
NO_CODE = (Kind.STATIC_ASSERT, Kind.ENUM_DECL, Kind.TEMPLATE_NON_TYPE_PARAMETER)
# Sizes, places and buffers: swapped they break the memory, which no test needs to catch.
NO_SWAP = (*WHOLE, TypeKind.POINTER, TypeKind.LVALUEREFERENCE, TypeKind.CONSTANTARRAY)
TABLE_ROWS = 40  # longer tables are lists of names


@dataclass
class Site:
    """One switch: its mutants and how the text changes."""

    line: int
    changes: list[str]
    source: str
    # (place, is_opening, extent, text) for what is put in, (start, end, text) for what is replaced
    inserts: list[tuple[int, bool, int, str]] = field(default_factory=list)
    replaces: list[tuple[int, int, str]] = field(default_factory=list)
    first: int = 0


def kind_of(type_: clang.Type) -> TypeKind:
    kind: TypeKind = type_.get_canonical().kind
    return kind


def compares(cursor: clang.Cursor) -> bool:
    """A comparison or a chain of && has switches of its own."""
    while cursor.kind in (Kind.UNEXPOSED_EXPR, Kind.PAREN_EXPR):
        inner = list(cursor.get_children())
        if len(inner) != 1:
            return False
        cursor = inner[0]
    return bool(
        cursor.kind == Kind.BINARY_OPERATOR
        or (cursor.kind == Kind.CALL_EXPR and cursor.spelling.startswith("operator"))
    )


def row_count(type_: clang.Type) -> int:
    """How many rows a table has; 0 for what is no table."""
    canonical = type_.get_canonical()
    if canonical.kind == TypeKind.CONSTANTARRAY:
        return int(canonical.element_count)
    found = re.match(r"(?:const )?(?:std::)?array<.*, *(\d+)U?L?>$", canonical.spelling)
    return int(found.group(1)) if found else 0


def is_whole(type_: clang.Type) -> bool:
    return kind_of(type_) in WHOLE


class FileSites:
    """Finds the sites of one header."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.text = path.read_bytes()
        self.sites: list[Site] = []
        self.declared_constants: dict[int, Site] = {}

    def slice(self, start: int, end: int) -> str:
        return self.text[start:end].decode("utf-8", "replace")

    def extent(self, cursor: clang.Cursor) -> tuple[int, int]:
        return cursor.extent.start.offset, cursor.extent.end.offset

    def add(self, cursor: clang.Cursor, changes: list[str]) -> Site:
        start, end = self.extent(cursor)
        text = " ".join(self.slice(start, end).split())
        site = Site(cursor.extent.start.line, changes, text[:160])
        self.sites.append(site)
        return site

    def wrap(self, site: Site, start: int, end: int, before: str, after: str) -> None:
        site.inserts.append((start, True, end - start, before))
        site.inserts.append((end, False, end - start, after))

    # -- one rule each --------------------------------------------------------------------------

    def between(self, left: clang.Cursor, right: clang.Cursor) -> tuple[int, int, str] | None:
        """The operator between two operands: its place and its text."""
        start, end = left.extent.end.offset, right.extent.start.offset
        found = re.fullmatch(rb"\s*([-+*/<>=!&|]+)\s*", self.text[start:end])
        if found is None:
            return None
        return start + found.start(1), start + found.end(1), found.group(1).decode()

    def operator(self, cursor: clang.Cursor, left: clang.Cursor, right: clang.Cursor) -> None:
        place = self.between(left, right)
        if place is None:
            return
        start, end, operator = place
        whole_start, whole_end = self.extent(cursor)
        if operator in ("&&", "||"):
            site = self.add(cursor, [f"right of {operator} dropped"])
            neutral = (
                "(feed_mutant::on(@0) || (" if operator == "&&" else "(!feed_mutant::on(@0) && ("
            )
            self.wrap(site, *self.extent(right), neutral, "))")
            return
        table = COMPOUND if operator in COMPOUND else BINARY
        if operator not in table or self.is_text(cursor, left):
            return
        name, changes = table[operator]
        site = self.add(cursor, list(changes))
        self.wrap(site, whole_start, whole_end, f"feed_mutant::{name}(@0, ", ")")
        site.replaces.append((start, end, ","))

    def is_text(self, cursor: clang.Cursor, left: clang.Cursor) -> bool:
        """Sums of texts and streams are not arithmetic."""
        spelled = cursor.type.get_canonical().spelling + left.type.get_canonical().spelling
        return "basic_string" in spelled or "char *" in spelled

    def number(self, cursor: clang.Cursor, parent: clang.Cursor) -> None:
        start, end = self.extent(cursor)
        whole = cursor.kind == Kind.INTEGER_LITERAL
        text = self.slice(start, end)
        if whole:
            if parent.kind not in (Kind.BINARY_OPERATOR, Kind.CALL_EXPR, Kind.RETURN_STMT):
                return
            if not text.isdigit() or int(text) < 2:
                return
        elif not re.fullmatch(r"[0-9.eE+-]+", text):
            return
        site = self.add(cursor, ["+ 1" if whole else "0 to 1" if float(text) == 0 else "* 1.1"])
        self.wrap(site, start, end, "feed_mutant::number(@0, ", ")")

    def constant_use(self, cursor: clang.Cursor, declared: clang.Cursor) -> None:
        """A local constexpr number: where it is used, one mutant for all its uses."""
        start, end = self.extent(cursor)
        place = declared.extent.start.offset
        site = self.declared_constants.get(place)
        if site is None:
            site = self.add(declared, ["* 1.1"])
            self.declared_constants[place] = site
        self.wrap(site, start, end, "feed_mutant::number(@0, ", ")")

    def truth(self, cursor: clang.Cursor) -> None:
        site = self.add(cursor, ["turned round"])
        self.wrap(site, *self.extent(cursor), "feed_mutant::flip(@0, ", ")")

    def condition(self, cursor: clang.Cursor) -> None:
        start, end = self.extent(cursor)
        site = self.add(cursor, ["turned round"])
        self.wrap(site, start, end, "feed_mutant::flip(@0, static_cast<bool>(", "))")

    def enumerator(self, cursor: clang.Cursor, constant: clang.Cursor) -> None:
        names = [
            each.spelling
            for each in constant.semantic_parent.get_children()
            if each.kind == Kind.ENUM_CONSTANT_DECL
        ]
        if len(names) < 2:
            return
        start, end = self.extent(cursor)
        text = self.slice(start, end)
        if not text.endswith(constant.spelling):
            return
        following = names[(names.index(constant.spelling) + 1) % len(names)]
        site = self.add(cursor, [f"to {following}"])
        prefix = text[: -len(constant.spelling)]
        site.replaces.append((start, end, f"feed_mutant::other(@0, {text}, {prefix}{following})"))

    def member(self, cursor: clang.Cursor, declared: clang.Cursor) -> bool:
        start, end = self.extent(cursor)
        text = self.slice(start, end)
        name = declared.spelling
        if not re.fullmatch(r"[\w.>\-]+", text) or not text.endswith(name):
            return False
        if declared.type.is_const_qualified() or kind_of(declared.type) in NO_SWAP:
            return False
        like = [
            each.spelling
            for each in declared.semantic_parent.get_children()
            if each.kind == Kind.FIELD_DECL and each.type == declared.type
        ]
        if len(like) < 2:
            return False
        following = like[(like.index(name) + 1) % len(like)]
        site = self.add(cursor, [f"to {following}"])
        changed = text[: -len(name)] + following
        site.replaces.append((start, end, f"(feed_mutant::on(@0) ? {changed} : {text})"))
        return True

    def call(self, cursor: clang.Cursor) -> None:
        start, end = self.extent(cursor)
        found = re.match(rb"std::(min|max|clamp)\(", self.text[start:end])
        if found is None:
            return
        name, changes, count = CALLS[found.group(1).decode()]
        arguments = list(cursor.get_arguments())
        braced = self.text[start + found.end() : start + found.end() + 1] == b"{"
        if len(arguments) != (1 if braced else count):
            return
        site = self.add(cursor, list(changes))
        site.replaces.append((start, start + found.end(), f"feed_mutant::{name}(@0, "))

    def table(self, cursor: clang.Cursor, word: int) -> None:
        """A constexpr table or constant: const in the copy and filled at the start of the program,
        so that what is in it can change; and neighbouring rows can change places."""
        rows = row_count(cursor.type) if row_count(cursor.type) <= TABLE_ROWS else 0
        changes = [f"rows {i + 1} and {i + 2} swapped" for i in range(rows - 1)]
        text = " ".join(self.slice(*self.extent(cursor)).split())[:160]
        site = Site(cursor.extent.start.line, changes, text)
        site.replaces.append((word, word + len(b"constexpr"), "const"))
        self.sites.append(site)
        name_end = cursor.location.offset + len(cursor.spelling.encode())
        type_text = self.slice(word + len("constexpr"), cursor.location.offset).strip()
        _, end = self.extent(cursor)
        after = self.text[name_end:end]
        call = "feed_mutant::rows(@0, " if rows >= 2 else "feed_mutant::at_start("
        if found := re.match(rb"\s*\[[^\]]*\]\s*=\s*(?=\{)", after):
            # `auto`: the type is an array of std now.
            site.replaces.append((word + len(b"constexpr"), cursor.location.offset, " auto "))
            before, closing = f" = {call}std::to_array<{type_text}>(", "))"
        elif found := re.match(rb"\s*=\s*(?=\{)|\s*(?=\{)", after):
            before, closing = f" = {call}{type_text}", ")"
        elif found := re.match(rb"\s*=\s*", after):
            named = "" if type_text == "auto" else f"<{type_text}>"
            before, closing = f" = {call.replace('(', f'{named}(')}", ")"
        else:
            return
        begin = name_end + found.end()
        site.replaces.append((name_end, begin, ""))
        site.inserts.append((begin, True, 1 << 30, before))
        site.inserts.append((end, False, 1 << 30, closing))

    # -- the walk -------------------------------------------------------------------------------

    def variable(self, cursor: clang.Cursor) -> bool:
        """Whether what is inside may change: looks for `constexpr` before the name."""
        start = cursor.extent.start.offset
        before = self.text[start : cursor.location.offset]
        # A declaration that inherits its specifiers from the one before it has none of its own.
        word = before.find(b"constexpr")
        if word < 0:
            return True
        if is_whole(cursor.type):
            return False
        local = cursor.semantic_parent.kind not in (
            Kind.NAMESPACE, Kind.STRUCT_DECL, Kind.CLASS_DECL, Kind.TRANSLATION_UNIT
        )  # fmt: skip
        if local and b"static" not in before and kind_of(cursor.type) in FLOATS:
            return False
        in_class = cursor.semantic_parent.kind in (Kind.STRUCT_DECL, Kind.CLASS_DECL)
        if in_class:
            return False
        if "string_view" in cursor.type.spelling and "[" not in cursor.type.spelling:
            return False
        self.table(cursor, start + word)
        return True

    def walk(self, cursor: clang.Cursor, parent: clang.Cursor) -> None:
        kind = cursor.kind
        if kind in NO_CODE or (kind == Kind.VAR_DECL and not self.variable(cursor)):
            return
        children = list(cursor.get_children())
        first = children[0] if children else None
        if kind == Kind.CASE_STMT or self.is_constant_condition(cursor):
            children = children[1:]
        elif kind in (Kind.IF_STMT, Kind.CONDITIONAL_OPERATOR):
            if first and first.kind not in (Kind.VAR_DECL, Kind.DECL_STMT) and not compares(first):
                self.condition(first)
        elif kind in OPERATORS and len(children) == 2:
            self.operator(cursor, *children)
        elif kind == Kind.CALL_EXPR:
            self.called(cursor, children)
        elif kind in (Kind.FLOATING_LITERAL, Kind.INTEGER_LITERAL):
            self.number(cursor, parent)
        elif kind == Kind.CXX_BOOL_LITERAL_EXPR:
            self.truth(cursor)
        elif kind in (Kind.DECL_REF_EXPR, Kind.MEMBER_REF_EXPR) and self.named(cursor):
            return
        for child in children:
            # What an implicit conversion is about counts as a child of what is around it.
            self.walk(child, parent if kind == Kind.UNEXPOSED_EXPR else cursor)

    def is_constant_condition(self, cursor: clang.Cursor) -> bool:
        return cursor.kind == Kind.IF_STMT and self.text[cursor.extent.start.offset :].startswith(
            b"if constexpr"
        )

    def called(self, cursor: clang.Cursor, children: list[clang.Cursor]) -> None:
        """An operator of a class, or a function."""
        if cursor.spelling.startswith("operator") and len(children) == 3:
            self.operator(cursor, children[0], children[2])
        else:
            self.call(cursor)

    def named(self, cursor: clang.Cursor) -> bool:
        """An enumerator, a constant or a member; whether that was all there is to it."""
        declared = cursor.referenced
        if declared is None:
            return True
        if declared.kind == Kind.ENUM_CONSTANT_DECL:
            self.enumerator(cursor, declared)
            return True
        if declared.kind == Kind.VAR_DECL and self.is_local_constant(declared):
            self.constant_use(cursor, declared)
            return True
        return declared.kind == Kind.FIELD_DECL and self.member(cursor, declared)

    def is_local_constant(self, declared: clang.Cursor) -> bool:
        if kind_of(declared.type) not in FLOATS or declared.location.file is None:
            return False
        if Path(declared.location.file.name) != self.path:
            return False
        before = self.text[declared.extent.start.offset : declared.location.offset]
        in_class = declared.semantic_parent.kind in (Kind.STRUCT_DECL, Kind.CLASS_DECL)
        local = declared.semantic_parent.kind not in (Kind.NAMESPACE, Kind.TRANSLATION_UNIT)
        return b"constexpr" in before and local and (b"static" not in before or in_class)
