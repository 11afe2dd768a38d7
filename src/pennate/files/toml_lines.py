"""The line of every key in a TOML text that has already been found valid."""

from __future__ import annotations

KeyPath = tuple[str | int, ...]
"""Keys and 0-based places, for example `("day", 1, "exercise", 0, "reps")`."""

_BLANK = " \t\n"
_BARE_END = " \t\n.=]}#,"
_SCALAR_END = ",]}\n#"


def key_lines(text: str) -> dict[KeyPath, int]:
    """Line numbers from 1 of every table, key and list element; `text` must be valid TOML."""
    scanner = _Scanner(text)
    scanner.document()
    return scanner.lines


class _Scanner:
    """One walk over the text; `at` is the place, `line` the line it is on."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.line = 1
        self.lines: dict[KeyPath, int] = {(): 1}
        self.counts: dict[KeyPath, int] = {}

    def document(self) -> None:
        """All statements: headers move the table that keys belong to."""
        table: KeyPath = ()
        while self.skip(_BLANK):
            if self.text[self.at] == "[":
                table = self.header()
            else:
                self.pair(table)

    def peek(self) -> str:
        return self.text[self.at : self.at + 1]

    def step(self, count: int = 1) -> None:
        self.line += self.text.count("\n", self.at, self.at + count)
        self.at += count

    def skip(self, blank: str) -> bool:
        """Pass blanks and comments; False at the end of the text."""
        while (char := self.peek()) and (char in blank or char == "#"):
            if char == "#":
                end = self.text.find("\n", self.at)
                self.at = len(self.text) if end < 0 else end
            else:
                self.step()
        return bool(char)

    def header(self) -> KeyPath:
        line, many = self.line, self.text.startswith("[[", self.at)
        self.step(2 if many else 1)
        *above, last = self.key()
        self.step(2 if many else 1)
        path = (*self.resolved((), above), last)
        if many:
            self.lines.setdefault(path, line)
            self.counts[path] = self.counts.get(path, -1) + 1
            path = (*path, self.counts[path])
        self.lines[path] = line
        return path

    def resolved(self, path: KeyPath, keys: list[str]) -> KeyPath:
        """The path through these keys; in a list of tables the latest one is meant."""
        for key in keys:
            path = (*path, key)
            self.lines.setdefault(path, self.line)
            if path in self.counts:
                path = (*path, self.counts[path])
        return path

    def key(self) -> list[str]:
        """A dotted key, up to the character after it."""
        keys: list[str] = []
        while True:
            self.skip(" \t")
            keys.append(self.string() if self.peek() in "\"'" else self.until(_BARE_END))
            self.skip(" \t")
            if self.peek() != ".":
                return keys
            self.step()

    def pair(self, table: KeyPath) -> None:
        line = self.line
        *above, last = self.key()
        path = (*self.resolved(table, above), last)
        self.lines[path] = line
        self.step()
        self.value(path)

    def value(self, path: KeyPath) -> None:
        self.skip(_BLANK)
        self.lines.setdefault(path, self.line)
        if self.peek() == "[":
            self.array(path)
        elif self.peek() == "{":
            self.inline_table(path)
        elif self.peek() in "\"'":
            self.string()
        else:
            self.until(_SCALAR_END)

    def array(self, path: KeyPath) -> None:
        self.step()
        place = 0
        while self.skip(_BLANK + ",") and self.peek() != "]":
            self.value((*path, place))
            place += 1
        self.step()

    def inline_table(self, path: KeyPath) -> None:
        self.step()
        while self.skip(_BLANK + ",") and self.peek() != "}":
            self.pair(path)
        self.step()

    def until(self, stops: str) -> str:
        start = self.at
        while (char := self.peek()) and char not in stops:
            self.at += 1
        return self.text[start : self.at]

    def string(self) -> str:
        """Pass a string of any of the four kinds; escapes are not decoded."""
        quote = self.peek()
        mark = quote * 3 if self.text.startswith(quote * 3, self.at) else quote
        self.step(len(mark))
        start = self.at
        while not self.text.startswith(mark, self.at):
            self.step(2 if quote == '"' and self.peek() == "\\" else 1)
        while len(mark) > 1 and self.text.startswith(mark + quote, self.at):
            self.step()
        content = self.text[start : self.at]
        self.step(len(mark))
        return content
