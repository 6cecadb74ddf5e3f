"""What is stitched: which symbol lies in which cell, and the backstitch lines over them."""
import numpy as np


def _smooth_field(numbers, rows, columns, coarse):
    """Smooth noise, 0 to 1, with features about `coarse` cells wide."""
    small = numbers.random((rows // coarse + 3, columns // coarse + 3))
    y = np.arange(rows) / coarse
    x = np.arange(columns) / coarse
    iy, ix = y.astype(int), x.astype(int)
    fy, fx = (y - iy)[:, None], (x - ix)[None, :]
    top = small[iy][:, ix] * (1 - fx) + small[iy][:, ix + 1] * fx
    bottom = small[iy + 1][:, ix] * (1 - fx) + small[iy + 1][:, ix + 1] * fx
    return top * (1 - fy) + bottom * fy


def _patches(rng, numbers, rows, columns, count):
    field = _smooth_field(numbers, rows, columns, rng.choice([4, 6, 9, 14]))
    order = np.argsort(np.argsort(field.ravel())).reshape(rows, columns) / (rows * columns)
    cells = np.minimum((order * count).astype(int), count - 1)
    names = numbers.permutation(count)
    return names[cells]


def _house(cells, y, x, side, symbols):
    wall, roof, door = symbols
    for i in range(side // 2):
        cells[y + i, x + side // 2 - i:x + side // 2 + i + 1] = roof
    cells[y + side // 2:y + side, x + 1:x + side - 1] = wall
    cells[y + side - max(2, side // 4):y + side, x + side // 2 - 1:x + side // 2 + 1] = door


def _motif(rng, numbers, rows, columns, count):
    """A picture with most of the ground bare."""
    cells = np.full((rows, columns), -1)
    y, x = np.mgrid[0:rows, 0:columns]
    def any_symbol():
        return rng.randrange(count)
    for _ in range(rng.randint(2, 5)):
        cy, cx = rng.uniform(0.2, 0.8) * rows, rng.uniform(0.2, 0.8) * columns
        ry, rx = rng.uniform(0.08, 0.28) * rows, rng.uniform(0.08, 0.28) * columns
        away = np.sqrt(((y - cy) / ry) ** 2 + ((x - cx) / rx) ** 2)
        away = away * (1 + 0.4 * (_smooth_field(numbers, rows, columns, 4) - 0.5))
        for edge in (1.0, 0.72, 0.4):
            cells[away < edge] = any_symbol()
    least = min(rows, columns)
    if least > 18:
        side = rng.randint(8, max(8, least // 3))
        _house(cells, rng.randint(1, rows - side - 1), rng.randint(1, columns - side - 1), side,
               [any_symbol() for _ in range(3)])
    if rng.random() < 0.5:
        inset = rng.randint(1, 3)
        symbol, step = any_symbol(), rng.randint(1, 4)
        border = np.zeros_like(cells, bool)
        border[inset, inset:-inset] = border[-inset - 1, inset:-inset] = True
        border[inset:-inset, inset] = border[inset:-inset, -inset - 1] = True
        cells[border & ((x + y) % step == 0)] = symbol
    return cells


def _confetti(numbers, rows, columns, count, share):
    return np.where(numbers.random((rows, columns)) < share,
                    numbers.integers(0, count, (rows, columns)), -1)


def make_cells(rng, numbers, rows, columns, count, kind, coverage):
    """rows x columns, -1 for bare or the number of a symbol; every symbol comes at least once."""
    if kind == "patches":
        cells = _patches(rng, numbers, rows, columns, count)
        if coverage == "bare":
            cells = np.where(_smooth_field(numbers, rows, columns, 7) < 0.55, -1, cells)
    elif kind == "motif":
        cells = _motif(rng, numbers, rows, columns, count)
    elif kind == "confetti":
        cells = _confetti(numbers, rows, columns, count, rng.choice([0.15, 0.4, 0.97]))
    else:
        cells = _motif(rng, numbers, rows, columns, count)
        sprinkled = _confetti(numbers, rows, columns, count, 0.06)
        cells = np.where(sprinkled >= 0, sprinkled, cells)
    inner = np.ones((rows, columns), bool)
    if coverage == "full":
        ground = np.where(_smooth_field(numbers, rows, columns, 10) < 0.5, 0, min(1, count - 1))
        cells = np.where(cells < 0, ground, cells)
    else:
        edge = rng.randint(1, 4) if kind != "motif" else 1
        inner[:edge] = inner[-edge:] = inner[:, :edge] = inner[:, -edge:] = False
        cells = np.where(inner, cells, -1)
    places = np.argwhere(inner)
    for symbol in range(count):
        missing = 3 - int((cells == symbol).sum())
        for _ in range(max(0, missing)):
            cells[tuple(places[numbers.integers(0, len(places))])] = symbol
    for symbol in range(count):  # a later symbol may have taken the last cell of an earlier one
        if not (cells == symbol).any():
            often = np.bincount(cells[cells >= 0], minlength=count).argmax()
            spots = np.argwhere(cells == often) if (cells >= 0).any() else places
            cells[tuple(spots[numbers.integers(0, len(spots))])] = symbol
    return cells.astype(int)


def _runs(marks, horizontal):
    lines = []
    for i, row in enumerate(marks):
        start = None
        for j in range(len(row) + 1):
            on = j < len(row) and row[j]
            if on and start is None:
                start = j
            elif not on and start is not None:
                lines.append([start, i, j, i] if horizontal else [i, start, i, j])
                start = None
    return lines


def make_backstitch(rng, numbers, cells):
    """Straight lines from corner to corner, [x1, y1, x2, y2] in cells; none lies on another."""
    rows, columns = cells.shape
    picked = rng.randrange(int(cells.max()) + 1) if cells.max() >= 0 else -1
    inside = np.pad(cells == picked, 1)
    across = inside[1:, 1:-1] != inside[:-1, 1:-1]     # (rows + 1) x columns
    upright = (inside[1:-1, 1:] != inside[1:-1, :-1])  # rows x (columns + 1)
    share = _smooth_field(numbers, rows + 1, columns + 1, 8) < rng.choice([0.45, 0.6])
    across &= share[:, :-1]
    upright &= share[:-1, :]
    lines = _runs(across, True) + _runs(upright.T, False)
    rng.shuffle(lines)
    lines = lines[:rng.choice([40, 80, 160])]
    used = set()
    for _ in range(rng.randint(4, 14)):
        dx, dy = rng.choice([(1, 1), (1, 1), (3, 3), (2, 1), (1, 2), (5, 5)])
        x, y = rng.randint(1, columns - 7), rng.randint(1, rows - 7)
        touched = {(x + i, y + j) for i in range(-1, dx + 1) for j in range(-1, dy + 1)}
        if touched & used:
            continue
        used |= touched
        lines.append([x, y, x + dx, y + dy] if rng.random() < 0.5 else [x, y + dy, x + dx, y])
    return lines
