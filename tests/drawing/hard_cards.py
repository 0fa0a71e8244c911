"""Card files that are hard to draw: by how many layers, by what their names are. Each can be built; names are invented."""
import json

PAPERS = """
[[paper]]
name  = "stock"
sheet = "12 x 12"
"""


def text(name):
    """As TOML has it: what JSON escapes, TOML escapes alike; DEL may not stand as it is."""
    return json.dumps(name, ensure_ascii=False).replace("\x7f", "\\u007f")


def card(layers, front="5 x 7", title="Hard to draw", fold="side"):
    """`layers`: (name, what it is on, keys)."""
    out = [f"title = {text(title)}", 'unit = "in"', 'mark = "1/16"', "", "[base]", f'fold = "{fold}"',
           f'front = "{front}"', 'paper = "stock"', PAPERS]
    for i, (name, on, keys) in enumerate(layers):
        role = ["mat", "panel", "strip", "image"][i % 4]
        out += ["[[layer]]", f"name = {text(name)}", f'role = "{role}"', f"on = {text(on)}", 'paper = "stock"', keys, ""]
    return "\n".join(out)


def nested(names, front="8 x 8", border="1/16", fold="flat"):
    on = ["front"] + names[:-1]
    return card([(name, below, f'border = "{border}"') for name, below in zip(names, on)], front, fold=fold)


def side_by_side(names, width="1/8", gap="1/16"):
    layers = [(names[0], "front", f'size = "{width} x 2"\nfrom-left = "1/8"\nfrom-top = "1/2"')]
    for before, name in zip(names, names[1:]):
        layers.append((name, "front", f'size = "{width} x 2"\nright-of = {text(before)}\ngap = "{gap}"\n'
                                      f'level-with = {text("top of " + before)}'))
    return card(layers, "8 x 8", fold="flat")


def long_name(i):
    return f"{i:02} the long narrow strip of marbled paper that goes round the fold"[:60]


SCRIPTS = ["naïve café — Übergröße, señal, łódź", "春の庭の招待状", "봄 정원 초대장", "بطاقة دعوة لحفل الربيع",
           "वसंत उत्सव निमंत्रण", "🌷 tulips 🐝 and bees 🇳🇿", "Весенний сад", "הזמנה לגן"]
HOSTILE = ["<script>alert(1)</script>", "&amp; &lt;b&gt; &#65;", "\"quoted\" and 'so' on",
           "bell \x07 start \x01 end \x1b[31m red",
           "two\nlines\tand a tab", "right to left \u202e desrever", "del \x7f and next line \u0085",
           "]]><svg onload=alert(2)>", "<a href=\"javascript:alert(3)\">", "zero\u200bwidth \u2028 line"]
HARD = {
    "one layer": card([("mat", "front", 'border = "1/8"')]),
    "no layer": card([]),
    "forty nested": nested([f"layer {i}" for i in range(1, 41)]),
    "forty side by side": side_by_side([f"strip {i}" for i in range(1, 41)]),
    "names of sixty": nested([long_name(i) for i in range(1, 21)], border="1/8"),
    "names of sixty side by side": side_by_side([long_name(i) for i in range(1, 21)], "1/4", "1/8"),
    "scripts": nested(SCRIPTS, "5 x 7", "1/8", "side"),
    "hostile names": nested(HOSTILE, "5 x 7", "1/8", "side"),
    "hostile title": card([("mat", "front", 'border = "1/8"')], title="</title><script>alert(1)</script>\x01\x1b]0;x\x07 &"),
    "name of two thousand": nested(["w" * 2000, "many words " * 181 + "end"], "5 x 7", "1/8"),
}
# Which of them have names that may be told cut short or made visible.
ODD = {"hostile names", "name of two thousand", "scripts", "names of sixty", "names of sixty side by side",
       "forty nested", "forty side by side"}
