# SPDX-License-Identifier: MIT
"""Reads a shade card; writes a chart's picture, key and backstitch."""

import csv
import struct
import zlib
from collections import Counter

from dyed_colour import hex_srgb

BARE = bytes(4)


def read_card(path):
    """Name and pixel colour of each shade, by code."""
    with open(path, encoding="utf-8", newline="") as file:
        return {
            row["code"]: (row["name"], hex_srgb([float(row[axis]) for axis in "Lab"]))
            for row in csv.DictReader(file)
        }


def png(width, height, pixels):
    """An RGBA picture of 8 bits a channel, rows unfiltered; `pixels` are four bytes each, row by row."""
    rows = b"".join(b"\0" + b"".join(pixels[row * width : (row + 1) * width]) for row in range(height))

    def chunk(kind, body):
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0)
    chunks = chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(rows, 9)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + chunks


def write_csv(path, header, rows):
    """CSV as RFC 4180 has it: UTF-8 without a mark, CR LF."""
    with open(path, "w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([header, *rows])
    print(f"{path.name}: {len(rows)} rows")


def write_chart(stem, cells, width, height, key, card, shades):
    """`key` holds (symbol, code, strands) a row; `cells` gives the symbol of each stitch."""
    counts = Counter(cells.values())
    rows, pixel_of = [], {}
    for symbol, code, strands in key:
        name, srgb = shades[code]
        pixel_of[symbol] = bytes.fromhex(srgb[1:] + "ff")
        rows.append([srgb, symbol, card, code, name, strands, counts[symbol]])
    assert len(set(pixel_of.values())) == len(key), "two rows of a key have the same symbol or pixel"
    assert all(0 <= x < width and 0 <= y < height for x, y in cells), "a stitch lies beside the chart"

    every = ((x, y) for y in range(height) for x in range(width))
    pixels = [pixel_of[cells[cell]] if cell in cells else BARE for cell in every]
    stem.with_suffix(".png").write_bytes(png(width, height, pixels))
    print(f"{stem.name}.png: {width} x {height}, {len(cells)} stitches")
    write_csv(stem.with_suffix(".key.csv"), ["srgb", "symbol", "card", "code", "name", "strands", "stitches"], rows)


def write_lines(path, lines):
    rows = [[*(f"{end:g}" for end in line[:4]), line[4]] for line in lines]
    write_csv(path, ["x1", "y1", "x2", "y2", "symbol"], rows)
