"""An answer of `evenmat check FILE --json` for a card that cannot be built, held against what integer programs find:
its conflicts, the changes it offers, the smallest set of changes, and how much is missing. Changes are put into the
file's text here, read anew, and tried."""
from collections import Counter
from dataclasses import dataclass, field
from fractions import Fraction
from math import inf

import why
from model import build
from reading import read
from stated import Card


@dataclass
class Judgement:
    passed: Counter = field(default_factory=Counter)  # check -> how many
    failures: list = field(default_factory=list)
    late: list = field(default_factory=list)
    told: list = field(default_factory=list)  # the conflicts told, as sets of paths
    mended: str = None  # the card's text with the smallest set of changes

    def expect(self, check, holds, says):
        if holds:
            self.passed[check] += 1
        else:
            self.failures.append(f"{check}: {says}")


@dataclass(eq=False)
class Change:
    """A value of the file written otherwise, as it is read here. Made once for each text."""

    path: tuple
    to: str
    card: Card = None  # with that change; None where it cannot be read
    moved: dict = field(default_factory=dict)  # key of a number -> its new value in marks; of those that differ
    alike: bool = False  # it has the same numbers but for their values


def says(card, paths):
    return "{" + ", ".join(f"line {card.spots[p].line} {card.units[p].text!r}" for p in sorted(paths)) + "}"


def can_be_built(text):
    """The whole card, by the rules of cards that are not under question."""
    return why.can_hold([build(version, i)[0] for i, version in enumerate(read(text))])


def places(card, entry):
    """The wishes that an entry with a line (and column) of the answer can mean."""
    found = [u for u in card.units.values() if u.spot.line == entry["line"]]
    if "column" in entry:
        found = [u for u in found if u.spot.column == entry["column"]]
    if "from" in entry and len(found) > 1:
        found = [u for u in found if u.text == entry["from"]]
    return found


def change(card, entry):
    """The change that an entry of `changes` or `mend` means; says why not, where it means none."""
    found = places(card, entry)
    if len(found) != 1:
        raise ValueError(f"line {entry['line']} names {len(found)} wishes")
    unit = found[0]
    made = Change(unit.path, entry["to"])
    try:
        made.card = Card(card.rewritten({unit.path: entry["to"]}))
    except (ValueError, KeyError, StopIteration, AttributeError):
        return made
    own = {key: v for key, v in made.card.numbers.items() if key[0] == unit.path}
    for key, side in card.sides.items():
        if key in own and made.card.sides[key] != side:
            own[key] *= -1  # added where it was taken away, or the other way round
    was = {key: v for key, v in card.numbers.items() if key[0] == unit.path}
    made.alike = set(own) == set(was) and ("about" in entry["to"]) == ("about" in unit.text)
    made.moved = {key: v / card.mark for key, v in own.items() if was.get(key) != v}
    if unit.text != entry["from"] and not same_text(card, unit, entry["from"]):
        raise ValueError(f"quotes {entry['from']!r} where the file has {unit.text!r}")
    return made


def same_text(card, unit, text):
    """Whether another text means the same wish (a named size said as width x height)."""
    other = Card(card.rewritten({unit.path: text}))
    return all(other.numbers.get(key) == v for key, v in card.numbers.items() if key[0] == unit.path)


def holds_with(_, made, wishes):
    return why.can_hold(made.card.models(wishes))


def builds_as(_, text):
    return can_be_built(text)


class Judge:
    """`card`: of the text, where it was judged before: what was found out then is not asked again."""

    def __init__(self, text, answer, card=None):
        self.card, self.answer, self.out = card or Card(text), answer, Judgement()

    def run(self):
        answer, out = self.answer, self.out
        if answer.get("verdict") != "conflict":
            out.failures.append(f"verdict: {answer.get('verdict')} for a card that cannot be built")
            return out
        sets = [self.told(conflict) for conflict in answer["conflicts"]]
        if None in sets:
            return out
        out.told = sets
        for check in (self.each_smallest, self.all_of_them, self.changes, self.mend, self.misses):
            try:
                check(sets)
            except why.Late:
                out.late.append(check.__name__)
        return out

    def ask(self, about, *what):
        """A function of the card, asked once."""
        known = self.card.known
        if (about, what) not in known:
            known[about, what] = about(self.card, *what)
        return known[about, what]

    def change(self, entry):
        known, what = self.card.known, ("change", entry["line"], entry.get("column"), entry["from"], entry["to"])
        if what not in known:
            known[what] = change(self.card, entry)
        return known[what]

    def told(self, conflict):
        paths = []
        for rule in conflict["rules"]:
            found = places(self.card, rule)
            if len(found) != 1:
                self.out.failures.append(f"a rule at line {rule['line']}, column {rule.get('column')} is no wish: "
                                         f"{rule.get('says')}")
                return None
            paths.append(found[0].path)
        if len(set(paths)) != len(paths):
            self.out.failures.append(f"a wish is told twice in {says(self.card, paths)}")
            return None
        return frozenset(paths)

    def wrong(self, wishes):
        return self.ask(why.is_smallest, wishes, tuple(self.ask(why.largest_buildable)))

    def each_smallest(self, sets):
        for wishes in sets:
            wrong = self.wrong(wishes)
            self.out.expect("each conflict smallest", wrong is None, f"{says(self.card, wishes)}: {wrong}")

    def all_of_them(self, sets):
        self.out.expect("no conflict twice", len(set(sets)) == len(sets), "a conflict is told twice")
        found = why.smallest_unbuildable(list(self.card.units), self.ask(why.largest_buildable))
        if found is None:
            return
        missing, more = set(found) - set(sets), set(sets) - set(found)
        for wishes in missing:
            wrong = self.wrong(wishes)
            self.out.expect("all subsets", wrong is not None, f"not told: {says(self.card, wishes)}")
            if wrong:
                raise why.Late  # the program found it by rounding
        for wishes in more:
            self.out.failures.append(f"all subsets: none is {says(self.card, wishes)}")
        if not missing and not more:
            self.out.passed["all subsets"] += 1

    # --- changes -------------------------------------------------------------------------------------
    def changes(self, sets):
        for conflict, wishes in zip(self.answer["conflicts"], sets):
            offered = {}  # key of a number (of a list: of the list) -> its new value
            for entry in conflict["changes"]:
                self.offer(entry, wishes, offered)
            self.complete(wishes, offered)

    def offer(self, entry, wishes, offered):
        out = self.out
        where = f"line {entry['line']} {entry['from']!r} to {entry['to']!r}"
        try:
            made = self.change(entry)
        except ValueError as error:
            out.failures.append(f"changes: {where}: {error}")
            return
        out.expect("artwork stays", not self.card.units[made.path].artwork, where)
        if made.card is None:
            out.failures.append(f"changes: {where} cannot be read")
            return
        out.expect("a change mends its conflict", self.ask(holds_with, made, wishes),
                   f"{where} does not mend {says(self.card, wishes)}")
        builds = self.ask(builds_as, made.card.text)
        out.expect("mends_card", entry["mends_card"] is builds,
                   f"{where}: {entry['mends_card']}, but the card can{'' if builds else 'not'} be built with it")
        if not made.alike or entry.get("on_marks") is False:
            nearest = [self.nearest(wishes, key) for key in self.keys_of({made.path})]
            out.expect("off the marks only where no mark does", nearest.count(None) == len(nearest),
                       f"{where}, though a number on the marks would do")
            return
        if len(made.moved) != 1:
            out.failures.append(f"changes: {where} changes {len(made.moved)} numbers")
            return
        (key, value), = made.moved.items()
        best = self.nearest(wishes, key)
        if best is None and value < 0 and key[1][0] == "constant":
            out.passed["taken away instead of added"] += 1  # it mends, and nothing added does
            return
        out.expect("no nearer mark", best == value, f"{where} for {says(self.card, wishes)}, but "
                   f"{'no mark mends' if best is None else str(best * self.card.mark) + ' is nearer'}")
        name = listed(key)
        if name in offered:
            out.failures.append(f"changes: {where}: a second change of the same number")
        offered[name] = abs(value - self.stated(key))

    def nearest(self, wishes, key):
        return self.ask(why.nearest, wishes, key)

    def stated(self, key):
        return self.card.numbers[key] / self.card.mark

    def keys_of(self, wishes):
        return [key for key in self.card.numbers if key[0] in wishes and not self.card.units[key[0]].artwork]

    def complete(self, wishes, offered):
        best = {}
        for key in self.keys_of(wishes):
            value = self.nearest(wishes, key)
            if value is not None:
                by = abs(value - self.stated(key))
                best[listed(key)] = min(best.get(listed(key), inf), by)
        for name, by in best.items():
            path, what = name
            where = f"line {self.card.spots[path].line} {self.card.units[path].text!r}, {what}"
            self.out.expect("every number that mends", name in offered,
                            f"not offered: {where}, by {by * self.card.mark}, for {says(self.card, wishes)}")
            if name in offered:
                self.out.expect("the nearest of a list", offered[name] == by,
                                f"{where}: by {offered[name] * self.card.mark}, where {by * self.card.mark} does")

    # --- the smallest set ----------------------------------------------------------------------------
    def mend(self, sets):
        out, entries = self.out, self.answer["mend"]
        fewest = self.ask(why.fewest_changes)
        if not entries:
            out.expect("no mend", fewest is None, f"mend is empty, but {self.way(fewest)} mends" if fewest else "")
            return
        try:
            made = [self.change(entry) for entry in entries]
        except ValueError as error:
            out.failures.append(f"mend: {error}")
            return
        if len({m.path for m in made}) != len(made):
            out.failures.append("mend: changes one wish twice")
            return
        out.mended = self.card.rewritten({m.path: m.to for m in made})
        out.expect("mend mends", self.ask(builds_as, out.mended), f"{entries} do not")
        moved = {key: v for m in made for key, v in m.moved.items()}
        if any(v < 0 and key[1][0] == "constant" for key, v in moved.items()):
            fewest = self.ask(why.fewest_changes, True)
        if fewest is None:
            out.expect("mend off the marks", not all(m.alike for m in made),
                       f"{entries}, but there is none on the marks")
            return
        if not all(m.alike for m in made):
            out.failures.append(f"mend: {entries} change more than numbers, but {self.way(fewest)} mends")
            return
        off = [key for key, v in moved.items() if v.denominator != 1 or v < 0 and key[1][0] != "constant"]
        out.expect("mend on marks", not off, f"{entries} are not all on marks")
        out.expect("fewest changes", len(moved) == fewest.count, f"{len(moved)} changes, but {self.way(fewest)} mends")
        total = sum(abs(v - self.stated(key)) for key, v in moved.items())
        if len(moved) == fewest.count:
            out.expect("least changes", total == fewest.total,
                       f"{total * self.card.mark} in all, but {self.way(fewest)} mends")

    def way(self, fewest):
        return ", ".join(f"line {self.card.spots[path].line} {what} {value * self.card.mark}"
                         for (path, what), value in fewest.values.items())

    # --- how much is missing -------------------------------------------------------------------------
    def misses(self, sets):
        for conflict, wishes in zip(self.answer["conflicts"], sets):
            where = says(self.card, wishes)
            if self.ask(why.holds_off_marks, wishes):
                self.out.expect("only the marks", "short_by" not in conflict and "off_mark" in conflict,
                                f"{where} can hold with the marks aside")
                known = self.ask(why.off_marks, wishes)
                if known and "off_mark" in conflict:
                    off = Fraction(conflict["off_mark"]) / self.card.mark
                    self.out.expect("off_mark", off in known, f"{where}: {conflict['off_mark']}, but " + " or ".join(
                        str(v * self.card.mark) for v in sorted(known)))
                continue
            self.out.expect("not only the marks", "off_mark" not in conflict, where)
            found = self.ask(why.spaces, wishes)
            if not found:
                continue
            if "short_by" not in conflict:
                self.out.failures.append(f"short_by: missing for {where}: {self.lengths(found)}")
                continue
            by = Fraction(conflict["short_by"]) / self.card.mark
            self.out.expect("short_by", any(abs(by - v) < why.NEAR for v in found),
                            f"{where}: {conflict['short_by']}, but {self.lengths(found)}")

    def lengths(self, found):
        return " or ".join(str((v * self.card.mark).limit_denominator(10**5)) for v in found)


def listed(key):
    """The entries of a list are one."""
    path, what = key
    return path, what[0] if what[0] == "one of" else what


def judge(text, answer, card=None):
    return Judge(text, answer, card).run()
