"""Entries of `rules` read into relations over whatever their names stand for."""
import re

from linear import Lin, Rule, eq, ge, le
from reading import NUMBER, number

LINES = ("centre-across", "centre-down", "center-across", "center-down", "left", "right", "top", "bottom",
         "width", "height")


def side(text, things, amount):
    """A sum of lengths and lines; `amount` gives the marks of a length's text."""
    total, rest, sign = Lin(), text.strip(), 1
    by_length = sorted(things, key=len, reverse=True)
    first = True
    while rest:
        m = re.match(r"([+-])\s*", rest)
        if m:
            sign, rest = (1 if m[1] == "+" else -1), rest[m.end():]
        elif not first:
            raise ValueError(f"cannot read {rest!r}")
        first = False
        factor = None
        m = re.match(rf"({NUMBER})\s*(in\b|mm\b|cm\b|\")?\s*(\*\s*)?", rest)
        if m:
            rest = rest[m.end():]
            if not m[3]:
                total += amount(m[1] + (m[2] or "")) * sign
                continue
            factor = number(m[1])
        name = next((n for n in by_length for q in ("'", "") if rest.startswith(q + n + q + ".")), None)
        if name is None:
            raise ValueError(f"nothing of that name in {rest!r}")
        quote = 1 if rest.startswith("'") else 0
        rest = rest[len(name) + 2 * quote + 1:]
        line = next(ln for ln in LINES if rest.startswith(ln))
        rest = rest[len(line):].strip()
        total += things[name][line.replace("center", "centre")] * (sign * (1 if factor is None else factor))
    return total


def statement(text, things, amount):
    """`things`: name -> line -> sum. `amount` is called for the lengths in their order. `and` binds tighter
    than `or`."""
    options = []
    for alternative in re.split(r"\s+or\s+", text):
        rels = []
        for comparison in re.split(r"\s+and\s+", alternative):
            a, op, b = re.fullmatch(r"(.*?)(<=|>=|=)(.*)", comparison).groups()
            make = {"<=": le, ">=": ge, "=": eq}[op]
            rels.append(make(side(a, things, amount), side(b, things, amount)))
        options.append(rels)
    return Rule(options, text)
