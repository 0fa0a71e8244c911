"""What `draw` refuses: with status 2, one message on standard error that names the thing, and nothing written. Each call is
made in a folder of its own, where exactly what was there before must be there afterwards."""
import os
import pathlib
import re
import tempfile

from calling import run

# (what, arguments, words that the message must have). C is the card, there before; "taken.svg" and "folder" too.
CALLS = [
    ("an unknown ending", ["C", "-o", "out.gif"], [".gif"]),
    ("no ending", ["C", "-o", "out"], ["out"]),
    ("an ending alone", ["C", "-o", ".svg"], [".svg"]),
    ("a folder that is not there", ["C", "-o", "nowhere/out.svg"], ["nowhere"]),
    ("a folder that is not there, to make a batch by", ["C", "-o", "nowhere/out.pdf", "--worksheet"], ["nowhere"]),
    ("a file that is there", ["C", "-o", "taken.svg"], ["taken.svg", "--force"]),
    ("the card itself", ["card.svg", "-o", "card.svg", "--force"], ["card.svg"]),
    ("the card itself by another name", ["card.svg", "-o", "folder/../card.svg", "--force"], ["card.svg"]),
    ("a link to the card", ["card.svg", "-o", "link.svg", "--force"], ["link.svg"]),
    ("a folder as the file", ["C", "-o", "folder.svg", "--force"], ["folder.svg"]),
    ("leftovers that are read", ["C", "-o", "more.svg", "--plan", "--also", "more.svg", "--force"], ["more.svg"]),
    ("no card there", ["nothing.toml", "-o", "out.svg"], ["nothing.toml"]),
    ("no output", ["C"], ["-o"]),
    ("a page of another size", ["C", "-o", "out.pdf", "--page", "a5"], ["a5"]),
    ("an unknown variant", ["C", "-o", "out.svg", "--only", "for the moles"], ["for the moles"]),
    ("a variant of a plan", ["C", "-o", "out.svg", "--plan", "--only", "the plain card"], ["--only"]),
    ("two cards", ["C", "card.svg", "-o", "out.svg"], ["--plan"]),
    ("no dots", ["C", "-o", "out.png", "--dots", "0"], ["--dots"]),
    ("dots without end", ["C", "-o", "out.png", "--dots", "1000000"], ["--dots"]),
    ("dots that are no number", ["C", "-o", "out.png", "--dots", "fine"], ["fine"]),
    ("two subjects", ["C", "-o", "out.pdf", "--plan", "--recipe"], ["--plan", "--recipe"]),
    ("a mistake in the card", ["bad.toml", "-o", "out.svg"], ["bad.toml"]),
    ("a plan of paper that is not stated", ["plain.toml", "-o", "out.pdf", "--plan"], ["[[paper]]"]),
]
CARD = """unit = "in"
mark = "1/16"
[base]
fold = "side"
front = "5 x 7"
paper = "stock"
[[layer]]
name = "mat"
on = "front"
border = "1/8"
paper = "stock"
"""
PAPER = '[[paper]]\nname = "stock"\nsheet = "12 x 12"\nhave = 4\n'


def a_folder(at):
    at = pathlib.Path(at)
    for name in ("card.toml", "card.svg"):
        (at / name).write_text(CARD + PAPER, encoding="utf-8")
    (at / "plain.toml").write_text(CARD, encoding="utf-8")
    (at / "bad.toml").write_text(CARD.replace("border", "bodrer"), encoding="utf-8")
    (at / "taken.svg").write_text("mine", encoding="utf-8")
    (at / "more.svg").write_text('unit = "in"\n' + PAPER, encoding="utf-8")
    (at / "folder").mkdir()
    (at / "folder.svg").mkdir()
    os.symlink("card.svg", at / "link.svg")
    return at


def contents(folder):
    return {str(path.relative_to(folder)): path.read_bytes() if path.is_file() else None
            for path in sorted(folder.rglob("*"))}


def faults_of(ran, words):
    wrong = [] if ran.status == 2 else [f"exit status {ran.status}"]
    if ran.out.strip():
        wrong.append(f"standard output has {ran.out.strip()[:200]!r}")
    messages = ran.err.strip()
    if not messages:
        wrong.append("no message")
    wrong += [f"the message does not have {word!r}: {messages[:300]!r}" for word in words if word not in messages]
    if len(re.findall(r"^evenmat: |^\S+:\d+:\d+: ", ran.err, re.M)) > 1:
        wrong.append(f"more than one message: {messages[:300]!r}")
    if re.search(r"terminate called|what\(\)|Assertion|CRITICAL|WARNING|Segmentation", ran.err):
        wrong.append(f"a library speaks: {messages[:300]!r}")
    return wrong


def faults(program, arguments, words, env=None):
    with tempfile.TemporaryDirectory() as folder:
        folder = a_folder(folder)
        before = contents(folder)
        own = ["card.toml" if word == "C" else word for word in arguments]
        wrong = faults_of(run([program, "draw", *own], cwd=folder, env=env), words)
        after = contents(folder)
        wrong += [f"{name} is changed" for name in before if name in after and before[name] != after[name]]
        return wrong + [f"{name} is {'gone' if name in before else 'left there'}" for name in set(before) ^ set(after)]


def without_fonts(program, ending, *more):
    """With a machine that has none."""
    with tempfile.TemporaryDirectory() as folder:
        (pathlib.Path(folder) / "none").mkdir()
        config = pathlib.Path(folder) / "fonts.conf"
        config.write_text(f'<?xml version="1.0"?><fontconfig><dir>{folder}/none</dir><cachedir>{folder}/cache</cachedir>'
                          "</fontconfig>", encoding="utf-8")
        return faults(program, ["C", "-o", f"out.{ending}", *more], ["font"],
                      {**os.environ, "FONTCONFIG_FILE": str(config), "XDG_CACHE_HOME": folder})


def locked_folder(program):
    """A folder that may not be written to. Whoever may write everywhere cannot be refused."""
    if os.geteuid() == 0:
        return []
    with tempfile.TemporaryDirectory() as folder:
        folder = a_folder(folder)
        (folder / "folder").chmod(0o500)
        wrong = faults_of(run([program, "draw", "card.toml", "-o", "folder/out.svg"], cwd=folder), ["folder"])
        (folder / "folder").chmod(0o700)
        return wrong + [f"{path.name} is left there" for path in (folder / "folder").iterdir()]


def named(program):
    """Pairs of a name and a check."""
    for what, arguments, words in CALLS:
        yield what, lambda a=arguments, w=words: faults(program, a, w)
    for ending, more in (("svg", []), ("pdf", []), ("png", []), ("pdf", ["--worksheet"]), ("pdf", ["--templates"])):
        yield f"no font, {ending} {' '.join(more)}", lambda e=ending, m=more: without_fonts(program, e, *m)
    if os.geteuid() != 0:
        yield "a folder that may not be written to", lambda: locked_folder(program)
