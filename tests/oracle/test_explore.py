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
from explore_by_hand import (BY_HAND, MATS, UNJUDGED, fitted, half_seen, layer, loosened, mats, panels, sized,
                             version)
from explore_costs import Papers, unbeaten
from explore_fit import judge_all_loosened, judge_fit, judge_loosening, nearer
from explore_list import Space, without_free
from explore_more import comments, judge_order
from linear import Lin
from reading import wish

F = Fraction


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
        x, y, a = Lin.var((0, "x", "left")), Lin.var((0, "y", "left")), Lin.var(("amount", 0))
        for rows, holds, fails in (([x - a, Lin(const=1) - x], (1, 2), (0,)),  # 1 <= x <= a
                                   ([x + y - a, Lin(const=1) - x, Lin(const=1) - y], (2, 3), (1, 0)),
                                   ([x + y * 2 - a, Lin(const=1) - x, Lin(const=1) - y], (3,), (2,))):
            left = without_free(rows)
            for value in holds + fails:
                got = all(r.at({("amount", 0): F(value)}) <= 0 for r in left)
                self.expect(got == (value in holds), f"{len(rows)} inequalities with {value}: {got}")

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
