#!/usr/bin/env python3
"""Cut the fonts of this folder out of Inter. Run once; its outputs are committed.

Needs the Debian packages fonts-inter, python3-fonttools and python3-brotli
(seen with 4.0~beta7+ds-1, 4.38.0 and 1.0.9). Not part of the build.

    python3 assets/fonts/subset.py FOLDER     # that of Inter-Regular.otf: dpkg -L fonts-inter

Makes, beside itself:
  canvas-regular.ttf, canvas-semibold.ttf   for the picture: Latin-1 and the signs of the drawing,
                                            TrueType outlines on a 1024 grid, no layout tables
  text-regular.woff2, text-semibold.woff2   for the page: Latin with Extended-A, kerning kept

In all four the digits are Inter's tabular ones, so every figure is as wide as every
other without any font-feature setting. As that makes them modified versions, their
family is called "Inter Tabular". Inter declares no reserved font name (see OFL.txt).
"""
import pathlib
import sys

from fontTools import subset
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont, newTable
from fontTools.ttLib.scaleUpem import scale_upem

HERE = pathlib.Path(__file__).resolve().parent
FAMILY = "Inter Tabular"
WEIGHTS = {"regular": "Regular", "semibold": "SemiBold"}

LATIN_1 = [*range(0x20, 0x7F), *range(0xA0, 0x100)]
EXTENDED_A = [c for c in range(0x100, 0x180) if c != 0x149]  # deprecated, and not in Inter
# Thin space, narrow no-break space, figure space, dashes, quotes, bullet, ellipsis,
# primes, minus, arrows, the up triangle.
SIGNS = [0x2009, 0x202F, 0x2007, 0x2010, 0x2011, 0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D,
         0x2022, 0x2026, 0x2032, 0x2033, 0x2212, 0x2190, 0x2191, 0x2192, 0x2193, 0x25B2]
# What only the page's prose needs: low quotes, comparison signs, Greek of the formulas,
# the other triangles, check and cross.
PAGE_SIGNS = [0x201A, 0x201E, 0x2039, 0x203A, 0x2044, 0x20AC, 0x2194, 0x2248, 0x2260, 0x2264,
              0x2265, 0x221A, 0x0394, 0x03B4, 0x03C0, 0x03C8, 0x03C9, 0x25B6, 0x25BC, 0x25C0,
              0x2713, 0x2717, 0x0218, 0x0219, 0x021A, 0x021B]
CANVAS = [*LATIN_1, *SIGNS]
PAGE = [*LATIN_1, *EXTENDED_A, *SIGNS, *PAGE_SIGNS]

CANVAS_UNITS_PER_EM = 1024
CANVAS_MAX_CURVE_ERROR = 2.0  # units of that grid: under 0.1 px in letters of 40 px


def bake_tabular_digits(font):
    """Point the digits' code points at the glyphs that the tnum feature puts for them."""
    gsub = font["GSUB"].table
    record = next(r for r in gsub.FeatureList.FeatureRecord if r.FeatureTag == "tnum")
    swap = {}
    for index in record.Feature.LookupListIndex:
        for table in gsub.LookupList.Lookup[index].SubTable:
            swap.update(getattr(table, "ExtSubTable", table).mapping)
    for table in font["cmap"].tables:
        if table.isUnicode():
            for digit in range(0x30, 0x3A):  # `get`: two subtables may share one map
                table.cmap[digit] = swap.get(table.cmap[digit], table.cmap[digit])
    # Some weights are 0.1 % off being tabular; make them exact, and the figure space with them.
    cmap, widths = font.getBestCmap(), font["hmtx"]
    wide = max(widths[cmap[digit]][0] for digit in range(0x30, 0x3A))
    for code_point in [*range(0x30, 0x3A), 0x2007]:
        widths[cmap[code_point]] = (wide, widths[cmap[code_point]][1])


def cut(font, code_points, features):
    missing = [hex(c) for c in code_points if c not in font.getBestCmap()]
    assert not missing, missing
    options = subset.Options()
    options.layout_features = features
    options.hinting = False
    options.desubroutinize = True
    options.notdef_outline = False
    options.glyph_names = False
    options.legacy_cmap = False
    options.name_IDs = [0, 1, 2, 4, 5, 6, 13, 14]
    if not features:
        options.drop_tables += ["GDEF", "GPOS", "GSUB"]
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=code_points)
    cutter.subset(font)


def rename(font, style):
    """`style` is the weight as Inter spells it. Copyright and licence strings stay."""
    spaced = "Regular" if style == "Regular" else "Semi Bold"
    new = {1: FAMILY if style == "Regular" else f"{FAMILY} {spaced}", 2: "Regular",
           4: f"{FAMILY} {spaced}", 6: f"{FAMILY} {style}".replace(" ", "-")}
    for record in font["name"].names:
        if record.nameID in new:
            record.string = new[record.nameID]
    cff = font["CFF "].cff
    cff.fontNames = [new[6]]
    top = cff.topDictIndex[0]
    top.FamilyName, top.FullName = FAMILY, new[4]


def to_true_type(font):
    """Replace the cubic outlines by quadratic ones."""
    glyphs, order = font.getGlyphSet(), font.getGlyphOrder()
    glyf = newTable("glyf")
    glyf.glyphOrder, glyf.glyphs = order, {}
    for name in order:
        pen = TTGlyphPen(glyphs)
        glyphs[name].draw(Cu2QuPen(pen, CANVAS_MAX_CURVE_ERROR, reverse_direction=True))
        glyf.glyphs[name] = pen.glyph()
    font["loca"], font["glyf"] = newTable("loca"), glyf
    del font["CFF "]
    for name in order:
        bounds = glyf.glyphs[name]
        bounds.recalcBounds(glyf)
        font["hmtx"][name] = (font["hmtx"][name][0], getattr(bounds, "xMin", 0))
    maxp = font["maxp"]
    maxp.tableVersion = 0x00010000
    for field in ("maxZones maxTwilightPoints maxStorage maxFunctionDefs maxInstructionDefs "
                  "maxStackElements maxSizeOfInstructions").split():
        setattr(maxp, field, 0)
    maxp.maxZones = 1
    font["head"].glyphDataFormat = 0
    # Dear ImGui takes ascender less descender for the font size; make that the em.
    font["hhea"].ascent = CANVAS_UNITS_PER_EM * 4 // 5
    font["hhea"].descent = font["hhea"].ascent - CANVAS_UNITS_PER_EM
    font["hhea"].lineGap = 0
    font["post"].formatType = 3.0
    font.sfntVersion = "\x00\x01\x00\x00"


def load(folder, style):
    font = TTFont(folder / f"Inter-{style}.otf", recalcTimestamp=False)
    bake_tabular_digits(font)
    return font


def main(folder):
    for weight, style in WEIGHTS.items():
        canvas = load(folder, style)
        cut(canvas, CANVAS, [])
        rename(canvas, style)
        scale_upem(canvas, CANVAS_UNITS_PER_EM)
        to_true_type(canvas)
        canvas.save(HERE / f"canvas-{weight}.ttf")

        page = load(folder, style)
        cut(page, PAGE, ["kern"])
        rename(page, style)
        page.flavor = "woff2"
        page.save(HERE / f"text-{weight}.woff2")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main(pathlib.Path(sys.argv[1]))
    for path in sorted(HERE.glob("*-*.*")):
        print(path.name, path.stat().st_size)
