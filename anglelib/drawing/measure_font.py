"""Makes ``advances.py``: ``python -m anglelib.drawing.measure_font``. Needs matplotlib, which brings the font."""

from __future__ import annotations

import pathlib

RANGES = (
    (0x20, 0x7E),  # Latin
    (0xA0, 0x24F),
    (0x300, 0x36F),  # combining marks
    (0x370, 0x3FF),  # Greek
    (0x400, 0x4FF),  # Cyrillic
    (0x2010, 0x2044),  # dashes, quotation marks, primes, fraction bar
    (0x2070, 0x208E),  # raised and lowered figures
    (0x2150, 0x215F),  # fractions
    (0x2190, 0x21FF),  # arrows
    (0x2200, 0x22FF),  # mathematics
    (0x25A0, 0x25FF),  # shapes
)


def source() -> str:
    """The text of ``advances.py``, from the DejaVu Sans that matplotlib ships."""
    from matplotlib import font_manager, ft2font

    font = ft2font.FT2Font(font_manager.findfont("DejaVu Sans", fallback_to_default=False))
    glyphs = font.get_charmap()
    unscaled = ft2font.LoadFlags.NO_SCALE
    lines = [
        '"""Advance widths of DejaVu Sans in 1/2048 of its size, one row a range of code points.',
        "",
        "Made by ``python -m anglelib.drawing.measure_font``; a test holds it to the font. 0 in a row: no such letter,",
        "or a combining mark.",
        '"""',
        "",
        f"EM = {font.units_per_EM}",
        "ADVANCES = {",
    ]
    for first, last in RANGES:
        widths = [font.load_char(code, flags=unscaled).horiAdvance if code in glyphs else 0 for code in range(first, last + 1)]
        lines.append(f"    0x{first:04X}: (")
        row = "       "
        for width in widths:
            if len(row) + len(f" {width},") > 118:
                lines.append(row)
                row = "       "
            row += f" {width},"
        lines += [row, "    ),"]
    return "\n".join([*lines, "}", ""])


if __name__ == "__main__":
    path = pathlib.Path(__file__).with_name("advances.py")
    path.write_text(source(), encoding="utf-8")
    print(path)
