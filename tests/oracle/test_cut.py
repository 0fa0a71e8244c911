#!/usr/bin/env python3
"""That the checks of cutting plans check: plans written by hand are accepted, the same plans with any one thing spoilt
are refused; exhaustive search finds what is known, and what a slower search without any thought finds.

usage: test_cut.py
The last line counts; exit status 0 when all held."""
import copy
import random
import sys
from itertools import product

import cut_cards
from cut_answer import judge
from cut_by_hand import (BY_HAND, FLAT, SPOILS, F, five_to_a_sheet, halves_of_letter, leaves, put, spoilt_values,
                         strips_of_a_cut_back)
from cut_fewest import PaperSearch, Search, Source
from cut_needs import Batch, CardFile, Need, PaperNeeds, Stack

STATUS = {"planned": 0, "short": 1}


# --- tests ---------------------------------------------------------------------------------------------
class Tests:
    def __init__(self):
        self.passed, self.failures = 0, []

    def expect(self, holds, says):
        if holds:
            self.passed += 1
        else:
            self.failures.append(says)

    def wrong(self, text, sized, cut, search=True):
        """What the checks say of an answer."""
        batch = Batch([CardFile("card.toml", text, sized)])
        try:
            return judge(batch, cut, STATUS[cut["verdict"]], False, search).wrong
        except Exception as error:  # an answer that cannot be read is refused as well
            return [repr(error)]

    def by_hand(self):
        for make in BY_HAND:
            text, sized, cut = make()
            found = self.wrong(text, sized, cut)
            self.expect(not found, f"{make.__name__}: refused: {found[:3]}")
            if found:
                continue
            for spoil in SPOILS:
                spoilt = copy.deepcopy(cut)
                spoil(spoilt)
                self.expect(self.wrong(text, sized, spoilt, False), f"{make.__name__}, {spoil.__name__}: accepted")
            for path, value in leaves(cut):
                for new in spoilt_values(path, value):
                    spoilt = copy.deepcopy(cut)
                    put(spoilt, path, new)
                    self.expect(self.wrong(text, sized, spoilt, False),
                                f"{make.__name__}: {'.'.join(map(str, path))} {value} -> {new} is accepted")

    def one_rule_each(self):
        """Plans that are sound but for one rule, and what is said of them."""
        text, sized, cut = halves_of_letter()
        for stated, says in (('longest = 8', "long, more than"), ('blade-loss = "1/8"', "cut"), ('sliver = 1', None)):
            found = self.wrong(text + f"[trimmer]\n{stated}\n", sized, cut, False)
            self.expect(any(says in w for w in found) if says else not found, f"with {stated}: {found[:2]}")
        text, sized, cut = five_to_a_sheet()
        found = self.wrong(text + '[trimmer]\nsliver = "3/8"\n', sized, cut, False)
        self.expect(any("a trim 1/4 wide" in w for w in found), f"a trim below the limit: {found[:2]}")
        up = copy.deepcopy(cut)
        up["papers"][0]["stock"][0]["up"] = True
        found = self.wrong(text + 'up = true\n', sized, up, False)
        self.expect(any("may not lie" in w for w in found), f"a turned print: {found[:2]}")
        narrow = copy.deepcopy(cut)
        for step in narrow["papers"][0]["steps"]:
            for work in step["works"]:
                work["hold"] = False
        found = self.wrong(text + '[trimmer]\nhold = 4\n', sized, narrow, False)
        self.expect(any("too narrow to hold" in w for w in found), f"held by nothing: {found[:2]}")
        text, sized, cut = halves_of_letter()
        cut["papers"][0]["stock"][0]["have"] = 4
        found = self.wrong(text.replace("have = 5", "have = 4"), sized, cut, False)
        self.expect(any("of 4" in w for w in found), f"more sheets than there are: {found[:2]}")
        text, sized, cut = strips_of_a_cut_back()
        less = {**sized, "base": {**sized["base"], "cut_back": {"by": "7/8"}}}
        found = self.wrong(text, less, cut, False)
        self.expect(any("offcuts" in w for w in found), f"an offcut that is none: {found[:2]}")
        up = text.replace('sheet = "9 x 11"', 'sheet = "9 x 11"\nup = true')
        self.expect(not any("may not lie" in w for w in self.wrong(up, sized, cut, False)), "upright, but refused")

    def grain(self):
        text, sized, cut = halves_of_letter()
        for grain, holds in (("short", False), ("long", True)):
            # The score runs down a blank 8 1/2 wide; laid upright on a sheet 11 tall, down is along the grain if long.
            spoken = copy.deepcopy(cut)
            spoken["papers"][0]["stock"][0]["grain"] = grain
            spoken["papers"][0]["kinds"][0]["may_turn"] = False
            card = CardFile("card.toml", text.replace("have = 5", f'have = 5\ngrain = "{grain}"'), sized)
            found = judge(Batch([card], (), True), spoken, 0).wrong
            self.expect(not found if holds else any("may not lie" in w for w in found), f"grain {grain}: {found[:2]}")

    # --- exhaustive search -----------------------------------------------------------------------------
    def fewest(self, w, h, pieces, stacks, **trimmer):
        """(cost, sheets) of pieces (width, height, count) from stacks."""
        needs = PaperNeeds([Need(0, f"layer {i}", "", (F(a), F(b)), (F(a), F(b)), False, False, None, n)
                            for i, (a, b, n) in enumerate(pieces)], stacks or [Stack((F(w), F(h)))])
        text = "[trimmer]\n" + "".join(f'{k.replace("_", "-")} = "{v}"\n' for k, v in trimmer.items())
        batch = Batch([CardFile("card.toml", FLAT + text, {"layers": []})])
        return PaperSearch(needs, needs, batch).fewest(needs)

    def known(self):
        letter, mat = (F(17, 2), F(11)), [("3", "21/4", 15)]
        for says, got, want in (
                ("two blanks to a letter sheet", self.fewest("17/2", 11, [("17/2", "11/2", 10)], None), (0, 5)),
                ("five mats to a sheet", self.fewest("17/2", 11, mat, None), (0, 3)),
                ("four that may not turn", self.fewest(0, 0, mat, [Stack(letter, up=True)]), (0, 4)),
                ("too few sheets", self.fewest(0, 0, mat, [Stack(letter, have=2)]), None),
                ("two strips 5 1/4 tall of a square", self.fewest(12, 12, [("12", "21/4", 4)], None), (0, 2)),
                ("a trim of 1/16 is none", self.fewest("65/16", 4, [("2", "4", 2)], None), (0, 2)),
                ("without the limit it is", self.fewest("65/16", 4, [("2", "4", 2)], None, sliver=0), (0, 1)),
                ("the blade takes its part", self.fewest(4, 4, [("2", "4", 2)], None, blade_loss="1/16"), (0, 2)),
                ("and fits exactly", self.fewest("33/8", 4, [("2", "4", 2)], None, blade_loss="1/8"), (0, 1)),
                ("a sheet too wide for the trimmer", self.fewest(8, 6, [("8", "3", 2)], None, longest=7), None),
                ("cut down first", self.fewest(8, 6, [("4", "3", 4)], None, longest=7), (0, 1)),
                ("five squares about a smaller one are not cut straight through",
                 self.fewest(5, 5, [("3", "2", 4), ("1", "1", 1)], None), (0, 2)),
                ("the cheaper sheets", self.fewest(0, 0, [("2", "2", 4)], [Stack((F(4), F(4)), cost=F(5)),
                                                                         Stack((F(2), F(4)), cost=F(2))]), (4, 2)),
                ("an untrue edge", self.fewest(0, 0, [("2", "2", 4)], [Stack((F(4), F(4)), trim_first=F(1, 4))]),
                 (0, 2))):
            self.expect(got == want, f"{says}: {got}, not {want}")

    def against_all_cuts(self):
        """All combinations of a sheet, against trying every cut at every step of the grid."""
        rng = random.Random(5)
        for _ in range(60):
            w, h = rng.randint(4, 9), rng.randint(4, 9)
            kinds = [(rng.randint(1, w), rng.randint(1, h), rng.random() < 0.5) for _ in range(rng.randint(1, 3))]
            most = tuple(rng.randint(1, 2) for _ in kinds)
            sliver, blade, longest = rng.choice([0, 1, 2, 2, 3]), rng.choice([0, 0, 0, 1]), rng.choice([99, 99, 6, 8])
            lies = tuple(frozenset([(F(a), F(b))] + [(F(b), F(a))] * turn) for a, b, turn in kinds)
            source = Source((F(w), F(h)), None, F(0), 1, lies)
            search = Search([source], most, {"sliver": F(sliver), "blade-loss": F(blade), "longest": F(longest)})
            got, want = search.from_one(source), EveryCut(lies, most, sliver, blade, longest).sheet(w, h)
            for vector in product(*(range(n + 1) for n in most)):
                self.expect((got >> search.index(vector) & 1) == (vector in want),
                            f"{vector} of {kinds} from {w} x {h}, sliver {sliver}, blade {blade}, longest {longest}")

    def generator(self):
        made = [cut_cards.small(s) for s in range(1, 40)] + [cut_cards.whole(s) for s in range(1, 40)]
        again = [cut_cards.small(s) for s in range(1, 40)] + [cut_cards.whole(s) for s in range(1, 40)]
        self.expect(made == again, "the same seeds make other batches")
        self.expect(len({str(job.texts) for job in made}) == len(made), "two seeds make one batch")


class EveryCut:
    """Which combinations a rectangle can be cut into, by every cut there is; lengths are whole numbers."""

    def __init__(self, lies, most, sliver, blade, longest):
        self.lies, self.most, self.sliver, self.blade, self.longest = lies, most, sliver, blade, longest
        self.known = {}

    def sheet(self, w, h):
        return self.held(w, h) | {(0,) * len(self.most)}

    def held(self, w, h):
        if (w, h) not in self.known:
            out = {tuple(int(i == k) for i in range(len(self.most))) for k, sizes in enumerate(self.lies)
                   if (w, h) in sizes}
            for at in range(1, h) if w <= self.longest else ():
                out |= self.both((w, at), (w, h - at - self.blade), 1)
            for at in range(1, w) if h <= self.longest else ():
                out |= self.both((at, h), (w - at - self.blade, h), 0)
            self.known[(w, h)] = out
        return self.known[(w, h)]

    def both(self, a, b, way):
        out = set()
        for one, other in product(self.part(a, way), self.part(b, way)):
            total = tuple(map(sum, zip(one, other)))
            if any(total) and all(n <= m for n, m in zip(total, self.most)):
                out.add(total)
        return out

    def part(self, size, way):
        if size[way] < 0:
            return set()
        none = {(0,) * len(self.most)} if size[way] >= self.sliver else set()
        return none | (self.held(*size) if size[way] else set())


def run():
    """(how many held, what did not)"""
    tests = Tests()
    tests.by_hand()
    tests.one_rule_each()
    tests.grain()
    tests.known()
    tests.against_all_cuts()
    tests.generator()
    return tests.passed, tests.failures


if __name__ == "__main__":
    held, broken = run()
    for line in broken:
        print("FAIL " + line)
    print(f"{held} passed, {len(broken)} failed")
    sys.exit(1 if broken else 0)
