"""The steps of one paper done by a hand that knows nothing else: at each setting, so many rectangles of a size are
taken in hand and cut so many times. What is in hand at the end must be what the cuts of the plan give, and each step
the cuts that bear its number. Whatever is wrong is said."""
from collections import Counter, defaultdict
from fractions import Fraction

from cut_plan import numbered, numbers, rectangle, told


class StepsCheck:
    def __init__(self, paper, trimmer):
        self.paper, self.blade, self.hold = paper, trimmer["blade-loss"], trimmer["hold"]
        self.wrong = []
        self.in_hand = defaultdict(Counter)  # sheet -> (what, width, height) -> how many
        self.cuts = Counter()  # (sheet, step, width, height in hand, across, at) -> how many

    def says(self, what):
        self.wrong.append(f"{self.paper['paper']}: {what}")

    def only_offcuts(self, step):
        of = {entry["sheet"]: entry["offcut"] for entry in self.paper["plan"]}
        return all(of[work["sheet"]] for work in step["works"])

    def run(self):
        for entry in self.paper["plan"]:
            whole = ("strip", *numbers(entry, "width", "height"))
            self.in_hand[entry["sheet"]][self.as_cut(entry, whole)] += entry["times"]
        last, begun = None, False
        for i, step in enumerate(self.paper["steps"]):
            if step["step"] != i + 1:
                self.says(f"step {step['step']} comes as number {i + 1}")
            setting = Fraction(step["set"])
            offcuts = self.only_offcuts(step)
            if setting == last and not offcuts:
                self.says(f"steps {i} and {i + 1} are at one setting")
            if begun and not offcuts:
                self.says(f"step {i + 1} cuts sheets after offcuts that come of them")
            begun = begun or offcuts
            last = setting
            if not step["works"]:
                self.says(f"step {i + 1} does nothing")
            for work in step["works"]:
                self.work(step["step"], setting, work)
        self.ends()
        self.same_cuts()
        return self.wrong

    def as_cut(self, entry, whole):
        """A sheet that needs no cut is a piece at once."""
        if entry["cuts"]:
            return whole
        return ("piece", *whole[1:]) if entry["pieces"] else ("leftover", *whole[1:])

    def work(self, number, setting, work):
        letter, across, cuts = work["sheet"], work["across"], work["cuts"]
        take, size = work["from"]["count"], numbers(work["from"], "width", "height")
        key = (work["from"]["what"] if work["from"]["what"] != "sheet" else "strip", *size)
        where = f"step {number}, sheet {letter}"
        if key[0] != "strip":
            self.says(f"{where}: a {key[0]} is cut")
        if take < 1 or cuts < 1 or self.in_hand[letter][key] < take:
            self.says(f"{where}: {take} of {told(size)} are taken, {self.in_hand[letter][key]} are in hand")
            return
        self.in_hand[letter][key] -= take
        gives, rest = Counter(), size[1 if across else 0]
        for _ in range(cuts):
            if not 0 < setting < rest or setting + self.blade > rest:
                self.says(f"{where}: set {setting} does not go through what is {rest}")
                return
            in_hand = (size[0], rest) if across else (rest, size[1])
            self.cuts[(letter, number, *in_hand, across, setting)] += take
            gives[(size[0], setting) if across else (setting, size[1])] += take
            before, rest = rest, rest - setting - self.blade
        if rest > 0:
            gives[(size[0], rest) if across else (rest, size[1])] += take
        got = Counter()
        for y in work["yields"]:
            made = numbers(y, "width", "height")
            got[made] += y["count"]
            self.in_hand[letter][(y["what"], *made)] += y["count"]
            self.kind(where, y, made)
        if got != gives:
            self.says(f"{where}: yields {[(told(k), n) for k, n in got.items()]}, "
                      f"and gives {[(told(k), n) for k, n in gives.items()]}")
        self.held(where, work, before, setting, rest)

    def kind(self, where, y, made):
        if y["what"] == "piece":
            kind = numbered(self.paper["kinds"], y["kind"])
            if sorted(made) != sorted(numbers(kind, "width", "height")):
                self.says(f"{where}: {told(made)} is not of kind {y['kind']}")

    def held(self, where, work, before, setting, rest):
        """Before its last cut there must be something that a hand can hold, or it is said to be taped; where both
        sides of the blade can be held, it is not."""
        if max(setting, rest) < self.hold and not work["hold"]:
            self.says(f"{where}: what is {before} is cut at {setting}, too narrow to hold, and it is not said")
        if min(setting, rest) >= self.hold and work["hold"]:
            self.says(f"{where}: said to be too narrow, and is not")

    def ends(self):
        """Pieces by kind where the yields say it; sizes as they lie."""
        want = defaultdict(Counter)
        for entry in self.paper["plan"]:
            for what in ("piece", "leftover"):
                for r in entry[what + "s"]:
                    want[entry["sheet"]][(what, *numbers(r, "width", "height"))] += entry["times"]
        for letter in set(want) | set(self.in_hand):
            for key, n in (self.in_hand[letter] - want[letter]).items():
                self.says(f"sheet {letter}: after all steps {n} more of {key[0]} {told(key[1:])}")
            for key, n in (want[letter] - self.in_hand[letter]).items():
                self.says(f"sheet {letter}: no step gives {n} of {key[0]} {told(key[1:])}")

    def same_cuts(self):
        want = Counter()
        for entry in self.paper["plan"]:
            for cut in entry["cuts"]:
                want[(entry["sheet"], cut["step"], *rectangle(cut)[2:], cut["across"], Fraction(cut["at"]))] += \
                    entry["times"]
        for key in want - self.cuts:
            self.says(f"sheet {key[0]}: a cut of {told(key[2:4])} at {key[5]} is not in step {key[1]}")
        for key in self.cuts - want:
            self.says(f"sheet {key[0]}: step {key[1]} cuts {told(key[2:4])} at {key[5]}, the plan does not")
