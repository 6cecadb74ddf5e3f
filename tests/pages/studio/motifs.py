"""What is stitched: rows of symbol numbers, -1 where the cloth stays bare."""

from __future__ import annotations

import math
import random

from PIL import Image, ImageDraw, ImageFont

from scene import FONTS

Cells = list[list[int]]
Canvas = tuple[Image.Image, ImageDraw.ImageDraw]


def _canvas(columns: int, rows: int, value: int = 0) -> Canvas:
    image = Image.new("L", (columns, rows), value)
    draw = ImageDraw.Draw(image)
    draw.fontmode = "1"
    return image, draw


def _cells(image: Image.Image) -> Cells:
    width, height = image.size
    data = list(image.getdata())
    return [[v - 1 for v in data[y * width:(y + 1) * width]] for y in range(height)]


def _tree(draw, rng, x, y, s, pick):
    draw.rectangle([x - s // 10, y, x + s // 10, y + s], fill=pick())
    for k in range(rng.randint(2, 4)):
        w = s // 2 - k * s // 9
        draw.polygon([(x - w, y + s // 2 - k * s // 3), (x + w, y + s // 2 - k * s // 3),
                      (x, y - s // 4 - k * s // 3)], fill=pick())


def _house(draw, rng, x, y, s, pick):
    draw.rectangle([x - s // 2, y, x + s // 2, y + s], fill=pick())
    draw.polygon([(x - s // 2 - 1, y), (x + s // 2 + 1, y), (x, y - s // 2)], fill=pick())
    draw.rectangle([x - s // 8, y + s // 2, x + s // 8, y + s], fill=pick())
    for dx in (-s // 3, s // 4):
        draw.rectangle([x + dx, y + s // 6, x + dx + s // 8, y + s // 3], fill=pick())


def _flower(draw, rng, x, y, s, pick):
    petals, colour = rng.randint(4, 8), pick()
    draw.line([x, y, x + rng.randint(-2, 2), y + s], fill=pick(), width=max(1, s // 12))
    for k in range(petals):
        a = 2 * math.pi * k / petals
        px, py, r = x + math.cos(a) * s / 4, y + math.sin(a) * s / 4, s / 6
        draw.ellipse([px - r, py - r, px + r, py + r], fill=colour)
    draw.ellipse([x - s // 8, y - s // 8, x + s // 8, y + s // 8], fill=pick())


def _heart(draw, rng, x, y, s, pick):
    colour, r = pick(), s / 4
    draw.ellipse([x - 2 * r, y - r, x, y + r], fill=colour)
    draw.ellipse([x, y - r, x + 2 * r, y + r], fill=colour)
    draw.polygon([(x - 2 * r, y + r / 3), (x + 2 * r, y + r / 3), (x, y + 2.4 * r)], fill=colour)


def _bird(draw, rng, x, y, s, pick):
    body = pick()
    draw.ellipse([x - s // 2, y - s // 4, x + s // 3, y + s // 4], fill=body)
    draw.ellipse([x + s // 5, y - s // 2, x + s // 2, y - s // 6], fill=body)
    draw.polygon([(x - s // 3, y), (x - s, y - s // 4), (x - s, y + s // 8)], fill=pick())
    draw.ellipse([x - s // 3, y - s // 8, x + s // 8, y + s // 8], fill=pick())
    draw.point([x + s // 3, y - s // 3], fill=pick())


_FIGURES = [_tree, _house, _flower, _heart, _bird]


def figures(rng: random.Random, columns: int, rows: int, count: int) -> Cells:
    image, draw = _canvas(columns, rows)
    size = max(8, min(columns, rows) // rng.choice([2, 3, 3, 4]))
    pick = lambda: rng.randint(1, count)
    if rng.random() < 0.5:
        draw.rectangle([0, rows - max(2, rows // 8), columns, rows], fill=pick())
    for y in range(size * 3 // 4, rows, size * 3 // 2):
        for x in range(size * 2 // 3, columns, size * 4 // 3):
            rng.choice(_FIGURES)(draw, rng, x + rng.randint(-2, 2), y, size * rng.randint(7, 10) // 10, pick)
    return _cells(image)


def scene_full(rng: random.Random, columns: int, rows: int, count: int) -> Cells:
    """Sky, hills and figures: every cell is stitched, with some confetti where hues meet."""
    waves = [(rng.uniform(0.02, 0.16), rng.uniform(-0.1, 0.25), rng.uniform(0, 6)) for _ in range(4)]
    rough = rng.choice([0.0, 0.15, 0.4, 0.9])
    cells = []
    for y in range(rows):
        row = []
        for x in range(columns):
            v = y / rows * count + sum(math.sin(a * x + b * y + c) for a, b, c in waves) + rng.gauss(0, rough)
            row.append(int(v) % count)
        cells.append(row)
    over = figures(rng, columns, rows, count)
    return [[o if o >= 0 else c for o, c in zip(a, b)] for a, b in zip(over, cells)]


def mirrored(rng: random.Random, columns: int, rows: int, count: int) -> Cells:
    """A medallion: a quarter drawn by chance and turned over both ways."""
    w, h = (columns + 1) // 2, (rows + 1) // 2
    image, draw = _canvas(w, h)
    for _ in range(rng.randint(6, 14)):
        x, y, r = rng.randrange(w), rng.randrange(h), rng.randint(2, max(3, w // 4))
        colour = rng.randint(1, count)
        kind = rng.randrange(4)
        if kind == 0:
            draw.polygon([(x - r, y), (x, y - r), (x + r, y), (x, y + r)], outline=colour)
        elif kind == 1:
            draw.ellipse([x - r, y - r, x + r, y + r], fill=colour)
        elif kind == 2:
            draw.line([x - r, y - r, x + r, y + r], fill=colour)
        else:
            draw.polygon([(x - r, y), (x, y - r), (x + r, y), (x, y + r)], fill=colour)
    quarter = _cells(image)
    top = [row + row[::-1][columns % 2:] for row in quarter]
    return top + top[::-1][rows % 2:]


def band(rng: random.Random, columns: int, rows: int, count: int) -> Cells:
    """Repeats side by side, as on towels and bell pulls."""
    cells: Cells = []
    while len(cells) < rows:
        height, period = rng.randint(3, 12), rng.choice([4, 6, 8, 10, 14, 18])
        unit = mirrored(rng, period, height, count)
        cells += [[row[x % period] for x in range(columns)] for row in unit]
        if rng.random() < 0.6:
            cells.append([rng.randrange(count)] * columns)
        cells.append([-1] * columns)
    return cells[:rows]


def letters(rng: random.Random, columns: int, rows: int, count: int) -> Cells:
    image, draw = _canvas(columns, rows)
    font = rng.choice(["book", "plain-bold", "dejavu-serif", "times", "dejavu-bold"])
    size = rng.choice([10, 12, 14, 18])
    face = ImageFont.truetype(FONTS[font].path, size)
    text = rng.choice(["ABCDEFGHIJKLMNOPQRSTUVWXYZ 1234567890", "abcdefghijklmnopqrstuvwxyz & 0123456789",
                       "AaBbCcDdEeFfGgHhIiJjKkLlMmNnOoPpQqRrSsTtUuVvWwXxYyZz"])
    x, y, k = 2, 1, 0
    while y + size < rows:
        width = int(draw.textlength(text[k], font=face)) + 2
        if x + width > columns:
            x, y = 2, y + size + 2
            continue
        draw.text((x, y), text[k], font=face, fill=rng.randint(1, count))
        x, k = x + width, (k + 1) % len(text)
    draw.rectangle([0, 0, columns - 1, rows - 1], outline=rng.randint(1, count))
    return _cells(image)


def border(rng: random.Random, columns: int, rows: int, count: int) -> Cells:
    depth, period = rng.randint(4, max(4, min(columns, rows) // 5)), rng.choice([4, 5, 6, 8])
    unit = mirrored(rng, period, depth, count)
    cells = figures(rng, columns, rows, count) if rng.random() < 0.6 else [[-1] * columns for _ in range(rows)]
    for y in range(rows):
        for x in range(columns):
            edge = min(x, y, columns - 1 - x, rows - 1 - y)
            if edge < depth:
                along = x if edge in (y, rows - 1 - y) else y
                cells[y][x] = unit[edge][along % period]
    return cells


def scattered(rng: random.Random, columns: int, rows: int, count: int) -> Cells:
    """A few small spots on much bare cloth."""
    image, draw = _canvas(columns, rows)
    pick = lambda: rng.randint(1, count)
    for _ in range(rng.randint(4, 8)):
        size = rng.randint(8, 14)
        rng.choice(_FIGURES)(draw, rng, rng.randint(5, columns - 5), rng.randint(5, rows - 5), size, pick)
    return _cells(image)


def quilt(rng: random.Random, columns: int, rows: int, count: int) -> Cells:
    size = rng.choice([6, 8, 9, 12])
    a, b, kind = rng.randint(1, 3), rng.randint(1, 3), rng.randrange(3)
    def at(x: int, y: int) -> int:
        u, v = x % size, y % size
        ring = (abs(2 * u - size) + abs(2 * v - size)) // 4 if kind == 0 else max(u, v) if kind == 1 else (u * a + v * b) // 3
        return (ring + (x // size) * a + (y // size) * b) % count
    return [[at(x, y) for x in range(columns)] for y in range(rows)]


MOTIFS = {"figures": figures, "full": scene_full, "mirrored": mirrored, "band": band, "letters": letters,
          "border": border, "scattered": scattered, "quilt": quilt}


def used_only(cells: Cells) -> tuple[Cells, int]:
    """Numbers the symbols that are really used from 0."""
    order: dict[int, int] = {}
    for row in cells:
        for v in row:
            if v >= 0:
                order.setdefault(v, len(order))
    return [[order.get(v, -1) for v in row] for row in cells], len(order)


def outlines(rng: random.Random, cells: Cells) -> list[list[float]]:
    """Backstitch along the edges of stitched parts, and a few free slanting runs."""
    rows, columns = len(cells), len(cells[0])
    bare = lambda x, y: not (0 <= x < columns and 0 <= y < rows) or cells[y][x] < 0
    lines: list[list[float]] = []
    for y in range(1, rows):
        x = 0
        while x < columns:
            start = x
            while x < columns and bare(x, y) != bare(x, y - 1):
                x += 1
            if x > start and rng.random() < 0.8:
                lines.append([start, y, x, y])
            x += 1
    for x in range(1, columns):
        y = 0
        while y < rows:
            start = y
            while y < rows and bare(x, y) != bare(x - 1, y):
                y += 1
            if y > start and rng.random() < 0.8:
                lines.append([x, start, x, y])
            y += 1
    for _ in range(rng.randint(0, 6)):
        dx, dy = rng.choice([(1, 1), (-1, 1), (1, 2), (2, 1), (-2, 1)])
        n = rng.randint(1, 3)
        x, y = rng.randint(6, max(6, columns - 7)), rng.randint(0, rows - 7)
        if 0 <= x + dx * n <= columns:
            lines.append([x, y, x + dx * n, y + dy * n])
    return lines
