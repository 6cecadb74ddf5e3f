"""Makes chart pages with truth as many different studios would have made them; see README.md.

    make_studio_pages.py OUT_FOLDER [--seed N] [--only SUBSTRING] [--small]
"""

from __future__ import annotations

import argparse
import json
import os
import random
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import leaf as leaves  # noqa: E402
from looks import chance_look, settle  # noqa: E402
from not_charts import NOT_CHARTS  # noqa: E402
from producers import Missing, html, plots, sheet, tex  # noqa: E402
from recipes import CLEAN, VECTOR, Recipe  # noqa: E402

NATIVE = {"html-table": html.write_chart, "html-letters": html.write_letters, "spreadsheet": sheet.write_chart,
          "spreadsheet-letters": sheet.write_letters, "tex-picture": tex.write_chart, "plot-chart": plots.write_chart}


def save_truth(folder: str, name: str, file: str, kind: str, style: str, dpi: int | None, truth: dict) -> None:
    whole = {"file": file, "page": 1, "class": kind, "style": style, "dpi": dpi, **truth}
    with open(os.path.join(folder, name + ".json"), "w", encoding="utf-8") as out:
        json.dump(whole, out)


def make_recipe(recipe: Recipe, rng: random.Random, folder: str, kind: str) -> None:
    look = chance_look(rng, recipe.fill, recipe.post)
    for name, value in recipe.tweaks.items():
        setattr(look, name, rng.choice(value) if isinstance(value, list) else value)
    look.extras |= recipe.extras
    settle(look)
    dpi = None if kind == "vector" else rng.choice([200, 200, 240, 250, 300])
    count = rng.randint(*recipe.symbols)
    made = leaves.chance_leaf(rng, look, rng.choice(recipe.motifs), count, recipe.limit, recipe.post)
    name = f"{kind}-{recipe.name}"
    file = name + (".pdf" if dpi is None else ".png")
    path = os.path.join(folder, file)
    if dpi is None:
        recipe.write(made.scene, path)
    else:
        recipe.write(made.scene, path, dpi)
    save_truth(folder, name, file, kind, f"{recipe.name}; {look.fill}; {look.mark_kind}", dpi, made.truth())


def pages(small: bool) -> list[tuple[str, str, object]]:
    every: list[tuple[str, str, object]] = [("vector", r.name, r) for r in VECTOR] + [("vector", n, f) for n, f in NATIVE.items()]
    every += [("clean", r.name, r) for r in CLEAN] + [("not-a-chart", n, f) for n, f in NOT_CHARTS.items()]
    return every[::5] if small else every


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="")
    parser.add_argument("--small", action="store_true")
    options = parser.parse_args()
    os.makedirs(options.folder, exist_ok=True)
    # Producers write the time into their files; one fixed time keeps the same seed's files the same.
    os.environ["SOURCE_DATE_EPOCH"] = "946684800"
    for kind, name, how in pages(options.small):
        if options.only not in f"{kind}-{name}":
            continue
        rng = random.Random(f"{options.seed}/{kind}/{name}")
        try:
            if isinstance(how, Recipe):
                make_recipe(how, rng, options.folder, kind)
            elif kind == "vector":
                truth, style = how(rng, os.path.join(options.folder, f"{kind}-{name}.pdf"))
                save_truth(options.folder, f"{kind}-{name}", f"{kind}-{name}.pdf", kind, style, None, truth)
            else:
                file, why = how(rng, options.folder, f"{kind}-{name}")
                save_truth(options.folder, f"{kind}-{name}", file, kind, name, None if file.endswith(".pdf") else 200, {"why": why})
        except Missing as missing:
            print(f"{kind}-{name}: left out, {missing} is not installed", file=sys.stderr)
    return 0


if __name__ == "__main__":
    sys.exit(main())
