"""A sheet on its way through life: its picture and where the points of the truth came to lie."""

from dataclasses import dataclass
from typing import Callable

import numpy as np
from PIL import Image, ImageFilter

MESH = 20  # pixels between the places where a bend is worked out


@dataclass
class Sheet:
    pixels: np.ndarray      # height x width x 3, 0 to 1
    points: np.ndarray      # n x 2, pixels
    dpi: float
    covered: list           # boxes that must stay in sight, pixels of the flat sheet

    @property
    def size(self) -> tuple[int, int]:
        return self.pixels.shape[1], self.pixels.shape[0]

    def image(self) -> Image.Image:
        return Image.fromarray((np.clip(self.pixels, 0, 1) * 255 + 0.5).astype(np.uint8))

    def take(self, image: Image.Image) -> None:
        self.pixels = np.asarray(image.convert("RGB"), np.float32) / 255

    def resample(self, dpi: float, method=Image.LANCZOS) -> None:
        wide, high = (round(v * dpi / self.dpi) for v in self.size)
        scale = np.array([wide / self.size[0], high / self.size[1]])
        self.take(self.image().resize((wide, high), method))
        self.points = self.points * scale
        self.covered = [tuple(np.array(box) * np.tile(scale, 2)) for box in self.covered]
        self.dpi = dpi

    def blur(self, radius: float) -> None:
        if radius > 0.05:
            self.take(self.image().filter(ImageFilter.GaussianBlur(radius)))

    def lay_on(self, margins: tuple[int, int, int, int], ground: np.ndarray) -> None:
        """Puts the sheet on a larger ground: margins left, top, right, bottom; its edge throws a thin shadow."""
        left, top, right, bottom = margins
        wide, high = self.size
        canvas = ground[:high + top + bottom, :wide + left + right].copy()
        shade = np.zeros(canvas.shape[:2], np.uint8)
        shade[top + 2:top + high + 3, left + 2:left + wide + 3] = 130
        soft = np.asarray(Image.fromarray(shade).filter(ImageFilter.GaussianBlur(max(1.5, self.dpi / 60))), np.float32) / 255
        canvas *= 1 - soft[..., None]
        canvas[top:top + high, left:left + wide] = self.pixels
        self.pixels = canvas
        self.points = self.points + np.array([left, top])
        self.covered = [(b[0] + left, b[1] + top, b[2] + left, b[3] + top) for b in self.covered]

    def crop(self, left: int, top: int, right: int, bottom: int) -> None:
        self.pixels = self.pixels[top:bottom, left:right]
        self.points = self.points - np.array([left, top])

    def warp(self, back: Callable, fill: tuple[int, int, int] = (255, 255, 255)) -> None:
        """Bends the picture: `back` says for x, y of the new picture where in the old one they come from."""
        wide, high = self.size
        xs, ys = (np.unique(np.append(np.arange(0, n, MESH), n)) for n in (wide, high))
        grid_x, grid_y = np.meshgrid(xs.astype(float), ys.astype(float))
        from_x, from_y = back(grid_x, grid_y)
        mesh = []
        for i in range(len(ys) - 1):
            for j in range(len(xs) - 1):
                corners = [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)]
                mesh.append(((int(xs[j]), int(ys[i]), int(xs[j + 1]), int(ys[i + 1])), [float(v) for c in corners for v in (from_x[c], from_y[c])]))
        self.take(self.image().transform((wide, high), Image.MESH, mesh, Image.BICUBIC, fillcolor=fill))
        at = self.points.copy()
        for _ in range(60):  # the bends are gentle, so walking back by what is missing arrives
            x, y = back(at[:, 0], at[:, 1])
            at = at + self.points - np.stack([x, y], axis=1)
        x, y = back(at[:, 0], at[:, 1])
        if np.abs(np.stack([x, y], axis=1) - self.points).max() > 0.01:
            raise ValueError("the bend is too strong to follow its points")
        self.points = at


class Field:
    """A smooth field over a picture, to be asked anywhere."""

    def __init__(self, values: np.ndarray, size: tuple[int, int]):
        self.values, self.size = values.astype(np.float32), size

    def __call__(self, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        rows, columns = self.values.shape
        u, v = (np.clip(a / n, 0, 1) * (m - 1.001) for a, n, m in ((x, self.size[0], columns), (y, self.size[1], rows)))
        i, j = v.astype(int), u.astype(int)
        fy, fx = v - i, u - j
        a = self.values
        return (a[i, j] * (1 - fx) + a[i, j + 1] * fx) * (1 - fy) + (a[i + 1, j] * (1 - fx) + a[i + 1, j + 1] * fx) * fy

    def spread(self) -> np.ndarray:
        return np.asarray(Image.fromarray(self.values).resize(self.size, Image.BICUBIC))


def chance_field(rng, size: tuple[int, int], grain: float) -> np.ndarray:
    """Smooth chance between -1 and 1 over a picture, with hills `grain` pixels wide."""
    small = rng.uniform(-1, 1, (max(3, int(size[1] / grain) + 2), max(3, int(size[0] / grain) + 2))).astype(np.float32)
    return np.asarray(Image.fromarray(small).resize(size, Image.BICUBIC))


def noise(rng, size: tuple[int, int], grain: float = 1) -> np.ndarray:
    """Normal noise, as coarse as `grain` pixels."""
    wide, high = (max(2, int(v / grain)) for v in size)
    field = rng.standard_normal((high, wide), np.float32)
    return field if grain == 1 else np.asarray(Image.fromarray(field).resize(size, Image.BICUBIC))


def turn(sheet: Sheet, degrees: float, fill=(255, 255, 255), stretch: tuple[float, float] = (1, 1)) -> None:
    """Turns around the middle, and stretches a little as copiers do."""
    angle, (cx, cy) = np.radians(degrees), (np.array(sheet.size) / 2)
    c, s = np.cos(angle), np.sin(angle)
    sheet.warp(lambda x, y: (cx + ((x - cx) * c + (y - cy) * s) / stretch[0], cy + (-(x - cx) * s + (y - cy) * c) / stretch[1]), fill)


def perspective(sheet: Sheet, rng, strength: float, degrees: float, fill) -> None:
    """Seen from a little aside: every corner of the picture moves by up to `strength` of its size."""
    wide, high = sheet.size
    target = np.array([[0, 0], [wide, 0], [wide, high], [0, high]], float)
    angle, middle = np.radians(degrees), np.array([wide / 2, high / 2])
    source = target + rng.uniform(-strength, strength, (4, 2)) * np.array([wide, high])
    source = (source - middle) @ np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]]) + middle
    rows, wanted = [], []
    for (x, y), (u, v) in zip(target, source):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        wanted += [u, v]
    a, b, c, d, e, f, g, h = np.linalg.solve(np.array(rows), np.array(wanted))
    sheet.warp(lambda x, y: ((a * x + b * y + c) / (g * x + h * y + 1), (d * x + e * y + f) / (g * x + h * y + 1)), fill)
