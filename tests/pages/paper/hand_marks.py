"""What stitchers leave on their charts: highlighter, pencil, rulers, notes, tape, coffee."""

import cairo
import numpy as np
from PIL import Image, ImageFilter

from sheet import Sheet, noise

MARKERS = [(1, 0.95, 0.25), (1, 0.62, 0.8), (0.6, 0.95, 0.55), (0.55, 0.85, 1), (1, 0.75, 0.35)]


class Overlay:
    """A clear film over the sheet to draw on."""

    def __init__(self, sheet: Sheet):
        self.surface = cairo.ImageSurface(cairo.FORMAT_ARGB32, *sheet.size)
        self.ctx = cairo.Context(self.surface)

    def layers(self, soft: float = 0) -> tuple[np.ndarray, np.ndarray]:
        """Colour (times its cover) and cover."""
        self.surface.flush()
        data = np.ndarray((self.surface.get_height(), self.surface.get_width(), 4), np.uint8, self.surface.get_data())
        image = Image.fromarray(data[..., [2, 1, 0, 3]].copy(), "RGBA")
        if soft:
            image = image.filter(ImageFilter.GaussianBlur(soft))
        values = np.asarray(image, np.float32) / 255
        return values[..., :3], values[..., 3:]

    def dye(self, sheet: Sheet, soft: float = 0) -> None:
        """As ink one sees through: multiplies."""
        colour, cover = self.layers(soft)
        sheet.pixels *= 1 - cover + colour

    def lay(self, sheet: Sheet) -> None:
        """As an object on top."""
        colour, cover = self.layers()
        sheet.pixels = sheet.pixels * (1 - cover) + colour


def _cell(sheet: Sheet, grid: dict) -> tuple[float, float, float, float]:
    left, top, right, bottom = sheet.covered[0]
    return left, top, (right - left) / grid["columns"], (bottom - top) / grid["rows"]


def highlighter(sheet: Sheet, rng, grid: dict) -> None:
    """Strokes over runs of finished cells, in one or two colours; where strokes cross it is darker."""
    left, top, wide, high = _cell(sheet, grid)
    for _ in range(int(rng.integers(1, 3))):
        film, colour = Overlay(sheet), MARKERS[int(rng.integers(len(MARKERS)))]
        film.ctx.set_line_cap(cairo.LINE_CAP_BUTT)
        row = int(rng.integers(0, grid["rows"] // 2))
        for _ in range(int(rng.integers(5, 14))):
            start = int(rng.integers(0, grid["columns"] * 2 // 3))
            end = int(rng.integers(start + 2, grid["columns"] + 1))
            y = top + (row + 0.5) * high
            film.ctx.set_source_rgba(*colour, rng.uniform(0.5, 0.8))
            film.ctx.set_line_width(high * rng.uniform(0.8, 1.1))
            film.ctx.move_to(left + start * wide, y + rng.normal(0, 0.12) * high)
            film.ctx.line_to(left + end * wide, y + rng.normal(0, 0.12) * high)
            film.ctx.stroke()
            row = min(grid["rows"] - 1, row + int(rng.integers(1, 3)))
        film.dye(sheet, 0.8)


def pencil(sheet: Sheet, rng, grid: dict) -> None:
    """Thin strokes through finished cells, a tick beside the row, a number jotted in the margin."""
    left, top, wide, high = _cell(sheet, grid)
    film = Overlay(sheet)
    film.ctx.set_source_rgba(0.35, 0.35, 0.4, 0.6)
    film.ctx.set_line_width(max(1.0, sheet.dpi / 170))
    film.ctx.set_line_cap(cairo.LINE_CAP_ROUND)
    for _ in range(int(rng.integers(3, 9))):
        row, start = int(rng.integers(grid["rows"])), int(rng.integers(grid["columns"] - 4))
        for column in range(start, min(grid["columns"], start + int(rng.integers(4, 20)))):
            x, y = left + (column + 0.5) * wide, top + (row + 0.5) * high
            dx, dy = rng.uniform(0.3, 0.45) * wide, rng.uniform(0.3, 0.45) * high
            film.ctx.move_to(x - dx, y + dy)
            film.ctx.line_to(x + dx, y - dy)
        film.ctx.move_to(left - 3.2 * wide, top + (row + 0.5) * high)
        film.ctx.rel_line_to(0.5 * wide, 0.6 * high)
        film.ctx.rel_line_to(0.9 * wide, -1.5 * high)
    film.ctx.stroke()
    film.dye(sheet, 0.5)


def clear_ruler(sheet: Sheet, rng, grid: dict) -> None:
    """A see-through ruler along the row being stitched, its marks on the edge away from the cells above."""
    left, top, wide, high = _cell(sheet, grid)
    row = int(rng.integers(grid["rows"] // 3, max(grid["rows"] // 3 + 1, grid["rows"] - 4)))
    y, broad, unit = top + row * high, 0.9 * sheet.dpi, sheet.dpi / 25.4
    film = Overlay(sheet)
    film.ctx.rectangle(max(0, left - 1.2 * sheet.dpi), y, sheet.size[0], broad)
    film.ctx.set_source_rgba(0.88, 0.94, 0.95, 1)
    film.ctx.fill()
    film.ctx.set_source_rgba(0.62, 0.7, 0.72, 1)
    film.ctx.set_line_width(sheet.dpi / 110)
    for at in (y, y + broad):
        film.ctx.move_to(max(0, left - 1.2 * sheet.dpi), at)
        film.ctx.line_to(sheet.size[0], at)
        film.ctx.stroke()
    film.ctx.set_source_rgba(0.45, 0.45, 0.5, 1)
    film.ctx.set_line_width(sheet.dpi / 220)
    for k in range(int(sheet.size[0] / unit)):
        long = 3.4 if k % 10 == 0 else (2.4 if k % 5 == 0 else 1.5)
        film.ctx.move_to(max(0, left - 1.1 * sheet.dpi) + k * unit, y + broad - 1)
        film.ctx.rel_line_to(0, -long * unit * 0.6)
    film.ctx.stroke()
    film.dye(sheet)


def coffee(sheet: Sheet, rng, grid: dict) -> None:
    """The ring of a cup, partly over the chart, broken and uneven."""
    film = Overlay(sheet)
    x, y, r = rng.uniform(0.2, 0.8) * sheet.size[0], rng.uniform(0.25, 0.8) * sheet.size[1], rng.uniform(1.2, 1.6) * sheet.dpi
    for k in range(90):
        film.ctx.set_source_rgba(0.5, 0.3, 0.12, rng.uniform(0.2, 0.6) * (0.5 + 0.5 * np.sin(k / 14.3 + x)))
        film.ctx.set_line_width(sheet.dpi / 200 * rng.uniform(3, 8))
        film.ctx.arc(x, y, r + rng.normal(0, 1.2), k * 0.0698, (k + 1.3) * 0.0698)
        film.ctx.stroke()
    film.ctx.set_source_rgba(0.6, 0.4, 0.2, 0.07)
    film.ctx.arc(x, y, r, 0, 7)
    film.ctx.fill()
    film.dye(sheet, 1.5)


def sticky_note(sheet: Sheet, rng, grid: dict) -> None:
    """A paper note over a corner of the page, as large as it may be without hiding chart or key."""
    wide, high = sheet.size
    size, best = min(3 * sheet.dpi, 0.3 * wide), None
    for x_side in (0, 1):
        for y_side in (0, 1):
            near_x = min((b[0] if x_side == 0 else wide - b[2]) for b in sheet.covered)
            near_y = min((b[1] if y_side == 0 else high - b[3]) for b in sheet.covered)
            for w, h in ((size, min(size, near_y - 0.25 * sheet.dpi)), (min(size, near_x - 0.25 * sheet.dpi), size)):
                if best is None or w * h > best[0] and min(w, h) > 0:
                    best = (w * h, 0 if x_side == 0 else wide - w, 0 if y_side == 0 else high - h, w, h)
    _, x, y, w, h = best
    if min(w, h) < 10:
        return
    for colour, off in (((0.35, 0.33, 0.3), sheet.dpi / 40), (MARKERS[int(rng.integers(len(MARKERS)))], 0)):
        film = Overlay(sheet)
        film.ctx.set_source_rgba(*colour, 0.35 if off else 1)
        film.ctx.rectangle(x + off, y + off, w, h)
        film.ctx.fill()
        film.ctx.set_source_rgba(0.15, 0.2, 0.5, 0.8)
        if not off and h > 0.3 * sheet.dpi:
            film.ctx.set_font_size(0.17 * sheet.dpi)
            film.ctx.select_font_face("Z003")
            film.ctx.move_to(x + 0.08 * w, y + 0.5 * h)
            film.ctx.show_text("buy two skeins!")
        film.lay(sheet)


def tape(sheet: Sheet, rng, grid: dict) -> None:
    """Yellowed clear tape over an old tear."""
    film = Overlay(sheet)
    film.ctx.translate(rng.uniform(0.2, 0.8) * sheet.size[0], rng.uniform(0.2, 0.8) * sheet.size[1])
    film.ctx.rotate(rng.choice([0, np.pi / 2]) + rng.uniform(-0.2, 0.2))
    long, broad = rng.uniform(1.5, 4) * sheet.dpi, 0.6 * sheet.dpi
    film.ctx.set_source_rgba(0.93, 0.86, 0.66, 1)
    film.ctx.rectangle(-long / 2, -broad / 2, long, broad)
    film.ctx.fill_preserve()
    film.ctx.set_source_rgba(0.7, 0.6, 0.42, 0.7)
    film.ctx.set_line_width(sheet.dpi / 120)
    film.ctx.stroke()
    film.dye(sheet, 0.7)
    sheet.pixels += 0.004 * noise(rng, sheet.size, 2)[..., None]
