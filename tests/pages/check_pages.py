#!/usr/bin/python3
"""Holds pages against their truth: check_pages.py FOLDER [SUBSTRING]

It knows where the cells lie and learns from the truth how each symbol looks on the page (its
middle picture), then asks which of these each cell resembles most. A page where this finds every
cell has a truth that agrees with its picture. It is a plain reader: cells under a backstitch,
centre or shadow line, or finely drawn ones, may fail without the truth being wrong."""
import json
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np
from PIL import Image, ImageFilter

_SIDE = 18  # samples across a cell


def _page_pixels(path, page, dpi):
    if path.suffix != ".pdf":
        return np.asarray(Image.open(path).convert("RGB"))
    with tempfile.TemporaryDirectory() as folder:
        stem = folder + "/page"
        subprocess.run(["pdftoppm", "-r", str(dpi), "-f", str(page), "-singlefile", str(path), stem],
                       check=True)
        return np.asarray(Image.open(stem + ".ppm").convert("RGB"))


def _cell_samples(pixels, corners, rows, columns):
    """rows x columns x _SIDE x _SIDE x 3, from the four corners of the grid in page fractions."""
    h, w = pixels.shape[:2]
    system, right = [], []
    for (u, v), (fx, fy) in zip(((0, 0), (1, 0), (1, 1), (0, 1)), corners):
        x, y = fx * w, fy * h
        system += [[u, v, 1, 0, 0, 0, -x * u, -x * v], [0, 0, 0, u, v, 1, -y * u, -y * v]]
        right += [x, y]
    a, b, c, d, e, f, g, k = np.linalg.solve(np.array(system), np.array(right))
    matrix = [a / (columns * _SIDE), b / (rows * _SIDE), c, d / (columns * _SIDE),
              e / (rows * _SIDE), f, g / (columns * _SIDE), k / (rows * _SIDE)]
    soft = Image.fromarray(pixels).filter(ImageFilter.GaussianBlur(0.6))
    flat = soft.transform((columns * _SIDE, rows * _SIDE), Image.Transform.PERSPECTIVE, matrix,
                          Image.Resampling.BILINEAR)
    return np.asarray(flat).reshape(rows, _SIDE, columns, _SIDE, 3).swapaxes(1, 2)


def _even_light(inner):
    """Each cell after dividing by the bright level around it."""
    rows, columns = inner.shape[:2]
    light = np.pad(np.percentile(inner.reshape(rows, columns, -1), 97, axis=2), 6, mode="edge")
    around = np.stack([light[i:i + rows, j:j + columns]
                       for i in range(0, 13, 3) for j in range(0, 13, 3)]).max(axis=0)
    return inner * (230 / np.maximum(around, 20))[:, :, None, None, None]


def _not_nearest(inner, cells, known):
    flat, truth = inner.reshape(cells.size, -1), cells.ravel()
    middles = np.stack([np.median(flat[truth == k][:400], axis=0) for k in known])
    away = np.stack([np.abs(flat - m).mean(axis=1) for m in middles])
    return (known[away.argmin(axis=0)] != truth).reshape(cells.shape)


def _share_right(samples, cells):
    """The better of two looks: as printed, and with the light made even."""
    known = np.unique(cells)
    inner = samples[:, :, 3:-3, 3:-3].astype(np.float32)
    looks = [_not_nearest(inner, cells, known), _not_nearest(_even_light(inner), cells, known)]
    wrong = min(looks, key=lambda w: w.sum())
    return 1 - float(wrong.mean()), np.argwhere(wrong)


def check(path):
    truth = json.loads(path.read_text(encoding="utf-8"))
    if not truth["grids"]:
        return
    source = path.parent / truth["file"]
    whole = np.array(truth["grids"][0]["cells"])
    for grid in truth.get("pages") or truth["grids"]:
        if grid.get("kind") == "key":
            continue
        if "cells" in grid:
            cells = np.array(grid["cells"])
        else:
            top, left = grid["first_row"] - 1, grid["first_column"] - 1
            cells = whole[top:top + grid["rows"], left:left + grid["columns"]]
        assert cells.shape == (grid["rows"], grid["columns"]), path
        assert cells.max() < len(truth["symbols"]) and cells.min() >= -1, path
        page = grid.get("page", truth["page"])
        samples = _cell_samples(_page_pixels(source, page, 600 if grid["pitch_pt"][0] < 6 else 300), grid["corners"], *cells.shape)
        share, wrong = _share_right(samples, cells)
        print("%-44s page %d %3d x %-3d %8.3f %%  %s" % (
            truth["file"], page, cells.shape[1], cells.shape[0], 100 * share,
            [(int(r), int(c)) for r, c in wrong[:4]] if len(wrong) else ""), flush=True)


if __name__ == "__main__":
    for told in sorted(Path(sys.argv[1]).glob("*.json")):
        if len(sys.argv) < 3 or sys.argv[2] in told.name:
            check(told)
