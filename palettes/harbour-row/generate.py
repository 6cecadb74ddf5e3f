#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Writes the demo data of Otherskein beside itself: three shade cards, four grounds and a chart key.

    python3 palettes/harbour-row/generate.py

Why: shade cards of real makers are not ours to give away, and a demo needs cards to search. So the three
lines are invented: makers, names, codes, colours and stash. Any likeness to a real shade is chance.

How: each line is a list of ramps (`ramps.py`). A ramp gives a hue, a strength and a range of lightness;
`dyed_colour.py` turns those into colours that dyed fibre could have; the fibre adds its cast and the dye
bath a little chance. A shade that falls too near to one already on the card goes back into the bath.

Every shade draws its chance from a generator seeded with its own code, so a run gives the same bytes each
time and a new ramp leaves the stash and stock of the others alone. Only `Random.random()` is used: it is
the one method that Python promises to keep the same from version to version.
"""

import csv
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

import ramps
from dyed_colour import delta_e00, dyed, hex_srgb, linear_srgb

HERE = Path(__file__).resolve().parent
SEED = "harbour-row 2"  # change it for another harvest of the same lines

APART = 1.3  # ΔE00 between any two shades of a card: no line sells one shade twice
BATH = 0.8  # how far a dye bath strays from its recipe, in L*, a* and b*
OUT_OF_STOCK, DISCONTINUED = 0.04, 0.02  # shares of a line
YEARS = (24, 25, 26)  # in the lot numbers

HEADER = ["code", "name", "L", "a", "b", "spread", "fibre", "finish", "strands", "length_m"]
HEADER += ["stash", "stock", "lot", "note"]

METALLIC_NOTE = "colour of a metallic shifts with the angle; reading is a mean"
VARIEGATED_NOTE = "reading is the mean of the run"


@dataclass(frozen=True)
class Line:
    """An invented thread line; `cast` is what the undyed fibre adds to a* and b*."""

    card: str
    prefix: str
    fibre: str
    finish: str
    strands: int
    length_m: int
    vividness: float  # of the chroma in dyed_colour.reach
    cast: tuple
    owned: float  # share of the shades that lie in the stash
    lot_letter: str
    spread: tuple  # ΔE00 of repeated readings, from-to
    plain: str
    metallic: str = ""
    variegated: str = ""


LINES = [
    Line("lanternfold-cotton", "LF", "cotton", "satin", 6, 8, 1.0, (0.0, 0.0), 0.25, "H",
         (0.1, 0.4), ramps.COTTON, ramps.COTTON_METALLIC, ramps.COTTON_VARIEGATED),
    Line("mossip-silk", "MS", "silk", "satin", 6, 5, 1.07, (0.4, -0.5), 0.10, "S",
         (0.2, 0.6), ramps.SILK, variegated=ramps.SILK_VARIEGATED),
    Line("tarrow-wool", "TW", "wool", "matt", 2, 10, 0.84, (0.3, 1.3), 0.10, "W",
         (0.3, 0.6), ramps.WOOL),
]  # fmt: skip

# The demo's story: these shades do not leave stash and stock to chance.
STASH = {"LF-218": 0, "LF-224": 1, "LF-235": 1.5}
STOCK = {"LF-218": "out", "LF-224": "in", "LF-235": "in", "MS-66": "in", "TW-139": "in"}
NOTES = {"LF-218": "last skein went on the boathouse roof"}

GROUNDS = [
    ("Navy linen", "#232c40", 36, 2, "linen"),
    ("Oatmeal linen", "#cdbfa6", 32, 2, "linen"),
    ("White evenweave", "#f4f3ee", 28, 2, "evenweave"),
    ("Moss block weave", "#6f7f58", 14, 1, "block"),
]

# The chart of a row of boathouses: thread, symbol, strands, stitches.
KEY = [
    ("Deep slate", "D", 2, 386),
    ("Harbour slate", "H", 2, 1240),
    ("Dry slate", "P", 2, 517),
    ("Red door", "R", 2, 168),
    ("Brick", "B", 2, 734),
    ("Lamp yellow", "Y", 2, 42),
    ("Kelp", "K", 2, 295),
    ("Sailcloth", "S", 2, 458),
    ("Open sea", "O", 2, 906),
    ("Tarred rope", "T", 1, 121),
]


@dataclass
class Shade:
    code: str
    name: str
    lab: tuple
    finish: str
    ramp_chance: float  # one draw for a whole ramp: people buy neighbours together
    chance: Random = field(repr=False)


def either_side(chance):
    """A draw from -1 to 1, near 0 most often."""
    return chance.random() - chance.random()


def between(chance, low, high):
    return low + (high - low) * chance.random()


def recipes(table):
    """Reads a table of `ramps.py`: ramp, number, name, hue, strength and lightness of each shade."""
    for row in table.splitlines():
        if not row or row.startswith("#"):
            continue
        number, hue, strength, lightness, names = row.split(maxsplit=4)
        names = names.split(", ")
        ends = [float(end) for end in lightness.split("-")]
        bend = between(Random(f"{SEED}/{names[0]}/bend"), 0.85, 1.15)  # no dyer steps quite evenly
        for step, name in enumerate(names):
            along = (step / (len(names) - 1)) ** bend if step else 0.0
            level = ends[0] + along * (ends[-1] - ends[0])
            yield int(number), int(number) + step, name, float(hue), float(strength), level


def from_the_bath(line, recipe, chance, stray):
    lightness, a, b = dyed(*recipe)
    a, b = a * line.vividness + line.cast[0], b * line.vividness + line.cast[1]
    lab = (lightness + stray * either_side(chance), a + stray * either_side(chance), b + stray * either_side(chance))
    return tuple(round(value, 2) + 0.0 for value in lab)  # + 0.0 turns -0.0 into 0.0


def shades_of(line):
    placed = {code: lab for code, lab in ramps.PLACED.items() if code.startswith(line.prefix)}
    taken = list(placed.values())
    shades = []
    tables = [(line.plain, line.finish), (line.metallic, "metallic"), (line.variegated, "variegated")]
    for table, finish in tables:
        for ramp, number, name, *recipe in recipes(table):
            code = f"{line.prefix}-{number}"
            chance = Random(f"{SEED}/{code}")
            ramp_chance = Random(f"{SEED}/{line.prefix}-{ramp}/ramp").random()
            lab, stray = placed.get(code), BATH
            while lab is None:
                tried = from_the_bath(line, recipe, Random(f"{SEED}/{code}/{stray:.2f}"), stray)
                if min((delta_e00(tried, other) for other in taken), default=APART) >= APART:
                    lab = tried
                    taken.append(lab)
                stray += 0.04  # each new bath strays a little further, so that this ends
            shades.append(Shade(code, name, lab, finish, ramp_chance, chance))
    for what in ("code", "name"):
        values = [getattr(shade, what) for shade in shades]
        assert len(set(values)) == len(values), f"{line.card}: a {what} stands twice"
    return shades


def stock_of(shade):
    draw = shade.chance.random()
    if draw < DISCONTINUED:
        return "discontinued"
    return "out" if draw < DISCONTINUED + OUT_OF_STOCK else "in"


def stash_of(line, shade):
    """Skeins owned, in halves, few of most. The product of two draws gathers the stash in ramps."""
    owned = shade.chance.random() < 2 * line.owned * shade.ramp_chance
    skeins = (1 + int(8 * shade.chance.random() * shade.chance.random())) / 2
    return skeins if owned else 0


def lot_of(line, shade):
    year = YEARS[int(len(YEARS) * shade.chance.random())]
    return f"{line.lot_letter}{year}-{1 + int(12 * shade.chance.random()):02d}"


def card_row(line, shade):
    spread = {"metallic": (2.0, 4.0), "variegated": (4.0, 9.0)}.get(shade.finish, line.spread)
    note = {"metallic": METALLIC_NOTE, "variegated": VARIEGATED_NOTE}.get(shade.finish, "")
    # Drawn for every shade, used or not, so that a fixed stash or stock shifts nothing else.
    reading = between(shade.chance, *spread)
    stock, stash, lot = stock_of(shade), stash_of(line, shade), lot_of(line, shade)
    stock = STOCK.get(shade.code, stock)
    stash = STASH.get(shade.code, stash)
    return [
        shade.code,
        shade.name,
        *(f"{value:.2f}" for value in shade.lab),
        f"{reading:.1f}",
        line.fibre,
        shade.finish,
        line.strands,
        line.length_m,
        f"{stash:g}",
        stock,
        lot if stash else "",
        NOTES.get(shade.code, note),
    ]


def key_rows(card, shades):
    by_name = {shade.name: shade for shade in shades}
    for name, symbol, strands, stitches in KEY:
        shade = by_name[name]
        assert all(-0.002 <= light <= 1.002 for light in linear_srgb(shade.lab)), f"no screen shows {name}"
        yield [hex_srgb(shade.lab), symbol, card, shade.code, name, strands, stitches]


def write(name, header, rows):
    """CSV as RFC 4180 has it: UTF-8 without a mark, CR LF."""
    rows = list(rows)
    with open(HERE / name, "w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([header, *rows])
    print(f"{name}: {len(rows)} rows")


def main():
    shades = {line.card: shades_of(line) for line in LINES}
    for line in LINES:
        write(f"{line.card}.csv", HEADER, (card_row(line, shade) for shade in shades[line.card]))
    write("grounds.csv", ["name", "srgb", "count", "over", "weave"], GROUNDS)
    cotton = LINES[0].card
    key_header = ["srgb", "symbol", "card", "code", "name", "strands", "stitches"]
    write("harbour-row.key.csv", key_header, key_rows(cotton, shades[cotton]))


if __name__ == "__main__":
    main()
