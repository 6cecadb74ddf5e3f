"""Writes the operators of a PDF by hand, with the printer's own faces: as small programs of the nineties did."""

from __future__ import annotations

import zlib

from scene import DING_CODES, FONTS, Line, Scene, Shape, Text

_FACES = [name for name, font in FONTS.items() if font.post]


def face_codes(text: str, font: str) -> bytes:
    """Bytes of `text` in the encoding of one of the printer's faces."""
    if font == "dings":
        return bytes(DING_CODES[ord(c)] for c in text)
    return text.encode("latin-1")


def escaped(codes: bytes) -> str:
    return "".join(f"\\{b:03o}" if b < 32 or b > 126 or b in b"()\\" else chr(b) for b in codes)


def _operators(scene: Scene, sheet: list) -> str:
    out = []
    y = lambda v: scene.height - v
    rgb = lambda c: " ".join(f"{v / 255:.3f}" for v in c)
    for item in sheet:
        if isinstance(item, Line):
            out.append(f"{item.width:.3f} w [{' '.join(map(str, item.dash))}] 0 d {int(item.round)} J {rgb(item.colour)} RG "
                       f"{item.a[0]:.3f} {y(item.a[1]):.3f} m {item.b[0]:.3f} {y(item.b[1]):.3f} l S")
        elif isinstance(item, Shape):
            for contour in item.contours:
                out.append(" ".join(f"{px:.3f} {y(py):.3f} {'l' if k else 'm'}" for k, (px, py) in enumerate(contour)) + " h")
            if item.fill:
                out[-len(item.contours)] = f"{rgb(item.fill)} rg " + out[-len(item.contours)]
            if item.stroke:
                out[-len(item.contours)] = f"{item.width:.3f} w [] 0 d {rgb(item.stroke)} RG " + out[-len(item.contours)]
            out.append("B*" if item.fill and item.stroke else "f*" if item.fill else "S")
        elif isinstance(item, Text):
            turn = "0 1 -1 0" if item.turned else "1 0 0 1"
            out.append(f"BT /F{_FACES.index(item.font)} {item.size:.3f} Tf {rgb(item.colour)} rg {turn} {item.x:.3f} {y(item.y):.3f} Tm "
                       f"({escaped(face_codes(item.text, item.font))}) Tj ET")
    return "\n".join(out)


def write(scene: Scene, path: str, packed: bool = False) -> None:
    fonts = [f"<< /Type /Font /Subtype /Type1 /BaseFont /{FONTS[n].post}" + ("" if n == "dings" else " /Encoding /WinAnsiEncoding") + " >>"
             for n in _FACES]
    first_font = 3
    first_sheet = first_font + len(fonts)
    kids = " ".join(f"{first_sheet + 2 * k} 0 R" for k in range(len(scene.sheets)))
    used = " ".join(f"/F{k} {first_font + k} 0 R" for k in range(len(fonts)))
    objects = [b"<< /Type /Catalog /Pages 2 0 R >>", f"<< /Type /Pages /Kids [{kids}] /Count {len(scene.sheets)} >>".encode()]
    objects += [f.encode() for f in fonts]
    for k, sheet in enumerate(scene.sheets):
        body = _operators(scene, sheet).encode("latin-1")
        body = zlib.compress(body) if packed else body
        objects.append(f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {scene.width:.2f} {scene.height:.2f}] /Resources << /Font << {used} >> >> "
                       f"/Contents {first_sheet + 2 * k + 1} 0 R >>".encode())
        objects.append(f"<< /Length {len(body)}{' /Filter /FlateDecode' if packed else ''} >>\nstream\n".encode() + body + b"\nendstream")
    out, places = bytearray(b"%PDF-1.3\n"), []
    for number, body in enumerate(objects, 1):
        places.append(len(out))
        out += f"{number} 0 obj\n".encode() + body + b"\nendobj\n"
    start = len(out)
    out += f"xref\n0 {len(objects) + 1}\n0000000000 65535 f \n".encode() + b"".join(f"{p:010d} 00000 n \n".encode() for p in places)
    out += f"trailer\n<< /Size {len(objects) + 1} /Root 1 0 R >>\nstartxref\n{start}\n%%EOF\n".encode()
    with open(path, "wb") as file:
        file.write(out)


def write_packed(scene: Scene, path: str) -> None:
    write(scene, path, True)
