"""Invented words for the pages: titles, designers, notes, threads. No real name is used."""

import numpy as np

FIRST = ["Willow", "Harbour", "Mossy", "Little", "Winter", "Quiet", "Copper", "Orchard", "Lantern", "Thistle", "Marsh",
         "Evening", "Old", "Painted", "Grandmother's", "Seven", "Snowy", "Clover", "Foggy", "Sunday"]
SECOND = ["Gate", "Wren", "Sampler", "Garland", "Cottage", "Fox", "Window", "Rosette", "Meadow", "Tulips", "Border",
          "Alphabet", "Hearts", "Boat", "Pears", "Owl", "Bells", "Cushion", "Basket", "Ladder"]
HOUSES = ["Velmora Stitchery", "Brindle & Oake Designs", "Tansywick Charts", "Plumfeather Papers", "Ostrelle Needleworks",
          "Hobbinfold", "Quillmarsh Studio", "Nettlebrook Kits", "Fennimoor Patterns", "Studio Larkspindle"]
SHADES = ["very pale", "pale", "light", "medium", "dark", "deep", "dusky", "bright", "antique", ""]
HUES = ["moss", "rust", "plum", "sky", "oat", "brick", "slate", "rose", "lemon", "teal", "bark", "ink", "cream", "coral",
        "fern", "violet", "sand", "berry", "pewter", "straw", "mint", "peacock", "walnut", "shell", "navy", "cherry"]
NOTES = ["Work all crosses with two strands over two threads.", "Begin at the arrows.", "Stitch count is without the hem.",
         "Read the whole chart before you thread a needle.", "The top cross leans to the right.",
         "Leave a hand's breadth of cloth on every side.", "For your own sewing only; please do not pass on.",
         "Outline last, with one strand.", "Wash cool and press face down on a towel."]


def pick(rng: np.random.Generator, choices):
    """One of the choices, kept as it is (numpy would turn it into its own type)."""
    return choices[int(rng.integers(len(choices)))]


def title(rng) -> str:
    return f"{pick(rng, FIRST)} {pick(rng, SECOND)}"


def copyright_line(rng) -> str:
    year = int(rng.integers(1983, 2025))
    return pick(rng, ["© {y} {h}", "Copyright {h} {y}. All rights reserved.", "{h}, {y} - chart {n}", "Design: {h}"]).format(
        y=year, h=pick(rng, HOUSES), n=int(rng.integers(3, 900)))


def threads(rng, count: int) -> list[tuple[str, str]]:
    """Codes and names, all of one invented maker and each used once."""
    form = pick(rng, ["number", "letter", "dash", "four"])
    codes: list[str] = []
    while len(codes) < count:
        number = int(rng.integers(11, 990))
        code = {"number": f"{number}", "letter": f"{pick(rng, 'BDFGKMPRTW')}{number}", "dash": f"{number % 90 + 10}-{number % 7 + 1}",
                "four": f"{number + 2000}"}[form]
        if code not in codes:
            codes.append(code)
    names: list[str] = []
    while len(names) < count:
        name = f"{pick(rng, SHADES)} {pick(rng, HUES)}".strip()
        if name not in names:
            names.append(name)
    if rng.random() < 0.5:
        names = [name.capitalize() for name in names]
    return list(zip(codes, names))
