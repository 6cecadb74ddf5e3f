"""Makes a clean page picture look like a poor scan or photograph. All choices come from the seed."""
import io

import numpy as np
from PIL import Image, ImageFilter


def _perspective(source, target):
    """The eight numbers that PIL wants: they carry points of `target` to points of `source`."""
    rows, right = [], []
    for (sx, sy), (tx, ty) in zip(source, target):
        rows.append([tx, ty, 1, 0, 0, 0, -sx * tx, -sx * ty])
        rows.append([0, 0, 0, tx, ty, 1, -sy * tx, -sy * ty])
        right += [sx, sy]
    return np.linalg.solve(np.array(rows, float), np.array(right, float))


def _apply(numbers, x, y):
    a, b, c, d, e, f, g, h = numbers
    below = g * x + h * y + 1
    return (a * x + b * y + c) / below, (d * x + e * y + f) / below


def _bend(rng, picture, angle, shift, ground):
    """Turned by `angle` degrees and each corner moved by up to `shift` of the page; also gives
    the mapping of page fractions onto the new picture."""
    w, h = picture.size
    corners = [(0, 0), (w, 0), (w, h), (0, h)]
    turn = np.deg2rad(angle)
    moved = []
    for x, y in corners:
        dx, dy = x - w / 2, y - h / 2
        moved.append((w / 2 + dx * np.cos(turn) - dy * np.sin(turn) + rng.uniform(-1, 1) * shift * w,
                      h / 2 + dx * np.sin(turn) + dy * np.cos(turn)
                      + rng.uniform(-1, 1) * shift * h))
    # The scanner's bed is as large as needed, as when a page is laid down askew.
    left, top = min(p[0] for p in moved), min(p[1] for p in moved)
    moved = [(x - left, y - top) for x, y in moved]
    size = (int(max(p[0] for p in moved)) + 1, int(max(p[1] for p in moved)) + 1)
    back = _perspective(corners, moved)
    forth = _perspective(moved, corners)
    bent = picture.transform(size, Image.Transform.PERSPECTIVE, back,
                             Image.Resampling.BICUBIC, fillcolor=ground)

    def place(fx, fy):
        x, y = _apply(forth, fx * w, fy * h)
        return x / size[0], y / size[1]
    return bent, place


def _smooth_noise(numbers, h, w, coarse):
    small = numbers.random((h // coarse + 2, w // coarse + 2)).astype(np.float32)
    return np.asarray(Image.fromarray(small).resize((w, h), Image.Resampling.BICUBIC))


def _light(rng, numbers, h, w, kind):
    y = np.linspace(-1, 1, h, dtype=np.float32)[:, None]
    x = np.linspace(-1, 1, w, dtype=np.float32)[None, :]
    depth = rng.uniform(0.12, 0.3)
    if kind == "gradient":
        turn = rng.uniform(0, 2 * np.pi)
        return 1 - depth * (0.5 + 0.35 * (x * np.cos(turn) + y * np.sin(turn)))
    if kind == "vignette":
        return 1 - depth * (x * x + y * y) * 0.6
    if kind == "shadow":
        at, slope = rng.uniform(-0.5, 0.5), rng.uniform(-0.4, 0.4)
        return 1 - depth * np.exp(-((x - at - slope * y) / rng.uniform(0.08, 0.3)) ** 2)
    return 1 - depth * _smooth_noise(numbers, h, w, max(h, w) // 3)


def _spread(picture, amount):
    """Ink that ran (amount > 0) or wore off (< 0), up to about half a pixel."""
    other = picture.filter(ImageFilter.MinFilter(3) if amount > 0 else ImageFilter.MaxFilter(3))
    return Image.blend(picture, other, abs(amount))


def choose_faults(rng, dpi, fixed):
    """Which faults the page has."""
    faults = {
        "angle": rng.choice([0.0, rng.uniform(-3, 3), rng.uniform(-1, 1), rng.uniform(-3, 3)]),
        "shift": rng.choice([0.0, 0.0, 0.004, 0.01, 0.015]),
        "light": rng.choice(["none", "gradient", "vignette", "shadow", "blotches"]),
        "tint": rng.choice([None, None, (250, 242, 220), (228, 228, 226), (226, 234, 244),
                            (244, 230, 200)]),
        "grain": rng.choice([0.0, 2.0, 4.0, 7.0]),
        "blur": rng.uniform(0.5, 1.5) * (1.0 if dpi >= 200 else 0.65),
        "spread": rng.choice([0.0, 0.0, 0.35, 0.6, -0.3]),
        "specks": rng.choice([0, 0, 60, 250]),
        "crease": rng.random() < 0.2, "black edge": rng.random() < 0.2,
        "contrast": rng.choice([1.0, 1.0, 1.0, 0.75, 0.55]),
        "quality": rng.randint(35, 80), "grey": rng.random() < 0.2,
    }
    faults.update(fixed)
    if dpi <= 150:
        faults["spread"] = max(-0.2, min(0.3, faults["spread"]))
    return faults


def _specks(rng, pixels, count, dpi):
    h, w = pixels.shape[:2]
    for _ in range(count):
        side = max(1, round(rng.uniform(0.003, 0.011) * dpi))
        y, x = rng.randrange(h - side), rng.randrange(w - side)
        pixels[y:y + side, x:x + side] *= rng.choice([0.25, 0.45, 0.7])


def _crease(rng, pixels, dpi):
    h, w = pixels.shape[:2]
    at = np.arange(h)[:, None] - h * rng.uniform(0.35, 0.65) - rng.uniform(-0.01, 0.01) * np.arange(w)
    near = np.exp(-(at / (0.02 * dpi)) ** 2)
    far = np.clip(np.exp(-np.abs(at) / (0.25 * dpi)) * (at > 0), 0, 1)
    pixels *= (1 - 0.28 * near - 0.12 * far)[:, :, None].astype(np.float32)


def degrade(rng, pixels, dpi, faults):
    """`pixels` is h x w x 3, 8 bits. Gives JPEG bytes, the mapping of page fractions and size."""
    numbers = np.random.default_rng(rng.getrandbits(64))
    picture = Image.fromarray(pixels)
    if faults["spread"]:
        picture = _spread(picture, faults["spread"])
    ground = (18, 18, 20) if faults["black edge"] else (255, 255, 255)
    picture, place = _bend(rng, picture, faults["angle"], faults["shift"], ground)
    picture = picture.filter(ImageFilter.GaussianBlur(faults["blur"]))
    values = np.asarray(picture).astype(np.float32)
    h, w = values.shape[:2]
    if faults["tint"]:
        values *= np.array(faults["tint"], np.float32) / 255
    if faults["contrast"] < 1:
        values = 128 + rng.uniform(0, 60) + (values - 128) * faults["contrast"]
        values = np.minimum(values, 250)
    if faults["light"] != "none":
        values *= _light(rng, numbers, h, w, faults["light"])[:, :, None].astype(np.float32)
    if faults["crease"]:
        _crease(rng, values, dpi)
    _specks(rng, values, faults["specks"], dpi)
    if faults["black edge"]:
        edge = rng.randint(dpi // 20, dpi // 5)
        side = rng.choice(["left", "right", "top", "bottom"])
        part = {"left": np.s_[:, :edge], "right": np.s_[:, -edge:], "top": np.s_[:edge],
                "bottom": np.s_[-edge:]}[side]
        values[part] *= 0.08
    if faults["grain"]:
        noise = numbers.standard_normal((h, w), np.float32)
        values += (noise * faults["grain"])[:, :, None]
    picture = Image.fromarray(np.clip(values, 0, 255).astype(np.uint8))
    if faults["grey"]:
        picture = picture.convert("L")
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=faults["quality"], dpi=(dpi, dpi))
    return out.getvalue(), place, picture.size


def fault_words(faults):
    said = ["turned %.1f degrees" % faults["angle"]] if faults["angle"] else []
    if faults["shift"]:
        said.append("perspective %.1f %%" % (100 * faults["shift"]))
    if faults["light"] != "none":
        said.append("light " + faults["light"])
    if faults["tint"]:
        said.append("tinted paper")
    for name in ("grain", "specks", "spread"):
        if faults[name]:
            said.append("%s %s" % (name, faults[name]))
    said += [name for name in ("crease", "black edge", "grey") if faults[name]]
    if faults["contrast"] < 1:
        said.append("contrast %.2f" % faults["contrast"])
    return said + ["blur %.1f px" % faults["blur"], "JPEG %d" % faults["quality"]]
