"""An answer of `explore FILE --fit --json` held against all cards that the file allows: whether no other comes out of its
paper better, and whether each wish that is said to be worth loosening does it, and no less would."""
import tomllib
from fractions import Fraction

from cut_answer import Judgement
from explore_answer import OpenList, compare_costs, marks, rules_broken, same_card
from explore_costs import Papers, as_answer, difference, price
from explore_list import Space, broken, sized_values
from explore_sums import Unsupported
from reading import wish
from spots import spots, with_value

LOOSENED = 3  # marks that are tried for every wish
MOST_LOOSENED = 3000  # cards of a loosened wish that are searched


def judge_fit(space, sized, answer, status, papers):
    """The second value says whether the paper of all cards could be searched."""
    j = Judgement()
    opened = OpenList(j, space, answer)
    best, start = answer["alternatives"][0], answer["as_sized"]
    card = space.known.get(opened.amounts(best["amounts"]))
    if card is None:
        j.wrong.append(f"fitted: no card has the amounts {best['amounts']}")
        return j, False
    j.same("fit: count", (answer["count"], answer["complete"]), (len(space.cards), space.complete),
           "fit: count, and whether it is all")
    j.holds("as size answers it", same_card(start, sized, len(space.sums.versions))[:3])
    values = sized_values(space.sums, best)
    j.holds("rules by sums", broken(space.sums, values)[:3])
    j.holds("rules", rules_broken(space, [{"number": "fitted", **best}]))
    j.holds("sizes and places", [f"fitted: {q} is {values[q]}, not {v}" for q, v in card.values.items()
                                 if values[q] != v][:3])
    opened.compare(j)
    j.same("amounts as sized", opened.amounts(start["amounts"]), space.as_sized)
    for a, says in ((best, "fitted"), (start, "as sized")):
        compare_costs(j, space, a, papers, says)
    fit = answer["fit"]
    changed = {(c["name"], c["key"], c.get("part", "")): (marks(space, c["from"]), marks(space, c["to"]))
               for c in fit["changes"] if c["key"] != "rules"}
    want = {o.id: (a, b) for o, a, b in zip(space.open, space.as_sized, card.amounts) if a != b}
    j.same("changes", changed, want)
    places = {(o["name"], o["key"], o.get("part", "")): (o.get("line"), o.get("column")) for o in answer["open"]}
    j.holds("spots of changes", [f"changes: {c['name']} {c['key']} at {c.get('line')}" for c in fit["changes"]
                                 if places.get((c["name"], c["key"], c.get("part", "")))
                                 != (c.get("line"), c.get("column"))])
    taken = [papers.of(as_answer(space, c)) for c in space.cards]
    prices = [price(t) for t in taken]
    if any(p is None for p in prices) or not space.complete:
        return j, False
    least = min(prices)
    if price(papers.of(as_answer(space, card))) != least and not papers.thorough:
        return judge_fit(space, sized, answer, status, Papers(space.text, True))
    j.same("fit optimum", price(papers.of(as_answer(space, card))), least,
           "fitted: papers that never do, sheets missing, cost or sheets")
    j.same("fit proven", fit["proven"], True, "fitted: proven")
    enough = least[:2] == (0, 0)
    j.same("enough", (fit["enough"], answer["verdict"], status),
           (enough, "explored" if enough else "short", 0 if enough else 1), "enough, verdict and exit status")
    if not any("ways" in o for o in answer["open"]):
        start_card = space.known[space.as_sized]
        nearest = min(difference(space, start_card, c) for p, c in zip(prices, space.cards) if p == least)
        j.same("fit least difference", difference(space, start_card, card), nearest,
               "fitted: marks from the card as sized")
    if not least[0]:
        fewest = min(sum(t.sheets for t in each.values()) for p, each in zip(prices, taken) if not p[0])
        if fit["at_least"] > fewest:
            j.wrong.append(f"fitted: at least {fit['at_least']} sheets, and {fewest} do")
    if enough:
        j.same("nothing to loosen", answer["loosen"], [])
    return j, True


# --- wishes to loosen ----------------------------------------------------------------------------------
def comes_out(text, size_of):
    """Whether some card of a file comes out of its paper; None where that was not searched."""
    sized = size_of(text)
    if sized["verdict"] != "buildable":
        return False
    try:
        space = Space(text, sized, MOST_LOOSENED)
    except Unsupported:
        return None
    papers, unknown = Papers(text), not space.complete
    for card in space.cards:
        own = price(papers.of(as_answer(space, card)))
        if own is None:
            unknown = True
        elif own[:2] == (0, 0):
            return True
    return None if unknown else False


def stated_at(space, loosened):
    """(Spot, the wish as stated) at its line and column."""
    for path, spot in spots(space.text).items():
        if (spot.line, spot.column) == (loosened["line"], loosened["column"]):
            value = tomllib.loads("x = " + space.text[spot.begin:spot.end], parse_float=Fraction)["x"]
            if not isinstance(value, (dict, list)):
                return spot, value
    return None, None


def nearer(space, stated, new):
    """The wish with the bound that was moved a mark nearer to where it was; None where it is no bound that moved."""
    unit = space.sums.versions[0].unit
    a, b = wish(stated, unit), wish(new, unit)
    moved = [(k, getattr(a, k), getattr(b, k)) for k in ("at_least", "at_most") if getattr(a, k) != getattr(b, k)]
    if a.one_of or b.one_of or not moved or any(x is None or y is None for _, x, y in moved):
        return None
    _, was, now = moved[0]
    step = space.mark if now < was else -space.mark
    if abs(now - was) <= space.mark:
        return stated
    if len(moved) == 2:
        return f"{now + step}" if a.exact() is not None and b.exact() is not None else None
    low, high = (now + step if k == moved[0][0] else getattr(a, k) for k in ("at_least", "at_most"))
    out = [f"at least {low}"] if low is not None else []
    out += [f"at most {high}"] if high is not None else []
    out += [f"about {a.about}"] if a.about is not None else []
    return ", ".join(out)


def loosened_wishes(space):
    """(name, key, part, by how many marks, the file with that wish loosened) of plain lengths that layers state; the
    least first."""
    version, there = space.sums.versions[0], spots(space.text)
    homes = {keys["name"]: (kind, i) for kind in ("layer", "window")
             for i, keys in enumerate(tomllib.loads(space.text).get(kind, []))}
    for p in version.pieces:
        wishes = [("border", part, w) for part, w in p.border.items()]
        wishes += [("margin", part, w) for part, w in p.margin.items()]
        wishes += [(key, "", w) for key, w in p.wishes.items() if key in ("width", "height", "gap")]
        for key, part, w in wishes:
            part = "" if part == "all" else part
            path = homes[p.name] + (key,) + ((part,) if part else ())
            if w.one_of or w.even or w.same_as or path not in there:
                continue
            for by in range(1, LOOSENED + 1):
                for more, bound in ((by * space.mark, w.at_most), (-by * space.mark, w.at_least)):
                    if bound is None or bound + more < 0:
                        continue
                    low, high = (bound + more, w.at_most) if more < 0 else (w.at_least, bound + more)
                    if w.exact() is not None:
                        low = high = bound + more
                    words = [f"{w_} {v}" for w_, v in (("at least", low), ("at most", high), ("about", w.about))
                             if v is not None]
                    yield p.name, key, part, by, with_value(space.text, there[path], ", ".join(words))


def judge_all_loosened(j, space, answer, size_of):
    """That none is left out that a few marks would do for, and none told with more marks than it takes."""
    if not answer.get("loosen_known", True) or len(space.sums.versions) > 1 or len(space.cards) > MOST_LOOSENED // 60:
        return
    told = {(e["name"], e["key"], e.get("part", "")): abs(Fraction(e["by"])) / space.mark for e in answer["loosen"]}
    done = set()
    for name, key, part, by, text in loosened_wishes(space):
        wished = name, key, part
        if wished in done or wished in told and told[wished] <= by:
            continue
        if comes_out(text, size_of):
            done.add(wished)
            j.wrong.append(f"loosen: {by} marks of {wished} would do, and "
                           + (f"{told[wished]} are told" if wished in told else "it is not told"))
        else:
            j.passed["loosened in vain"] += 1


def judge_loosening(j, space, answer, size_of):
    """That each lets the batch come out, and a mark less does not."""
    last = Fraction(0)
    for each in answer["loosen"]:
        says = f"loosen {each['name']} {each['key']} from {each['from']} to {each['to']}"
        if abs(Fraction(each["by"])) < last:
            j.wrong.append(f"{says}: told after what leaves more")
        last = abs(Fraction(each["by"]))
        if "line" not in each:
            j.passed["loosened where nothing is stated"] += 1
            continue
        spot, stated = stated_at(space, each)
        if spot is None or str(stated) != each["from"]:
            j.wrong.append(f"{says}: {stated!r} stands there")
            continue
        found = comes_out(with_value(space.text, spot, each["to"]), size_of)
        if found is None:
            j.passed["loosened, not searched"] += 1
            continue
        j.same("loosened", found, True, f"{says}: comes out then")
        less = nearer(space, stated, each["to"])
        if less is None:
            j.passed["loosened, no bound"] += 1
        elif less != stated:
            found = comes_out(with_value(space.text, spot, less), size_of)
            if found is not None:
                j.same("no less loosened", found, False, f"{says}: comes out with {less} too")
        else:
            j.passed["loosened by one mark"] += 1
