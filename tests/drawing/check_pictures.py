#!/usr/bin/env python3
"""Draws the pictures of the two READMEs anew and compares them with those that stand beside the text.

usage: check_pictures.py PROGRAM [TOP] [--write]      TOP: the top of the sources; --write: puts the new ones there

Each picture stands in the text behind the call that makes it, as seen from the top of the sources:

  <!-- evenmat draw cases/lantern-thanks.toml --view closed -o cases/pictures/lantern.png -->
  ![what is to be seen](cases/pictures/lantern.png)

Compared as images, so that another release of the drawing library may draw an edge a shade lighter: of all pixels at
most 1 in 500 may differ by more than a quarter of the range. That such a comparison can fail is looked at too: no two
of the pictures may pass for one another. A picture without a call, a call without its picture and a file in
cases/pictures that no text shows fail.
"""
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

import numpy
from PIL import Image

TEXTS = ["README.md", "cases/README.md"]
FOLDER = "cases/pictures"
CALL = re.compile(r"^<!-- (evenmat .*?) -->\n!\[[^\]]+\]\(([^)]+)\)$", re.M)
PICTURE = re.compile(r"!\[[^\]]*\]\(([^)]+)\)")
MOST = 1 / 500


def pixels(path):
    return numpy.asarray(Image.open(path).convert("RGB"), dtype=numpy.int16)


def unlike(a, b):
    """The share of pixels that differ; 1 where the sizes do."""
    if a.shape != b.shape:
        return 1.0
    return float((numpy.abs(a - b).max(axis=2) > 64).mean())


def drawn(program, top, call, folder):
    """The words of the call with the last name replaced; the file that it made."""
    words = shlex.split(call)[1:]
    place = next(i for i, word in enumerate(words) if word in ("-o", "--draw")) + 1
    out = pathlib.Path(folder) / pathlib.Path(words[place]).name
    words[place] = str(out)
    done = subprocess.run([program, *words], cwd=top, capture_output=True, text=True)
    return out, (done.stderr if not out.exists() else "")


def main():
    arguments = [a for a in sys.argv[1:] if a != "--write"]
    write = "--write" in sys.argv
    program = str(pathlib.Path(arguments[0]).resolve())
    top = pathlib.Path(arguments[1] if len(arguments) > 1 else pathlib.Path(__file__).parents[2]).resolve()
    failures = []
    passed = 0
    shown = {}  # picture: its call

    def check(name, wrong):
        nonlocal passed
        if wrong:
            failures.append(f"{name}: {wrong}")
        else:
            passed += 1

    for text in TEXTS:
        words = (top / text).read_text()
        base = (top / text).parent
        called = {}
        for call, link in CALL.findall(words):
            called[link] = call
            target = (base / link).resolve().relative_to(top)
            out = shlex.split(call)
            check(f"{text}: {link}", "" if str(target) in out else f"its call makes another file: {call}")
            shown[target] = call
        for link in PICTURE.findall(words):
            check(f"{text}: {link}", "" if link in called else "no call stands before it")
    for file in sorted((top / FOLDER).iterdir()):
        check(file.name, "" if file.relative_to(top) in shown else "no text shows it")

    images = {}
    with tempfile.TemporaryDirectory() as folder:
        for picture, call in sorted(shown.items()):
            new, trouble = drawn(program, top, call, folder)
            if trouble or not new.exists():
                check(picture.name, f"was not drawn: {trouble}")
                continue
            if write:
                (top / picture).write_bytes(new.read_bytes())
            if not (top / picture).exists():
                check(picture.name, "is not there; --write puts it there")
                continue
            images[picture.name] = pixels(top / picture)
            share = unlike(images[picture.name], pixels(new))
            check(picture.name, "" if share <= MOST else
                  f"is not what the program draws: {100 * share:.2f} % of it differ; --write renews it")
    names = sorted(images)
    for i, one in enumerate(names):
        for other in names[:i]:
            height = min(images[one].shape[0], images[other].shape[0])
            width = min(images[one].shape[1], images[other].shape[1])
            share = unlike(images[one][:height, :width], images[other][:height, :width])
            check(f"{one} and {other}", "" if share > MOST else "would pass for one another")
    for failure in failures:
        print("FAIL", failure)
    print(f"{passed} passed, {len(failures)} failed")
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
