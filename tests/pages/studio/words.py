"""Invented titles, threads, makers and sentences."""

from __future__ import annotations

import random

_STARTS = "Bram Ost Quil Fenna Tov Marl Iset Ludo Pry Wend Halm Sorr Jutt Nevo Calle Drumm Ebb Yarl Kess Opal".split()
_ENDS = "wick holt mere lund ette ow ford vane dale ing sel ra mond ley tin beck".split()
_ADJECTIVES = "pale deep dusty soft bright smoky old warm cool wild faded frosted ripe burnt light dark".split()
_HUES = ("moss clay slate plum rust cream teal rose straw ink sand berry fern ash copper lilac brick sea olive stone "
         "honey cherry cloud pine walnut apricot").split()
_THINGS = ("Garden Sampler;Little Harbour;Winter Birds;Three Hearts;Old Gate;Fox at Dusk;Border of Leaves;Tea Tin;The "
           "Blue Jug;Sleeping Cat;First Snow;Hen House;Meadow Band;Ladder Flowers;Quiet Mill;Star Cushion;Apple Tree;"
           "Market Boat;Birth Record;Red Alphabet;Pincushion;Lantern;Owl and Moon;Bell Pull;Needle Book").split(";")
_NOTES = ("Work from the middle outwards.;One square stands for one stitch.;Use two strands unless the list says "
          "otherwise.;Leave 8 cm of cloth on every side.;Empty squares are not stitched.;Wash by hand in cold water.;"
          "Stitch over two threads of even linen.;Do not copy this leaf for others.;Outline with one strand when all "
          "crosses are done.;The arrows mark the middle of the design.;Begin at the top left.;"
          "Press face down on a soft towel.").split(";")


def invented_name(rng: random.Random) -> str:
    return rng.choice(_STARTS) + rng.choice(_ENDS)


def title(rng: random.Random) -> str:
    thing = rng.choice(_THINGS)
    return rng.choice([thing, thing.upper(), f"{invented_name(rng)} {thing}", f"No. {rng.randint(2, 99)} - {thing}"])


def notes(rng: random.Random, count: int) -> list[str]:
    return rng.sample(_NOTES, count)


def copyright_line(rng: random.Random) -> str:
    return rng.choice([f"(c) {rng.randint(1984, 2024)} {invented_name(rng)} Designs",
                       f"Leaf {rng.randint(1, 60)} - {invented_name(rng)} {invented_name(rng)}",
                       f"{invented_name(rng)} Needle Room, all rights kept",
                       f"for private use only - page {rng.randint(1, 4)} of 4"])


def thread_codes(rng: random.Random, count: int) -> list[str]:
    """Codes of one invented maker: all of one form."""
    form = rng.choice(["{:04d}", "{:03d}", "Q{:d}", "{:d}-B", "V.{:d}", "K{:03d}"])
    return [form.format(n) for n in rng.sample(range(11, 980), count)]


def thread_names(rng: random.Random, count: int) -> list[str]:
    pairs = [f"{a} {h}" for a in _ADJECTIVES for h in _HUES]
    names = rng.sample(pairs, count)
    case = rng.choice([str.capitalize, str.title, str.lower])
    return [case(n) for n in names]
