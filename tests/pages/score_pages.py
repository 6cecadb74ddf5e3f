"""Traces every page of a folder that make_pages.py filled, and scores the answers cell by cell.

    score_pages.py FOLDER OTHERSKEIN [SUBSTRING]

A found symbol stands for the true one that most of its cells are; of several found ones for the same true symbol the
largest counts, and cells of the others are "split": right, but a hand must join them. Wrong cells that the answer
lists as doubtful are "told". Exit code 1 where a class misses its goal.

Charts over several pages are scored where the program trace_joined (a target of tests/) lies beside OTHERSKEIN: all
their pages are traced, joined and compared with the whole chart.
"""

import collections
import csv
import json
import math
import os
import subprocess
import sys
import tempfile

from PIL import Image

GOALS = {"vector": (100.0, 100.0), "joined": (100.0, 100.0), "clean": (99.9, 99.9), "bad": (99.0, 99.9)}  # as read, after the doubtful are looked at


def trace(program, page, folder):
    picture = os.path.join(folder, "traced.png")
    key = os.path.join(folder, "traced.csv")
    done = subprocess.run([program, "trace", page, "--out", picture, "--out-key", key, "--force", "--json"],
                          capture_output=True, text=True, timeout=120)
    return done, picture, key


def trace_joined(program, pdf, folder):
    picture = os.path.join(folder, "traced.png")
    key = os.path.join(folder, "traced.csv")
    done = subprocess.run([os.path.join(os.path.dirname(program), "trace_joined"), pdf, picture, key],
                          capture_output=True, text=True, timeout=300)
    return done, picture, key


def misplaced(truth, answer):
    """What is said of pages that were put elsewhere than they belong."""
    wanted = {p["page"]: [p["first_column"] - 1, p["first_row"] - 1, p["columns"], p["rows"]]
              for p in truth["pages"] if p["kind"] == "chart"}
    found = {p[0]: p[1:] for p in answer["pieces"]}
    left, top = (min((p[k] for p in found.values()), default=0) for k in (0, 1))
    found = {page: [p[0] - left, p[1] - top, *p[2:]] for page, p in found.items()}
    return ", ".join(f"page {page} at {found.get(page)} not {wanted.get(page)}"
                     for page in sorted(set(wanted) | set(found)) if wanted.get(page) != found.get(page))


def cells_of(picture):
    image = Image.open(picture).convert("RGBA")
    data = list(image.getdata())
    return [None if p[3] == 0 else p[:3] for p in data]


def unit_lines(lines):
    """Lines in their smallest steps between corners and middles of cells, so that of a line which was
    found but for its end all else counts."""
    units = set()
    for x1, y1, x2, y2 in (tuple(round(2 * v) for v in line) for line in lines):
        steps = math.gcd(x2 - x1, y2 - y1)
        for k in range(steps):
            a = (x1 + (x2 - x1) // steps * k, y1 + (y2 - y1) // steps * k)
            b = (a[0] + (x2 - x1) // steps, a[1] + (y2 - y1) // steps)
            units.add((min(a, b), max(a, b)))
    return units


def lines_of(picture):
    path = picture[:-4] + ".lines.csv"
    if not os.path.exists(path):
        return set()
    with open(path, newline="", encoding="utf-8") as file:
        return unit_lines([[float(row[k]) for k in ("x1", "y1", "x2", "y2")] for row in csv.DictReader(file)])


def score(truth, picture, key, answer):
    grid = truth["grids"][0]
    found = cells_of(picture)
    wanted = [cell for row in grid["cells"] for cell in row]
    told = {y * grid["columns"] + x for x, y in answer["doubtful"]}
    of = collections.defaultdict(collections.Counter)
    for want, got in zip(wanted, found):
        of[got][want] += 1
    stands = {got: (-1 if got is None else counts.most_common(1)[0][0]) for got, counts in of.items()}
    main = {}
    for got, want in stands.items():
        if want not in main or of[got][want] > of[main[want]][want]:
            main[want] = got
    # A bare cell that was read as a symbol is wrong, also where all of that symbol are bare cells.
    wrong = [i for i, (want, got) in enumerate(zip(wanted, found)) if stands[got] != want or (want < 0) != (got is None)]
    split = sum(1 for want, got in zip(wanted, found) if stands[got] == want and want >= 0 and main[want] != got)
    with open(key, newline="", encoding="utf-8") as file:
        rows = {tuple(int(row["srgb"][k:k + 2], 16) for k in (1, 3, 5)): row for row in csv.DictReader(file)}
    named = [(got, want) for got, want in stands.items() if got is not None and want >= 0 and main[want] == got
             and truth["symbols"][want].get("code")]
    right_names = sum(1 for got, want in named if rows[got]["code"] == truth["symbols"][want]["code"]
                      and rows[got]["name"] == truth["symbols"][want]["name"])
    lines, found_lines = unit_lines(grid["lines"]), lines_of(picture)
    return {"cells": len(wanted), "wrong": len(wrong), "silent": sum(1 for i in wrong if i not in told), "split": split,
            "doubtful": len(told), "symbols": len(set(wanted) - {-1}), "found": len(set(found) - {None}),
            "named": right_names, "nameable": len(named), "lines": len(lines), "lines_right": len(lines & found_lines),
            "lines_extra": len(found_lines - lines), "seconds": answer["seconds"]}


def main():
    folder, program = sys.argv[1:3]
    wanted = sys.argv[3] if len(sys.argv) > 3 else ""
    sums = collections.defaultdict(collections.Counter)
    failed = False
    with tempfile.TemporaryDirectory() as work:
        for name in sorted(os.listdir(folder)):
            if not name.endswith(".json") or wanted not in name:
                continue
            with open(os.path.join(folder, name), encoding="utf-8") as file:
                truth = json.load(file)
            kind = truth["class"]
            if kind == "joined" and not os.path.exists(os.path.join(os.path.dirname(program), "trace_joined")):
                continue
            if os.path.exists(os.path.join(work, "traced.lines.csv")):
                os.remove(os.path.join(work, "traced.lines.csv"))
            done, picture, key = (trace_joined if kind == "joined" else trace)(program, os.path.join(folder, truth["file"]), work)
            total = sums[kind]
            total["pages"] += 1
            if kind == "not-a-chart":
                good = done.returncode == 2 and done.stderr.count("\n") == 1
                total["refused"] += good
                failed |= not good
                print(f"{name[:-5]:38} {'refused' if good else 'NOT REFUSED'}: {done.stderr.strip()[-110:]}")
                continue
            if done.returncode != 0:
                print(f"{name[:-5]:38} no answer: {done.stderr.strip()[-100:]}")
                total["lost"] += 1
                continue
            answer = json.loads(done.stdout)
            if kind == "joined" and misplaced(truth, answer):
                print(f"{name[:-5]:38} {misplaced(truth, answer)}")
            grid = truth["grids"][0]
            if (answer["columns"], answer["rows"]) != (grid["columns"], grid["rows"]):
                print(f"{name[:-5]:38} {answer['columns']} x {answer['rows']}, not {grid['columns']} x {grid['rows']}")
                total["lost"] += 1
                continue
            one = score(truth, picture, key, answer)
            total.update(one)
            print(f"{name[:-5]:38} {one['cells']:6} cells, {one['wrong']:4} wrong, {one['silent']:4} of them silent, "
                  f"{one['split']:4} split, {one['doubtful']:4} doubtful, symbols {one['found']}/{one['symbols']}, "
                  f"names {one['named']}/{one['nameable']}, lines {one['lines_right']}/{one['lines']} +{one['lines_extra']}, "
                  f"{one['seconds']:.2f} s")
    for kind, total in sums.items():
        if kind == "not-a-chart":
            print(f"{kind}: {total['refused']} of {total['pages']} refused")
            continue
        cells = max(1, total["cells"])
        read, after = 100 - 100 * total["wrong"] / cells, 100 - 100 * total["silent"] / cells
        goal = GOALS.get(kind, (0, 0))
        failed |= total["lost"] > 0 or read < goal[0] or after < goal[1]
        print(f"{kind}: {total['pages']} pages, {total['lost']} with another size or none; of {total['cells']} cells {read:.3f} % right "
              f"(goal {goal[0]}), {after:.3f} % after the doubtful ones ({100 * total['doubtful'] / cells:.2f} %) are looked at "
              f"(goal {goal[1]}), {100 * total['split'] / cells:.2f} % split; names {total['named']}/{total['nameable']}, "
              f"lines {total['lines_right']}/{total['lines']} and {total['lines_extra']} too many")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
