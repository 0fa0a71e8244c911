"""A card file's text with only some of its wishes kept, for a solver that reads whole cards. Where a wish cannot
be taken out by itself it stays: the card is then no easier to build than the kept wishes ask, never harder to
refute."""
import copy

from words import decimal, key

PLAIN = ("width", "height", "size", "ratio", "margin", "from-left", "from-right", "from-top", "from-bottom", "gap",
         "level-with", "frame", "align")
PLAIN_IF = {"border": ("align",), "clearance": (), "clear-of": (), "artwork": ("margin",)}  # kept while that is


def toml(value):
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key(k)} = {toml(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(toml(v) for v in value) + "]"
    return str(value) if isinstance(value, int) else decimal(value)


def written(top, order):
    """`order`: layers and windows as they come in the file, (kind, its number)."""
    tables = ("layer", "window", "variant", "paper", "base", "supply")
    out = [f"{k} = {toml(v)}" for k, v in top.items() if k not in tables]
    out += ["[base]"] + [f"{k} = {toml(v)}" for k, v in top["base"].items()]
    for kind, i in order + [("variant", i) for i in range(len(top.get("variant", [])))]:
        out += [f"[[{kind}]]"] + [f"{key(k)} = {toml(v)}" for k, v in top[kind][i].items()]
    return "\n".join(out) + "\n"


def kept_only(card, wishes):
    """The text with the wishes at these paths and as few of the others as can be."""
    top = copy.deepcopy(card.top)
    for gone in ("paper", "supply"):
        top.pop(gone, None)
    for owner in top.get("layer", []) + top.get("window", []):
        owner.pop("paper", None)
    for v in top.get("variant", []):
        v["set"] = {k: value for k, value in v.get("set", {}).items() if not k.endswith(".paper")}
    if "rules" in top:
        top["rules"] = [text for i, text in enumerate(top["rules"]) if ("rules", i) in wishes]
    for kind, i in card.home.values():
        drop(top[kind][i], (kind, i), wishes)
    order = sorted(card.home.values(), key=lambda home: card.spots[home + ("name",)].begin)
    return written(top, order)


def drop(piece, home, wishes):
    kept = {path[2] for path in wishes if path[:2] == home}
    for k in list(piece):
        if k in kept or k not in PLAIN and k not in PLAIN_IF:
            continue
        if any(other in kept for other in PLAIN_IF.get(k, ())) or k == "clear-of" and "clearance" in kept:
            continue
        del piece[k]
    if "artwork" not in piece:
        piece.pop("margin", None)
    if isinstance(piece.get("border"), dict) and "align" not in kept:
        piece["border"] = {s: w for s, w in piece["border"].items() if home + ("border", s) in wishes}
    if "gap" in piece and not any(k in piece for k in ("above", "below", "left-of", "right-of", "copies")):
        del piece["gap"]
