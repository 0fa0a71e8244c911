"""Cards that cannot be built for their thickness, or for a share that is to be seen: what is offered is put into the
file, and the card that comes of it sized and looked at as a thing. That no fewer and no smaller changes would do is not
judged here: no linear rule says what these wishes ask."""
import tomllib

import body
from areas import SHARE
from spots import spots, with_value


def asks(text):
    """Whether a card's thickness or shares are in question."""
    return bool(SHARE.search(text)) or "thickness" in tomllib.loads(text).get("limit", {})


def changed(text, entries):
    """The text with the values that entries of `changes` or `mend` name."""
    found = []
    for entry in entries:
        here = [s for s in spots(text).values() if s.line == entry["line"]
                and s.column == entry.get("column", s.column)]
        # A table and the value in it may begin at one place; the value is the shorter.
        found.append((min(here, key=lambda s: s.end - s.begin), entry["to"]))
    for spot, to in sorted(found, key=lambda one: -one[0].begin):
        text = with_value(text, spot, to)
    return text


def judge(text, answer, size):
    """(how many held, what did not). `size` gives the program's answer to a text."""
    held, wrong = 0, []

    def expect(holds, says):
        nonlocal held
        held += bool(holds)
        if not holds:
            wrong.append(says)

    def try_out(says, entries, builds):
        other = changed(text, entries)
        sized = size(other)
        expect((sized["verdict"] == "buildable") == builds, f"{says} makes the card {sized['verdict']}")
        if sized["verdict"] == "buildable":
            _, failures = body.compare(other, sized)
            expect(not failures, f"{says}: {failures[:2]}")

    expect(answer["verdict"] == "conflict" and answer["conflicts"], "no conflict is told")
    for conflict in answer.get("conflicts", []):
        lines = [rule["line"] for rule in conflict["rules"]]
        expect(len(set(map(str, conflict["rules"]))) == len(lines), f"a wish is told twice: {lines}")
        for change in conflict.get("changes", []):
            expect(change["line"] in lines, f"line {change['line']} is offered to change, and is no part of {lines}")
            try_out(f"line {change['line']} with {change['to']!r}", [change], change["mends_card"])
    if answer.get("mend"):
        try_out(f"mend {answer['mend']}", answer["mend"], True)
    return held, wrong
