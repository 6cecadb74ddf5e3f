"""Web pages with a table of one cell for each stitch, printed with weasyprint (package weasyprint)."""

from __future__ import annotations

import random
import shutil
import subprocess
from html import escape

import words
from looks import PAPERS
from producers import Missing
from producers.native import chance_cells, letter_symbols, truth_of

_LETTERS = "ABEFGHKLMNPRTWXYZ3478+=#%&?"
_SIGNS = "●■▲▼◆★♥♣◐◢☆△□○"


def print_page(html: str, path: str) -> None:
    if not shutil.which("weasyprint"):
        raise Missing("weasyprint")
    subprocess.run(["weasyprint", "-q", "-", path], input=html.encode(), check=True, capture_output=True)


def _rgb(colour) -> str:
    return f"rgb{tuple(colour)}"


def _chart(rng: random.Random, path: str, coloured: bool) -> tuple[dict, str]:
    paper = PAPERS[rng.choice(["a4", "letter"])]
    side = rng.choice([8, 9, 10, 11, 12, 14])
    margin, head = rng.randint(30, 50), rng.randint(40, 70)
    columns = min(rng.randint(24, 60), int((paper[0] - 2 * margin - 24) / side))
    rows = min(rng.randint(24, 60), int((paper[1] - head - margin - 210) / side))
    cells, used = chance_cells(rng, ["figures", "border", "full", "quilt"], columns, rows, rng.randint(3, 8))
    symbols = letter_symbols(rng, used, "dejavu", coloured, _SIGNS if coloured else _LETTERS)
    left, top = margin + rng.randint(14, 24), margin + head
    line, strong = rng.uniform(0.3, 0.75), rng.uniform(1.0, 1.8)
    thin, thick = rng.choice(["#999", "#bbb", "#666", "#aab"]), rng.choice(["#000", "#333", "#a22"])
    style = (f"@page {{size:{paper[0]}pt {paper[1]}pt;margin:0}} body {{margin:0;font-family:'DejaVu Sans'}} "
             f"table.c {{position:absolute;left:{left}pt;top:{top}pt;border-collapse:collapse;table-layout:fixed;width:{columns * side}pt}} "
             f".c td {{padding:0;width:{side}pt;height:{side}pt;line-height:{side * .8:.2f}pt;font-size:{side * .62:.2f}pt;text-align:center;"
             f"border:{line:.2f}pt solid {thin};box-sizing:border-box;overflow:hidden;vertical-align:middle}} "
             f".c div {{height:{side - 2 * strong:.2f}pt;line-height:{side - 2 * strong:.2f}pt;overflow:hidden}} "
             f".c tr {{height:{side}pt}} .r {{border-right:{strong:.2f}pt solid {thick} !important}} .b td {{border-bottom:{strong:.2f}pt solid {thick}}} "
             f"h1 {{position:absolute;left:{margin}pt;top:{margin - 14}pt;font-size:17pt;margin:0}} .n {{position:absolute;font-size:6pt}} "
             f".k {{position:absolute;left:{margin}pt;top:{top + rows * side + 26}pt;font-size:8pt;border-spacing:6pt 2pt}} "
             ".k .s {border:0.5pt solid #000;width:12pt;text-align:center}")
    out = [f"<html><head><meta charset=utf-8><title>Chart</title><style>{style}</style></head><body><h1>{escape(words.title(rng))}</h1><table class=c>"]
    for r, row in enumerate(cells):
        out.append(f"<tr{' class=b' if (r + 1) % 10 == 0 else ''}>")
        for c, v in enumerate(row):
            s = symbols[v] if v >= 0 else None
            look = f' style="background:{_rgb(s.rgb)};color:{_rgb(s.ink)}"' if s and s.rgb else ""
            out.append(f"<td{' class=r' if (c + 1) % 10 == 0 else ''}{look}>{f'<div>{escape(s.mark.text)}</div>' if s else ''}</td>")
        out.append("</tr>")
    out.append("</table>")
    for n in range(10, columns + 1, 10):
        out.append(f"<div class=n style='left:{left + n * side - 20}pt;width:40pt;text-align:center;top:{top - 11}pt'>{n}</div>")
    for n in range(10, rows + 1, 10):
        out.append(f"<div class=n style='left:{left - 24}pt;width:20pt;text-align:right;top:{top + n * side - 4}pt'>{n}</div>")
    out.append("<table class=k><tr><td colspan=3><b>Threads</b></td></tr>")
    for s in symbols:
        look = f' style="background:{_rgb(s.rgb)};color:{_rgb(s.ink)}"' if s.rgb else ""
        out.append(f"<tr><td class=s{look}>{escape(s.mark.text)}</td><td>{s.code}</td><td>{s.name}</td></tr>")
    print_page("".join(out) + "</table></body></html>", path)
    return truth_of(cells, symbols, left, top, (side, side), paper), f"table of a web page; {'tinted' if coloured else 'letters'}"


def write_chart(rng: random.Random, path: str) -> tuple[dict, str]:
    return _chart(rng, path, True)


def write_letters(rng: random.Random, path: str) -> tuple[dict, str]:
    return _chart(rng, path, False)
