"""Templates measured on their pages as they would be printed: dots of 1/600 in, lines found in the picture alone. Held
against the sizes that `size --json` tells."""
import json
import re
from fractions import Fraction

import numpy
from PIL import Image

import pdf
from calling import run

DOTS = 600
MM = DOTS / 25.4
NEAR = 0.1 * MM  # a tenth of a millimetre
SHORTEST = 70  # dots of a straight line that counts: more than a letter or a dash has, less than any piece
DARK = 110  # of 255: a line of 0.3 points is black in its middle
FOOT = round(97 / 72 * DOTS)  # dots from the bottom: what is below all pieces, with the rulers
PAPERS = {"Letter": (612, 792), "A4": (595.276, 841.89)}

Image.MAX_IMAGE_PIXELS = None


def picture(path, page, share=1):
    """Of one page, by pdftoppm: grey, 0 is white and 255 black. `share`: of its true size."""
    out = path.with_suffix(f".{page}")
    ran = run(["pdftoppm", "-r", DOTS * share, "-gray", "-singlefile", "-f", page, "-l", page, path, out])
    if ran.status != 0:
        raise RuntimeError(f"pdftoppm: {ran.err.strip()}")
    file = out.with_name(out.name + ".pgm")
    grey = 255 - numpy.asarray(Image.open(file))
    file.unlink()
    return grey


def level_lines(grey, shortest=SHORTEST, dark=DARK):
    """Straight dark lines from left to right: (y of its middle, from x, to x). Its ends are where it is half dark."""
    black = grey > dark
    rows = numpy.flatnonzero(black.sum(1) >= shortest)
    runs = []
    for y in rows:
        edges = numpy.flatnonzero(numpy.diff(numpy.concatenate(([0], black[y].view(numpy.int8), [0]))))
        for start, end in zip(edges[::2], edges[1::2]):
            if end - start >= shortest:
                runs.append((int(y), int(start), int(end)))
    lines = []  # rows of dots that lie directly under one another
    for y, start, end in runs:
        for line in lines:
            if line[-1][0] == y - 1 and abs(line[-1][1] - start) < 8 and abs(line[-1][2] - end) < 8:
                line.append((y, start, end))
                break
        else:
            lines.append([(y, start, end)])
    found = []
    for line in lines:
        if len(line) > 8:  # a filled area
            continue
        start, end = min(s for _, s, _ in line), max(e for _, _, e in line)
        top, bottom = max(line[0][0] - 2, 0), line[-1][0] + 3
        # Where nothing else meets it: near its middle third, the median over many columns.
        third = (end - start) // 3
        band = numpy.median(grey[top:bottom, start + third:end - third], axis=1).astype(float)
        middle = top + float((band * numpy.arange(len(band))).sum() / band.sum()) + 0.5
        found.append((middle, float(start), float(end)))
    return found


def lines_of(grey, **how):
    """(level ones, upright ones), each (place across it, from, to)."""
    return level_lines(grey, **how), level_lines(numpy.ascontiguousarray(grey.T), **how)


def rectangles(level, upright):
    """(left, top, right, bottom) of those whose four sides are lines of their own, each from corner to corner."""
    slack = 6
    found = []
    for top, left, right in level:
        for bottom, other_left, other_right in level:
            if bottom <= top + slack or abs(left - other_left) > slack or abs(right - other_right) > slack:
                continue
            sides = [x for x, start, end in upright if abs(start - top) < slack and abs(end - bottom) < slack]
            west = [x for x in sides if abs(x - left) < slack]
            east = [x for x in sides if abs(x - right) < slack]
            if west and east:
                found.append((west[0], top, east[0], bottom))
    return found


def point(unit):
    return 25.4 * MM if unit == "in" else MM


def sizes_wanted(answer, without=()):
    """Of the plain card, in dots: every piece of paper once, every window."""
    each = point(answer["unit"])
    things = [("base", answer["base"]["blank"])]
    things += [(layer["name"], layer) for layer in answer["layers"] if layer["name"] not in without]
    things += [(window["name"], window) for window in answer.get("windows", [])]
    return [(name, *(float(Fraction(thing[side])) * each for side in ("width", "height"))) for name, thing in things]


def in_mm(size):
    return f"{size[0] / MM:.2f} x {size[1] / MM:.2f} mm"


def unmatched(wanted, found):
    """Pairs each piece with one rectangle of its size, which may lie turned."""
    wrong, left = [], list(found)
    for name, width, height in wanted:
        def off(size):
            return min(max(abs(size[0] - width), abs(size[1] - height)), max(abs(size[0] - height), abs(size[1] - width)))
        nearest = min(left, key=off, default=None)
        if nearest is None or off(nearest) > NEAR:
            seen = in_mm(nearest) if nearest else "nothing"
            wrong.append(f"{name!r} should be {in_mm((width, height))}; the nearest printed is {seen}")
        else:
            left.remove(nearest)
    return wrong + [f"a rectangle of {in_mm(size)} that nothing accounts for" for size in left]


def faults_of_ruler(grey, level, length, apart, what):
    """A ruler is a line of its length with marks hanging from it, each of them where it belongs."""
    stroke = 0.3 / 72 * DOTS  # its end marks lie half over its ends
    own = [line for line in level if abs(line[2] - line[1] - stroke - length) < 1.5 * MM
           and line[0] > grey.shape[0] - FOOT]
    if len(own) != 1:
        return [f"{len(own)} lines that may be the ruler of {what}"]
    y, start, end = own[0]
    wrong = []
    if abs(end - start - stroke - length) > NEAR:
        wrong.append(f"the ruler of {what} is {(end - start - stroke) / MM:.2f} mm long")
    row = grey[int(y) + 12, int(start) - 4:int(end) + 5].astype(float)  # half a millimetre down: its marks alone
    dark = row > 60
    edges = numpy.flatnonzero(numpy.diff(numpy.concatenate(([0], dark.view(numpy.int8), [0]))))
    marks = [float((row[a:b] * numpy.arange(a, b)).sum() / row[a:b].sum()) + 0.5 for a, b in zip(edges[::2], edges[1::2])]
    count = round(length / apart)
    if len(marks) != count + 1:
        return wrong + [f"the ruler of {what} has {len(marks)} marks, not {count + 1}"]
    off = max(abs(mark - marks[0] - i * apart) for i, mark in enumerate(marks))
    if off > NEAR:
        wrong.append(f"a mark of the ruler of {what} is {off / MM:.2f} mm off")
    return wrong


def rulers(grey, level):
    return faults_of_ruler(grey, level, 4 * 25.4 * MM, 25.4 * MM / 16, "4 in") + \
        faults_of_ruler(grey, level, 100 * MM, MM, "100 mm")


def page_count(path, paper):
    """(how many pages, what is wrong with their size)."""
    ran = run(["pdfinfo", "-f", 1, "-l", 999, path])
    sizes = [line.split() for line in ran.out.splitlines() if line.startswith("Page ") and " size:" in line]
    wrong = []
    for words in sizes:
        at = words.index("size:")
        got = float(words[at + 1]), float(words[at + 3])
        if any(abs(a - b) > 0.05 for a, b in zip(got, PAPERS[paper])):
            wrong.append(f"page {words[1]} is {got[0]} x {got[1]} points, {paper} is {PAPERS[paper]}")
    return len(sizes), wrong or ([] if sizes else ["it has no pages"])


# --- what is larger than a page ------------------------------------------------------------------------------
def crosses(grey):
    """Where marks to lay tiles by are: level and upright lines of 8 points through one another's middle."""
    level, upright = lines_of(grey, shortest=58, dark=70)
    small = [[line for line in lines if 58 <= line[2] - line[1] <= 74] for lines in (level, upright)]
    return [((left + right) / 2, y) for y, left, right in small[0] for x, top, bottom in small[1]
            if abs((left + right) / 2 - x) < 4 and abs((top + bottom) / 2 - y) < 4]


def seams(path, page, grey):
    """{letter: place in dots} of the crosses of a page, each with the letter that stands by it."""
    words = pdf.pages(path)[page - 1][2]
    found = {}
    for x, y in crosses(grey):
        def far(word):
            left, top, right, bottom = (v / 72 * DOTS for v in word.box)
            return max(abs((left + right) / 2 - x), abs((top + bottom) / 2 - y))
        letters = [word for word in words if len(word.text) <= 2 and word.text.isupper()]
        word = min(letters, key=far, default=None)
        if word is not None and far(word) < 130:
            found[word.text] = x, y
    return found


def laid_together(path, tiles):
    """(width, height) of a piece whose tiles are laid so that like letters lie over one another. `tiles`: (page, picture),
    row by row."""
    offset, lines_at = {tiles[0][0]: (0.0, 0.0)}, {}
    marks = {page: seams(path, page, grey) for page, grey in tiles}
    waiting = [page for page, _ in tiles[1:]]
    while waiting:
        for page in waiting:
            known = next((other for other in offset if set(marks[other]) & set(marks[page])), None)
            if known is not None:
                letter = min(set(marks[known]) & set(marks[page]))
                offset[page] = tuple(offset[known][i] + marks[known][letter][i] - marks[page][letter][i] for i in (0, 1))
                waiting.remove(page)
                break
        else:
            raise ValueError(f"no letters join the tiles on pages {waiting}; found {marks}")
    # Every mark must come to lie over its like, not only those that were used.
    for page, own in marks.items():
        for letter, (x, y) in own.items():
            here = x + offset[page][0], y + offset[page][1]
            there = lines_at.setdefault(letter, here)
            if max(abs(a - b) for a, b in zip(here, there)) > NEAR:
                raise ValueError(f"the marks {letter} do not lie over one another")
    xs, ys = [], []
    for page, grey in tiles:
        level, upright = lines_of(grey[:-FOOT])
        xs += [x + offset[page][0] for x, start, end in upright if end - start > 2 * DOTS]
        ys += [y + offset[page][1] for y, start, end in level if end - start > 2 * DOTS]
    return max(xs) - min(xs), max(ys) - min(ys)


def faults(program, made, paper, without=(), share=1):
    """Of the templates of a plain card; `without`: layers that have none."""
    size = run([program, "size", made.source, "--json"])
    answer = json.loads(size.out)
    count, wrong = page_count(made.path, paper)
    found, tiles = [], []
    for page in range(1, count + 1):
        grey = picture(made.path, page, share)
        level, upright = lines_of(grey)
        wrong += [f"page {page}: {line}" for line in rulers(grey, level)]
        words = " ".join(word.text for word in pdf.pages(made.path)[page - 1][2])
        tile = re.search(r"\btile (\d+) of \d+\b", words, re.I)
        if tile and tile[1] == "1":
            tiles.append([])
        if tile:
            tiles[-1].append((page, grey))
        else:
            found += [(right - left, bottom - top) for left, top, right, bottom in rectangles(level, upright)]
    found += [laid_together(made.path, group) for group in tiles]
    return wrong + unmatched(sizes_wanted(answer, without), found)
