"""Where each value of a TOML file stands: line and column from 1, and its bytes in the text. Reads correct files
only; what the values mean is left to others."""
import re
from dataclasses import dataclass

BARE = re.compile(r"[A-Za-z0-9_-]+")
PLAIN = re.compile(r"[^,\]}\s#]+(?: [0-9:.]+)?")  # numbers, dates, true and false
SPACE, LINES = re.compile(r"[ \t]*"), re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
QUOTES = ('"""', "'''", '"', "'")
ESCAPES = {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r", '"': '"', "\\": "\\"}


@dataclass
class Spot:
    line: int
    column: int  # in characters, of the value's first: the quote of a string
    begin: int
    end: int
    quote: str  # "" for what is no string


class Scanner:
    def __init__(self, text):
        self.text, self.at = text, 0
        self.spots = {}  # path -> Spot; a path is keys, and numbers of array elements from 0
        self.counts = {}  # path of an array of tables -> tables so far

    def skip(self, pattern):
        self.at = pattern.match(self.text, self.at).end()

    def take(self, wanted):
        if not self.text.startswith(wanted, self.at):
            raise ValueError(f"no {wanted!r} at {self.text[self.at:self.at + 20]!r}")
        self.at += len(wanted)

    def next(self, wanted):
        return self.text.startswith(wanted, self.at)

    def string(self):
        """(content, its quote)"""
        quote = next(q for q in QUOTES if self.next(q))
        begin = self.at + len(quote)
        end = begin
        while not self.text.startswith(quote, end):
            end += 2 if quote[0] == '"' and self.text[end] == "\\" else 1
        while len(quote) == 3 and self.text.startswith(quote, end + 1):
            end += 1
        self.at = end + len(quote)
        content = self.text[begin:end]
        if quote[0] == '"':
            content = re.sub(r"\\(u[0-9a-fA-F]{4}|U[0-9a-fA-F]{8}|.)", unescaped, content, flags=re.S)
        return content, quote

    def key(self):
        """One dotted key as a path."""
        path = ()
        while True:
            self.skip(SPACE)
            if self.text[self.at] in "\"'":
                path += (self.string()[0],)
            else:
                m = BARE.match(self.text, self.at)
                path += (m[0],)
                self.at = m.end()
            self.skip(SPACE)
            if not self.next("."):
                return path
            self.take(".")

    def value(self, path):
        begin, quote = self.at, ""
        if self.next("["):
            self.array(path)
        elif self.next("{"):
            self.table(path)
        elif self.text[self.at] in "\"'":
            quote = self.string()[1]
        else:
            self.skip(PLAIN)
        start = self.text.rfind("\n", 0, begin) + 1
        self.spots[path] = Spot(self.text.count("\n", 0, begin) + 1, begin - start + 1, begin, self.at, quote)

    def array(self, path):
        self.take("[")
        for i in range(len(self.text)):
            self.skip(LINES)
            if self.next("]"):
                break
            self.value(path + (i,))
            self.skip(LINES)
            if self.next(","):
                self.take(",")
        self.take("]")

    def table(self, path):
        self.take("{")
        self.skip(SPACE)
        while not self.next("}"):
            own = path + self.key()
            self.take("=")
            self.skip(SPACE)
            self.value(own)
            self.skip(SPACE)
            if self.next(","):
                self.take(",")
                self.skip(SPACE)
        self.take("}")

    def header(self):
        many = self.next("[[")
        self.take("[[" if many else "[")
        path = ()
        for key in self.key():
            if path in self.counts:
                path += (self.counts[path],)  # the table that was begun last
            path += (key,)
        self.take("]]" if many else "]")
        if many:
            n = self.counts[path] = self.counts.get(path, -1) + 1
            path += (n,)
        return path

    def file(self):
        here = ()
        self.skip(LINES)
        while self.at < len(self.text):
            if self.next("["):
                here = self.header()
            else:
                own = here + self.key()
                self.take("=")
                self.skip(SPACE)
                self.value(own)
            self.skip(LINES)
        return self.spots


def unescaped(m):
    code = m[1]
    return chr(int(code[1:], 16)) if code[0] in "uU" else ESCAPES[code]


def spots(text):
    """path -> Spot of every value, such as ("layer", 0, "border", "left") or ("rules", 2)."""
    return Scanner(text).file()


def with_value(text, spot, value):
    """The text with another value at a spot: a string stays in its quotes."""
    if spot.quote in ('"', '"""'):
        value = value.replace("\\", "\\\\").replace('"', '\\"')
    quote = spot.quote or '"'
    return text[:spot.begin] + quote + value + quote + text[spot.end:]
