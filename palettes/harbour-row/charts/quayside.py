# SPDX-License-Identifier: MIT
"""The evening's boathouses on their quay, and the boat at anchor. The light comes from the left."""

from random import Random

from .canvas import disc, rect, spans

LEFT = 72  # where the quay begins
RIGHT = 145
GROUND = 75  # first row of the quay, below the houses
WATER = 83


def window(chart, lines, x, y, glass, width=3, height=4, frame="W"):
    chart.fill(rect(x - 1, y - 1, width + 2, height + 2), frame)
    chart.fill(rect(x, y, width, height), glass)
    lines.path("X", [(x + width / 2, y), (x + width / 2, y + height)])
    lines.path("X", [(x, y + height / 2), (x + width, y + height / 2)])
    outline(lines, x, y, width, height, "X")


def outline(lines, x, y, width, height, symbol="D"):
    lines.path(symbol, [(x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y)])


def door(chart, lines, x, y, width, leaf):
    height = GROUND - y
    chart.fill(rect(x, y, width, height), leaf)
    outline(lines, x, y, width, height)
    lines.path("D", [(x + width / 2, y), (x + width / 2, GROUND)])


def wall(chart, lines, x, width, top, light, shade, dark=2):
    chart.fill(rect(x, top, width, GROUND - top), light)
    chart.fill(rect(x + width - dark, top, dark, GROUND - top), shade)
    lines.path("D", [(x, top), (x, GROUND)])
    lines.path("D", [(x + width, top), (x + width, GROUND)])


def gable(chart, lines, middle, half, eaves, light, verge, steep=1):
    """A front gable, one stitch wider than the wall on either side; `verge` is its left and right roof edge."""
    ridge = eaves - (half + 1) * steep
    for row in range(ridge, eaves):
        reach = (row - ridge) // steep
        chart.fill(rect(middle - reach, row, 2 * reach + 1, 1), light)
        edge = 2 if reach > 2 else reach + 1  # the apex is all verge
        chart.fill(rect(middle - reach, row, edge, 1), verge[0])
        chart.fill(rect(middle + reach + 1 - edge, row, edge, 1), verge[1])
    lines.path("D", [(middle - half, eaves), (middle, ridge), (middle + 1, ridge), (middle + half + 1, eaves)])


def hip(chart, lines, middle, widths, top, light, dark):
    """A roof seen from its long side: courses of slate, the left end catching the light."""
    cells = spans(middle, top, widths)
    chart.fill(cells, dark)
    for x, y in cells:
        course = (y - top) % 3
        if course == 0 or course == 1 and x < middle - widths[y - top] // 4:
            chart.fill([(x, y)], light)
    left, bottom = middle - widths[-1] // 2, top + len(widths)
    ridge = middle - widths[0] // 2
    corners = [(left, bottom), (ridge, top), (ridge + widths[0], top), (left + widths[-1], bottom), (left, bottom)]
    lines.path("D", corners)


def cream_house(chart, lines):
    wall(chart, lines, 76, 13, 55, "W", "C", 3)
    gable(chart, lines, 82, 7, 55, "W", "ZH")
    chart.fill(disc(82, 52, 1), "Y")
    window(chart, lines, 78, 58, "Y")
    window(chart, lines, 84, 58, "5", frame="C")
    window(chart, lines, 84, 67, "Y", frame="C")
    door(chart, lines, 77, 67, 4, "R")


def brick_house(chart, lines):
    wall(chart, lines, 89, 13, 43, "B", "R")
    hip(chart, lines, 95, [9, 9, 11, 11, 13, 13, 15], 36, "Z", "H")
    chart.fill(rect(97, 30, 3, 6), "R")
    chart.fill(rect(97, 30, 1, 6), "B")
    outline(lines, 97, 30, 3, 6)
    for row, glass in ((46, "YY"), (55, "5Y")):
        window(chart, lines, 91, row, glass[0])
        window(chart, lines, 97, row, glass[1])
    window(chart, lines, 97, 65, "5")
    door(chart, lines, 91, 66, 4, "K")
    chart.fill(rect(91, 64, 4, 2), "Y")


def slipway_house(chart, lines):
    wall(chart, lines, 102, 19, 57, "O", "O")
    hip(chart, lines, 111, [9, 11, 13, 15, 17, 19, 21], 50, "Z", "H")
    chart.fill(spans(111, 44, [1, 3, 5]), "H")
    chart.fill(rect(109, 47, 5, 3), "W")
    chart.fill(rect(110, 48, 3, 2), "Y")
    outline(lines, 109, 47, 5, 3)
    lines.path("D", [(109, 47), (111, 44), (112, 44), (114, 47)])
    chart.fill(rect(102, 57, 19, 1), "X")
    chart.fill(spans(111, 61, [5, 9, 11, 11, 13]) + rect(105, 66, 13, 9), "5")
    bow = spans(111, 63, [1, 3, 5, 9, 11, 9, 9, 7, 5, 3, 1])
    chart.fill(bow, "B")
    chart.fill([(x, y) for x, y in bow if (x, y - 1) not in bow], "W")
    lines.path("D", [(111.5, 64), (111.5, 74)])
    lines.path("X", [(102, 60), (121, 60)])  # planks
    for y, left, right in ((63, 106, 117), (66, 105, 118), (69, 105, 118), (72, 105, 118)):
        lines.path("X", [(102, y), (left, y)])
        lines.path("X", [(right, y), (121, y)])


def sail_loft(chart, lines):
    wall(chart, lines, 121, 11, 50, "M", "K")
    gable(chart, lines, 126, 6, 50, "M", "BR", 2)
    window(chart, lines, 125, 53, "Y", 3, 5)
    window(chart, lines, 125, 43, "5", 3, 3)
    chart.fill(rect(123, 62, 7, 1), "W")
    door(chart, lines, 124, 65, 5, "X")


def end_house(chart, lines):
    wall(chart, lines, 132, 13, 57, "W", "C", 2)
    hip(chart, lines, 138, [9, 11, 11, 13, 13, 13], 51, "T", "B")
    chart.fill(rect(134, 45, 3, 6), "R")
    outline(lines, 134, 45, 3, 6)
    window(chart, lines, 134, 60, "Y")
    window(chart, lines, 140, 60, "Y", frame="C")
    window(chart, lines, 140, 67, "5", frame="C")
    door(chart, lines, 134, 67, 4, "H")


def quay(chart, lines):
    chart.fill(rect(LEFT, GROUND, RIGHT - LEFT, 2), "C")
    chart.fill(rect(LEFT, GROUND + 2, RIGHT - LEFT, WATER - GROUND - 2), "Q")
    lines.path("D", [(LEFT, GROUND), (RIGHT, GROUND)])
    chance = Random("harbour evening quay")
    for y in range(GROUND + 2, WATER, 2):
        lines.path("X", [(LEFT, y), (RIGHT, y)])
        x = LEFT + 2 + int(4 * chance.random())
        while x < RIGHT - 2:
            lines.path("X", [(x, y), (x, min(y + 2, WATER - 1))])
            x += 4 + int(4 * chance.random())
    lines.path("D", [(LEFT, GROUND), (LEFT, WATER)])
    chart.fill(rect(LEFT, WATER - 1, RIGHT - LEFT, 1), "4")  # weed below the tide line

    chart.fill(rect(73, 61, 1, 14), "X")  # the lamp
    chart.fill(rect(72, 58, 3, 3), "Y")
    chart.fill([(73, 59)], "G")
    lines.path("D", [(72, 61), (72, 58), (73.5, 56), (75, 58), (75, 61), (72, 61)])
    lines.path("D", [(72, 58), (75, 58)])


def lamplight(chart):
    """What the lit windows and the lamp leave on the water."""
    chance = Random("harbour evening lamplight")
    for x in (73, 79, 86, 92, 98, 126, 134, 141):
        for y in range(WATER + 1, WATER + 14):
            fading = (y - WATER) / 20
            if chance.random() < 0.9 - fading:
                left = x - int(1.6 * chance.random() + 2 * fading * chance.random())
                right = x + 1 + int(1.6 * chance.random() + 2 * fading * chance.random())
                chart.fill(rect(left, y, right - left, 1), "A" if chance.random() < 0.7 else "Y")


def dinghy(chart, lines):
    chart.fill(rect(103, 87, 17, 1), "W")
    chart.fill(spans(111, 88, [17, 15, 11]), "B")
    chart.fill([(102, 86), (103, 86), (102, 87), (120, 87)], "W")
    chart.fill(spans(111, 91, [13, 9]), "5")
    lines.path("D", [(102, 86), (99.5, 84), (98, WATER)])


def cutter(chart, lines):
    mast, top = 34, 27
    chance = Random("harbour evening cutter")
    for y in range(87, 101):  # hull and sails in the water, broken by the ripples
        for _ in range(3):
            half = 1 + int(6 * chance.random())
            middle = 33 + round((19 - (y - 87)) * (chance.random() - chance.random()))
            chart.fill(rect(middle - half, y, 2 * half, 1), "5" if y < 90 else "B" if chance.random() < 0.5 else "4")

    for y in range(36, 77):
        left = round(20 - (y - 36) * 7 / 41)
        right = mast if y >= 44 else round(20 + (y - 36) * 14 / 8)
        chart.fill(rect(left, y, right - left, 1), "T")
        fold = mast - 3 - (y - 40) * 6 / 36
        chart.fill([(x, y) for x in range(left, right) if x > fold or y > 74], "B")
    for y in range(34, 77):
        right = round(36 + (y - 34) * 13 / 42)
        chart.fill(rect(36, y, right - 36, 1), "T")
        chart.fill([(x, y) for x in range(36, right) if x < 36 + (y - 44) / 6 or y > 74], "B")
    lines.path("X", [(13, 77), (34, 77)])  # boom and gaff
    lines.path("X", [(19, 35), (34, 44)])
    lines.path("X", [(20, 36), (13, 77)])
    lines.path("R", [(25, 39), (20, 77)])  # seams
    lines.path("R", [(30, 42), (27, 77)])
    for x in (17, 20, 23, 26, 29, 32):  # reef points
        lines.path("X", [(x, 66), (x, 67.5)])
    lines.path("D", [(35, 30), (50.5, 81)])  # stays
    lines.path("D", [(35, 33), (57, 80)])
    lines.path("D", [(34, 32), (20, 36)])

    chart.fill(rect(mast, top, 1, 54), "X")
    chart.fill(rect(29, top, 5, 2), "B")
    chart.fill(rect(27, top, 2, 1), "B")
    chart.fill(rect(22, 78, 15, 3), "W")  # cabin
    chart.fill(rect(22, 78, 15, 1), "X")
    for x in (24, 28, 32):
        chart.fill(rect(x, 79, 2, 1), "Y")
    chart.fill(rect(55, 80, 5, 1), "X")
    chart.fill(rect(11, 80, 4, 1), "5")
    chart.fill(rect(50, 80, 5, 1), "5")
    chart.fill(spans(33, 81, [44, 43, 41, 38, 34, 28]), "5")
    chart.fill(spans(33, 82, [43]), "W")
    chart.fill(spans(33, 86, [28]), "R")


def lighthouse(chart, lines):
    chart.fill(rect(8, 46, 3, 10), "W")
    chart.fill(rect(10, 46, 1, 10), "C")
    chart.fill(rect(8, 50, 3, 2), "B")
    chart.fill(rect(8, 44, 3, 2), "G")
    chart.fill([(9, 43)], "B")
    lines.path("D", [(8, 56), (8, 44), (9, 43), (10, 43), (11, 44), (11, 56)])
    lines.path("D", [(7, 46), (12, 46)])


def draw(chart, lines):
    lamplight(chart)
    lighthouse(chart, lines)
    for house in (slipway_house, cream_house, brick_house, end_house, sail_loft):
        house(chart, lines)
    quay(chart, lines)
    dinghy(chart, lines)
    cutter(chart, lines)
