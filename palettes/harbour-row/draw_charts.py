#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Draws the demo charts beside itself: `boathouses` in one colour and `harbour-evening` in many.

    python3 palettes/harbour-row/draw_charts.py

A chart is a picture of one pixel a stitch (bare ground is transparent), its key, and for the evening its
backstitch. The threads are read from `lanternfold-cotton.csv`; a pixel has the colour that a screen shows
for the thread. What is drawn lies in `charts/`. The same bytes each time: the little chance there is comes
from seeded generators, of which only `random()` is used.
"""

from pathlib import Path

from charts import boathouses, evening, files

HERE = Path(__file__).resolve().parent
CARD = "lanternfold-cotton"


def main():
    shades = files.read_card(HERE / f"{CARD}.csv")

    chart, width, height = boathouses.draw()
    files.write_chart(HERE / "boathouses", chart.cells, width, height, boathouses.KEY, CARD, shades)

    chart, lines = evening.draw()
    files.write_chart(HERE / "harbour-evening", chart.cells, evening.WIDTH, evening.HEIGHT, evening.KEY, CARD, shades)
    files.write_lines(HERE / "harbour-evening.lines.csv", lines)


if __name__ == "__main__":
    main()
