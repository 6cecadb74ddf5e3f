"""Charts as plots: coloured fields, signs as text and an axis with the counts (package python3-matplotlib)."""

from __future__ import annotations

import random

import words
from looks import PAPERS
from producers import Missing
from producers.native import chance_cells, letter_symbols, truth_of


def plotting():
    try:
        import matplotlib
    except ImportError as missing:
        raise Missing("python3-matplotlib") from missing
    matplotlib.use("pdf")
    from matplotlib import pyplot
    return pyplot


def write_chart(rng: random.Random, path: str) -> tuple[dict, str]:
    pyplot = plotting()
    paper = PAPERS[rng.choice(["a4", "letter", "square"])]
    side = rng.uniform(7, 12)
    columns = min(rng.randint(24, 60), int((paper[0] - 110) / side))
    rows = min(rng.randint(24, 60), int((paper[1] - 230) / side))
    cells, used = chance_cells(rng, ["full", "figures", "quilt", "border"], columns, rows, rng.randint(3, 9))
    symbols = letter_symbols(rng, used, "dejavu", True, "ABEFGHKLMNPRTWXYZ3478+=#%&?")
    left, top = (paper[0] - columns * side) / 2, rng.uniform(70, 95)
    with pyplot.rc_context({"pdf.fonttype": rng.choice([3, 42]), "font.family": "DejaVu Sans"}):
        figure = pyplot.figure(figsize=(paper[0] / 72, paper[1] / 72))
        axes = figure.add_axes([left / paper[0], 1 - (top + rows * side) / paper[1], columns * side / paper[0], rows * side / paper[1]])
        axes.set_xlim(0, columns)
        axes.set_ylim(rows, 0)
        for r, row in enumerate(cells):
            for c, v in enumerate(row):
                if v >= 0:
                    s = symbols[v]
                    axes.add_patch(pyplot.Rectangle((c, r), 1, 1, facecolor=[k / 255 for k in s.rgb], linewidth=0))
                    axes.text(c + .5, r + .5, s.mark.text, ha="center", va="center_baseline", fontsize=side * .6, color=[k / 255 for k in s.ink])
        axes.set_xticks(range(0, columns + 1, 10))
        axes.set_yticks(range(0, rows + 1, 10))
        axes.set_xticks(range(columns + 1), minor=True)
        axes.set_yticks(range(rows + 1), minor=True)
        axes.tick_params(labelsize=6.5, length=3, top=rng.random() < .5)
        axes.tick_params(which="minor", length=0)
        axes.grid(which="minor", color=str(rng.uniform(.4, .8)), linewidth=rng.uniform(.2, .5))
        axes.grid(which="major", color="black", linewidth=rng.uniform(.8, 1.3))
        axes.set_axisbelow(False)
        figure.text(.5, 1 - 40 / paper[1], words.title(rng), ha="center", fontsize=15)
        for i, s in enumerate(symbols):
            x, y = (left + i // 5 * 160) / paper[0], 1 - (top + rows * side + 42 + i % 5 * 15) / paper[1]
            figure.text(x, y, s.mark.text, fontsize=8, color=[k / 255 for k in s.ink], va="center",
                        bbox={"facecolor": [k / 255 for k in s.rgb], "edgecolor": "black", "linewidth": .4, "pad": 2})
            figure.text(x + 16 / paper[0], y, f"{s.code}  {s.name}", fontsize=8, va="center")
        figure.savefig(path, metadata={"CreationDate": None})
        pyplot.close(figure)
    return truth_of(cells, symbols, left, top, (side, side), paper), "plot with a grid over fields"
