# SPDX-License-Identifier: MIT
"""The chart in many colours: a boat and a row of boathouses as the sun goes down, fading out into bare fabric."""

from math import sin
from random import Random

from . import quayside
from .canvas import Canvas, disc, rect

WIDTH, HEIGHT, BORDER = 150, 110, 5
HORIZON = 62
SUN = (62, 59, 8.4)

SKY = "ASPL"  # from the horizon up; above it the fabric is left bare
SEA = "12345"  # from the horizon down

# Symbol, code, strands. One strand: for backstitch only.
KEY = [
    ("A", "LF-531", 2),
    ("S", "LF-564", 2),
    ("P", "LF-614", 2),
    ("L", "LF-724", 2),
    ("G", "LF-491", 2),
    ("V", "LF-722", 2),
    ("N", "LF-721", 2),
    ("1", "LF-317", 2),
    ("2", "LF-316", 2),
    ("3", "LF-315", 2),
    ("4", "LF-224", 2),
    ("5", "LF-276", 2),
    ("H", "LF-218", 2),
    ("Z", "LF-220", 2),
    ("B", "LF-571", 2),
    ("R", "LF-570", 2),
    ("T", "LF-572", 2),
    ("W", "LF-103", 2),
    ("C", "LF-121", 2),
    ("K", "LF-365", 2),
    ("M", "LF-366", 2),
    ("O", "LF-507", 2),
    ("Y", "LF-500", 2),
    ("Q", "LF-132", 2),
    ("X", "LF-761", 2),
    ("D", "LF-216", 1),
]

BAYER = ((0, 8, 2, 10), (12, 4, 14, 6), (3, 11, 1, 9), (15, 7, 13, 5))


def ordered(x, y):
    """The threshold of ordered dithering, from 0 to 1."""
    return (BAYER[y % 4][x % 4] + 0.5) / 16


def sky(chart):
    top = 14
    for x, y in rect(BORDER, BORDER, WIDTH - 2 * BORDER, HORIZON - BORDER):
        height = (HORIZON - y + 1.6 * sin(x / 17) + 1.1 * sin(x / 7.3 + 2)) / (HORIZON - top)
        # Strokes of three stitches, not single ones: fewer threads to end, and it reads as cloud.
        step = height * 4.6 - 0.35 + (0.7 + 0.6 * height**3) * (ordered(x // 3, y) - 0.5)
        shade = max(0, int(step))
        if shade < len(SKY):
            chart.fill([(x, y)], SKY[shade])


def sun(chart):
    x, y, radius = SUN
    chart.fill(disc(x, y, radius), "G")


def hills(chart):
    for x in range(BORDER, WIDTH - BORDER):
        far = 5.5 + 2.6 * sin(x / 13 + 0.4) + 1.4 * sin(x / 5.1)
        far *= min(1.0, max(0.18, abs(x - SUN[0] + 2) / 26))
        near = 7.5 - (x - BORDER) * 0.24 + 0.8 * sin(x / 3.1)
        chart.fill(rect(x, HORIZON - round(far), 1, round(far)), "V")
        if near > 0.5:
            chart.fill(rect(x, HORIZON - round(near), 1, round(near)), "N")


def sea(chart):
    bottom = HEIGHT - BORDER
    chance = Random("harbour evening sea")
    for y in range(HORIZON, bottom):
        depth = (y - HORIZON) / (bottom - HORIZON)
        x = BORDER - int(9 * chance.random())
        while x < WIDTH - BORDER:
            stroke = 3 + int((3 + 7 * depth) * chance.random())
            shade = depth * 4.5 + 0.1 + 1.15 * (chance.random() - 0.5)
            if x > quayside.LEFT and y < quayside.WATER + 14:
                shade += 1.1 * (1 - (y - quayside.WATER) / 14)  # the row of houses lies in the water
            cells = [(i, y) for i in range(x, x + stroke) if BORDER <= i < WIDTH - BORDER]
            frayed = 0 if y < bottom - 7 else (y - bottom + 8) / 8.5
            if chance.random() >= frayed:
                chart.fill(cells, SEA[min(4, max(0, int(shade)))])
            x += stroke


def glitter(chart):
    chance = Random("harbour evening glitter")
    for y in range(HORIZON, HEIGHT - BORDER - 5):
        depth = y - HORIZON
        reach = 7.5 - 0.1 * depth if depth < 5 else 3 + 0.17 * depth
        for _ in range(1 + (depth < 26) + (depth < 6)):
            middle = SUN[0] + reach * (chance.random() - chance.random())
            half = (4.5 - depth * 0.08) * (0.4 + 0.6 * chance.random())
            cells = [(x, y) for x in range(round(middle - half), round(middle + half) + 1)]
            chart.fill(cells, "G" if chance.random() < 0.5 - depth * 0.012 else "A" if depth < 30 else "S")


GULLS = [(71, 33), (108, 30), (58, 21)]
NEAR_GULL = (80, 24)


def gulls(lines):
    small = [(-4, -1), (-2.5, -2), (-1, -1), (0, 0), (1, -1), (2.5, -2), (4, -1)]
    large = [(-6, -1), (-5, -2.5), (-3, -3), (-1, -1.5), (0, 0), (1, -1.5), (3, -3), (5, -2.5), (6, -1)]
    for x, y in GULLS:
        lines.path("D", [(x + i, y + j) for i, j in small])
    lines.path("D", [(NEAR_GULL[0] + i, NEAR_GULL[1] + j) for i, j in large])


class Lines:
    """Backstitch: (x1, y1, x2, y2, symbol), in cells."""

    def __init__(self):
        self.rows = []

    def path(self, symbol, points):
        for one, other in zip(points, points[1:]):
            self.rows.append((*one, *other, symbol))


def draw():
    chart, lines = Canvas(), Lines()
    sky(chart)
    sun(chart)
    hills(chart)
    sea(chart)
    glitter(chart)
    quayside.draw(chart, lines)
    gulls(lines)
    return chart, lines.rows
