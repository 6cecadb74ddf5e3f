"""Makes chart pages that have been printed, copied, folded, scribbled on, scanned and photographed, with their truth.

    make_paper_pages.py OUT_FOLDER [--seed N] [--only SUBSTRING] [--small]
"""

import argparse
import json
import os
import zlib

import numpy as np

from chart_style import Style, draw_style
from page_drawing import DRAWN_DPI, Drawing, draw_page
from recipes import CLEAN, RECIPES, Recipe
from sheet import Sheet
from words import pick


def drawing_of(rng, recipe: Recipe) -> tuple[Style, Drawing, float]:
    """The printed page, and the dpi at which it will be seen."""
    style = draw_style(rng, recipe.family, recipe.cell_mm, **recipe.fixed)
    if recipe.kind == "bad" and recipe.fixed.get("tint") is None and rng.random() < 0.2:
        style.tint = pick(rng, [(0.98, 0.96, 0.9), (0.95, 0.97, 1), (1, 0.95, 0.95), (0.94, 0.98, 0.93)])
    least = recipe.least_cell if recipe.family in ("symbols", "both") else 0.75 * recipe.least_cell
    dpi = max(float(rng.integers(recipe.dpi[0], recipe.dpi[1] + 1)), min(300, 72 * least / min(style.cell)))
    count = int(rng.integers(recipe.count[0], recipe.count[1] + 1))
    return style, draw_page(rng, style, pick(rng, recipe.motifs), count, dpi, recipe.blur, recipe.apart), dpi


def other_page(rng, recipe: Recipe) -> np.ndarray:
    """What is printed on the back of the sheet."""
    style = draw_style(rng, recipe.family, (2.5, 4))
    return draw_page(rng, style, "full" if rng.random() < 0.3 else "bands", int(rng.integers(3, 9)), 200, 0.9).pixels


def make_page(folder: str, recipe: Recipe, seed: int) -> None:
    rng = np.random.default_rng([seed, zlib.crc32(recipe.name.encode())])
    style, drawing, dpi = drawing_of(rng, recipe)
    corners = np.array([point for grid in drawing.grids for point in grid["corner_points"]], float)
    sheet = Sheet(drawing.pixels, corners, DRAWN_DPI, drawing.covered)
    recipe.life(sheet, rng, dpi, drawing.grids[0], other_page(rng, recipe) if "show-through" in recipe.name else None)

    name = f"{recipe.kind}-{recipe.name}"
    file = f"{name}.{recipe.file}"
    if recipe.file == "png":
        sheet.image().convert("1").save(os.path.join(folder, file), dpi=(round(sheet.dpi),) * 2)
    else:
        quality = int(rng.integers(recipe.quality[0], recipe.quality[1] + 1))
        sheet.image().save(os.path.join(folder, file), quality=quality, subsampling=0 if recipe.kind == "clean" else pick(rng, [0, 2]),
                           dpi=(round(sheet.dpi),) * 2)
    parts = (sheet.points / np.array(sheet.size)).reshape(len(drawing.grids), 4, 2)
    for grid, four in zip(drawing.grids, parts):
        del grid["corner_points"]
        grid["corners"] = [[round(float(v), 6) for v in point] for point in four]
        grid["box"] = [round(float(v), 6) for v in (*four.min(axis=0), *four.max(axis=0))]
    truth = {"file": file, "page": 1, "class": recipe.kind, "dpi": round(sheet.dpi),
             "style": f"{recipe.family}, {style.minor} lines, every {style.every} bold, numbers {style.numbers}, key {style.key}, {recipe.name}",
             "grids": drawing.grids, "symbols": drawing.symbols}
    with open(os.path.join(folder, f"{name}.json"), "w", encoding="utf-8") as out:
        json.dump(truth, out, ensure_ascii=False)
    grid = drawing.grids[0]
    print(f"{file:36} {sheet.size[0]} x {sheet.size[1]}, {grid['columns']} x {grid['rows']} cells, {len(drawing.symbols)} symbols", flush=True)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", metavar="SUBSTRING")
    parser.add_argument("--small", action="store_true", help="every fourth page only")
    args = parser.parse_args()
    os.makedirs(args.folder, exist_ok=True)
    recipes = RECIPES + CLEAN
    for recipe in recipes[::4] if args.small else recipes:
        if args.only in f"{recipe.kind}-{recipe.name}":
            make_page(args.folder, recipe, args.seed)


if __name__ == "__main__":
    main()
