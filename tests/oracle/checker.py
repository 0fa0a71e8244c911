"""An answer of `evenmat size FILE --json` held against every rule of its card, exactly. Boxes of tilted pieces
are reported rounded outward to 1e-9 of the unit: rules about them may be off by that much and no more."""
from fractions import Fraction

from model import build
from reading import read

TURN_BOUND = Fraction(2, 10**12)  # two bounds on a sine or cosine, each within 1e-12


class Mismatch(Exception):
    """The answer lacks something or contradicts itself."""


def fractions(entry, *keys):
    try:
        return [Fraction(entry[k]) for k in keys]
    except (KeyError, TypeError, ValueError) as error:
        raise Mismatch(f"cannot read {keys} of {entry.get('name')}: {error!r}") from error


def same(a, b, says, off=Fraction(0)):
    if abs(a - b) > off:
        raise Mismatch(f"{says}: {a} is not {b}")


def entries_of(answer, version):
    """name -> entry of the version's layers and windows, which must be just those of the card."""
    wanted = {kind: [p.name for p in version.pieces if p.kind == kind] for kind in ("layer", "window")}
    out = {}
    for kind in wanted:
        got = [e["name"] for e in answer.get(kind + "s", [])]
        if got != wanted[kind]:
            raise Mismatch(f"{kind}s: wants {wanted[kind]}, has {got}")
        out.update({e["name"]: e for e in answer.get(kind + "s", [])})
    return out


def version_values(version, builder, answer):
    """What an answer gives the variables of a version, in marks."""
    values, per_unit, prefix = {}, builder.per_unit, builder.prefix
    entries = entries_of(answer, version)

    def put(name, value):
        values[prefix + name] = value * per_unit

    if version.cut_back is not None:
        by, = fractions(answer["base"]["cut_back"], "by")
        if prefix + "cut-back" in builder.model.variables:
            put("cut-back", by)
        same(by * per_unit, builder.cut.at(values), "cut-back")
        front = fractions(answer["base"]["front"], "width", "height")
        for got, line in zip(front, ("width", "height")):
            same(got * per_unit, builder.lines["front"][line].at(values), f"front {line}")
    for p in version.pieces:
        e = entries[p.name]
        if e["on"] != p.on:
            raise Mismatch(f"{p.name} is on {e['on']}")
        for key, value in zip(("left", "top", "width", "height"), fractions(e, "left", "top", "width", "height")):
            put(f"{p.name}.{key}", value)
        if p.artwork:
            art = e.get("artwork") or {}
            for key, value in zip(("left", "top"), fractions(art, "from_left", "from_top")):
                put(f"{p.name}.artwork {key}", value)
            same(tuple_of(art, "width", "height"), p.artwork, f"{p.name}: artwork")
        if p.copies is not None:
            copy_gaps(p, e, put)
    for p in version.pieces:
        distances(p, entries[p.name], builder, values)
    return values


def tuple_of(entry, *keys):
    return Pair(fractions(entry, *keys))


class Pair(tuple):
    """So that `same` can compare two numbers at once."""

    def __sub__(self, other):
        return max(abs(a - b) for a, b in zip(self, other))


def copy_gaps(p, e, put):
    """The gaps from the corners of the copies, which must form one even grid."""
    corners = [tuple(fractions(c, "from_left", "from_top")) for c in e.get("copies", [])]
    if not corners and p.copies == 1:
        return
    if len(corners) != p.copies:
        raise Mismatch(f"{p.name}: {len(corners)} copies")
    columns = min(p.columns or p.copies, p.copies)
    width, height = fractions(e, "width", "height")
    start = fractions(e, "from_left", "from_top")
    step = [Fraction(0), Fraction(0)]
    if columns > 1:
        step[0] = corners[1][0] - corners[0][0]
        put(f"{p.name}.gap across", step[0] - width)
    if p.copies > columns:
        step[1] = corners[columns][1] - corners[0][1]
        put(f"{p.name}.gap down", step[1] - height)
    for i, corner in enumerate(corners):
        want = (start[0] + i % columns * step[0], start[1] + i // columns * step[1])
        same(Pair(corner), want, f"{p.name}: copy {i + 1}")


def distances(p, e, builder, values):
    """from_left and the like agree with the places."""
    size = sum(side.at(values) for side in builder.size[p.name])
    host = builder.piece.get(p.on)
    turned = p.tilt % 90 or host is not None and host.tilt % 90
    off = 2 * builder.marks(Fraction(1, 10**9)) + TURN_BOUND * size if turned else Fraction(0)
    for side in ("left", "top", "right", "bottom"):
        if f"from_{side}" in e:
            got, = fractions(e, f"from_{side}")
            same(builder.marks(got), builder.side[p.name][side].at(values), f"{p.name}: from_{side}", off)


def wrong_faces(version, builder, answer):
    """What is said to lie on a face where it does not."""
    entries = entries_of(answer, version)
    faces = {p.name: builder.face_of(p.on) for p in version.pieces}
    return [f"{name} lies on {entries[name]['face']}, not {face}" for name, face in faces.items()
            if entries[name]["face"] != face]


def allowance(rel, inexact, values):
    """How far a relation may be off because of tilted pieces."""
    total = Fraction(0)
    for v, f in rel.sum.terms.items():
        if v in inexact:
            total += abs(f) * inexact[v] + (TURN_BOUND * abs(values[v]) if not inexact[v] else 0)
    return total


def broken_rules(model, values):
    """Says of the rules that do not hold."""
    bad = []
    for rule in model.rules:
        if not any(all(r.excess(values) <= allowance(r, model.inexact, values) for r in option)
                   for option in rule.options):
            bad.append(rule.says)
    for name, var in model.variables.items():
        if name not in values:
            bad.append(f"{name}: not in the answer")
        elif var.whole and values[name].denominator != 1:
            bad.append(f"{name}: {values[name]} marks is off the marks")
    return bad


def answers_of(answer, count):
    """The plain card's answer and each variant's."""
    out = [answer] + answer.get("variants", [])
    if len(out) != count:
        raise Mismatch(f"{len(out) - 1} variants in the answer, {count - 1} in the card")
    return out


def check(text, answer):
    """(models, values in marks of all of them, what is wrong) for a buildable answer to a card."""
    versions = read(text)
    models, values, wrong = [], {}, []
    for i, version in enumerate(versions):
        model, builder = build(version, i)
        models.append(model)
        try:
            own = answers_of(answer, len(versions))[i]
            if i and (own["name"], own["cards"]) != (version.name, version.cards):
                raise Mismatch(f"variant {own['name']!r} for {own['cards']} cards")
            if own["verdict"] != "buildable":
                raise Mismatch(f"verdict {own['verdict']}")
            values.update(version_values(version, builder, own))
        except (Mismatch, KeyError) as error:
            wrong.append(f"{version.name or 'plain card'}: {error}")
            continue
        wrong += [f"{version.name or 'plain card'}: {says}"
                  for says in wrong_faces(version, builder, own) + broken_rules(model, values)]
    return models, values, wrong

