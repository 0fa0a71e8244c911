#!/usr/bin/env python3
"""That the checks of explored cards check: answers written by hand are accepted, the same with any one thing spoilt are
refused; the list here has what is known, and what a slower one without any thought has.

usage: test_explore.py
The last line counts; exit status 0 when all held."""
import copy
import random
import sys
from fractions import Fraction
from itertools import product

import explore_cards
from cut_by_hand import leaves, put
from cut_answer import Judgement
from cut_needs import Batch, CardFile, Need, PaperNeeds, Stack
from explore_answer import judge
from explore_costs import Papers, unbeaten
from explore_fit import judge_all_loosened, judge_fit, judge_loosening, nearer
from explore_list import Space, possible
from explore_more import comments, judge_order
from linear import Lin
from reading import wish

F = Fraction


# --- answers written by hand ---------------------------------------------------------------------------
def layer(name, on, box, within, role="mat", seen="1", corner=("0", "0")):
    """`box`: its left, top, width and height on what it is on, which is `within` wide and high from `corner`."""
    left, top, w, h = map(F, box)
    return {"name": name, "role": role, "on": on, "face": "front", "left": str(left + F(corner[0])),
            "top": str(top + F(corner[1])), "width": str(w), "height": str(h), "from_left": str(left),
            "from_top": str(top), "from_right": str(F(within[0]) - left - w),
            "from_bottom": str(F(within[1]) - top - h), "visible": seen, "visible_closed": seen}


def version(front, layers):
    """A flat card."""
    w, h = front
    return {"layers": layers, "windows": [], "base": {"blank": {"width": w, "height": h}, "scores": []},
            "closed": {"width": w, "height": h, "over_all": {"width": w, "height": h}, "girth_across": w,
                       "girth_down": h, "no_thickness": ["", "clay"]}, "mail": [], "verdict": "buildable"}


def alternative(number, amounts, body, papers, as_sized=False, unbeaten=True, **counts):
    out = {"number": number, "as_sized": as_sized, "unbeaten": unbeaten, "amounts": amounts, **body, "papers": papers,
           **counts}
    del out["verdict"]
    return out


def explored(opened, alternatives):
    return {"verdict": "explored", "unit": "in", "shown": len(alternatives), "count": len(alternatives),
            "complete": True, "compared": len(alternatives), "open": opened, "alternatives": alternatives}


def paper(name, sheets, missing, cards, **more):
    return {"paper": name, "sheets": sheets, "at_least": sheets, "proven": True, "missing": missing,
            "cards_a_sheet": cards, **more}


# Mats of four borders from a sheet that gives four of the second, and two of the first, which is wanted.
MATS = """cards = 4
[base]
fold = "flat"
front = "4 1/4 x 5 1/2"
[[layer]]
name = "clay mat"  # = one
on = "front"
border = "1/16 to 1/4, about 1/16"
paper = "clay"
[[paper]]
name = "clay"
sheet = "8 x 10 1/2"
have = 1
"""


def mat(border):
    b = F(border)
    box = b, b, F(17, 4) - 2 * b, F(11, 2) - 2 * b
    return version(("17/4", "11/2"), [layer("clay mat", "front", box, ("17/4", "11/2"))])


def mats():
    opened = [{"name": "clay mat", "key": "border", "line": 8, "column": 10, "as_sized": "1/16", "least": "1/16",
               "most": "1/4"}]
    # Of 84 square inches a sheet: 4 times 33/8 x 43/8 of two sheets, 4 x 21/4, 31/8 x 41/8 and 15/4 x 5 of one.
    found = [alternative(1, ["1/16"], mat("1/16"), [paper("clay", 2, 1, 2)], True, False, waste="1269/2688",
                         border="1/16", seen="1"),
             alternative(2, ["1/8"], mat("1/8"), [paper("clay", 1, 0, 4)], waste="0", border="1/8", seen="1"),
             alternative(3, ["3/16"], mat("3/16"), [paper("clay", 1, 0, 4)], waste="73/1344", border="3/16", seen="1"),
             alternative(4, ["1/4"], mat("1/4"), [paper("clay", 1, 0, 4)], waste="3/28", border="1/4", seen="1")]
    return MATS, sized("1/16"), explored(opened, found)


def sized(border):
    return mat(border) | {"unit": "in"}


# Two panels that share what is left beside them; the second follows from the first.
PANELS = """mark = "1/2"
[base]
fold = "flat"
front = "3 x 4"
[[layer]]
name = "plum"
role = "panel"
on = "front"
border = { left = "1/2", down = "1/2" }
width = "at least 1/2"
[[layer]]
name = "reed"
role = "panel"
on = "front"
right-of = "plum"
gap = "1/2"
border = { right = "1/2", down = "1/2" }
"""


def panels():
    def two(first):
        w = F(first)
        return version(("3", "4"), [layer("plum", "front", ("1/2", "1/2", w, 3), ("3", "4"), "panel"),
                                    layer("reed", "front", (1 + w, "1/2", F(3, 2) - w, 3), ("3", "4"), "panel")])

    opened = [{"name": "plum", "key": "width", "line": 10, "column": 9, "as_sized": "1", "least": "1/2", "most": "1"}]
    found = [alternative(1, ["1/2"], two("1/2"), [], border="1/2", seen="1"),
             alternative(2, ["1"], two("1"), [], True, border="1/2", seen="1")]
    return PANELS, two("1") | {"unit": "in"}, explored(opened, found)


# A panel on a mat, of which the mat alone is open: half of it shows at the least.
SEEN = """mark = "1"
[base]
fold = "flat"
front = "10 x 10"
[[layer]]
name = "moss"
role = "panel"
on = "front"
border = "1 to 2"
[[layer]]
name = "lark"
role = "image"
on = "moss"
size = "6 x 4"
align = "top left"
"""


def half_seen():
    def both(b, share):
        side = 10 - 2 * b
        return version(("10", "10"), [layer("moss", "front", (b, b, side, side), ("10", "10"), "panel", share),
                                      layer("lark", "moss", (0, 0, 6, 4), (side, side), "image", "1", (b, b))])

    opened = [{"name": "moss", "key": "border", "line": 9, "column": 10, "as_sized": "1", "least": "1", "most": "2"}]
    found = [alternative(1, ["1"], both(1, "5/8"), [], True, border="1", seen="5/8"),
             alternative(2, ["2"], both(2, "1/3"), [], border="2", seen="1/3")]
    return SEEN, both(1, "5/8") | {"unit": "in"}, explored(opened, found)


BY_HAND = [mats, panels, half_seen]
UNJUDGED = {"role", "face", "cards_a_sheet", "visible_closed", "no_thickness"}  # told beside what is judged, or by its name alone


def fitted():
    text, own, answer = mats()
    start = copy.deepcopy(answer["alternatives"][0])
    best = copy.deepcopy(answer["alternatives"][1])
    best["number"] = 1
    for a in (start, best):
        del a["unbeaten"]
    change = {"name": "clay mat", "key": "border", "line": 8, "column": 10, "from": "1/16", "to": "1/8"}
    return text, own, {**answer, "shown": 1, "alternatives": [best], "as_sized": start, "loosen": [],
                       "fit": {"enough": True, "proven": True, "at_least": 1, "changes": [change]}}


def loosened():
    """The border is settled, and takes a sheet more than there is."""
    text = MATS.replace("1/16 to 1/4, about 1/16", "1/16")
    a = copy.deepcopy(mats()[2]["alternatives"][0]) | {"amounts": []}
    loosen = [{"name": "clay mat", "key": "border", "line": 8, "column": 10, "from": "1/16", "to": "1/8", "by": "1/16"}]
    return text, sized("1/16"), {"verdict": "short", "unit": "in", "shown": 1, "count": 1, "complete": True, "open": [],
                                 "alternatives": [a], "as_sized": a, "loosen": loosen,
                                 "fit": {"enough": False, "proven": True, "at_least": 2, "changes": []}}


# --- tests ---------------------------------------------------------------------------------------------
class Tests:
    def __init__(self):
        self.passed, self.failures = 0, []

    def expect(self, holds, says):
        if holds:
            self.passed += 1
        else:
            self.failures.append(says)

    @staticmethod
    def wrong(check, *args):
        try:
            return check(*args)
        except Exception as error:  # an answer that cannot be read is refused as well
            return [repr(error)]

    def spoilt(self, name, answer, found):
        """`found`: what is wrong with an answer. Any one thing of it spoilt must be."""
        first = self.wrong(found, answer)
        self.expect(not first, f"{name}: refused: {first[:3]}")
        if first:
            return
        for path, value in leaves(answer):
            if UNJUDGED & set(path) or path[0] == "as_sized" and path[-1] in ("number", "name", "on"):
                continue
            for new in others(value):
                if path[-1] == "at_least" and "fit" in path or path[-1] == "proven" and "papers" in path:
                    continue  # a bound may be weaker; what is not proven is counted
                copied = copy.deepcopy(answer)
                put(copied, path, new)
                self.expect(self.wrong(found, copied), f"{name}: {'.'.join(map(str, path))} {value} -> {new}: accepted")

    def by_hand(self):
        for make in BY_HAND:
            text, own, answer = make()
            space, papers = Space(text, own, 100), Papers(text)

            def found(told, space=space, own=own, papers=papers):
                return judge(space, own, told, 0, True, papers).wrong

            self.spoilt(make.__name__, answer, found)
            less = copy.deepcopy(answer)
            less["alternatives"].pop()
            less["shown"] -= 1
            self.expect(self.wrong(found, less), f"{make.__name__}: one is left out")
            less["count"] -= 1
            less["compared"] -= 1
            self.expect(self.wrong(found, less), f"{make.__name__}: one is not counted either")
            twice = copy.deepcopy(answer)
            twice["alternatives"][1] = copy.deepcopy(twice["alternatives"][0]) | {"number": 2, "as_sized": False}
            self.expect(any("same sizes and places" in w for w in self.wrong(found, twice)),
                        f"{make.__name__}: one is told twice")
            part = copy.deepcopy(answer)
            part["alternatives"].pop()
            part["shown"] -= 1
            part["compared"] = 0
            self.expect(not judge(space, own, part, 0, False, papers).wrong, f"{make.__name__}: some of them, refused")

    def fits(self):
        text, own, answer = fitted()
        space, papers = Space(text, own, 100), Papers(text)

        def found(told):
            j, searched = judge_fit(space, own, told, 0 if told["verdict"] == "explored" else 1, papers)
            return j.wrong + ([] if searched else ["not searched"])

        self.spoilt("fitted", trimmed(answer), found)
        for other, says in ((2, "one that differs more"), (0, "one that lacks a sheet")):
            told = copy.deepcopy(answer)
            border = mats()[2]["alternatives"][other]
            told["alternatives"] = [border]
            told["fit"]["changes"] = [] if not other else [told["fit"]["changes"][0] | {"to": border["amounts"][0]}]
            self.expect(self.wrong(found, told), f"fitted: {says}: accepted")

    def loosening(self):
        text, own, answer = loosened()
        space = Space(text, own, 100)

        def size_of(changed):
            stated = changed.split('border = "')[1].split('"')[0]
            return sized(str(wish(stated, "in").at_least))

        def found(told):
            j, _ = judge_fit(space, own, told, 1, Papers(text))
            judge_loosening(j, space, told, size_of)
            return j.wrong

        first = self.wrong(found, answer)
        self.expect(not first, f"loosened: refused: {first[:3]}")
        for to, by in (("1/32", "-1/32"), ("0", "-1/16"), ("3/16", "1/8")):
            told = copy.deepcopy(answer)
            told["loosen"][0] |= {"to": to, "by": by}
            self.expect(self.wrong(found, told), f"loosened to {to}: accepted")
        told = copy.deepcopy(answer)
        told["loosen"][0]["from"] = "1/8"
        self.expect(self.wrong(found, told), "loosened from what is not stated: accepted")
        told = copy.deepcopy(answer)
        told["loosen"] = []
        j = Judgement()
        judge_all_loosened(j, space, answer, size_of)
        self.expect(not j.wrong, f"loosened, all of them: refused: {j.wrong}")
        judge_all_loosened(j, space, told, size_of)
        self.expect(j.wrong, "a wish that would do is left out: accepted")
        wide = Space(MATS, sized("1/16"), 100)
        self.expect(nearer(wide, "1/16 to 1/4", "1/16 to 3/8") == "at least 1/16, at most 5/16", "a mark less of a range")

    # --- the list ------------------------------------------------------------------------------------
    def known(self):
        for make, want in ((mats, [(1,), (2,), (3,), (4,)]), (panels, [(1,), (2,)]), (half_seen, [(1,), (2,)])):
            text, own, _ = make()
            self.expect([c.amounts for c in Space(text, own, 100).cards] == want, f"{make.__name__}: another list")
        text, own, _ = panels()
        for rule, want in (("plum.width >= reed.width", [(2,)]), ("plum.width = reed.width", []),
                           ("plum.width <= 1/2 or reed.width <= 1/2", [(1,), (2,)]),
                           ("2 * plum.width <= reed.width and plum.left = 1/2", [(1,)])):
            ruled = Space(f'rules = ["{rule}"]\n' + text, own, 100)
            self.expect([c.amounts for c in ruled.cards] == want, f"with {rule}: {[c.amounts for c in ruled.cards]}")
        kept = Space(text, own, 100, ("reed",))
        self.expect([c.amounts for c in kept.cards] == [(2,)], "one keeps its size")
        x, y = Lin.var((0, "x", "left")), Lin.var((0, "y", "left"))
        for rows, want in (([x - 1, Lin(const=1) - x], True), ([x - 1, Lin(const=2) - x], False),
                           ([x + y - 2, Lin(const=1) - x, Lin(const=1) - y], True),
                           ([x + y * 2 - 2, Lin(const=1) - x, Lin(const=1) - y], False)):
            self.expect(possible(rows) == want, f"possible: {rows}")

    def counts(self):
        one = [(1, 2, (True, 0)), (1, 1, (True, 0)), (2, 0, (True, 0)), (1, 1, (True, 0))]
        self.expect(unbeaten(one) == [False, True, True, True], "unbeaten")
        rng = random.Random(3)
        for _ in range(40):
            rows = [tuple(rng.randint(0, 3) for _ in range(3)) for _ in range(8)]
            plain = [not any(all(x <= y for x, y in zip(b, a)) and b != a for b in rows) for a in rows]
            self.expect(unbeaten(rows) == plain, f"unbeaten of {rows}")
        self.expect(comments('a = "#1" # two\n# one\n') == {"# two": 1, "# one": 1}, "comments")
        answer = mats()[2]
        for best, holds in (("sheets", False), ("border", False), ("seen", True)):
            self.expect(bool(judge_order(answer, best).wrong) != holds, f"in order by {best}")

    def on_a_sheet(self):
        """Pieces of one size by the quick count and by exhaustive search."""
        rng = random.Random(11)
        batch = Batch([CardFile("card.toml", MATS, sized("1/16"))])
        for _ in range(40):
            w, h = F(rng.randint(40, 70), 8), F(rng.randint(40, 90), 8)
            a, b = F(rng.randint(12, 40), 8), F(rng.randint(12, 40), 8)
            stack = Stack((w, h), up=rng.random() < 0.3)
            needs = PaperNeeds([Need(0, "clay mat", "", (a, b), (a, b), False, False, None, 12)], [stack])
            quick, slow = (Papers(MATS, thorough).on_a_sheet(batch, needs, 12) for thorough in (False, True))
            self.expect(quick == slow, f"{a} x {b} from {w} x {h}: {quick}, by search {slow}")

    def against_every_number(self):
        """Stacks of mats and pairs of panels with random wishes, against trying every size on the marks."""
        rng = random.Random(7)
        for _ in range(60):
            w, low, gap = rng.randint(5, 9), rng.randint(0, 1), rng.randint(0, 2)
            ranges = [sorted((rng.randint(0, 3), rng.randint(0, 4))) for _ in range(2)]
            text = f'mark = "1"\n[base]\nfold = "flat"\nfront = "{w} x 9"\n' + \
                f'[[layer]]\nname = "a"\non = "front"\nborder = {{ left = {low}, down = 1 }}\n' + \
                f'width = "{ranges[0][0]} to {ranges[0][1] + 1}"\n' + \
                f'[[layer]]\nname = "b"\non = "front"\nright-of = "a"\ngap = "{gap} to {gap + 1}"\n' + \
                f'border = {{ right = "{ranges[1][0]} to {ranges[1][1] + 1}", down = "2" }}\n'
            want = {(a, g, r) for a, g, r in product(range(1, 12), repeat=3)
                    if ranges[0][0] <= a <= ranges[0][1] + 1 and gap <= g <= gap + 1
                    and ranges[1][0] <= r <= ranges[1][1] + 1 and w - low - a - g - r >= 1}
            want |= {(a, g, 0) for a, g in product(range(1, 12), range(gap, gap + 2))
                     if ranges[0][0] <= a <= ranges[0][1] + 1 and ranges[1][0] == 0 and w - low - a - g >= 1}
            want |= {(a, 0, r) for a, r in product(range(1, 12), range(0, 12)) if gap == 0
                     and ranges[0][0] <= a <= ranges[0][1] + 1 and ranges[1][0] <= r <= ranges[1][1] + 1
                     and w - low - a - r >= 1}
            if not want:
                continue
            a, g, r = min(want)
            told = version((str(w), "9"), [layer("a", "front", (low, 1, a, 7), (w, 9)),
                                           layer("b", "front", (low + a + g, 2, w - low - a - g - r, 5), (w, 9))])
            space = Space(text, told, 1000)
            got = {(c.values[0, "a", "width"], c.values[0, "b", "gap right-of a"], c.values[0, "b", "right"])
                   for c in space.cards}
            self.expect(got == want and len(space.cards) == len(want) and not space.wrong, f"{text}: {got ^ want}")

    def generator(self):
        made = [explore_cards.generate(s) for s in range(1, 60)]
        self.expect(made == [explore_cards.generate(s) for s in range(1, 60)], "the same seeds make other cards")
        self.expect(len(set(made)) == len(made), "two seeds make one card")


def others(value):
    if isinstance(value, bool):
        return [not value]
    if isinstance(value, int):
        return [value + 1, value - 1]
    try:
        return [str(Fraction(value) + Fraction(1, 16)), str(Fraction(value) - Fraction(1, 16))]
    except ValueError:
        return [value + "?"]


def trimmed(answer):
    """Without what is judged elsewhere."""
    answer = copy.deepcopy(answer)
    for key in ("shown", "compared", "unit"):
        del answer[key]
    for a in (*answer["alternatives"], answer["as_sized"]):
        for key in ("number", "as_sized", "base"):
            a.pop(key, None)
        a["closed"] = {"no_thickness": ["clay"]}
        for each in a["layers"]:
            each.pop("visible")
    return answer


def run():
    """(how many held, what did not)"""
    tests = Tests()
    tests.by_hand()
    tests.fits()
    tests.loosening()
    tests.known()
    tests.counts()
    tests.on_a_sheet()
    tests.against_every_number()
    tests.generator()
    return tests.passed, tests.failures


if __name__ == "__main__":
    held, broken = run()
    for line in broken:
        print("FAIL " + line)
    print(f"{held} passed, {len(broken)} failed")
    sys.exit(1 if broken else 0)
