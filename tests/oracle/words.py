"""Lengths and wishes put into words, in the forms a card file allows. Lengths come in marks."""
from fractions import Fraction

INCH_IN_MM = Fraction(254, 10)


def decimal(value):
    """As a decimal, or None where it does not end."""
    rest = value.denominator
    for p in (2, 5):
        while rest % p == 0:
            rest //= p
    if rest != 1:
        return None
    places = 0
    while (value * 10**places).denominator != 1:
        places += 1
    digits = str(int(value * 10**places)).rjust(places + 1, "0")
    return digits[:len(digits) - places] + ("." + digits[len(digits) - places:] if places else "")


class Speller:
    def __init__(self, rng, unit, mark):
        self.rng, self.unit, self.mark = rng, unit, mark

    def chance(self, p):
        return self.rng.random() < p

    def length(self, marks, plain=False):
        """`plain`: in the card's unit, in a form that rules may hold too."""
        value = Fraction(marks) * self.mark
        if not plain and self.chance(0.08):
            if self.unit == "in":
                in_mm = decimal(value * INCH_IN_MM)
                if in_mm and len(in_mm) < 9:
                    return in_mm + " mm"
            elif decimal(value / 10):
                return decimal(value / 10) + " cm"
        if self.unit == "mm" or self.chance(0.15):
            ended = decimal(value)
            if ended is not None and len(ended) < 9:
                return ended
        whole, part = divmod(value, 1)
        if not part:
            return str(whole)
        if not whole or (not plain and self.chance(0.15)):
            return f"{value.numerator}/{value.denominator}"
        joint = " " if plain or self.chance(0.9) else "-"
        return f"{whole}{joint}{part.numerator}/{part.denominator}" + (' in' if not plain and self.unit == "in"
                                                                       and self.chance(0.05) else "")

    def size(self, w, h):
        # A unit behind only one of the two might be taken for both.
        while True:
            sides = self.length(w), self.length(h)
            if len({side[-2:] in ("in", "mm", "cm") for side in sides}) == 1:
                return " x ".join(sides)

    def wish(self, value, least=False, about=True, loose=0.55):
        """A wish that `value` satisfies. `least`: most likely a least value; `about` may be left out."""
        rng, say = self.rng, self.length
        value = Fraction(value)
        below = max(Fraction(0), value - rng.choice([0, 1, 1, 2, 3]))
        above = value + rng.choice([0, 1, 1, 2, 4])
        if least and self.chance(0.7):
            text = "at least " + say(below if self.chance(0.5) else value)
            return text + f", about {say(value + 1)}" if about and self.chance(0.15) else text
        if not self.chance(loose):
            text = say(value)
            if self.chance(0.15) and text.replace(".", "", 1).isdigit() and not text.startswith("."):
                return Number(text)
            return text
        near = max(Fraction(0), value + rng.choice([-2, -1, 0, 1, 2, Fraction(1, 2)]))
        span = f"{say(below)} to {say(above)}" if below < above else say(value)
        options = [span, span, "at least " + say(below), "at most " + say(above),
                   "one of " + ", ".join(say(v) for v in self.few(value))]
        if about:
            options += [f"{span}, about {say(near)}" if below < above else span, "about " + say(near),
                        f"at least {say(below)}, about {say(near)}"]
        elif below < above:
            options.append(f"at least {say(below)}, at most {say(above)}")
        return rng.choice(options)

    def few(self, value):
        others = {value + self.rng.choice([-2, -1, 1, 2, 3]) for _ in range(2)}
        return self.rng.sample(sorted({v for v in others if v >= 0} | {value}),
                               len({v for v in others if v >= 0} | {value}))

    def even(self, value):
        return self.rng.choice(["even", "even", "even", f"even, at least {self.length(max(0, value - 1))}",
                                f"even, about {self.length(value + 1)}"])

    def toml(self, value):
        if isinstance(value, bool):
            return "true" if value else "false"
        if isinstance(value, Number):
            return str(value)
        if isinstance(value, (int, Fraction)):
            return str(value)
        if isinstance(value, dict):
            return "{ " + ", ".join(f"{key(k)} = {self.toml(v)}" for k, v in value.items()) + " }"
        if isinstance(value, list):
            return "[" + ", ".join(self.toml(v) for v in value) + "]"
        return '"' + value.replace('"', '\\"') + '"'


class Number(str):
    """A length written as a TOML number."""


def key(k):
    return k if k.isalpha() else f'"{k}"'
