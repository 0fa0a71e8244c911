"""An answer of `cut FILE... --json` held against its cards: its verdict, how many cards it is for, what is missing,
what every paper's plan and steps give, and for small jobs the fewest sheets and the most cards by exhaustive search."""
from collections import Counter
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import product

from checker import Mismatch
from cut_fewest import PaperSearch, TooLarge
from cut_plan import PaperCheck, numbers, told
from cut_steps import StepsCheck

STATUS = {"planned": 0, "short": 1, "conflict": 1, "invalid": 2, "undecided": 3}
MOST_PIECES = 26  # that a search for the most cards goes up to


@dataclass
class Judgement:
    passed: Counter = field(default_factory=Counter)
    wrong: list = field(default_factory=list)
    unproven: int = 0
    too_large: int = 0  # papers that the exhaustive search leaves alone

    def holds(self, what, wrong):
        if wrong:
            self.wrong += wrong
        else:
            self.passed[what] += 1

    def same(self, what, got, want, says=None):
        self.holds(what, [] if got == want else [f"{says or what}: {got}, not {want}"])


def planned_counts(batch, answer):
    """How many of each version of each file the plan is for."""
    if len(answer["cards"]) != len(batch.files):
        raise Mismatch(f"{len(answer['cards'])} files in the answer")
    out = []
    for i, (f, told_of) in enumerate(zip(batch.files, answer["cards"])):
        if batch.file_of(told_of["file"]) != i:
            raise Mismatch(f"file {i + 1} is {told_of['file']}")
        names = [v["name"] for v in told_of["versions"]]
        by_name = {v["name"]: v["cards"] for v in told_of["versions"]}
        known = [v.name for v in f.versions]
        if len(by_name) != len(names) or set(names) - set(known):
            raise Mismatch(f"versions {names}, not {known}")
        out.append([by_name.get(name, 0) for name in known])
    return out


def judge(batch, answer, status, most=False, search=False):
    """`most`: it was asked for the most cards. `search`: exhaustively too. Raises Mismatch, KeyError or the like where
    the answer lacks something."""
    j = Judgement()
    verdict = answer["verdict"]
    j.same("exit status", status, STATUS.get(verdict))
    stated = batch.stated_counts()
    papers = batch.papers(stated)
    mistaken = [name for name, needs in papers.items() if not needs.stacks] + batch.grain_unsaid(papers)
    if verdict == "invalid" or mistaken:
        j.same("sheets or grain unsaid", verdict == "invalid", bool(mistaken), f"{verdict}; sheets or grain unsaid: "
               f"{mistaken}")
        return j
    if verdict not in ("planned", "short"):
        j.wrong.append(f"verdict {verdict}")
        return j
    j.same("unit", answer["unit"], batch.unit)
    counts = planned_counts(batch, answer)
    compare_counts(j, batch, answer, counts, stated, most)
    needs = batch.papers(counts)
    names = [p["paper"] for p in answer["papers"]]
    j.same("papers", sorted(p for p in names if p in needs), sorted(needs))
    for paper in answer["papers"]:
        if paper["paper"] in needs:
            own = needs[paper["paper"]]
            j.holds("plans", PaperCheck(paper, own, batch).run())
            j.holds("steps", StepsCheck(paper, batch.trimmer()).run())
            j.unproven += not paper["proven"]
        elif paper["plan"]:
            j.wrong.append(f"{paper['paper']}: cut, and nobody needs it")
    beside_the_paper(j, batch, answer, counts)
    if search:
        try:
            Exhaustive(j, batch, answer, stated, counts, most).run()
        except TooLarge:
            j.too_large += 1
    return j


def several(stated):
    """Whether cards of more than one version are wanted."""
    return sum(n > 0 for own in stated for n in own) > 1


def compare_counts(j, batch, answer, counts, stated, most):
    total = sum(map(sum, counts))
    more = [f"{told_of} cards of a version, of {asked}" for own, asks in zip(counts, stated)
            for told_of, asked in zip(own, asks) if told_of > asked]
    if not most and answer["verdict"] == "planned":
        j.same("cards", counts, stated)
    elif not most or several(stated):
        j.holds("cards", more)
    if answer["verdict"] == "short":
        j.same("something is missing", bool(answer["missing"]), True)
        for m in answer["missing"]:
            if m["at_least"] > m["sheets"] and m["sheets"]:
                j.wrong.append(f"{m['sheets']} sheets are missing, and at least {m['at_least']}")
    else:
        j.same("nothing is missing", answer["missing"], [])
    if most or answer["verdict"] == "short":
        j.same("most cards", answer["most"], total)


def beside_the_paper(j, batch, answer, counts):
    least, allowed = batch.not_cut()
    got = {(batch.file_of(n["file"]), n["layer"]) for n in answer["no_paper"]}
    j.holds("layers that are cut from nothing", [f"no_paper lacks {x}" for x in least - got]
            + [f"no_paper has {x}" for x in got - allowed])
    foam, around, supplies = batch.totals(counts)
    j.same("foam", Fraction(answer["foam"]), foam)
    j.same("adhesive", Fraction(answer["adhesive"]), around)
    j.same("supplies", {s["name"]: Fraction(s["total"]) for s in answer["supplies"]}, supplies)


class Exhaustive:
    def __init__(self, j, batch, answer, stated, counts, most):
        self.j, self.batch, self.answer = j, batch, answer
        self.stated, self.counts, self.most = stated, counts, most
        self.searches = {}

    def run(self):
        if self.most:
            self.most_of_all()
            return
        full = self.batch.papers(self.stated)
        found = {name: self.fewest(name, self.stated) for name in full}
        short = sorted(name for name, f in found.items() if f is None)
        self.j.same("verdict by search", self.answer["verdict"], "short" if short else "planned")
        if (self.answer["verdict"] == "short") != bool(short):
            return
        if not short:
            for paper in self.answer["papers"]:
                self.compare(paper, full[paper["paper"]], found[paper["paper"]])
            return
        self.j.same("papers that are short, by search", sorted({m["paper"] for m in self.answer["missing"]}), short)
        for m in self.answer["missing"]:
            if m["paper"] in short:
                self.lacks(m, full[m["paper"]])
        self.most_within()

    # --- one paper -----------------------------------------------------------------------------------
    def search(self, name, counts):
        """One for all counts, but where the work gives offcuts: they differ."""
        needs = self.batch.papers(counts)[name]
        if needs.offcuts:
            return PaperSearch(needs, needs, self.batch), needs
        if name not in self.searches:
            largest = self.batch.papers([[max(a, b) for a, b in zip(own, made)]
                                         for own, made in zip(self.stated, self.counts)])[name]
            self.searches[name] = PaperSearch(largest, largest, self.batch)
        return self.searches[name], needs

    def fewest(self, name, counts, more=None):
        search, needs = self.search(name, counts)
        return search.fewest(needs, more)

    def compare(self, paper, needs, best):
        cost, sheets = best
        name = paper["paper"]
        if any(s.cost is not None for s in needs.stacks):
            self.j.same("least cost by search", Fraction(paper["cost"]), cost, f"{name}: least cost by search")
            if Fraction(paper["cost_at_least"]) > cost:
                self.j.wrong.append(f"{name}: a cost of at least {paper['cost_at_least']}, by search {cost} does")
        self.j.same("fewest sheets by search", paper["sheets"], sheets, f"{name}: fewest sheets by search")
        if paper["at_least"] > sheets:
            self.j.wrong.append(f"{name}: at least {paper['at_least']} sheets, by search {sheets} do")

    def lacks(self, missing, needs):
        pieces = sum(n.count for n in needs.needs)
        most = [self.least_more(i, missing["paper"], pieces) for i in range(len(needs.stacks))]
        size = numbers(missing, "width", "height")
        mine = [n for n, s in zip(most, needs.stacks) if s.size == size]
        says = f"{missing['paper']}: sheets of {told(size)} that are missing, by search"
        if not missing["sheets"]:
            self.j.same("nothing would do, by search", [n for n in most if n], [], says)
        elif mine:
            self.j.same("missing sheets by search", missing["sheets"], min((n for n in mine if n), default=0), says)
        else:
            self.j.wrong.append(f"{says}: nobody states such sheets")

    def least_more(self, i, name, pieces):
        for n in range(1, pieces + 1):
            more = [0] * len(self.batch.stacks(name))
            more[i] = n
            if self.fewest(name, self.stated, more):
                return n
        return 0

    # --- most cards ----------------------------------------------------------------------------------
    def enough(self, counts):
        return all(self.fewest(name, counts) for name in self.batch.papers(counts))

    def most_within(self):
        """Of the batch as it is stated."""
        flat = [n for own in self.stated for n in own]
        best = 0
        for chosen in sorted(product(*(range(n + 1) for n in flat)), key=lambda c: (-sum(c), c)):
            if self.enough(self.shaped(chosen)):
                best = sum(chosen)
                break
        self.j.same("most cards by search", self.answer["most"], best)

    def shaped(self, flat):
        flat = iter(flat)
        return [[next(flat) for _ in own] for own in self.stated]

    def most_of_all(self):
        if several(self.stated):
            self.most_within()
            return
        told_of = self.answer["most"]
        each = self.batch.papers(self.only(1))
        if sum(n.count for p in each.values() for n in p.needs) * (told_of + 1) > MOST_PIECES:
            raise TooLarge("many cards")
        self.counts = self.only(told_of + 1)
        self.j.same("most cards by search", (self.enough(self.only(told_of)), self.enough(self.counts)),
                    (True, False), f"{told_of} cards and one more, by search")

    def only(self, n):
        """So many of the one version that is wanted."""
        return [[n if count else 0 for count in own] for own in self.stated]
