# SPDX-License-Identifier: MIT
"""The chart in one colour: nine boathouses on a quay, the moon, gulls, and a boat on its rope."""

from .canvas import Canvas, disc, rect
from .houses import INK, ROW, STAMP

KEY = [(INK, "LF-218", 2)]
APART = 3  # bare stitches between motifs
GROUND = 67  # the row below the houses

BOAT = """
#............................##
##..........................###
####..##...........##.....#####
.##############################
...............................
.#############################.
...##########################..
.....######################....
"""

SWAN = """
..###..........
.##.#..........
##.##.......#..
...##....####..
...#...#######.
..##.########..
..############.
...##########..
"""

GULLS = [
    (20, 10, "..##.......##..\n.####.....####.\n##..##...##..##\n#....##.##....#\n......###......\n.......#......."),
    (104, 24, ".##.....##.\n####...####\n#..##.##..#\n....###....\n.....#....."),
    (142, 10, "..##.......##..\n.####.....####.\n##..##...##..##\n#....##.##....#\n......###......\n.......#......."),
]


def moon(chart, x, y):
    chart.fill(sorted(set(disc(x, y, 9.3)) - set(disc(x + 5, y - 2, 8.2))), INK)


def quay(chart, width):
    y = GROUND + APART
    chart.fill(rect(APART, y, width, 2), INK, lambda x, _: (x - APART) % 15 != 7)
    for course, (top, height, lengths) in enumerate(((y + 3, 3, (7, 5, 8, 6, 9, 5)), (y + 7, 2, (9, 6, 11, 8, 7)))):
        x, stone = APART, course
        while x < APART + width:
            left = APART + width - x
            length = lengths[stone % len(lengths)] if left > 15 else left if left < 10 else left // 2
            chart.fill(rect(x, top, length, height), INK)
            if height == 3:
                chart.clear([(i, j) for i in (x, x + length - 1) for j in (top, top + 2)])
            x, stone = x + length + 1, stone + 1


def water(chart, width):
    """Ripples of five stitches and three, a row lower; those too near to boat or swan are left out whole."""
    taken = set(chart.cells)
    for line, y in enumerate((84, 87, 90, 93)):
        for start in range(APART - line * 3, APART + width, 8):
            for ripple in (rect(start, y, 5, 1), rect(start + 5, y + 1, 3, 1)):
                ripple = [(x, y) for x, y in ripple if APART <= x < APART + width]
                near = {(x + i, y + j) for x, y in ripple for i in range(-3, 4) for j in range(-3, 4)}
                if len(ripple) > 1 and taken.isdisjoint(near):
                    chart.fill(ripple, INK)


def draw():
    chart = Canvas()
    x = APART
    for build in ROW:
        house = build()
        left = min(column for column, _ in house.cells)
        right = max(column for column, _ in house.cells)
        chart.paste(house, x - left, GROUND)
        x += right - left + 1 + APART
    quay(chart, x - 2 * APART)
    moon(chart, 57, 16)
    for gull in GULLS:
        chart.stamp(*gull, STAMP)
    chart.stamp(16, 79, "##\n .##\n  ..##\n", STAMP)
    chart.stamp(22, 82, BOAT, STAMP)
    chart.stamp(122, 82, SWAN, STAMP)
    water(chart, x - 2 * APART)
    return chart, x, 98
