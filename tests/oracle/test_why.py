#!/usr/bin/env python3
"""Does the check of `check` itself work? Cards with conflicts worked out by hand are explained by trying everything in
turn, with no program but for what can hold; that answer must be accepted, and refused with any one fault put in.

usage: test_why.py
"""
import copy
import re
import sys
from fractions import Fraction
from itertools import combinations, product

import why
from keeping import kept_only
from reading import NUMBER, number
from spots import spots
from stated import Card
from why_answer import can_be_built, judge

HEAD = 'unit = "in"\nmark = "1/8"\nrules = []\n[base]\nfold = "side"\nfront = "4 x 6"\n'  # lines 1 to 6

# What follows HEAD (with @ where rules go in); the lines of each conflict, with by how much it is short, or how far a
# size is off the marks; how many numbers have to change, and by how much in all.
BY_HAND = {
    "a strip with borders of 1/4 on a panel of 3": (
        '[[layer]]\nname = "panel"\non = "front"\nwidth = "3"\nheight = "5"\n'
        '[[layer]]\nname = "strip"\non = "panel"\nwidth = "2 3/4"\nborder = { across = "at least 1/4" }\n',
        # 2 3/4 + 2/4 = 3 1/4
        {(10, 15, 16): "1/4"}, (1, "1/8")),
    "a mat wider than its face, beside borders": (
        '[[layer]]\nname = "mat"\non = "front"\nwidth = "4 1/8"\nborder = { across = "at least 1/8" }\n',
        # 4 1/8 + 2/8 = 4 3/8. Borders of 0 would not do.
        {(10, 11): "3/8"}, (1, "3/8")),
    "borders between marks that leave sizes on them": (
        '[[layer]]\nname = "mat"\non = "front"\nborder = "3/16"\n', {}, (0, "0")),  # 4 - 3/8, 6 - 3/8
    "borders that leave a size between marks": (
        '[[layer]]\nname = "mat"\non = "front"\nborder = { left = "1/32", right = "1/2" }\n',
        {(10, 10): "off 1/32"}, (1, "1/32")),
    "words wider than their strip, and a mat that does not fill its face": (
        '[[layer]]\nname = "words"\non = "front"\nartwork = "3 1/4 x 1/2"\nmargin = "at least 1/4"\nwidth = "3 1/2"\n'
        '[[layer]]\nname = "mat"\non = "back"\nsize = "3 x 5"\nborder = { down = "1/4" }\n',
        # 3 1/4 + 2/4 = 3 3/4; and 5 + 2/4 = 5 1/2 of 6
        {(10, 11, 12): "1/4", (16, 17): "-1/2"}, (2, "3/8")),
    "dies that are never small enough": (
        '[[layer]]\nname = "tag"\non = "front"\nwidth = "one of 3 1/2, 3 3/4"\nborder = { across = "at least 3/8" }\n',
        # 3 1/2 + 6/8 = 4 1/4
        {(10, 11): "1/4"}, (1, "1/8")),
    "an entry of rules against a width that only a variant has": (
        '[[layer]]\nname = "mat"\non = "front"\nwidth = "2"\n[[layer]]\nname = "tag"\non = "back"\nheight = "1"\n'
        '[[variant]]\nname = "wide"\ncards = 1\nset = { "mat.width" = "2 1/2" }\n@"mat.width <= tag.height + 1 1/8"',
        # 2 1/2 is 3/8 more than 1 + 1 1/8
        {(3, 14, 18): "3/8"}, (1, "3/8")),
    "a mat too wide for what a cut-back front lays open": (
        'cut-back = "1"\n[[layer]]\nname = "mat"\non = "reveal"\nwidth = "1 1/4"\n'
        'border = { across = "at least 1/8" }\n',
        {(7, 11, 12): "1/2"}, (1, "1/2")),
}
SPREAD = 4  # marks to either side that the fewest changes are looked for in


def tokens(text):
    """Where the numbers of a wish stand that are lengths: not in names, and no factors."""
    return [m.span() for m in re.finditer(rf"(?<![\w.])(?:{NUMBER})(?!\s*\*)", text)]


def spelled(card, path, values):
    """The wish with other numbers; `values` in marks."""
    unit = card.units[path]
    text = unit.text
    for (begin, end), what in reversed(list(zip(tokens(text), unit.numbers))):
        if (path, what) in values:
            text = text[:begin] + str(values[path, what] * card.mark) + text[end:]
    return text


def changed(card, values):
    return card.rewritten({path: spelled(card, path, values) for path in {path for path, _ in values}})


def numbers(card, wishes):
    return [key for key in card.numbers if key[0] in wishes and not card.units[key[0]].artwork]


def by_all_subsets(card):
    found = []
    for size in range(len(card.units) + 1):
        for some in map(frozenset, combinations(card.units, size)):
            if not any(s <= some for s in found) and not why.can_hold(card.models(some)):
                found.append(some)
    return found


def by_every_mark(card, wishes, key):
    stated = card.numbers[key] / card.mark
    marks = sorted((Fraction(i) for i in range(int(2 * stated) + 60)), key=lambda v: (abs(v - stated), v))
    return next((v for v in marks if why.can_hold(Card(changed(card, {key: v})).models(wishes))), None)


def by_every_way(card, most=2):
    """The fewest and least changes, of numbers in up to `most` places."""
    stated = {key: card.numbers[key] / card.mark for key in numbers(card, card.units)}
    near = {key: [Fraction(v) for v in range(int(s) - SPREAD, int(s) + SPREAD + 1) if v >= 0 and v != s]
            for key, s in stated.items()}
    for count in range(most + 1):
        ways = [dict(zip(keys, values)) for keys in combinations(stated, count)
                for values in product(*(near[key] for key in keys))]
        for way in sorted(ways, key=lambda way: sum(abs(v - stated[key]) for key, v in way.items())):
            if can_be_built(changed(card, way)):
                return way
    return None


def entry(card, path, values):
    unit = card.units[path]
    to = spelled(card, path, {key: v for key, v in values.items() if key[0] == path})
    return {"line": unit.spot.line, "from": unit.text, "to": to}


def stand_in(text, shorts):
    """An answer as the program would give it. `shorts`: lines of a conflict -> how much is missing."""
    card = Card(text)
    conflicts = []
    for wishes in by_all_subsets(card):
        told = {"rules": [{"says": "", "line": card.spots[p].line, "column": card.spots[p].column}
                          for p in sorted(wishes, key=lambda p: card.spots[p].begin)], "changes": []}
        lists = {}
        for key in numbers(card, wishes):
            value = by_every_mark(card, wishes, key)
            if value is None:
                continue
            by = abs(value - card.numbers[key] / card.mark)
            name = key if key[1][0] != "one of" else (key[0], "one of")
            if name not in lists or by < lists[name][0]:
                lists[name] = (by, key, value)
        for _, key, value in lists.values():
            builds = can_be_built(changed(card, {key: value}))
            told["changes"].append(entry(card, key[0], {key: value}) | {"mends_card": builds})
        short = shorts[tuple(card.spots[p].line for p in sorted(wishes, key=lambda p: card.spots[p].begin))]
        told |= {"off_mark": short[4:]} if short.startswith("off ") else {"short_by": short}
        conflicts.append(told)
    way = by_every_way(card)
    mend = [entry(card, path, way) for path in sorted({path for path, _ in way}, key=lambda p: card.spots[p].begin)]
    return {"verdict": "conflict", "conflicts": conflicts, "mend": mend}


def last_number(text):
    return number(text[slice(*tokens(text)[-1])])


def longer(text, by):
    """The last number in a text by so much more, or None if that is below 0."""
    begin, end = tokens(text)[-1]
    value = last_number(text) + Fraction(by)
    return None if value < 0 else text[:begin] + str(value) + text[end:]


def faults(text, answer):
    """(what is wrong, the answer with that fault)"""
    def spoilt(says, change):
        wrong = copy.deepcopy(answer)
        change(wrong)
        return says, wrong

    yield spoilt("said to be buildable", lambda a: a.update(verdict="buildable"))
    card = Card(text)
    for i, conflict in enumerate(answer["conflicts"]):
        at = f"conflict {i + 1}"
        yield spoilt(f"{at} left out", lambda a, i=i: a["conflicts"].pop(i))
        yield spoilt(f"{at} twice", lambda a, i=i: a["conflicts"].append(a["conflicts"][i]))
        for j in range(len(conflict["rules"])):
            yield spoilt(f"{at}: rule {j + 1} left out", lambda a, i=i, j=j: a["conflicts"][i]["rules"].pop(j))
            yield spoilt(f"{at}: rule {j + 1} a column off",
                         lambda a, i=i, j=j: a["conflicts"][i]["rules"][j].update(column=99))
        told = {(r["line"], r["column"]) for r in conflict["rules"]}
        for unit in card.units.values():
            if unit.place() not in told:
                more = {"line": unit.spot.line, "column": unit.spot.column, "says": ""}
                yield spoilt(f"{at}: with line {unit.spot.line} too",
                             lambda a, i=i, more=more: a["conflicts"][i]["rules"].append(more))
            elif unit.artwork:
                other = {"line": unit.spot.line, "from": unit.text, "to": "1 x 1/2", "mends_card": True}
                yield spoilt(f"{at}: artwork offered", lambda a, i=i, o=other: a["conflicts"][i]["changes"].append(o))
        if "short_by" in conflict:
            for by in ("1/8", "-1/8"):
                more = str(Fraction(conflict["short_by"]) + Fraction(by))
                yield spoilt(f"{at}: short by {more}", lambda a, i=i, m=more: a["conflicts"][i].update(short_by=m))
            yield spoilt(f"{at}: only marks", lambda a, i=i: a["conflicts"][i].update(off_mark="1/16"))
            yield spoilt(f"{at}: no short_by", lambda a, i=i: a["conflicts"][i].pop("short_by"))
        else:
            yield spoilt(f"{at}: short_by", lambda a, i=i: a["conflicts"][i].update(short_by="1/8"))
            yield spoilt(f"{at}: another off_mark", lambda a, i=i: a["conflicts"][i].update(off_mark="1/16"))
        for j, offer in enumerate(conflict["changes"]):
            where = f"{at}, change {j + 1}"
            yield spoilt(f"{where} left out", lambda a, i=i, j=j: a["conflicts"][i]["changes"].pop(j))
            yield spoilt(f"{where}: mends_card", lambda a, i=i, j=j, o=offer:
                         a["conflicts"][i]["changes"][j].update(mends_card=not o["mends_card"]))
            for by in ("1/8", "-1/8", "1/16", "-1/16"):
                to = longer(offer["to"], by)
                if to:
                    yield spoilt(f"{where}: to {to}",
                                 lambda a, i=i, j=j, to=to: a["conflicts"][i]["changes"][j].update(to=to))
            yield spoilt(f"{where}: as it is", lambda a, i=i, j=j, o=offer:
                         a["conflicts"][i]["changes"][j].update(to=o["from"]))
    yield spoilt("no mend", lambda a: a.update(mend=[]))
    for j, made in enumerate(answer["mend"]):
        yield spoilt(f"mend {j + 1} left out", lambda a, j=j: a["mend"].pop(j))
        for by in ("1/8", "-1/8"):
            to = longer(made["to"], by)
            if to:
                yield spoilt(f"mend {j + 1}: to {to}", lambda a, j=j, to=to: a["mend"][j].update(to=to))
    for unit in card.units.values():
        if unit.numbers and not unit.artwork and unit.text not in [m["from"] for m in answer["mend"]]:
            more = {"line": unit.spot.line, "from": unit.text, "to": longer(unit.text, "1/8")}
            yield spoilt(f"mend with line {unit.spot.line} too", lambda a, m=more: a["mend"].append(m))


class Tests:
    def __init__(self):
        self.passed, self.failures, self.spoilt = 0, [], 0

    def expect(self, holds, says):
        if holds:
            self.passed += 1
        else:
            self.failures.append(says)

    def places(self):
        text = ('# a = 1\na = "x # y" # z\n"b c".d = \'\'\'\none\n\'\'\'\n[[e]]\nf = [ 1, "ü", # g\n  "h" ]\n[e.i]\n'
                'j = { k = 2, "l.m" = "n" }\n[[e]]\nf=3\n')
        want = {("a",): (2, 5), ("b c", "d"): (3, 11), ("e", 0, "f"): (7, 5), ("e", 0, "f", 1): (7, 10),
                ("e", 0, "f", 2): (8, 3), ("e", 0, "i", "j", "l.m"): (10, 22), ("e", 1, "f"): (12, 3)}
        found = spots(text)
        for path, place in want.items():
            self.expect(path in found and (found[path].line, found[path].column) == place, f"place of {path}")

    def by_hand(self):
        for says, (body, shorts, mend) in BY_HAND.items():
            body, _, rules = body.partition("@")
            text = HEAD.replace("[]", f"[{rules}]") + body
            card = Card(text)
            sets = by_all_subsets(card)
            lines = {tuple(sorted(card.spots[p].line for p in s)) for s in sets}
            self.expect(lines == set(shorts), f"{says}: conflicts at {lines}")
            self.expect(set(why.conflicts(card)) == set(sets), f"{says}: all subsets say otherwise")
            if not sets:
                self.expect(can_be_built(text), f"{says}: cannot be built")
                continue
            answer = stand_in(text, shorts)
            moved = [last_number(m["to"]) - last_number(m["from"]) for m in answer["mend"]]
            self.expect((len(moved), sum(map(abs, moved))) == (mend[0], Fraction(mend[1])),
                        f"{says}: mended by {moved}")
            self.judged(says, text, answer)
            self.kept(says, card, sets)

    def judged(self, says, text, answer):
        card = Card(text)
        wrong = judge(text, answer, card)
        self.expect(not wrong.failures and not wrong.late, f"{says}: refused: {wrong.failures[:2]} {wrong.late}")
        self.expect(wrong.mended and can_be_built(wrong.mended), f"{says}: the mended card")
        for fault, spoilt in faults(text, answer):
            self.spoilt += 1
            self.expect(judge(text, spoilt, card).failures, f"{says}: accepted with a fault: {fault}")

    def kept(self, says, card, sets):
        """With only a conflict's wishes kept the card cannot be built; with one of them dropped as well it can."""
        for wishes in sets:
            text = kept_only(card, wishes)
            self.expect(len(Card(text).units) == len(wishes), f"{says}: kept is {text}")
            self.expect(not can_be_built(text), f"{says}: what is kept can be built")


def run():
    """(how many held, what did not)"""
    tests = Tests()
    tests.places()
    tests.by_hand()
    tests.expect(tests.spoilt > 100, "too few spoilt answers")
    return tests.passed, tests.failures


if __name__ == "__main__":
    held, broken = run()
    for line in broken:
        print("FAIL " + line)
    print(f"{held} passed, {len(broken)} failed")
    sys.exit(1 if broken else 0)
