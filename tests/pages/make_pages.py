#!/usr/bin/python3
"""Makes printed chart pages with their truth, to measure how well a page is read back.

make_pages.py OUT_FOLDER [--seed N] [--small] [--only SUBSTRING]"""
import argparse
import json
import random
import subprocess
import time
from pathlib import Path

import numpy as np
from PIL import Image

import chart_page
import degrade
import joined
import not_charts
import recipes
import styles
from draw_cairo import CairoCanvas
from draw_reportlab import ReportlabCanvas

_SMALL = {"vector": 3, "clean": 3, "bad": 3, "joined": 3, "not-a-chart": 3}
_SMALL_SIZE = dict(columns=34, rows=30)


def _pdf_canvas(chart, path):
    page = chart.style.page()
    if chart.style.engine == "reportlab":
        return ReportlabCanvas(path, *page)
    return CairoCanvas.pdf(path, *page, outlined=chart.style.outlined)


def _told(klass, chart, grids, dpi, words=()):
    return {"page": 1, "class": klass, "style": ", ".join([chart.style.words(), *words]),
            "dpi": dpi, "grids": grids, "symbols": chart_page.truth_of_symbols(chart)}


def make_vector(rng, path, fixed):
    chart = chart_page.plan_chart(rng, False, fixed)
    canvas = _pdf_canvas(chart, path)
    grids = chart_page.draw_chart_page(canvas, rng, chart)
    canvas.finish()
    return _told("vector", chart, grids, None)


def _poppler(chart, rng, path, dpi):
    pdf = path.with_suffix(".tmp.pdf")
    canvas = _pdf_canvas(chart, pdf)
    grids = chart_page.draw_chart_page(canvas, rng, chart)
    canvas.finish()
    stem = path.with_suffix(".tmp")
    subprocess.run(["pdftoppm", "-r", str(dpi), "-singlefile", str(pdf), str(stem)], check=True)
    ppm = stem.with_suffix(".tmp.ppm")
    pixels = np.asarray(Image.open(ppm).convert("RGB"))
    pdf.unlink()
    ppm.unlink()
    return grids, pixels


def _picture(chart, rng, path, dpi, raster):
    if raster == "poppler":
        return _poppler(chart, rng, path, dpi)
    antialias = "grey" if raster == "one-bit" else raster
    canvas = CairoCanvas.picture(*chart.style.page(), dpi, antialias)
    return chart_page.draw_chart_page(canvas, rng, chart), canvas.pixels()


def make_clean(rng, path, fixed):
    dpi, raster = fixed.get("dpi", 300), fixed["raster"]
    given = dict(fixed)
    if raster != "poppler":
        given.update(engine="cairo", outlined=False)
    chart = chart_page.plan_chart(rng, False, given)
    if raster == "one-bit":
        chart.style.thin_width = max(chart.style.thin_width, 0.4)
    grids, pixels = _picture(chart, rng, path, dpi, raster)
    picture = Image.fromarray(pixels)
    if raster == "one-bit":
        picture = picture.convert("L").point(lambda v: 255 if v > 140 else 0).convert("1")
    picture.save(path, dpi=(dpi, dpi), compress_level=3)
    return _told("clean", chart, grids, dpi, ["made by " + raster])


def make_bad(rng, path, fixed):
    dpi = fixed.get("dpi") or rng.choice([200, 300, 300])
    given = dict(fixed)
    given.setdefault("least_pitch", 4.8 if dpi == 300 else 5.8)
    chart = chart_page.plan_chart(rng, True, given)
    faults = degrade.choose_faults(rng, dpi, fixed.get("faults", {}))
    if chart.style.mode in styles.COLOURED_MODES + ("ink",):
        faults["grey"] = False  # without colour its cells could not be told apart
    raster = rng.choice(["poppler", "grey"])
    grids, pixels = _picture(chart, rng, path, dpi, raster)
    data, place, _ = degrade.degrade(rng, pixels, dpi, faults)
    path.write_bytes(data)
    for grid in grids:
        grid["corners"] = [[round(v, 5) for v in place(*c)] for c in grid["corners"]]
        xs, ys = zip(*grid["corners"])
        grid["box"] = [round(v, 4) for v in (min(xs), min(ys), max(xs), max(ys))]
    return _told("bad", chart, grids, dpi, degrade.fault_words(faults))


def all_jobs(small):
    """(name of the file, class, function of rng and path), in a fixed order."""
    jobs = []
    for klass, ending, made, listed in (("vector", ".pdf", make_vector, recipes.VECTOR),
                                        ("clean", ".png", make_clean, recipes.CLEAN),
                                        ("bad", ".jpg", make_bad, recipes.BAD)):
        for i, (name, fixed) in enumerate(listed[:_SMALL[klass]] if small else listed):
            given = dict(fixed)
            if small and "exact" not in given:
                given.update(_SMALL_SIZE)
            jobs.append(("%s-%02d-%s%s" % (klass, i + 1, name, ending),
                         lambda rng, path, m=made, g=given: m(rng, path, g)))
    for i, (name, recipe) in enumerate(joined.RECIPES[:_SMALL["joined"] if small else None]):
        jobs.append(("joined-%02d-%s.pdf" % (i + 1, name),
                     lambda rng, path, r=recipe: joined.make_joined(rng, path, r)))
    for i, (name, made) in enumerate(not_charts.RECIPES[:_SMALL["not-a-chart"] if small else None]):
        jobs.append(("no-chart-%02d-%s" % (i + 1, name),
                     lambda rng, path, m=made: not_charts.make_not_chart(rng, path, m)))
    return jobs


def main():
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("folder", type=Path)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--small", action="store_true", help="about fifteen quick pages")
    asked.add_argument("--only", default="", help="only pages with this in their name")
    told = asked.parse_args()
    told.folder.mkdir(parents=True, exist_ok=True)
    started = time.time()
    made = 0
    for name, make in all_jobs(told.small):
        if told.only not in name:
            continue
        begun = time.time()
        path = told.folder / name
        truth = make(random.Random("%d/%s" % (told.seed, name)), path)
        truth = {"file": name, **truth}
        path.with_suffix(".json").write_text(json.dumps(truth, ensure_ascii=False) + "\n",
                                             encoding="utf-8")
        size = ", ".join("%d x %d" % (g["columns"], g["rows"]) for g in truth["grids"])
        print("%-44s %-12s %2d symbols  %4.1f s  %s" % (
            name, size, len(truth["symbols"]), time.time() - begun, truth["style"]), flush=True)
        made += 1
    print("%d pages in %.0f s" % (made, time.time() - started))


if __name__ == "__main__":
    main()
