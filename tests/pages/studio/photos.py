"""Pictures of things with a lattice that are no stitch chart, made with PIL and numpy."""

from __future__ import annotations

import os
import random
from collections.abc import Callable

import numpy
from PIL import Image, ImageDraw, ImageFilter, ImageFont

import words
from scene import FONTS


def _grain(rng: random.Random, image: Image.Image, strength: float) -> Image.Image:
    noise = numpy.random.default_rng(rng.getrandbits(32)).normal(0, strength, (image.height, image.width, 1))
    return Image.fromarray(numpy.clip(numpy.asarray(image.convert("RGB"), float) + noise, 0, 255).astype("uint8"))


def _floor(rng: random.Random) -> Image.Image:
    """Tiles seen from where one stands, with light from a window."""
    n, s = rng.randint(8, 12), 80
    tones = [tuple(rng.randint(a, b) for _ in range(3)) for a, b in ((60, 110), (180, 225))]
    flat = Image.new("RGB", (n * s, n * s), (120, 112, 104))
    draw = ImageDraw.Draw(flat)
    for r in range(n):
        for c in range(n):
            tone = tuple(v + rng.randint(-14, 14) for v in tones[(r + c) % 2])
            draw.rectangle([c * s + 3, r * s + 3, c * s + s - 3, r * s + s - 3], fill=tone)
    w, h = 1500, 1000
    # Maps the picture's corners onto the floor: the far edge is much narrower.
    far = rng.uniform(.32, .45)
    corners = [(w * (.5 - far / 2 * 1.2), 0), (w * (.5 + far / 2 * 1.2), 0), (w * 1.2, h), (-w * .2, h)]
    goals = [(0, 0), (n * s, 0), (n * s, n * s), (0, n * s)]
    rows, right = [], []
    for (x, y), (u, v) in zip(corners, goals):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        right += [u, v]
    seen = flat.transform((w, h), Image.Transform.PERSPECTIVE, numpy.linalg.solve(rows, right), Image.Resampling.BICUBIC, fillcolor=(150, 140, 126))
    light = numpy.linspace(1.1, .6, w)[None, :, None]
    return _grain(rng, Image.fromarray(numpy.clip(numpy.asarray(seen) * light, 0, 255).astype("uint8")), 7)


def _cloth(rng: random.Random) -> Image.Image:
    """Woven cloth near by: threads over and under, none quite even."""
    w, h, p = 1400, 1000, rng.uniform(22, 34)
    y, x = numpy.mgrid[0:h, 0:w]
    chance = numpy.random.default_rng(rng.getrandbits(32))
    sway = sum(a * numpy.sin(x / b + y / c) for a, b, c in ((4, 170, 260), (3, 400, 90), (2, 60, 300)))
    u, v = (x + sway) / p, (y + sway * .7) / p
    over = (numpy.floor(u) + numpy.floor(v)) % 2
    ridge = numpy.where(over, numpy.abs(numpy.sin(numpy.pi * v)), numpy.abs(numpy.sin(numpy.pi * u)))
    thread = chance.normal(0, 12, 200)
    tone = 120 + 90 * ridge + numpy.where(over, thread[numpy.floor(v).astype(int) % 200], thread[numpy.floor(u).astype(int) % 200 - 100])
    tint = numpy.array([rng.uniform(.75, 1), rng.uniform(.7, .95), rng.uniform(.6, .95)])
    return _grain(rng, Image.fromarray(numpy.clip(tone[..., None] * tint, 0, 255).astype("uint8")), 12)


def _facade(rng: random.Random) -> Image.Image:
    image = Image.new("RGB", (1100, 1400), (176, 200, 226))
    draw = ImageDraw.Draw(image)
    wall = tuple(rng.randint(140, 220) for _ in range(3))
    draw.rectangle([90, 120, 1010, 1400], fill=wall)
    columns, rows = rng.randint(5, 7), rng.randint(6, 8)
    w, h = 920 / columns, 1100 / rows
    for r in range(rows):
        for c in range(columns):
            x, y = 90 + c * w + w * .22, 160 + r * h + h * .18
            glass = tuple(rng.randint(40, 110) for _ in range(3))
            draw.rectangle([x - 6, y - 6, x + w * .56 + 6, y + h * .62 + 6], fill=(240, 238, 230))
            draw.rectangle([x, y, x + w * .56, y + h * .62], fill=glass)
            draw.line([x + w * .28, y, x + w * .28, y + h * .62], fill=(240, 238, 230), width=5)
            if rng.random() < .4:
                draw.rectangle([x, y, x + w * .56, y + h * rng.uniform(.1, .4)], fill=(200, 190, 170))
    draw.rectangle([480, 1280, 620, 1400], fill=(80, 50, 40))
    return _grain(rng, image.rotate(rng.uniform(-3, 3), Image.Resampling.BICUBIC, fillcolor=(176, 200, 226)).filter(ImageFilter.GaussianBlur(1.5)), 6)


def _barcode(rng: random.Random) -> Image.Image:
    """A square barcode with its three corner eyes, on a parcel label."""
    n, s = rng.choice([25, 29, 33]), rng.choice([12, 14, 16])
    image = Image.new("RGB", (1300, 1000), "white")
    draw = ImageDraw.Draw(image)
    x, y = rng.randint(80, 160), rng.randint(200, 280)
    eyes = [(0, 0), (n - 7, 0), (0, n - 7)]
    for r in range(n):
        for c in range(n):
            eye = next(((c - ex, r - ey) for ex, ey in eyes if -1 <= c - ex <= 7 and -1 <= r - ey <= 7), None)
            if eye is None:
                dark = rng.random() < .5
            else:
                ring = max(abs(eye[0] - 3), abs(eye[1] - 3))
                dark = ring in (0, 1, 3)
            if dark:
                draw.rectangle([x + c * s, y + r * s, x + c * s + s - 1, y + r * s + s - 1], fill="black")
    large, small = (ImageFont.truetype(FONTS["plain-bold"].path, k) for k in (54, 32))
    draw.text((x, 80), f"Parcel {rng.randint(10000, 99999)}", font=large, fill="black")
    for k in range(5):
        draw.text((x + n * s + 70, y + 40 + k * 56), words.invented_name(rng) + f" {rng.randint(1, 99)}", font=small, fill="black")
    draw.rectangle([40, 40, 1260, 960], outline="black", width=4)
    return image


def _icons(rng: random.Random) -> Image.Image:
    """A table of small icons of dots with their file names, as made for a screen."""
    image = Image.new("RGB", (1200, 1000), (246, 246, 248))
    draw = ImageDraw.Draw(image)
    face = ImageFont.truetype(FONTS["plain"].path, 20)
    for r in range(5):
        for c in range(6):
            x, y, half = 60 + c * 185, 60 + r * 180, [[rng.random() < .5 for _ in range(8)] for _ in range(16)]
            tone = tuple(rng.randint(20, 200) for _ in range(3))
            for v in range(16):
                for u in range(16):
                    if half[v][min(u, 15 - u)] and abs(u - 7.5) + abs(v - 7.5) < 11:
                        draw.rectangle([x + u * 6, y + v * 6, x + u * 6 + 5, y + v * 6 + 5], fill=tone)
            draw.text((x, y + 106), words.invented_name(rng).lower() + ".ico", font=face, fill="black")
    return image


def _picture(build: Callable[[random.Random], Image.Image], why: str) -> Callable[[random.Random, str, str], tuple[str, str]]:
    def make(rng: random.Random, folder: str, name: str) -> tuple[str, str]:
        build(rng).save(os.path.join(folder, name + ".png"), dpi=(200, 200))
        return name + ".png", why
    return make


PHOTOS = {"tile-floor": _picture(_floor, "a tiled floor"), "woven-cloth": _picture(_cloth, "cloth near by"),
          "house-front": _picture(_facade, "the front of a house"), "square-barcode": _picture(_barcode, "a label with a square barcode"),
          "icon-table": _picture(_icons, "a table of screen icons")}
