"""A card under question: its stated wishes as units that can each be held or dropped, and the numbers in them
that can each be let go or changed. Written from the card language alone; nothing is solved here.

What is stated is every wish of a piece, the cut-back and each entry of `rules`; all else is given. One wish is
one unit in all versions of the card that it speaks in. To drop it frees its amount: a piece whose border or
distance from a side is dropped can be anywhere at that side, past the edge too, since that wish was what kept it
inside; artwork without its margin likewise."""
import tomllib
from dataclasses import dataclass, field, replace
from fractions import Fraction

import folds
from boxes import AXIS
from linear import Lin, Model, Var, eq, ge, le, lin
from model import Builder
from reading import length, read
from spots import spots, with_value
from statements import LINES, statement


class Named(Fraction):
    """A number in a wish; `key`: (path of the wish in the file, what it is there)."""

    def __new__(cls, value, key):
        self = super().__new__(cls, value)
        self.key = key
        return self


@dataclass
class Unit:
    path: tuple  # in the file, such as ("layer", 0, "border", "left")
    spot: object
    text: str  # as the maker wrote it
    numbers: dict = field(default_factory=dict)  # what it is -> its value, in the card's unit
    artwork: bool = False

    def place(self):
        return self.spot.line, self.spot.column

    def __repr__(self):
        return f"{self.path[-1] if isinstance(self.path[-1], str) else self.path} {self.text!r} (line {self.spot.line})"


def constants(text, names):
    """The lengths in an entry of `rules`, in their order: (text, +1 or -1 for what it does to one side)."""
    found, things = [], {name: {line: Lin() for line in LINES} for name in names}

    def amount(said):
        found.append(said)
        return Lin.var(len(found) - 1)

    factors = {}
    for rel in [rel for option in statement(text, things, amount).options for rel in option]:
        factors.update(rel.sum.terms)
    return [(said, 1 if factors[i] > 0 else -1) for i, said in enumerate(found)]


def roles(w, text):
    exact = isinstance(text, str) and (" to " in text or "at least" in text or "at most" in text)
    if w.at_least is not None and w.at_least == w.at_most and not exact:
        yield "exact", w.at_least
    else:
        if w.at_least is not None:
            yield "at least", w.at_least
        if w.at_most is not None:
            yield "at most", w.at_most
    for i, value in enumerate(w.one_of):
        yield ("one of", i), value


def name_numbers(w, path, text):
    """Puts named numbers into a wish."""
    for what, value in list(roles(w, text)):
        named = Named(value, (path, what))
        if what in ("exact", "at least"):
            w.at_least = named
        if what in ("exact", "at most"):
            w.at_most = named
        if what[0] == "one of":
            w.one_of[what[1]] = named


def variable(key):
    """The name of what stands for a number that is let go."""
    return f"number {key}"


def keeps_off(w):
    return (w.at_least is not None and w.at_least >= 0) or (w.one_of and min(w.one_of) >= 0)


class Questioned(Builder):
    """`path_of` gives the path of a wish by its source. `amounts`: key of a number -> its value in marks, or a sum that
    stands for it; the others are as stated. `longer`: (axes, most): the front's width (axis 0) or height (1) or both
    are longer by "longer 0" and "longer 1", at most so much either way."""

    def __init__(self, version, prefix, path_of, amounts, longer=None):
        self.longer = longer
        if longer:
            axes, most = longer
            version = replace(version, front=tuple(side + most * version.mark * (axis in axes)
                                                   for axis, side in enumerate(version.front)))
        super().__init__(version, prefix)
        self.least_cut = Fraction(0)  # a stated one is more, whatever it is
        self.path_of, self.amounts = path_of, amounts
        self.far = 4 * sum(self.marks(side) for side in version.front)

    def marks(self, value):
        if isinstance(value, Named) and value.key in self.amounts:
            return self.amounts[value.key]
        return Fraction(value) * self.per_unit

    def steps(self):
        self.pairs()

    # --- what is open --------------------------------------------------------------------------------
    def front(self, w, h):
        if not self.longer:
            return w, h
        axes, most = self.longer
        both = [w, h]
        for axis in axes:
            self.model.variables[f"longer {axis}"] = Var(Fraction(-most), Fraction(most))
            both[axis] = Lin.var(f"longer {axis}") + both[axis] - most
        return both

    def in_marks(self):
        """The doors of a longer gate card stay as they are: what lies open between them is longer."""
        v = super().in_marks()
        along = 0 if v.across else 1
        if v.fold != "gate" or v.leaves or not self.longer or along not in self.longer[0]:
            return v
        return replace(v, doors=self.front(*v.front)[along] + v.doors - v.front[along] + self.longer[1])

    def exact_cut(self, exact, most):
        return self.var("cut-back", 0, most)

    def artwork_size(self, p, room):
        self.source = (p.name, "artwork")
        out = []
        for what, wanted in zip(("width", "height"), p.artwork):
            out.append(self.var(f"{p.name}.artwork {what}", 0, self.far))
            self.stated(eq(out[-1], self.marks(wanted)), f"{p.name}: artwork")
        return out

    def said_of(self, p, s):
        """What keeps a piece inside at one side."""
        said = self.wishes_for(p, s) + [p.wishes[k] for k in (f"from-{s}", "frame") if k in p.wishes]
        return any(keeps_off(w) for w in said)

    def reach(self, p):
        return self.far if "overhang" in p.wishes or any(self.said_of(p, s) for s in AXIS) else Fraction(0)

    def edge_inside(self, p, s):
        distance, says = self.side[p.name][s], f"{p.name}: inside {p.on}, {s}"
        if "overhang" in p.wishes:
            self.source = p.wishes["overhang"].source
            self.stated(ge(distance, self.marks(p.wishes["overhang"].at_most) * -1), says)
        elif not self.said_of(p, s):
            self.given(ge(distance, 0), says)

    def margin_said(self, p, s):
        return any(keeps_off(p.margin[k]) for k in ("all", AXIS[s], s) if k in p.margin)

    def artwork_reach(self, p):
        return self.far if any(self.margin_said(p, s) for s in AXIS) else Fraction(0)

    def artwork_inside(self, p, s):
        if not self.margin_said(p, s):
            super().artwork_inside(p, s)

    def ask(self, w, value, like, says, terms=1):
        self.source = w.source
        if w.at_least is not None and w.at_least is w.at_most:
            self.stated(eq(value, self.marks(w.at_least)), says)
        else:
            if w.at_least is not None:
                self.stated(ge(value, self.marks(w.at_least)), says)
            if w.at_most is not None:
                self.stated(le(value, self.marks(w.at_most)), says)
        if w.one_of:
            self.choice([[eq(value, self.marks(v))] for v in w.one_of], says, stated=True)
        if w.same_as is not None:
            self.stated(eq(value, like(w.same_as)), says)

    def entry(self, number, text):
        path = self.path_of(("", "rules", number))
        count = iter(range(len(text)))
        self.source = ("", "rules", number)
        rule = statement(text, self.lines, lambda said: lin(self.marks(
            Named(length(said, self.card.unit), (path, ("constant", next(count)))))))
        rule.source = self.source
        self.model.rules.append(rule)

    def built(self):
        model = self.build()
        for rule in model.rules:
            if rule.stated:
                rule.source = self.path_of(rule.source)
        return model


class Card:
    """A card file and what is stated in it."""

    def __init__(self, text):
        self.text, self.spots, self.versions = text, spots(text), read(text)
        self.known = {}  # for whoever asks about the card, to remember answers in
        self.top = tomllib.loads(text, parse_float=Fraction)
        self.home = {}  # name of a piece -> its path
        for kind in ("layer", "window"):
            for i, keys in enumerate(self.top.get(kind, [])):
                self.home[keys["name"]] = (kind, i)
        self.unit, self.mark = self.versions[0].unit, self.versions[0].mark
        self.units = {}  # path -> Unit, in file order
        for number in range(len(self.versions)):
            self.name_numbers(number)
        self.plain = [self.build(i, {}) for i in range(len(self.versions))]
        self.built = {(i, (), None): model for i, model in enumerate(self.plain)}
        found = {rule.source for model in self.plain for rule in model.rules if rule.stated}
        for path in sorted(found, key=lambda path: self.spots[path].begin):
            self.units[path] = self.unit_at(path)

    # --- where wishes stand --------------------------------------------------------------------------
    def path_of(self, number, source):
        owner, key, *rest = source
        if owner == "":
            return (key, *rest)
        changes = self.top["variant"][number - 1].get("set", {}) if number else {}
        changed = f"{owner}.{key}" in changes
        home = (owner,) if owner in ("base", "limit") else self.home[owner]
        path = ("variant", number - 1, "set", f"{owner}.{key}") if changed else home + (key,)
        if path in self.spots and self.spots[path].quote:
            return path  # one text, whatever it is found by
        if rest and path + (0,) in self.spots and isinstance(rest[0], str):
            return path + (self.value(path).index(rest[0]),)
        return path + tuple(rest)

    def value(self, path):
        spot = self.spots[path]
        return tomllib.loads("x = " + self.text[spot.begin:spot.end], parse_float=Fraction)["x"]

    def unit_at(self, path):
        spot, value = self.spots[path], self.value(path)
        text = value if isinstance(value, str) else self.text[spot.begin:spot.end]
        unit = Unit(path, spot, text, artwork=any(str(key).split(".")[-1] == "artwork" for key in path[2:]))
        unit.numbers = {key: value for (where, key), value in self.numbers.items() if where == path}
        return unit

    # --- numbers -------------------------------------------------------------------------------------
    def name_numbers(self, number):
        if number == 0:
            self.numbers = {}  # (path, what it is) -> its value
            self.sides = {}  # of constants in `rules`: on which side they count
        version = self.versions[number]
        wishes = [version.cut_back] if version.cut_back else []
        for p in version.pieces:
            wishes += [*p.border.values(), *p.margin.values(), *p.wishes.values()]
            if p.size:
                path = self.path_of(number, (p.name, "size"))
                p.size = tuple(Named(v, (path, what)) for v, what in zip(p.size, ("width", "height")))
                self.numbers.update({v.key: Fraction(v) for v in p.size})
        for w in wishes:
            path = self.path_of(number, w.source)
            for what, value in list(roles(w, self.value(path))):
                self.numbers[path, what] = value
            name_numbers(w, path, self.value(path))
        for i, text in enumerate(version.rules):
            names = [f.name for f in folds.faces(version, *version.front)] + ["reveal", *self.home]
            for j, (said, side) in enumerate(constants(text, names)):
                self.numbers[("rules", i), ("constant", j)] = length(said, version.unit)
                self.sides[("rules", i), ("constant", j)] = side

    # --- its rules -----------------------------------------------------------------------------------
    def build(self, number, amounts, longer=None):
        return Questioned(self.versions[number], f"{number}/", lambda source: self.path_of(number, source), amounts,
                          longer).built()

    def models(self, held=None, values=None, open_numbers=(), longer=None, on_marks=True):
        """A model of each version with only the wishes at the paths `held`, or all of them. `values`: key of a number
        -> its value in marks, where that is not as stated; `open_numbers`: keys of such as are `variable`s."""
        out = []
        for number in range(len(self.versions)):
            build = (number, tuple(open_numbers), longer)
            model = self.built.get(build) if not values else None
            if model is None:
                amounts = {key: Lin.var(variable(key)) for key in open_numbers} | (values or {})
                model = self.build(number, amounts, longer)
            if not values:
                self.built[build] = model
            rules = [r for r in model.rules if not r.stated or held is None or r.source in held]
            variables = {name: v if on_marks else replace(v, whole=False) for name, v in model.variables.items()}
            out.append(Model(variables=variables, rules=rules, inexact=model.inexact))
        return out

    # --- its text ------------------------------------------------------------------------------------
    def rewritten(self, values):
        """The file with other values at some paths."""
        text = self.text
        for path in sorted(values, key=lambda path: -self.spots[path].begin):
            text = with_value(text, self.spots[path], values[path])
        return text
