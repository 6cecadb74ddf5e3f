"""Spreadsheets with one narrow cell for each stitch, printed with LibreOffice Calc (package libreoffice-calc-nogui)."""

from __future__ import annotations

import os
import random
import shutil
import subprocess
import tempfile
from xml.sax.saxutils import escape

import words
from looks import PAPERS
from producers import Missing
from producers.native import chance_cells, letter_symbols, truth_of

_SIGNS = "ABEFGHKLMNPRTWXYZ3478+=#%&?"
_SPACES = ('xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
           'xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0" xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0" '
           'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"')


def print_sheet(document: str, path: str) -> None:
    if not shutil.which("soffice"):
        raise Missing("libreoffice-calc-nogui")
    with tempfile.TemporaryDirectory() as work:
        source = os.path.join(work, "leaf.fods")
        with open(source, "w", encoding="utf-8") as file:
            file.write(document)
        subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{work}/profile", "--convert-to", "pdf", "--outdir", work, source],
                       check=True, capture_output=True, timeout=120)
        shutil.move(os.path.join(work, "leaf.pdf"), path)


def document(paper: tuple[float, float], margin: float, styles: str, table: str) -> str:
    return (f'<?xml version="1.0" encoding="UTF-8"?><office:document {_SPACES} office:version="1.2" '
            'office:mimetype="application/vnd.oasis.opendocument.spreadsheet"><office:styles><style:default-style style:family="table-cell">'
            '<style:text-properties style:font-name="Liberation Sans" fo:font-size="8pt"/></style:default-style></office:styles>'
            f'<office:automatic-styles>{styles}<style:page-layout style:name="pl"><style:page-layout-properties fo:page-width="{paper[0]}pt" '
            f'fo:page-height="{paper[1]}pt" fo:margin="{margin}pt" fo:margin-left="{margin}pt" fo:margin-top="{margin}pt" style:print-page-order="ttb" '
            'style:scale-to="100%"/><style:header-style/><style:footer-style/></style:page-layout>'
            '<style:style style:name="ta" style:family="table" style:master-page-name="Default"><style:table-properties table:display="true"/></style:style>'
            '</office:automatic-styles><office:master-styles><style:master-page style:name="Default" style:page-layout-name="pl">'
            '<style:header style:display="false"/><style:footer style:display="false"/></style:master-page></office:master-styles>'
            f'<office:body><office:spreadsheet><table:table table:name="Chart" table:style-name="ta">{table}</table:table></office:spreadsheet></office:body></office:document>')


def cell(style: str, text: str = "") -> str:
    return (f'<table:table-cell table:style-name="{style}" office:value-type="string"><text:p>{escape(text)}</text:p></table:table-cell>'
            if text else f'<table:table-cell table:style-name="{style}"/>')


def _hex(colour) -> str:
    return "#%02x%02x%02x" % tuple(colour)


def _chart(rng: random.Random, path: str, coloured: bool) -> tuple[dict, str]:
    paper = PAPERS[rng.choice(["a4", "letter"])]
    margin, side, gutter, head = rng.randint(28, 50), rng.choice([9, 10, 11.5, 13]), rng.randint(16, 26), rng.randint(24, 40)
    columns = min(rng.randint(24, 56), int((paper[0] - 2 * margin - gutter - 2) / side))
    rows = min(rng.randint(24, 56), int((paper[1] - 2 * margin - head - 14 - 170) / side))
    cells, used = chance_cells(rng, ["figures", "border", "full", "quilt", "letters"], columns, rows, rng.randint(3, 8))
    symbols = letter_symbols(rng, used, "plain", coloured, _SIGNS)
    thin = f"{rng.uniform(.25, .6):.2f}pt solid {rng.choice(['#808080', '#b0b0b0', '#000000'])}"
    thick = f"{rng.uniform(1.0, 1.6):.2f}pt solid {rng.choice(['#000000', '#404040', '#c00000'])}"
    styles = "".join(f'<style:style style:name="{n}" style:family="table-column"><style:table-column-properties style:column-width="{w}pt"/></style:style>'
                     for n, w in (("cs", side), ("cg", gutter)))
    styles += "".join(f'<style:style style:name="{n}" style:family="table-row"><style:table-row-properties style:row-height="{h}pt" '
                      'style:use-optimal-row-height="false"/></style:style>' for n, h in (("rs", side), ("rh", head), ("rn", 14)))
    for v, s in list(enumerate(symbols)) + [(-1, None)]:
        for edge in range(4):
            right, bottom = (thick if edge & 1 else thin), (thick if edge & 2 else thin)
            fill = f'fo:background-color="{_hex(s.rgb)}"' if s and s.rgb else ""
            ink = f'fo:color="{_hex(s.ink)}"' if s else ""
            styles += (f'<style:style style:name="x{v}e{edge}" style:family="table-cell"><style:table-cell-properties fo:border-left="{thin}" fo:border-top="{thin}" '
                       f'fo:border-right="{right}" fo:border-bottom="{bottom}" fo:padding="0pt" style:vertical-align="middle" {fill}/><style:paragraph-properties '
                       f'fo:text-align="center"/><style:text-properties fo:font-size="{side * .6:.1f}pt" {ink}/></style:style>')
    styles += ('<style:style style:name="t" style:family="table-cell"><style:text-properties fo:font-size="16pt" fo:font-weight="bold"/></style:style>'
               '<style:style style:name="n" style:family="table-cell"><style:table-cell-properties style:vertical-align="middle" fo:padding="0pt"/>'
               '<style:paragraph-properties fo:text-align="end"/><style:text-properties fo:font-size="6pt"/></style:style><style:style style:name="p" style:family="table-cell"/>')
    out = [f'<table:table-column table:style-name="cg"/><table:table-column table:style-name="cs" table:number-columns-repeated="{columns}"/>']
    out.append(f'<table:table-row table:style-name="rh">{cell("t", words.title(rng))}</table:table-row>')
    # The number of a tenth column ends at its own right side; it runs over the empty cells left of it.
    numbers = cell("n") + "".join(cell("n", str(c) if c % 10 == 0 else "") for c in range(1, columns + 1))
    out.append(f'<table:table-row table:style-name="rn">{numbers}</table:table-row>')
    for r, row in enumerate(cells, 1):
        edges = "".join(cell(f"x{v}e{int(c % 10 == 0) + 2 * int(r % 10 == 0)}", symbols[v].mark.text if v >= 0 else "") for c, v in enumerate(row, 1))
        out.append(f'<table:table-row table:style-name="rs">{cell("n", str(r) if r % 10 == 0 else "")}{edges}</table:table-row>')
    out.append('<table:table-row table:style-name="rn"/>' + f'<table:table-row table:style-name="rn">{cell("p", "Key")}</table:table-row>')
    for v, s in enumerate(symbols):
        text = f"{s.code}   {s.name}"
        out.append(f'<table:table-row table:style-name="rn"><table:table-cell/>{cell(f"x{v}e0", s.mark.text)}<table:table-cell/>{cell("p", text)}</table:table-row>')
    print_sheet(document(paper, margin, styles, "".join(out)), path)
    return (truth_of(cells, symbols, margin + gutter, margin + head + 14, (side, side), paper), f"spreadsheet; {'tinted' if coloured else 'letters'}")


def write_chart(rng: random.Random, path: str) -> tuple[dict, str]:
    return _chart(rng, path, True)


def write_letters(rng: random.Random, path: str) -> tuple[dict, str]:
    return _chart(rng, path, False)
