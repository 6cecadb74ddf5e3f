# SPDX-License-Identifier: MIT
"""Nine boathouses in one colour, each on a canvas of its own: x 0 is its middle, the ground is at y 0.

Pieces of one house are parted by one bare stitch, so that bridging gaps of one makes it one motif.
"""

from .canvas import Canvas, mirrored, rect, spans, unrolled

INK = "H"
STAMP = {"#": INK}


def standing(*arts):
    """A house of art, upper part first, its lowest line on the ground."""
    house = Canvas()
    lines = [line for art in arts for line in art.strip("\n").split("\n")]
    for row, line in enumerate(lines, -len(lines)):
        house.stamp(-(len(line) // 2), row, line, STAMP)
    return house


def slates(x, y):
    """Solid, with single bare stitches in staggered rows, as of slates on their nails."""
    course, row = divmod(y, 2)
    return row != 0 or (x + course % 2 * 2) % 4 != 0


def net_hut():
    gable = """
.......#
......##
.....###
....###.
...###.#
..###.##
.###.###
###.##..
##.###..
........
"""
    wall = """
.#############. 2
...............
.#############.
.#.....#######.
.#.###.#..#..#. 2
.#.###.#######.
.#.###.#..#..#.
.#.##..#..#..#.
.#.###.#######.
.#.###.........
.#.###.#######. 3
"""
    house = standing(mirrored(gable), "\n".join(unrolled(wall)))
    house.stamp(0, -33, "##\n########\n######.\n#####\n######.\n########\n#\n#\n#\n#", STAMP)
    return house


def sail_loft():
    art = """
......# 2
.....## 2
....### 2
...##.# 2
..##.## 2
.##.### 2
##.#### 2
.......
.######
.##...# 3
.##..## 3
.##....
.###### 2
.......
.######
.##....
.##.##. 2
.##.#..
.##.##. 2
.##....
.######
.......
.######
.##....
.##.##. 3
.##.#..
.##.##. 4
"""
    return standing(mirrored(art))


def slipway_house():
    bow = """
......#
.....##
...####
.######
#######
.####.#
.###.##
..#.###
..#####
..###.#
...#.##
....###
.....##
......#
"""
    vane = "...#\n...#\n..##\n.###\n....\n.#.#\n.#.#\n####"
    house = Canvas()
    house.stamp(-3, -40, mirrored(vane), STAMP)
    house.fill(spans(0, -31, [9, 11, 13, 15, 17, 19, 21]), INK, slates)
    house.fill(rect(-9, -23, 19, 23), INK)
    house.clear(rect(-9, -20, 19, 1))
    house.clear(spans(0, -17, [5, 9, 11, 13, 13]) + rect(-7, -12, 15, 12))
    for y in (-11, -7, -3):
        house.clear([(-9, y), (-8, y), (8, y), (9, y)])
    house.stamp(-6, -15, mirrored(bow), STAMP)
    house.fill(rect(-6, -1, 13, 1), INK)
    return house


def stepped_house():
    art = """
......##
......## 2
....####
....##..
....##..
....####
..###### 3
..##....
########
########
########
........
.#######
.###.###
.##.#.## 2
.#######
.##.#.## 2
.#######
.#.....#
.#######
........
.#######
.###....
.##..###
.##.##.#
.##.....
.##.###. 3
.##.##..
.##.###. 5
"""
    return standing(mirrored(art))


def bell_tower():
    fish = """
#   ####
## ##.###
 ########
## #####
#   #
    #
    #
    #
"""
    house = Canvas()
    house.stamp(-4, -64, fish, STAMP)
    spire = [1, 1, 3, 3, 3, 5, 5, 5, 7, 7, 9, 11]
    house.fill(spans(0, -57, spire), INK, lambda x, y: y not in (-50, -47))  # two courses left bare
    house.stamp(-4, -44, mirrored("#####\n##...\n#...#\n#..##\n#..##\n#..##\n#.###\n#...#\n#####"), STAMP)
    house.fill(rect(-5, -34, 11, 2), INK)
    house.fill(rect(-4, -31, 9, 31), INK)
    house.stamp(-4, -31, mirrored("#####\n##...\n#...#\n#...#\n#...#\n#....\n#....\n##...\n#####"), STAMP)
    house.stamp(0, -28, "##", STAMP)
    house.clear(rect(-4, -21, 9, 1))
    house.stamp(-2, -19, mirrored("##.\n#.#\n#.#\n###\n#.#\n#.#\n###"), STAMP)
    house.stamp(-3, -10, mirrored("##..\n#..#\n#.##\n#.##\n#.##\n#.#.\n#.##\n#.##\n#.##\n#.##"), STAMP)
    return house


def hull_house():
    wall = """
##########
#######...
##...##.## 2
#.###.#.##
#.###.#.#.
#.###.#.##
##...##.##
#######.## 2
..........
#######.## 2
"""
    house = standing(mirrored(wall))
    for x in range(-11, 12):
        droop = round(2 * (x / 11) ** 2)
        side = {-11: 0.45, -10: 0.8}.get(x, 1) if x < 2 else (1 - ((x - 2) / 9.6) ** 2) ** 0.5
        top = -14 - round(12 * side)
        house.fill(rect(x, top, 1, (-14 if abs(x) < 10 else -12) - top), INK)
        house.clear([(x, y + droop) for y in (-24, -21, -18) if y + droop > top])
    house.fill(rect(-7, -28, 11, 1), INK)
    return house


SMOKE = """
...##..
..####.
.##..##
.##...#
.##....
..##...
...##..
....##.
....##.
...##..
..##...
.##....
.#.....
"""


def lean_to():
    wall = """
.##..#..#..###. 2
.#############.
.##..#..#..###. 2
.#############.
...............
.############# 2
.#..#..#.....#. 2
.#######.###.#.
.#..#..#.###.#. 2
.#######.##..#.
...............
.#######.###.#. 2
"""
    house = Canvas()
    for x in range(15):
        top = -36 + x * 2 // 3
        house.fill(rect(x - 7, top, 1, 3), INK)
        if 0 < x < 14:
            house.fill(rect(x - 7, top + 4, 1, -top - 4), INK)
    lines = unrolled(wall)
    house.stamp(-7, -len(lines), "\n".join(lines), STAMP)
    house.stamp(-4, -40, "####\n.##.\n.##.\n.##.\n.##.\n.##.", STAMP)
    house.stamp(-3, -54, SMOKE, STAMP)
    house.stamp(-5, -27, "   .\n  . .\n   .\n .....\n   .\n.  .  .\n . . .\n  ...", STAMP)
    return house


def gambrel():
    art = """
......#
.....##
....###
...####
..#####
.######
.######
.###..#
.###...
.####..
.#####.
.######
#######
.......
.###### 2
.##....
.##.##. 2
.##....
.##.##. 2
.##....
.######
.......
.###### 2
.##....
.#.#...
.#..#..
.#...#.
.#....#
.#...#.
.#..#..
.#.#...
.##....
.######
"""
    return standing(mirrored(art))


def cottage():
    wall = """
.########
.########
.#####...
.#.#.#.## 2
.#####.##
.#.#.#.##
.#.#.#.#.
.#####.##
.........
.#####.## 3
"""
    dormer = """
..##
.###
.#..
.#.#
.#.#
.###
....
"""
    house = standing(mirrored(wall))
    house.fill(spans(0, -25, [9, 11, 13, 13, 15, 15, 15, 15, 17, 17, 17]), INK, slates)
    house.stamp(-3, -23, mirrored(dormer), STAMP)
    house.stamp(-6, -30, "####\n.##.\n.##.\n.##.\n.##.\n.##.\n.##.", STAMP)
    return house


ROW = [net_hut, sail_loft, slipway_house, stepped_house, bell_tower, hull_house, lean_to, gambrel, cottage]
