"""SVGs as two programs that share no code show them: Chromium and librsvg, tile by tile. Letters and lines are smoothed in
other ways by each, so that only a whole block of pixels that differs counts."""
import pathlib
import re

import numpy
from PIL import Image

from calling import run

SCALE = 0.75  # pixels to a point
BLOCK = 24  # pixels
# Grey from 0 to 255, each pixel the mean of 3 x 3. Measured with Chromium 156 and librsvg 2.54 over 183 drawings of all
# kinds: no two pictures of one drawing were 30.0 apart in any pixel, 1.8 on the whole, or 0.004 in any block once 28 is taken
# off. With the topmost paper of a drawing gone, or its last words, a block came to 0.037 or more; with it moved by 3 pixels to
# 0.11 or more, unless other papers hid it. That it still does is a check of its own. Hairlines are lost in this: of
# templates only words count here.
SMOOTHING = 28  # of a pixel: what may come of smoothing lines in another way
MOST_MEAN = 2.5  # fine textures
MOST_BLOCK = 0.01
TALLEST = 8000  # pixels of one screenshot
COLUMNS = 4

HEAD = re.compile(rb'<svg ([^>]*?)width="([\d.]+)pt" height="([\d.]+)pt" viewBox="[^"]*"')


def in_whole_pixels(svg):
    """The same picture on a page of whole pixels, so that neither program has to round: (bytes, width, height)."""
    match = HEAD.search(svg)
    width, height = (int(-(-float(match[i]) * SCALE // 1)) for i in (2, 3))
    head = b'<svg %swidth="%dpx" height="%dpx" viewBox="0 0 %f %f"' % (
        match[1], width, height, width / SCALE, height / SCALE)
    return svg[:match.start()] + head + svg[match.end():], width, height


class Sheet:
    """Pictures in columns on one page of a browser."""

    def __init__(self, folder, number):
        self.folder, self.number = folder, number
        self.tiles = []  # (name, file, left, top, width, height)
        self.heights = [0] * COLUMNS

    def add(self, name, file, width, height):
        column = self.heights.index(min(self.heights))
        if self.tiles and self.heights[column] + height > TALLEST:
            return False
        self.tiles.append((name, file, column * 480, self.heights[column], width, height))
        self.heights[column] += height + 8
        return True

    def screenshot(self, browser):
        rows = "".join(f'<img src="{file.name}" style="position:absolute;left:{x}px;top:{y}px;width:{w}px;height:{h}px">\n'
                       for _, file, x, y, w, h in self.tiles)
        page = self.folder / f"sheet{self.number}.html"
        page.write_text(f'<!DOCTYPE html><body style="margin:0;background:#fff">\n{rows}', encoding="utf-8")
        shot = self.folder / f"sheet{self.number}.png"
        ran = run([browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
                   "--disable-background-networking", "--hide-scrollbars", "--force-device-scale-factor=1",
                   f"--user-data-dir={self.folder / f'profile{self.number}'}", f"--screenshot={shot}",
                   f"--window-size={480 * COLUMNS},{max(self.heights)}", page.as_uri()])
        if not shot.exists():
            raise RuntimeError(f"{browser} made no picture: {ran.err.strip()[-300:]}")
        return grey(shot)


def grey(path):
    return numpy.asarray(Image.open(path).convert("L"), dtype=numpy.float32)


def by_librsvg(file):
    out = file.with_suffix(".rsvg.png")
    ran = run(["rsvg-convert", file, "-o", out])
    if ran.status != 0:
        raise RuntimeError(f"rsvg-convert: {ran.err.strip()}")
    return grey(out)


def blurred(picture):
    """Each pixel the mean of 3 x 3: what is smoothed in another way comes to the same, what is moved does not."""
    wide = numpy.pad(picture, 1, mode="edge")
    rows = wide[:-2] + wide[1:-1] + wide[2:]
    return (rows[:, :-2] + rows[:, 1:-1] + rows[:, 2:]) / 9


def apart(a, b):
    """(mean, largest mean of a block, its place): how far two pictures are apart. Of a block, only what smoothing does
    not account for. Blocks go over all places in steps of half a block."""
    if a.shape != b.shape:
        raise ValueError(f"{a.shape} and {b.shape} pixels")
    far = numpy.abs(blurred(a) - blurred(b))
    more = numpy.maximum(far - SMOOTHING, 0)
    sums = numpy.pad(more.cumsum(0).cumsum(1), ((1, 0), (1, 0)))
    ys = numpy.arange(0, far.shape[0] - BLOCK + 1, BLOCK // 2)
    xs = numpy.arange(0, far.shape[1] - BLOCK + 1, BLOCK // 2)
    blocks = (sums[numpy.ix_(ys + BLOCK, xs + BLOCK)] - sums[numpy.ix_(ys, xs + BLOCK)]
              - sums[numpy.ix_(ys + BLOCK, xs)] + sums[numpy.ix_(ys, xs)]) / BLOCK ** 2
    at = numpy.unravel_index(blocks.argmax(), blocks.shape)
    return float(far.mean()), float(blocks.max()), (int(xs[at[1]]), int(ys[at[0]]))


def screenshots(browser, folder, pictures, pool):
    """{name: (file in whole pixels, what the browser makes of it)} of pairs of a name and an SVG's path."""
    sheets = [Sheet(folder, 0)]
    for i, (name, path) in enumerate(pictures):
        svg, width, height = in_whole_pixels(pathlib.Path(path).read_bytes())
        file = folder / f"{i}.svg"
        file.write_bytes(svg)
        if not sheets[-1].add(name, file, width, height):
            sheets.append(Sheet(folder, len(sheets)))
            sheets[-1].add(name, file, width, height)
    shown = {}
    for sheet, shot in zip(sheets, pool.all(lambda sheet: sheet.screenshot(browser), [(sheet,) for sheet in sheets])):
        for name, file, x, y, w, h in sheet.tiles:
            shown[name] = file, shot[y:y + h, x:x + w]
    return shown


# What is drawn of one paper: its fill and its edge, in one path or in two with a texture between.
RING = rb'd="(M [\d.]+ [\d.]+ L [\d.]+ [\d.]+ L [\d.]+ [\d.]+ L [\d.]+ [\d.]+ Z) M [\d. ]+"/>\n'
FILL = re.compile(rb'<path style=" ?(?:stroke:none;)?fill-rule:nonzero;fill:rgb[^"]*" ' + RING)
EDGE = rb'<path style="fill:none;stroke-width:[^"]*" '
NEXT = re.compile(rb'(?:<path style="fill:none;[^>]*>\n)*?' + EDGE + RING)


PARTS = re.compile(rb"fill:rgb\(([\d.]+)%,([\d.]+)%,([\d.]+)%\)")
# A line of words.
WORDS = re.compile(rb'<g style="fill:[^>]*>\n(?:  <use [^>]*/>\n){12,}</g>\n')


def spot(svg):
    """Where in the file that of the papers is which is drawn last, so that it is seen whole: at least 400 pixels, and
    not as white as what may be under it. Where there is none, the last line of words."""
    for match in reversed(list(FILL.finditer(svg))):
        corners = [float(v) for v in re.findall(rb"[\d.]+", match[1])]
        if min(float(v) for v in PARTS.search(match[0]).groups()) > 95:
            continue
        size = abs(corners[4] - corners[0]) * abs(corners[5] - corners[1]) * SCALE ** 2
        end = match.end()
        if b"stroke-width" not in match[0]:
            edge = NEXT.match(svg, end)
            if edge is None or edge[1] != match[1]:
                continue
            end = edge.end()
        if size >= 400:
            return match.start(), end
    return [match.span() for match in WORDS.finditer(svg)][-1]


def spoiled(svg):
    """The picture with that gone, and with it moved by three pixels to the right."""
    start, end = spot(svg)
    moved = b'<g transform="translate(%f,0)">' % (3 / SCALE) + svg[start:end] + b"</g>\n"
    return svg[:start] + svg[end:], svg[:start] + moved + svg[end:]


def faults(file, shown):
    """`shown`: the browser's picture of it."""
    mean, block, (x, y) = apart(shown, by_librsvg(file))
    wrong = [f"on the whole {mean:.2f} apart, {MOST_MEAN} at most"] if mean > MOST_MEAN else []
    if block > MOST_BLOCK:
        wrong.append(f"{block:.3f} apart in the block at {x} {y} of {file.name}, {MOST_BLOCK} at most")
    return wrong


def unnoticed(file, shown):
    """What of a picture with a fault in it is not noticed."""
    wrong = []
    for what, svg in zip(("gone", "moved by 3 pixels"), spoiled(file.read_bytes())):
        bad = file.with_suffix(f".{what.split()[0]}.svg")
        bad.write_bytes(svg)
        if not faults(bad, shown):
            wrong.append(f"a shape that is {what} is not noticed: {apart(shown, by_librsvg(bad))}")
    return wrong
