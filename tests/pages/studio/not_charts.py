"""What a stitcher may drop by mistake: leaves with a lattice, or nearly one, that are no stitch chart."""

from __future__ import annotations

import os
import random
from collections.abc import Callable

import words
from producers import cairo_draw, html, plots, postscript, raw_pdf, reportlab_draw, sheet, svg_draw
from photos import PHOTOS
from scene import BLACK, WHITE, Line, Scene, Shape

Made = tuple[str, str]


def _drawn(write: Callable, build: Callable[[random.Random], Scene], why: str) -> Callable[[random.Random, str, str], Made]:
    def make(rng: random.Random, folder: str, name: str) -> Made:
        write(build(rng), os.path.join(folder, name + ".pdf"))
        return name + ".pdf", why
    return make


def _lattice(scene: Scene, x: float, y: float, columns: int, rows: int, w: float, h: float, width: float, colour=BLACK) -> None:
    for k in range(columns + 1):
        scene.add(Line((x + k * w, y), (x + k * w, y + rows * h), width, colour))
    for k in range(rows + 1):
        scene.add(Line((x, y + k * h), (x + columns * w, y + k * h), width, colour))


def _calendar(rng: random.Random) -> Scene:
    scene = Scene(842, 595, "Calendar")
    x, y, w, h = 60, 120, rng.uniform(92, 102), rng.uniform(60, 74)
    scene.text(421, 70, 26, rng.choice(["Month of Frost", "Hay Month", "Month of Leaves"]), "helv-bold", align=0.5)
    for k, day in enumerate("Mon Tue Wed Thu Fri Sat Sun".split()):
        scene.text(x + (k + .5) * w, y - 6, 10, day, "helv", align=0.5)
    start = rng.randrange(7)
    for day in range(1, 31):
        c, r = (day + start - 1) % 7, (day + start - 1) // 7
        if c > 4:
            scene.rect(x + c * w, y + r * h, w, h, (238, 232, 222))
        scene.text(x + c * w + 5, y + r * h + 15, 12, str(day), "helv-bold")
        if rng.random() < .3:
            scene.text(x + c * w + 5, y + r * h + 34, 8, rng.choice(["market", "tea with guild", "post parcel", "dentist"]), "times")
    _lattice(scene, x, y, 7, (30 + start + 6) // 7, w, h, rng.uniform(.4, 1))
    return scene


def _crossword(rng: random.Random) -> Scene:
    scene, n, s = Scene(595, 842, "Puzzle"), rng.choice([11, 13, 15]), rng.uniform(20, 25)
    x, y, number = (595 - n * s) / 2, 90, 0
    scene.text(297, 60, 20, f"Puzzle corner no. {rng.randint(3, 80)}", "dejavu-bold", align=0.5)
    black = {(c, r) for c in range(n) for r in range(n) if c % 2 and r % 2}
    for _ in range(n):
        c, r = rng.randrange(n), rng.randrange(n)
        black |= {(c, r), (n - 1 - c, n - 1 - r)}
    free = lambda c, r: 0 <= c < n and 0 <= r < n and (c, r) not in black
    for r in range(n):
        for c in range(n):
            if not free(c, r):
                scene.rect(x + c * s, y + r * s, s, s, BLACK)
            elif (not free(c - 1, r) and free(c + 1, r)) or (not free(c, r - 1) and free(c, r + 1)):
                number += 1
                scene.text(x + c * s + 1.5, y + r * s + 6.5, 6, str(number), "plain")
    _lattice(scene, x, y, n, n, s, s, 0.7)
    for k in range(24):
        clue = rng.choice(["Small bird (4)", "Not early (4)", "Found in a mill (5)", "Evening meal (6)", "Opposite of dry (3)", "River bank (5)"])
        scene.text(60 + k // 12 * 250, y + n * s + 40 + k % 12 * 14, 9, f"{k + 1}. {clue}", "book")
    return scene


def _chess(rng: random.Random) -> Scene:
    scene, s = Scene(420, 595, "Endgame"), rng.uniform(30, 36)
    x, y, dark = (420 - 8 * s) / 2, 100, rng.choice([(190, 190, 190), (181, 136, 99), (120, 150, 90)])
    scene.text(210, 70, 14, f"Diagram {rng.randint(2, 60)}: white to move and win", "dejavu-serif", align=0.5)
    men = rng.sample([(c, r) for c in range(8) for r in range(8)], rng.randint(9, 18))
    for r in range(8):
        for c in range(8):
            if (c + r) % 2:
                scene.rect(x + c * s, y + r * s, s, s, dark)
            if (c, r) in men:
                scene.text(x + (c + .5) * s, y + (r + .82) * s, s * .85, rng.choice("♔♕♖♗♘♙♚♛♜♝♞♟♙♟♙♟"), "dejavu", align=0.5)
    scene.rect(x, y, 8 * s, 8 * s, None, BLACK, 1.2)
    for k in range(8):
        scene.text(x + (k + .5) * s, y + 8 * s + 12, 9, "abcdefgh"[k], "book", align=0.5)
        scene.text(x - 10, y + (k + .6) * s, 9, str(8 - k), "book", align=0.5)
    scene.text(x, y + 8 * s + 40, 10, "The rook must not leave the file; the king walks to the corner.", "book")
    return scene


def _threads(rng: random.Random) -> Scene:
    scene, rows = Scene(612, 792, "Thread table"), rng.randint(22, 34)
    widths, x, y, h = (60, 170, 60, 80), 90, 110, rng.uniform(16, 19)
    scene.text(90, 70, 18, "Threads for " + words.title(rng), "plain-bold")
    codes, names = words.thread_codes(rng, rows), words.thread_names(rng, rows)
    for r in range(rows + 1):
        row = ("No.", "Colour", "Skeins", "Strands") if r == 0 else \
            (codes[r - 1], names[r - 1], str(rng.randint(1, 4)), str(rng.randint(1, 3)))
        for c, text in enumerate(row):
            scene.text(x + sum(widths[:c]) + 5, y + r * h + h * .7, 9, text, "plain-bold" if r == 0 else "plain")
    for r in range(rows + 2):
        scene.add(Line((x, y + r * h), (x + sum(widths), y + r * h), .5))
    for c in range(5):
        scene.add(Line((x + sum(widths[:c]), y), (x + sum(widths[:c]), y + (rows + 1) * h), .5))
    return scene


def _form(rng: random.Random) -> Scene:
    scene = Scene(595, 842, "Order form")
    scene.text(60, 80, 18, "Order form - please use capitals", "helv-bold")
    y = 120.0
    for label in ("Family name", "First name", "Street", "Place", "Post code", "Telephone", "Member no."):
        boxes = rng.choice([8, 10, 16, 22])
        scene.text(60, y + 12, 9, label, "helv")
        _lattice(scene, 150, y, boxes, 1, 17, 18, .5)
        y += rng.uniform(30, 38)
    for k in range(8):
        scene.rect(60, y + 10 + k * 24, 10, 10, None, BLACK, .8)
        scene.text(80, y + 19 + k * 24, 9, f"{words.title(rng)}, item {rng.randint(100, 999)}", "helv")
    return scene


def _music(rng: random.Random) -> Scene:
    scene = Scene(595, 842, "Song")
    scene.text(297, 70, 18, "Song of the " + words.invented_name(rng) + " Ferry", "book", align=0.5)
    gap = rng.uniform(5, 6.5)
    for y in range(110, 740, rng.choice([70, 80, 90])):
        for k in range(5):
            scene.add(Line((60, y + k * gap), (535, y + k * gap), .5))
        x = 80.0
        while x < 525:
            if rng.random() < .2:
                scene.add(Line((x, y), (x, y + 4 * gap), .8))
            else:
                v = y + rng.randint(0, 8) * gap / 2
                scene.add(Shape([[(x - gap * .6, v), (x, v - gap * .45), (x + gap * .6, v), (x, v + gap * .45)]], BLACK),
                          Line((x + gap * .55, v), (x + gap * .55, v - 3.2 * gap), .7))
            x += rng.uniform(14, 24)
    return scene


def _swatches(rng: random.Random) -> Scene:
    scene, columns, rows = Scene(595, 842, "Paints"), rng.randint(4, 6), rng.randint(6, 8)
    w, h = 480 / columns, 640 / rows
    scene.text(60, 70, 20, "Wall paints of the " + words.invented_name(rng) + " works", "plain-bold")
    names = words.thread_names(rng, columns * rows)
    for k, name in enumerate(names):
        x, y = 60 + k % columns * w, 100 + k // columns * h
        scene.rect(x, y, w - 14, h - 30, tuple(rng.randint(40, 245) for _ in range(3)))
        scene.text(x, y + h - 18, 7.5, name, "plain")
        scene.text(x, y + h - 9, 6.5, f"litre tin {rng.randint(10, 99)}", "plain", (110, 110, 110))
    return scene


def _town(rng: random.Random) -> Scene:
    scene = Scene(595, 595, "Town map")
    scene.rect(40, 60, 515, 500, (236, 233, 224))
    turn = rng.uniform(-.25, .25)
    for k in range(9):
        a = 70 + k * 56 + rng.uniform(-16, 16)
        wide = rng.choice([4, 6, 9])
        scene.add(Line((a, 60), (a + turn * 400, 560), wide, WHITE), Line((40, a), (555, a - turn * 400 + rng.uniform(-30, 30)), wide, WHITE))
    for _ in range(90):
        x, y = rng.uniform(50, 530), rng.uniform(70, 540)
        scene.rect(x, y, rng.uniform(5, 16), rng.uniform(5, 16), (201, 190, 178))
    for _ in range(9):
        scene.text(rng.uniform(60, 440), rng.uniform(80, 540), 7, words.invented_name(rng) + rng.choice([" Street", " Row", " Lane"]), "plain")
    scene.text(40, 45, 16, words.invented_name(rng) + ", old town", "plain-bold")
    return scene


def _sums(rng: random.Random) -> Scene:
    scene, s = Scene(595, 842, "Number puzzle"), rng.uniform(36, 44)
    x, y = (595 - 9 * s) / 2, 140
    scene.text(297, 90, 20, "Fill each box with 1 to 9", "helv-bold", align=0.5)
    for r in range(9):
        for c in range(9):
            if rng.random() < .38:
                scene.text(x + (c + .5) * s, y + (r + .72) * s, s * .6, str((r * 3 + r // 3 + c) % 9 + 1), "helv", align=0.5)
    _lattice(scene, x, y, 9, 9, s, s, .5)
    _lattice(scene, x, y, 3, 3, 3 * s, 3 * s, 2)
    scene.text(x, y + 9 * s + 40, 10, "Each row, each column and each box holds every number once.", "times")
    return scene


def _knitting(rng: random.Random) -> Scene:
    scene = Scene(595, 842, "Knitted cap")
    scene.text(60, 80, 18, f"Knitted cap from {words.invented_name(rng)}", "courier")
    for k in range(44):
        row = " ".join(rng.choice(["k2", "p2", "k1", "yo", "k2tog", "sl1", "p1", "ssk"]) for _ in range(rng.randint(7, 12)))
        scene.text(60, 115 + k * 14.5, 9, f"Row {k + 1:2d}: {row}.", "courier")
    return scene


def _seeds(rng: random.Random, folder: str, name: str) -> Made:
    months = "J F M A M J J A S O N D".split()
    rows = []
    for _ in range(rng.randint(18, 26)):
        start = rng.randint(1, 7)
        marks = "".join(f"<td style='background:{'#9c6' if start <= m <= start + 2 else '#fff'}'></td>" for m in range(12))
        sort = rng.choice(["Bean", "Pea", "Carrot", "Leek", "Beet", "Chard", "Kale", "Radish"]) + " " + words.invented_name(rng)
        rows.append(f"<tr><td class=w>{sort}</td>{marks}<td class=w>{rng.randint(2, 9)}.{rng.randint(0, 9)}0</td></tr>")
    head = "".join(f"<th>{m}</th>" for m in months)
    html.print_page("<style>body{font:9pt 'Liberation Sans'} table{border-collapse:collapse} td,th{border:0.5pt solid #888;width:14pt;height:13pt} "
                    f".w{{width:120pt;padding:1pt 4pt}}</style><h2>Seeds this spring</h2><table><tr><th>Sort</th>{head}<th>Price</th></tr>{''.join(rows)}</table>",
                    os.path.join(folder, name + ".pdf"))
    return name + ".pdf", "a list of seeds with sowing months"


def _bars(rng: random.Random, folder: str, name: str) -> Made:
    pyplot = plots.plotting()
    figure, axes = pyplot.subplots(figsize=(8, 5.5))
    names = [words.invented_name(rng) for _ in range(rng.randint(6, 12))]
    axes.bar(names, [rng.uniform(5, 80) for _ in names], color=rng.choice(["steelblue", "indianred", "olive"]))
    axes.grid(True, linewidth=.5)
    axes.tick_params(axis="x", rotation=60)
    axes.set_title("Visitors by village")
    figure.tight_layout()
    figure.savefig(os.path.join(folder, name + ".pdf"), metadata={"CreationDate": None})
    pyplot.close(figure)
    return name + ".pdf", "a bar chart"


def _budget(rng: random.Random, folder: str, name: str) -> Made:
    edge = 'fo:border="0.5pt solid #000000"'
    styles = (f'<style:style style:name="b" style:family="table-cell"><style:table-cell-properties {edge}/></style:style>'
              '<style:style style:name="c" style:family="table-column"><style:table-column-properties style:column-width="52pt"/></style:style>')
    rows = ["".join(sheet.cell("b", t) for t in ["", "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Sum"])]
    for k in range(rng.randint(20, 34)):
        rows.append("".join(sheet.cell("b", t) for t in [words.invented_name(rng)] + [f"{rng.uniform(3, 900):.2f}" for _ in range(7)]))
    table = '<table:table-column table:style-name="c" table:number-columns-repeated="8"/>' + "".join(f"<table:table-row>{r}</table:table-row>" for r in rows)
    sheet.print_sheet(sheet.document((595, 842), 50, styles, table), os.path.join(folder, name + ".pdf"))
    return name + ".pdf", "a sheet of household sums"


NOT_CHARTS: dict[str, Callable[[random.Random, str, str], Made]] = {
    "calendar": _drawn(raw_pdf.write, _calendar, "a calendar"), "crossword": _drawn(svg_draw.write, _crossword, "a crossword"),
    "chess": _drawn(cairo_draw.write, _chess, "a chess diagram"), "thread-table": _drawn(reportlab_draw.write, _threads, "a table of threads without a chart"),
    "form": _drawn(raw_pdf.write_packed, _form, "an order form"), "music": _drawn(cairo_draw.write, _music, "sheet music"),
    "swatches": _drawn(reportlab_draw.write, _swatches, "a card of paint colours"), "town-map": _drawn(svg_draw.write, _town, "a map of streets"),
    "number-puzzle": _drawn(postscript.write, _sums, "a number puzzle"), "knitting-text": _drawn(postscript.write, _knitting, "knitting in words"),
    "seed-list": _seeds, "bar-chart": _bars, "budget": _budget, **PHOTOS}
