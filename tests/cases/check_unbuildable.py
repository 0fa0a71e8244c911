#!/usr/bin/env python3
"""Checks every card in cases/unbuildable/ and compares what is said with the answers worked out by hand
(unbuildable_answers.json), with the words beside each card, and with what its changes lead to.

usage: check_unbuildable.py PROGRAM [TOP] [--write]      TOP: the top of the sources, where cases/ is

NAME.txt is what `evenmat check NAME.toml` prints, called in that folder; README.md there quotes the story out
of it, under a heading that links the card. --write puts the program's own words into both; the hand-worked
answers are never written.

unbuildable_answers.json gives, for each card:
  conflicts  of each the lines of its rules, `short_by` or `off_mark`, with variants its `versions`, and its
             changes in any order as [line, from, to], with false behind where they leave another conflict
  mend       the smallest set of changes for the whole card, as [line, from, to]
  instead    where no number mends it: [line, text, other text], which makes it a card that builds
"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
SECTION = re.compile(r"^## \[[^\n]*\]\((\S+)\.toml\)\n.*?^```text\n(.*?)^```$", re.MULTILINE | re.DOTALL)


class Program:
    def __init__(self, path, folder):
        self.path, self.folder = str(pathlib.Path(path).resolve()), folder

    def check(self, *arguments):
        """Exit status and what it prints."""
        call = [self.path, "check", *map(str, arguments)]
        run = subprocess.run(call, cwd=self.folder, capture_output=True, text=True, timeout=60)
        return run.returncode, run.stdout

    def builds(self, card):
        status, said = self.check(card, "--json")
        return status == 0 and json.loads(said)["verdict"] == "buildable"


def changed(text, changes):
    """The text of a card with each change made where the program says it stands, and nowhere else."""
    lines = text.splitlines(keepends=True)
    for change in sorted(changes, key=lambda c: (c["line"], c["column"]), reverse=True):
        line, at = lines[change["line"] - 1], change["column"] - 1
        quote = line[at] if line[at] in "\"'" else ""
        before = f"{quote}{change['from']}{quote}"
        if not line.startswith(before, at):
            return f"line {change['line']} does not say {before} in column {at + 1}"
        lines[change["line"] - 1] = line[:at] + f"{quote}{change['to']}{quote}" + line[at + len(before) :]
    return "".join(lines)


def listed(changes):
    """As the answers by hand give them."""
    mends = [[] if change.get("mends_card", True) else [False] for change in changes]
    return sorted([c["line"], c["from"], c["to"], *rest] for c, rest in zip(changes, mends))


def compare_conflict(want, got, where):
    wrong = []
    for key in ["short_by", "off_mark", "versions"]:
        if got.get(key) != want.get(key):
            wrong.append(f"{where}{key} is {got.get(key)}, by hand {want.get(key)}")
    if listed(got["changes"]) != sorted(want["changes"]):
        wrong.append(f"{where}changes are {listed(got['changes'])}, by hand {sorted(want['changes'])}")
    return wrong


def compare(want, answer):
    if answer["verdict"] != "conflict":
        return [f"verdict is {answer['verdict']}"]
    by_rules = {tuple(rule["line"] for rule in c["rules"]): c for c in answer["conflicts"]}
    wanted = {tuple(c["rules"]): c for c in want["conflicts"]}
    wrong = []
    if len(answer["conflicts"]) != len(wanted) or by_rules.keys() != wanted.keys():
        wrong.append(f"conflicts are of the lines {sorted(by_rules)}, by hand {sorted(wanted)}")
    for lines in sorted(by_rules.keys() & wanted.keys()):
        wrong += compare_conflict(wanted[lines], by_rules[lines], f"lines {lines}: ")
    if listed(answer["mend"]) != sorted(want["mend"]):
        wrong.append(f"mend is {listed(answer['mend'])}, by hand {sorted(want['mend'])}")
    return wrong


def try_changes(program, card, text, answer, want, folder):
    """Every change offered, and the smallest set, written to a file of its own."""
    wrong = []
    offered = [change for conflict in answer["conflicts"] for change in conflict["changes"]]
    calls = [([change], change["mends_card"], ["--choose", change["number"]]) for change in offered]
    calls += [(answer["mend"], True, [])]
    for number, (changes, builds, choice) in enumerate(calls):
        out = folder / f"{card.stem}-{number}.toml"
        what = f"change {choice[1]}" if choice else "--mend"
        status, _ = program.check(card.name, "--mend", out, *choice)
        if status != 1 or out.exists() != bool(changes):
            wrong.append(f"{what}: exit status {status}, {'a' if out.exists() else 'no'} file is written")
        if out.exists():
            if out.read_text(encoding="utf-8") != changed(text, changes):
                wrong.append(f"{what}: the file differs from the card in more than the change, or less")
            if program.builds(out) != builds:
                wrong.append(f"{what}: the card {'does not build' if builds else 'builds'} so")
    if card.read_text(encoding="utf-8") != text:
        wrong.append("the card itself was changed")
    if "instead" in want:
        line, old, new = want["instead"]
        lines = text.splitlines(keepends=True)
        lines[line - 1] = lines[line - 1].replace(old, new)
        out = folder / f"{card.stem}-instead.toml"
        out.write_text("".join(lines), encoding="utf-8")
        if "".join(lines) == text or not program.builds(out):
            wrong.append(f"with {new} in line {line} it does not build")
    return wrong


def story(said, answer):
    """The sums, and the hints with them: paragraphs set in, and those that say what the answer calls a hint."""
    hints = {" ".join(hint.split()) for conflict in answer["conflicts"] for hint in conflict["hints"]}
    kept = [p for p in said.split("\n\n") if p.startswith("  ") or " ".join(p.split()) in hints]
    return "\n\n".join(part.rstrip("\n") for part in kept) + "\n"


def check_card(program, card, want, folder, write):
    """What is wrong, and the story as README.md quotes it."""
    status, said = program.check(card.name)
    json_status, json_said = program.check(card.name, "--json")
    if status != 1 or json_status != 1:
        return [f"exit status {status}, with --json {json_status}"], ""
    beside, text = card.with_suffix(".txt"), card.read_text(encoding="utf-8")
    if write:
        beside.write_text(said, encoding="utf-8")
    answer = json.loads(json_said)
    wrong = compare(want, answer)
    if not beside.exists() or beside.read_text(encoding="utf-8") != said:
        wrong.append(f"{beside.name} is not what the program says:\n{said}")
    return wrong + try_changes(program, card, text, answer, want, folder), story(said, answer)


def check_readme(path, stories, write):
    text = path.read_text(encoding="utf-8")
    sections = list(SECTION.finditer(text))
    names = [section.group(1) for section in sections]
    wrong = [f"{name} is told {names.count(name)} times" for name in stories if names.count(name) != 1]
    wrong += [f"there is no card {name}" for name in names if name not in stories]
    pieces, end = [], 0
    for section in sections:
        told = stories.get(section.group(1), section.group(2))
        if told != section.group(2) and not write:
            wrong.append(f"the story of {section.group(1)} is\n{told}")
        pieces += [text[end : section.start(2)], told]
        end = section.end(2)
    if write:
        path.write_text("".join([*pieces, text[end:]]), encoding="utf-8")
    return wrong


def main(path, top=HERE.parent.parent, write=False):
    folder = pathlib.Path(top).resolve() / "cases" / "unbuildable"
    answers = json.loads((HERE / "unbuildable_answers.json").read_text(encoding="utf-8"))
    cards = {card.stem: card for card in folder.glob("*.toml")}
    program, results, stories = Program(path, folder), {}, {}
    with tempfile.TemporaryDirectory() as scratch:
        for name in sorted(cards.keys() | answers.keys()):
            if name not in cards:
                results[name] = ["there are answers but no card"]
            elif name not in answers:
                results[name] = ["there are no hand-worked answers for it"]
            else:
                told = check_card(program, cards[name], answers[name], pathlib.Path(scratch), write)
                results[name], stories[name] = told
    strays = [text.name for text in folder.glob("*.txt") if text.stem not in cards]
    results["README.md"] = check_readme(folder / "README.md", stories, write)
    results["README.md"] += [f"{name} has no card" for name in sorted(strays)]
    for name, wrong in results.items():
        print(f"{'FAIL' if wrong else 'ok  '} {name}")
        for line in wrong:
            print(f"       {line}")
    failed = sum(bool(wrong) for wrong in results.values())
    print(f"{len(results) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    called_with = [argument for argument in sys.argv[1:] if argument != "--write"]
    if len(called_with) not in (1, 2):
        sys.exit(__doc__)
    sys.exit(main(*called_with, write="--write" in sys.argv[1:]))
