#!/usr/bin/env python3
"""Runs what README.md and cases/README.md show, and compares: the guide may not say what is not so.

usage: check_guide.py PROGRAM [TOP] [--write]      TOP: the top of the sources

In both files, a ```text block that opens with "$ evenmat ..." or "$ cli/run ..." is a call and its answer:
the whole of it or, where a line "..." is in it, what is new since the same call was last shown. A ```toml
block is a part of a card; the parts build one card up (see `CardText`), which the calls after them find under the
name they use for it; a part that states a title begins another card. What the parts of cases/README.md add up to is
also compared, after each, with what guide_answers.json has for it, worked out by hand: of "boat-shed 3" for what three
parts make of boat-shed.toml, sizes and places of all layers and windows, and whatever else its "answer" names (see
check_cases.py), and of "boat-shed 15 cut" for its cut plan (see check_cuts.py). --write puts the program's own words in place of the answers shown; the hand-worked ones are never
written. Drawings are read by check_folds.py.
"""
import difflib
import json
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True  # nothing is left behind beside the sources
from check_cases import compare_pieces, differences  # noqa: E402
from check_cuts import compare_batch  # noqa: E402

HERE = pathlib.Path(__file__).resolve().parent
FENCE = re.compile(r"^```(toml|text)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
NAME = re.compile(r'^name\s*=\s*"(.*)"', re.MULTILINE)


class CardText:
    """A card file made from parts. A table joins those before it; one that is there already, [base] or a layer
    of the same name, is replaced where it stands; keys before the first table go to the top of the file."""

    def __init__(self):
        self.top = ""
        self.tables = []

    def add(self, part):
        top, *tables = re.split(r"^(?=\[)", part, flags=re.MULTILINE)
        self.top += top
        for table in tables:
            places = [i for i, old in enumerate(self.tables) if self.same(old, table)]
            if places:
                self.tables[places[0]] = table
            else:
                self.tables.append(table)

    @staticmethod
    def same(a, b):
        def head(table):
            return table.split("\n", 1)[0].strip()

        def name(table):
            found = NAME.search(table)
            return found.group(1) if found else ""

        return head(a) == head(b) and name(a) == name(b) and head(a) != "[[paper]]"

    def text(self):
        return "\n".join(part.rstrip("\n") + "\n" for part in [self.top, *self.tables] if part.strip())


def blocks(text):
    """Each block with the card that it and the parts before it make, and how many parts that has."""
    card, parts = CardText(), 0
    for block in FENCE.finditer(text):
        if block.group(1) == "toml":
            if re.match(r"title\s*=", block.group(2)):
                card, parts = CardText(), 0
            card.add(block.group(2))
            parts += 1
        yield block, card, parts


def what_is_new(said, before):
    """The lines of `said` that do not stand in `before`, under their headings, and "..." for the rest. Blanks
    make no difference."""
    lines = said.splitlines()
    plain = [" ".join(line.split()) for line in lines]
    old = [" ".join(line.split()) for line in before.splitlines()]
    kept = [True] * len(lines)
    for match in difflib.SequenceMatcher(None, old, plain, autojunk=False).get_matching_blocks():
        kept[match.b : match.b + match.size] = [False] * match.size
    heading = None
    for i, line in enumerate(lines):
        if line and not line.startswith(" "):
            heading = i
        elif line and kept[i] and heading is not None:
            kept[heading] = True
    out, left_out, gap = [], False, False
    for line, keep in zip(lines, kept):
        if not line:
            gap = True
        elif not keep:
            left_out = True
        else:
            out += ["..."] if left_out else [""] if gap and out else []
            out.append(line)
            left_out = gap = False
    return "".join(line + "\n" for line in out + (["..."] if left_out else []))


def ask(program, arguments, where):
    run = subprocess.run([program, *arguments], cwd=where, capture_output=True, text=True, timeout=60)
    return run.returncode, run.stdout


def check(program, top, path, by_hand, write):
    """One list of what is wrong for each call shown and each comparison by hand; empty where nothing is."""
    text = path.read_text(encoding="utf-8")
    checks, compared = [], set()
    pieces, end, before = [], 0, {}
    with tempfile.TemporaryDirectory() as folder:
        for block, card, parts in blocks(text):
            kind, body = block.groups()
            if kind == "toml":
                continue
            call, _, shown = body.partition("\n")
            command, *arguments = shlex.split(call[2:]) if call.startswith("$ ") else [""]
            if command not in ("evenmat", "cli/run"):
                continue
            if command == "cli/run" and not arguments:
                arguments = ["size", "cases/lantern-thanks.toml"]
            built_up = [a for a in arguments if a.endswith(".toml") and not (top / a).exists()]
            where = folder if built_up else top
            for name in built_up:
                (pathlib.Path(folder) / name).write_text(card.text(), encoding="utf-8")

            spot = f"{path.relative_to(top)}:{text.count(chr(10), 0, block.start()) + 1}: "
            status, whole = ask(program, arguments, where)
            said = what_is_new(whole, before.get(call, "")) if "..." in shown.splitlines() else whole
            before[call] = whole
            wrong = [f"{spot}`{call[2:]}` ends with status {status}"]
            short = (arguments[0] == "cut" and "not paper enough" in whole
                     or "--fit" in arguments and "does not come out of the paper" in whole)
            if status == 0 or (status == 1 and (short or "cannot be built" in whole)):
                wrong = []
            if said != shown and not write:
                wrong.append(f"{spot}`{call[2:]}` says\n{said}")
            checks.append(wrong)
            pieces += [text[end : block.start(2)], call, "\n", said]
            end = block.end(2)

            if built_up and by_hand:
                cut = arguments[0] == "cut"
                step = f"{pathlib.Path(built_up[0]).stem} {parts}{' cut' if cut else ''}"
                compared.add(step)
                want = by_hand.get(step)
                status, said = ask(program, [*arguments, "--json"], folder)
                if want is None or status != 0:
                    checks.append([f"{spot}{step} has status {status}, by hand {want}"])
                elif cut:
                    checks.append([f"{spot}{line}" for line in compare_batch(want, json.loads(said))])
                else:
                    said = json.loads(said)
                    checks.append(compare_pieces(want["layers"], said, spot)
                                  + differences(want.get("answer", {}), said, f"{spot}answer"))
    if by_hand:
        checks.append([f"{path}: no call for {step}" for step in by_hand if step not in compared])
    if write:
        path.write_text("".join([*pieces, text[end:]]), encoding="utf-8")
    return checks or [[f"{path}: shows no call"]]


def main(program, top=HERE.parent.parent, write=False):
    program, top = str(pathlib.Path(program).resolve()), pathlib.Path(top).resolve()
    steps = json.loads((HERE / "guide_answers.json").read_text(encoding="utf-8"))
    checks = check(program, top, top / "README.md", None, write)
    checks += check(program, top, top / "cases" / "README.md", steps, write)
    for line in (line for wrong in checks for line in wrong):
        print(f"FAIL {line}")
    failed = sum(bool(wrong) for wrong in checks)
    print(f"{len(checks) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    called_with = [argument for argument in sys.argv[1:] if argument != "--write"]
    if len(called_with) not in (1, 2):
        sys.exit(__doc__)
    sys.exit(main(*called_with, write="--write" in sys.argv[1:]))
