#!/usr/bin/env python3
# Makes the shipped font and its table of widths out of the fonts-lato package of Debian.
# Needs python3-fonttools. Run by hand, only when the set of characters changes:  data/fonts/make_fonts.py
# The result is a smaller, renamed version under the SIL Open Font License, as the licence asks of one: no hints, no
# kerning and no ligatures, so that the width of a text is the sum of its characters in every program that shows it.
import sys
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

HERE = Path(__file__).resolve().parent
SOURCE = Path("/usr/share/fonts/truetype/lato")
TABLE = HERE.parent.parent / "src/drawing/font_table.h"
FAMILY = "Kerfdraft Sans"
STYLES = (("Regular", "Lato-Regular.ttf"), ("Bold", "Lato-Bold.ttf"))

# Latin with its accents, the Greek of formulas, and the signs of units, fractions and comparisons.
CHARACTERS = sorted(
    set(range(0x20, 0x7F)) | set(range(0xA0, 0x180)) | set(range(0x391, 0x3AA)) - {0x3A2} | set(range(0x3B1, 0x3CA))
    | {0x2010, 0x2011, 0x2013, 0x2014, 0x2018, 0x2019, 0x201A, 0x201C, 0x201D, 0x201E, 0x2022, 0x2026, 0x2030, 0x2032,
       0x2033, 0x20AC, 0x2190, 0x2191, 0x2192, 0x2193, 0x2206, 0x2211, 0x2212, 0x221A, 0x2248, 0x2260, 0x2264, 0x2265}
    | {0x2070} | set(range(0x2074, 0x207A)) | set(range(0x2080, 0x208A)) | set(range(0x215B, 0x215F)))


def smaller(style, file):
    font = TTFont(SOURCE / file, recalcTimestamp=False)
    options = subset.Options()
    options.layout_features = []
    options.hinting = False
    options.glyph_names = False
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    options.name_languages = [0x409]
    options.drop_tables += ["GPOS", "GSUB", "GDEF", "DSIG", "kern"]
    job = subset.Subsetter(options)
    job.populate(unicodes=CHARACTERS)
    job.subset(font)
    for record in font["name"].names:
        name = {1: FAMILY, 2: style, 3: f"{FAMILY} {style} 1.000", 4: f"{FAMILY} {style}",
                5: "Version 1.000, made from Lato 2.0", 6: f"{FAMILY.replace(' ', '')}-{style}"}.get(record.nameID)
        if name is not None:
            record.string = name
    return font


def main():
    fonts = {style: smaller(style, file) for style, file in STYLES}
    widths = {}
    for style, font in fonts.items():
        assert font["head"].unitsPerEm == 2000
        font.save(HERE / f"kerfdraft-sans-{style.lower()}.ttf")
        for code, glyph in font.getBestCmap().items():
            widths.setdefault(code, {})[style] = font["hmtx"][glyph][0]
    missing = [f"U+{c:04X}" for c in CHARACTERS if c not in widths]
    print("not in the font:", " ".join(missing) or "none", file=sys.stderr)
    regular = fonts["Regular"]
    lines = [
        "// Widths of the shipped font's characters; written by data/fonts/make_fonts.py, do not edit.",
        "// The font is a smaller version of Lato under the SIL Open Font License (data/fonts/OFL.txt).",
        "#pragma once", "", "#include <array>", "#include <cstdint>", "",
        "namespace kerfdraft::drawing {", "",
        "/// Advance widths of one character [units of the em].", "struct CharacterWidth {",
        "  char32_t code;", "  std::uint16_t regular;", "  std::uint16_t bold;", "};", "",
        f"inline constexpr int kUnitsPerEm = {regular['head'].unitsPerEm};",
        f"inline constexpr int kCapHeight = {regular['OS/2'].sCapHeight};",
        f"inline constexpr int kXHeight = {regular['OS/2'].sxHeight};",
        f"inline constexpr int kAscent = {regular['hhea'].ascent};",
        f"inline constexpr int kDescent = {-regular['hhea'].descent};", "",
        "/// In the order of the codes.",
        "// clang-format off",
        "inline constexpr auto kCharacterWidths = std::to_array<CharacterWidth>({"]
    row = "   "
    for code in sorted(widths):
        cell = f" {{0x{code:04x}, {widths[code]['Regular']}, {widths[code]['Bold']}}},"
        if len(row) + len(cell) > 108:
            lines.append(row)
            row = "   "
        row += cell
    lines += [row, "});", "// clang-format on", "", "}  // namespace kerfdraft::drawing", ""]
    TABLE.write_text("\n".join(lines))


if __name__ == "__main__":
    main()
