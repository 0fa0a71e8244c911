"""What else a call of `explore` can ask: other orders, sweeps, one value stated, sizes kept, and alternatives written as
card files, which are sized and cut again."""
import re
from collections import Counter
from fractions import Fraction

import explore_answer
from checker import check
from cut_answer import Judgement, judge as judge_cut
from cut_needs import Batch, CardFile
from explore_answer import same_card, wish_path
from explore_list import one_amount, sized_values
from spots import spots, with_value

BEST = {"sheets": ("sheets", 1), "cost": ("cost", 1), "waste": ("waste", 1), "border": ("border", -1),
        "seen": ("seen", -1), "thickness": ("thickness", 1)}


def comments(text):
    """Counted; a # within a string starts none."""
    out = Counter()
    for line in text.splitlines():
        rest = re.sub(r'"[^"]*"', '""', line)
        if "#" in rest:
            out[rest[rest.index("#"):].strip()] += 1
    return out


def judge_order(answer, best):
    """`--best`: by what was asked for; what is not told stands last. Too few sheets come before that."""
    j = Judgement()
    key, sign = BEST[best]
    told = []
    for a in answer["alternatives"]:
        if any("sheets" not in p for p in a["papers"]):
            return j
        first = sum(p["missing"] for p in a["papers"]) if best in ("sheets", "cost") else 0
        value = sum(p["sheets"] for p in a["papers"]) if best == "sheets" else a.get(key)
        told.append((first, value is None, sign * Fraction(value) if value is not None else 0))
    plain = [t[1:] for t in told]
    j.same(f"order by {best}", plain == sorted(plain) or told == sorted(told), True, f"in order by {best}: {told[:6]}")
    return j


def stated_text(space, o, value):
    """The file with an amount stated; None where its wish does not stand in the file."""
    place = spots(space.text).get(wish_path(space, o))
    return None if place is None else with_value(space.text, place, value)


def amount_name(o):
    return f"{o.name}.{o.key}" + (f".{o.part}" if o.part else "")


def starts_of(space, o, low, high, size_of):
    """Marks first; where no card has it on one, steps of a mark from the card as sized."""
    varied = size_of(stated_text(space, o, f"{low * space.mark} to {high * space.mark}"))
    start = one_amount(o.binds, sized_values(space.sums, varied))
    return [Fraction(0)] if start is None or start % 1 == 0 else [Fraction(0), start % 1]


def judge_sweep(space, o, values, answer, size_of):
    """One amount over `values`, the first and last in marks: each that can be built, all else as `size` chooses it then."""
    j = Judgement()
    low, high = values
    want = []
    for begin in starts_of(space, o, low, high, size_of):
        for n in range(high - low + 1):
            value = low + n + begin
            sized = size_of(stated_text(space, o, str(value * space.mark))) if value <= high else None
            if sized and sized["verdict"] == "buildable":
                want.append((value, sized))
        if want:
            break
    varied = size_of(stated_text(space, o, f"{low * space.mark} to {high * space.mark}"))
    start = one_amount(o.binds, sized_values(space.sums, varied))
    if start is not None and start not in [v for v, _ in want]:  # the card as sized is one more
        want = sorted([*want, (start, varied)], key=lambda each: each[0])
    told = [explore_answer.marks(space, a["amounts"][0]) for a in answer["alternatives"]]
    j.same("sweep: amounts", [(a["name"], a["key"], a.get("part", "")) for a in answer["open"]], [o.id])
    j.same("sweep: values", told, [v for v, _ in want], f"values of {o.id}, in marks")
    if told == [v for v, _ in want]:
        for (value, sized), a in zip(want, answer["alternatives"]):
            j.holds("sweep: cards", [f"{o.id} at {value * space.mark}: {w}" for w in
                                     same_card(a, sized, len(space.sums.versions))[:2]])
    return j


def judge_written(space, alternative, path, text, sized, cut, status):
    """`text` was written for an alternative; `sized` and `cut` are what the program says of it."""
    j = Judgement()
    if sized["verdict"] != "buildable":
        j.wrong.append(f"written: {sized['verdict']}")
        return j
    lost = comments(space.text) - comments(text)
    j.holds("comments kept", [f"written: lost {list(lost)[:3]}"] if lost else [])
    j.holds("written: same card", [f"written: {w}" for w in
                                   same_card(sized, alternative, len(space.sums.versions))[:3]])
    j.holds("written: rules", [f"written: {w}" for w in check(text, sized)[2][:3]])
    j.holds("written: rules of the file", [f"written: {w}" for w in check(space.text, sized)[2][:3]])
    values = sized_values(space.sums, alternative)
    if any(one_amount(o.binds, values) is None for o in space.open):
        j.wrong.append("written: an amount is not one amount")
    judgement = judge_cut(Batch([CardFile(path, text, sized)]), cut, status)
    j.passed["written: plans"] += sum(judgement.passed.values())
    j.wrong += [f"written and cut: {w}" for w in judgement.wrong[:3]]
    if cut["verdict"] == "planned":
        told = {p["paper"]: p.get("sheets") for p in alternative["papers"]}
        proven = {p["paper"] for p in alternative["papers"] if p.get("proven")}
        got = {p["paper"]: p["sheets"] for p in cut["papers"] if p["paper"] in proven and p["proven"]}
        j.same("written: sheets", got, {k: told[k] for k in got}, "written and cut: sheets")
    j.same("written: comes out", cut["verdict"] == "planned", alternative.get("enough", True), "written and cut: enough")
    return j
