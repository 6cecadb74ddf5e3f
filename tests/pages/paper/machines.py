"""Printing, copying, faxing and flatbed scanning."""

import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont

from sheet import Sheet, chance_field, noise, turn
from words import HOUSES, pick


def grey_of(pixels: np.ndarray) -> np.ndarray:
    return pixels @ np.array([0.3, 0.59, 0.11], np.float32)


def screen(sheet: Sheet, rng, lines_per_inch: float, coloured: bool = True) -> None:
    """Prints with raster dots: cyan, magenta, yellow and black screens at their angles, solid colours stay solid."""
    sheet.resample(450)
    wide, high = sheet.size
    y, x = np.mgrid[0:high, 0:wide].astype(np.float32)
    ink = 1 - np.clip(sheet.pixels, 0, 1)
    black = ink.min(axis=2) if coloured else 1 - grey_of(sheet.pixels)
    planes = [(black, 45)] + ([(np.clip((ink[..., k] - black) / np.maximum(1 - black, 0.02), 0, 1), a) for k, a in ((0, 15), (1, 75), (2, 0))] if coloured else [])
    result, pitch = np.ones((high, wide, 3), np.float32), 2 * np.pi * lines_per_inch / 450
    for n, (plane, angle) in enumerate(planes):
        turned = np.radians(angle + rng.uniform(-2, 2))
        c, s = np.float32(np.cos(turned) * pitch), np.float32(np.sin(turned) * pitch)
        wave = 0.5 + 0.25 * (np.cos(x * c + y * s) + np.cos(y * c - x * s))
        shift = tuple(int(v) for v in rng.integers(-1, 2, 2)) if n else (0, 0)  # colours never lie quite on each other
        dots = np.clip((np.roll(plane, shift, (0, 1)) - wave) * 4 + 0.5, 0, 1)
        dots = np.where(plane > 0.97, 1, np.where(plane < 0.03, 0, dots))
        result *= 1 - dots[..., None] * (np.array([0.93, 0.93, 0.92], np.float32) if n == 0 else np.eye(3, dtype=np.float32)[n - 1] * 0.92)
    sheet.pixels = result
    sheet.blur(0.8)


def photocopy(sheet: Sheet, rng, worn: float, turned: float = 0.8) -> None:
    """One pass through a copier: hard contrast, specks, tired toner in dark areas, streaks, dark edges."""
    turn(sheet, rng.uniform(-turned, turned), (255, 255, 255), (1 + rng.uniform(-0.008, 0.008), 1 + rng.uniform(-0.008, 0.008)))
    unit = sheet.dpi / 300
    sheet.blur(unit * rng.uniform(0.8, 1.3))
    value = grey_of(sheet.pixels)
    value += 0.06 * worn * chance_field(rng, sheet.size, 350 * unit) + 0.05 * worn * noise(rng, sheet.size, 2)
    middle, hard = rng.uniform(0.52, 0.66), rng.uniform(3.2, 5)
    value = 1 / (1 + np.exp(-hard * 2 * (value - middle)))
    toner = np.clip(0.55 * noise(rng, sheet.size, 2.2) + 0.7 * chance_field(rng, sheet.size, 60 * unit), 0, 1.5)
    value = value + (1 - value) * 0.2 * worn * toner
    wide, high = sheet.size
    for _ in range(int(rng.integers(0, 4))):
        at, broad = int(rng.integers(wide)), int(rng.integers(1, 4))
        value[:, at:at + broad] -= 0.12 * worn
    value -= specks(rng, sheet, int(260 * worn), 1.6 * unit, 0.8)
    edge_x, edge_y = np.minimum(np.arange(wide), np.arange(wide)[::-1]), np.minimum(np.arange(high), np.arange(high)[::-1])
    if rng.random() < 0.7:
        value -= 0.75 * np.exp(-edge_x / (rng.uniform(6, 22) * unit))[None] * (rng.random() < 0.7)
        value -= 0.75 * np.exp(-edge_y / (rng.uniform(6, 22) * unit))[:, None] * (rng.random() < 0.7)
    sheet.pixels = np.repeat(np.clip(0.06 + 0.92 * value, 0, 1)[..., None], 3, axis=2).astype(np.float32)


def specks(rng, sheet: Sheet, count: int, size: float, dark: float) -> np.ndarray:
    """Small dirt, strewn more thickly in places."""
    wide, high = sheet.size
    field = np.zeros((high, wide), np.uint8)
    cx, cy = rng.uniform(0, wide), rng.uniform(0, high)
    for k in range(count):
        x, y = (rng.uniform(0, wide), rng.uniform(0, high)) if k % 3 else (rng.normal(cx, wide / 6), rng.normal(cy, high / 6))
        r = max(1, int(abs(rng.normal(0, size)) + 0.5))
        field[max(0, int(y)):max(0, int(y) + r), max(0, int(x)):max(0, int(x) + r)] = int(255 * dark * rng.uniform(0.4, 1))
    return np.asarray(Image.fromarray(field).filter(ImageFilter.GaussianBlur(0.7)), np.float32) / 255


def fax(sheet: Sheet, rng) -> None:
    """Black or white at 200 dpi, with the sender's line on top of the page and a few flipped dots."""
    turn(sheet, rng.uniform(-1, 1))
    sheet.blur(sheet.dpi / 300 * 0.8)
    sheet.resample(200)
    value = grey_of(sheet.pixels) + 0.05 * noise(rng, sheet.size)
    local = np.asarray(Image.fromarray((np.clip(value, 0, 1) * 255).astype(np.uint8)).filter(ImageFilter.BoxBlur(25)), np.float32) / 255
    white = value > 0.45 + 0.3 * local - rng.uniform(0.02, 0.08)
    flipped = rng.random(white.shape) < 0.0006
    sheet.pixels = np.repeat((white ^ flipped)[..., None], 3, axis=2).astype(np.float32)
    page, font = sheet.image(), ImageFont.truetype("/usr/share/fonts/truetype/dejavu/DejaVuSansMono.ttf", 22)
    day, month, hour, minute, number = (int(rng.integers(*span)) for span in ((1, 29), (1, 13), (8, 19), (0, 60), (1, 6)))
    sender = f"FROM: {pick(rng, HOUSES).upper()}   {day:02}/{month:02} {hour}:{minute:02}   P.{number:02}"
    ImageDraw.Draw(page).text((60, 8), sender, (0, 0, 0), font)
    sheet.take(page.convert("L").point(lambda v: 255 * (v > 127)))


def dust(sheet: Sheet, rng, amount: float) -> None:
    """On the glass: dark specks, pale fluff, some hairs."""
    unit = sheet.dpi / 200
    sheet.pixels -= specks(rng, sheet, int(90 * amount), 1.2 * unit, 0.55)[..., None]
    sheet.pixels += specks(rng, sheet, int(60 * amount), 1.2 * unit, 0.5)[..., None]
    wide, high = sheet.size
    for _ in range(int(rng.integers(0, 1 + int(4 * amount)))):
        x, y, angle, curve = rng.uniform(0, wide), rng.uniform(0, high), rng.uniform(0, 6), rng.uniform(-0.05, 0.05)
        for _ in range(int(rng.uniform(20, 90) * unit)):
            if 0 <= x < wide and 0 <= y < high:
                sheet.pixels[int(y), int(x)] *= 0.55
            x, y, angle = x + np.cos(angle), y + np.sin(angle), angle + curve + rng.normal(0, 0.05)


def flatbed(sheet: Sheet, rng, dpi: float, degrees: float, dirt: float = 0.5, noisy: float = 0.012) -> None:
    """Scans: the sheet lies a little turned under a white, grey or black lid."""
    sheet.resample(max(dpi, 200) if dpi < 200 else dpi)
    lid = rng.choice([0.97, 0.9, 0.8, 0.15], p=[0.45, 0.25, 0.2, 0.1])
    margins = tuple(int(v * sheet.dpi) for v in rng.uniform(0.08, 0.5, 4))
    ground = np.full((sheet.size[1] + margins[1] + margins[3], sheet.size[0] + margins[0] + margins[2], 3), lid, np.float32)
    sheet.lay_on(margins, ground)
    turn(sheet, degrees, tuple([int(lid * 255)] * 3))
    sheet.resample(dpi)
    sheet.blur(rng.uniform(0.3, 0.6))
    dust(sheet, rng, dirt)
    gain = 1 + rng.uniform(-0.03, 0.03, 3).astype(np.float32) * (0.5 + dirt)
    sheet.pixels = np.clip(sheet.pixels, 0, 1) ** rng.uniform(0.85, 1.2) * gain * rng.uniform(0.94, 1.0) + rng.uniform(0, 0.05)
    sheet.pixels += noisy * rng.standard_normal(sheet.pixels.shape, np.float32)
    if rng.random() < 0.6:
        sheet.take(sheet.image().filter(ImageFilter.UnsharpMask(1.2, int(rng.integers(40, 140)), 2)))
