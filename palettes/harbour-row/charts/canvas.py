# SPDX-License-Identifier: MIT
"""A sparse canvas of stitches. Cells are (x, y), y downwards; a cell that holds nothing is bare ground."""


class Canvas:
    def __init__(self):
        self.cells = {}  # (x, y) -> symbol of a key row

    def fill(self, cells, symbol, texture=None):
        """Stitches `cells`; where `texture(x, y)` is false the ground is left bare."""
        for x, y in cells:
            if texture is None or texture(x, y):
                self.cells[x, y] = symbol
            else:
                self.cells.pop((x, y), None)

    def clear(self, cells):
        for cell in cells:
            self.cells.pop(cell, None)

    def stamp(self, x, y, art, symbols):
        """Draws lines of text with their top left at (x, y): a letter stands for `symbols[letter]`, a dot
        leaves the ground bare, a blank changes nothing."""
        for row, line in enumerate(art.strip("\n").split("\n"), y):
            for column, letter in enumerate(line, x):
                if letter == ".":
                    self.cells.pop((column, row), None)
                elif letter != " ":
                    self.cells[column, row] = symbols[letter]

    def paste(self, other, x, y):
        for (column, row), symbol in other.cells.items():
            self.cells[column + x, row + y] = symbol


def rect(x, y, width, height):
    return [(column, row) for row in range(y, y + height) for column in range(x, x + width)]


def spans(x, y, widths):
    """Rows of these widths, centred on the column `x`, from row `y` down; odd widths stay centred."""
    return [cell for row, width in enumerate(widths, y) for cell in rect(x - width // 2, row, width, 1)]


def disc(x, y, radius):
    """Cells whose middle lies within `radius` of the middle of (x, y)."""
    reach = range(-int(radius), int(radius) + 1)
    return [(x + i, y + j) for j in reach for i in reach if i * i + j * j <= radius * radius]


def unrolled(art):
    """Lines of art, where `#.# 4` stands for four lines `#.#`."""
    lines = []
    for line in art.split("\n"):
        row, _, count = line.partition(" ")
        lines += [row] * int(count or 1) if row else []
    return lines


def mirrored(art):
    """Art given by its left half with the middle column last, made whole."""
    return "\n".join(line + line[-2::-1] for line in unrolled(art))
