"""What is stitched: fields of numbers (-1 bare) for figures, letters, bands, full pictures and geometry."""

import numpy as np
from PIL import Image, ImageDraw, ImageFont

LETTER_FONTS = ["/usr/share/fonts/truetype/dejavu/DejaVuSerif-Bold.ttf", "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
                "/usr/share/fonts/truetype/liberation/LiberationSerif-Italic.ttf",
                "/usr/share/fonts/truetype/liberation/LiberationSans-Bold.ttf"]


def smooth(rng, rows: int, columns: int, grain: float) -> np.ndarray:
    """A smooth field of chance between 0 and 1 whose hills are about `grain` cells wide."""
    small = rng.random((max(3, int(rows / grain) + 2), max(3, int(columns / grain) + 2))).astype(np.float32)
    field = np.asarray(Image.fromarray(small).resize((columns, rows), Image.BICUBIC))
    return (field - field.min()) / max(1e-6, float(field.max() - field.min()))


def full(rng, columns: int, rows: int, count: int) -> np.ndarray:
    field = smooth(rng, rows, columns, rng.uniform(6, 14)) + 0.4 * smooth(rng, rows, columns, rng.uniform(3, 5))
    field += rng.uniform(0, 0.12) * rng.random((rows, columns))
    order = np.argsort(np.argsort(field, axis=None)).reshape(field.shape) / field.size
    return np.minimum((order * count).astype(int), count - 1)


def blob(rng, columns: int, rows: int, count: int) -> np.ndarray:
    """A figure of layered round shapes, as a flower, a berry or a bird is built."""
    cells = np.full((rows, columns), -1)
    y, x = np.mgrid[0:rows, 0:columns] + 0.5
    for k in range(int(rng.integers(3, 8)) + columns * rows // 500):
        cx, cy = rng.uniform(0.1, 0.9) * columns, rng.uniform(0.1, 0.9) * rows
        radius = rng.uniform(3, max(4, min(14, 0.3 * min(columns, rows))))
        petals, depth, turn = int(rng.integers(0, 8)), rng.uniform(0, 0.4), rng.uniform(0, 6)
        angle, far = np.arctan2(y - cy, x - cx), np.hypot((x - cx) * rng.uniform(0.7, 1.4), y - cy)
        edge = radius * (1 - depth + depth * np.cos(petals * angle + turn))
        rings, first = int(rng.integers(1, 4)), int(rng.integers(count))
        for ring in range(rings):
            cells[far < edge * (1 - ring / rings)] = (first + ring) % count
    return cells


def letters(rng, columns: int, rows: int, count: int) -> np.ndarray:
    cells = np.full((rows, columns), -1)
    height = int(rng.integers(8, max(9, min(18, rows // 2 + 1))))
    font = ImageFont.truetype(LETTER_FONTS[int(rng.integers(len(LETTER_FONTS)))], int(height * 1.1))
    alphabet, k, top = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz1234567890", int(rng.integers(26)), 1
    while top + height <= rows:
        left = 1
        while True:
            letter = alphabet[k % len(alphabet)]
            box = font.getbbox(letter)
            if left + box[2] >= columns:
                break
            picture = Image.new("L", (box[2] + 2, height))
            ImageDraw.Draw(picture).text((0, -box[1] + max(0, (height - box[3] + box[1]) // 2)), letter, 255, font)
            part = np.asarray(picture) > 110
            wide = min(part.shape[1], columns - left)
            cells[top:top + height, left:left + wide][part[:, :wide]] = k % count
            left, k = left + box[2] + int(rng.integers(1, 3)), k + 1
        top += height + int(rng.integers(1, 4))
    return cells


def bands(rng, columns: int, rows: int, count: int) -> np.ndarray:
    """Borders under each other: every band repeats a small figure that is the same on both sides."""
    cells = np.full((rows, columns), -1)
    top = int(rng.integers(0, 3))
    while top < rows:
        high, half = int(rng.integers(3, 12)), int(rng.integers(3, 9))
        field = full(rng, half, high, 5)
        tile = np.where(field >= rng.integers(1, 4), (field + rng.integers(count)) % count, -1)
        tile = np.concatenate([tile, tile[:, ::-1]], axis=1)
        strip = np.tile(tile, (1, columns // tile.shape[1] + 1))[:, :columns]
        high = min(high, rows - top)
        cells[top:top + high] = strip[:high]
        top += high + int(rng.integers(0, 3))
    return cells


def star(rng, columns: int, rows: int, count: int) -> np.ndarray:
    """Geometry with four equal corners, as in cushions and doilies."""
    field = full(rng, (columns + 1) // 2, (rows + 1) // 2, count + 1 + int(rng.integers(2)))
    field = np.concatenate([field, field[:, ::-1][:, columns % 2:]], axis=1)
    field = np.concatenate([field, field[::-1][rows % 2:]], axis=0)
    return np.where(field < count, field, -1)


def house(rng, columns: int, rows: int, count: int) -> np.ndarray:
    cells = np.full((rows, columns), -1)
    ground = int(rows * rng.uniform(0.75, 0.9))
    cells[ground:, :] = full(rng, columns, rows - ground, 2) % count
    left = int(rng.integers(1, 4))
    while left + 8 < columns:
        wide, high = int(rng.integers(7, 16)), int(rng.integers(5, max(6, rows // 2)))
        wide = min(wide, columns - left - 1)
        wall, roof, pane = (int(v) for v in rng.integers(count, size=3))
        cells[max(0, ground - high):ground, left:left + wide] = wall
        for k in range((wide + 1) // 2):
            row = ground - high - 1 - k
            if row >= 0:
                cells[row, left + k:left + wide - k] = roof
        for x in range(left + 2, left + wide - 2, 4):
            cells[max(0, ground - high + 2):max(0, ground - high + 2) + 3, x:x + 2] = pane
        left += wide + int(rng.integers(1, 7))
    sky = rng.random((rows, columns)) < 0.02
    cells[sky & (cells < 0)] = int(rng.integers(count))
    return cells


KINDS = {"full": full, "blob": blob, "letters": letters, "bands": bands, "star": star, "house": house}


def make(rng, kind: str, columns: int, rows: int, count: int) -> np.ndarray:
    """Cells of a motif, its numbers counted without gaps in the order of their first cell by size of number."""
    cells = KINDS[kind](rng, columns, rows, count)
    if (cells >= 0).mean() < 0.03:
        cells = np.where(blob(rng, columns, rows, count) >= 0, blob(rng, columns, rows, count), cells)
    if (cells >= 0).mean() < 0.03:
        cells = star(rng, columns, rows, count)
    used = sorted(set(cells.ravel().tolist()) - {-1})
    table = {old: new for new, old in enumerate(used)} | {-1: -1}
    return np.vectorize(table.get)(cells)


def outline(rng, cells: np.ndarray) -> list[list[float]]:
    """Backstitch around the stitched areas of one part of the motif: straight runs along cell edges, and a few slanted."""
    rows, columns = cells.shape
    x0, y0 = int(columns * rng.uniform(0, 0.3)), int(rows * rng.uniform(0, 0.3))
    x1, y1 = int(columns * rng.uniform(0.6, 1)), int(rows * rng.uniform(0.6, 1))
    part = np.full((rows + 2, columns + 2), False)
    part[1 + y0:1 + y1, 1 + x0:1 + x1] = cells[y0:y1, x0:x1] >= 0
    lines: list[list[float]] = []
    for flat in (True, False):
        area = part if flat else part.T
        for k in range(area.shape[0] - 1):
            edge = (area[k] != area[k + 1]).astype(int)
            turns = np.flatnonzero(np.diff(np.concatenate([[0], edge, [0]])))
            for a, b in zip(turns[::2], turns[1::2]):
                lines.append([float(a - 1), float(k), float(b - 1), float(k)] if flat else [float(k), float(a - 1), float(k), float(b - 1)])
    for _ in range(int(rng.integers(2, 7))):
        length = int(rng.integers(2, 5))
        if columns > 12 and rows > 12:
            x, y = int(rng.integers(1, columns - 6)), int(rng.integers(6, rows - 6))
            lines.append([float(x), float(y), float(x + length), float(y + length * int(rng.choice([-1, 1])))])
    return lines
