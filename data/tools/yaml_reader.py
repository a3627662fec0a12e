"""Reads a YAML file into nodes that remember their lines; refuses what the table does not use."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import yaml
from problems import Place, Problems

# The loader of libyaml where PyYAML was built with it: the same nodes, ten times as fast.
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True)
class Entry:
    """One `key: value` of a mapping."""

    place: Place
    node: Node


@dataclass(frozen=True)
class Node:
    """A scalar (text), a sequence (items) or a mapping (entries)."""

    place: Place
    text: str | None = None
    items: tuple[Node, ...] | None = None
    entries: dict[str, Entry] | None = None

    @property
    def kind(self) -> str:
        if self.text is not None:
            return "text"
        return "list" if self.items is not None else "mapping"


def read_file(path: Path, problems: Problems) -> Node | None:
    """The root node of a file, or None with the problem added."""
    start = problems.place(path, 1)
    try:
        data = path.read_bytes()
    except OSError as error:
        problems.add(start, "missing-file", f"cannot read {path.name}: {error.strerror}")
        return None
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        problems.add(
            problems.place(path, line),
            "encoding",
            f"byte 0x{data[error.start]:02x} is not UTF-8",
        )
        return None
    try:
        # Only a text with such a sign can hold an anchor; the second pass is slow.
        for event in yaml.parse(text, Loader=LOADER) if "&" in text or "*" in text else ():
            if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
                line = event.start_mark.line + 1 if event.start_mark else 1
                problems.add(problems.place(path, line), "anchor", "YAML anchors are not used here")
                return None
        root = yaml.compose(text, Loader=LOADER)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = mark.line + 1 if mark else 1
        problems.add(problems.place(path, line), "syntax", str(error.problem or error.context))
        return None
    except yaml.YAMLError as error:
        problems.add(start, "syntax", str(error).splitlines()[0])
        return None
    if root is None:
        problems.add(start, "syntax", "the file is empty")
        return None
    return _convert(root, path, problems)


def _convert(node: yaml.Node, path: Path, problems: Problems) -> Node:
    place = problems.place(path, node.start_mark.line + 1)
    if isinstance(node, yaml.ScalarNode):
        return Node(place, text=str(node.value))
    if isinstance(node, yaml.SequenceNode):
        return Node(place, items=tuple(_convert(item, path, problems) for item in node.value))
    entries: dict[str, Entry] = {}
    for key_node, value_node in node.value:
        key_place = problems.place(path, key_node.start_mark.line + 1)
        key = str(key_node.value)
        if key in entries:
            problems.add(key_place, "duplicate-key", f"'{key}' stands twice in one mapping")
            continue
        entries[key] = Entry(key_place, _convert(value_node, path, problems))
    return Node(place, entries=entries)


class Mapping:
    """A mapping whose keys are taken one by one; what is left over is an unknown key."""

    def __init__(self, node: Node, what: str, problems: Problems) -> None:
        self.place = node.place
        self.what = what
        self.problems = problems
        self._left: dict[str, Entry] = {}
        if node.entries is None:
            problems.add(node.place, "wrong-kind", f"{what} must be a mapping, not a {node.kind}")
        else:
            self._left = dict(node.entries)

    def take(self, key: str) -> Entry | None:
        return self._left.pop(key, None)

    def require(self, key: str) -> Entry | None:
        entry = self.take(key)
        if entry is None:
            self.problems.add(self.place, "missing-key", f"{self.what} has no '{key}'")
        return entry

    def text(self, key: str, *, required: bool = True) -> str:
        """The text of a scalar, or "" where it is missing."""
        entry = self.require(key) if required else self.take(key)
        if entry is None:
            return ""
        if entry.node.text is None:
            self.problems.add(
                entry.place, "wrong-kind", f"'{key}' must be text, not a {entry.node.kind}"
            )
            return ""
        if required and not entry.node.text.strip():
            self.problems.add(entry.place, "missing-key", f"'{key}' is empty")
        return entry.node.text

    def texts(self, key: str, *, required: bool = False) -> list[tuple[str, Place]]:
        """The texts of a list, with their places; a single scalar is a list of one."""
        entry = self.require(key) if required else self.take(key)
        if entry is None:
            return []
        nodes = (entry.node,) if entry.node.text is not None else entry.node.items
        if nodes is None:
            self.problems.add(entry.place, "wrong-kind", f"'{key}' must be a list")
            return []
        found: list[tuple[str, Place]] = []
        for node in nodes:
            if node.text is None:
                self.problems.add(node.place, "wrong-kind", f"'{key}' must be a list of texts")
            else:
                found.append((node.text, node.place))
        return found

    def close(self) -> None:
        for key, entry in self._left.items():
            self.problems.add(entry.place, "unknown-key", f"{self.what} has no key '{key}'")
