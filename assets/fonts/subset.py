#!/usr/bin/env python3
"""Make the four bundled font files from their sources.

    pip install fonttools==4.68.0
    npm pack @expo-google-fonts/inter@0.4.2      (Inter 4.001; unpack it)
    apt-get install fonts-dejavu-core            (DejaVu 2.37)
    python3 subset.py INTER_PACKAGE_DIR DEJAVU_DIR

What changes:
- only the scripts and signs below are kept (Latin, Greek, Cyrillic, punctuation, signs);
- Inter's figures become tabular with a slashed zero, by pointing the character map at the glyphs that
  the features `tnum` and `zero` would have chosen, because the screen applies no features;
- of the layout tables only the anchors of combining marks stay (no kerning, no ligatures);
- invisible and direction-changing characters are left out, so that text with them is refused;
- characters that shared a glyph get one each;
- the families are renamed, so that nobody takes these files for the originals.

The output does not depend on the day: the font's own time stamps are kept.
"""

import copy
import sys
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

HERE = Path(__file__).parent

RANGES = [
    (0x0020, 0x007E),  # basic Latin
    (0x00A0, 0x024F),  # Latin-1, Latin Extended-A and -B
    (0x02B0, 0x02FF),  # spacing modifiers (the Hawaiian okina among them)
    (0x0300, 0x036F),  # combining marks
    (0x0370, 0x03FF),  # Greek
    (0x0400, 0x052F),  # Cyrillic and its supplement
    (0x1E00, 0x1EFF),  # Latin Extended Additional (Vietnamese among them)
    (0x1F00, 0x1FFF),  # Greek Extended
    (0x2002, 0x200A),  # spaces
    (0x2010, 0x2027),  # dashes, quotes, bullets
    (0x202F, 0x205E),  # per mille, primes, guillemets
    (0x2070, 0x209C),  # superscripts and subscripts
    (0x20A0, 0x20BF),  # currencies
    (0x2100, 0x214F),  # letterlike signs
    (0x2150, 0x218B),  # fractions, Roman numerals
    (0x2190, 0x21FF),  # arrows
    (0x2200, 0x22FF),  # mathematics
    (0x2300, 0x23FF),  # technical signs
    (0x25A0, 0x25FF),  # geometric shapes
    (0x2600, 0x2612),  # boxes to tick
    (0x26A0, 0x26A1),  # warning signs
    (0x2701, 0x27BE),  # ticks, crosses, numbered discs
    (0xFFFD, 0xFFFD),  # the replacement character, to show what could not be read
]
LEFT_OUT = {0x00AD}  # the soft hyphen is invisible

# Only what Inter lacks needs to come from the fallback; the rest of it stays out of the fallback.
JOBS = [
    ("Inter_400Regular.ttf", "400Regular", "inter-regular.ttf", "Regular"),
    ("Inter_600SemiBold.ttf", "600SemiBold", "inter-bold.ttf", "Bold"),
]


def wanted():
    return {c for a, b in RANGES for c in range(a, b + 1)} - LEFT_OUT


def options():
    o = subset.Options()
    o.layout_features = ["mark", "mkmk"]
    o.hinting = False
    o.glyph_names = False
    o.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    o.name_languages = [0x409]
    o.notdef_outline = True
    o.recalc_timestamp = False
    o.drop_tables += ["FFTM", "MATH", "STAT", "kern", "gasp", "GlyphOrder"]
    return o


def single_substitutions(font, tag):
    """Glyph to glyph, as the feature `tag` substitutes."""
    gsub = font["GSUB"].table
    found = {}
    for record in gsub.FeatureList.FeatureRecord:
        if record.FeatureTag != tag:
            continue
        for index in record.Feature.LookupListIndex:
            for sub in gsub.LookupList.Lookup[index].SubTable:
                sub = getattr(sub, "ExtSubTable", sub)
                if hasattr(sub, "mapping"):
                    found.update(sub.mapping)
    return found


def bake_figures(font):
    """Point digits and what stands among them at tabular glyphs, and 0 at the slashed one."""
    tabular, slashed = single_substitutions(font, "tnum"), single_substitutions(font, "zero")
    among = {ord(c) for c in "0123456789"}
    plain = dict(font.getBestCmap())
    for table in font["cmap"].tables:
        for code in among & set(table.cmap):
            glyph = tabular[plain[code]]
            table.cmap[code] = slashed[glyph] if code == ord("0") else glyph
    best = font.getBestCmap()
    widths = {font["hmtx"][best[c]][0] for c in among}
    assert len(widths) == 1, f"figures are not tabular: {widths}"


def separate(font):
    """Give every character a glyph of its own, so that text on paper can be read back exactly."""
    seen = {}
    for code, glyph in sorted(font.getBestCmap().items()):
        if seen.setdefault(glyph, code) == code:
            continue
        own = f"{glyph}.for{code:04X}"
        font["glyf"][own] = copy.deepcopy(font["glyf"][glyph])
        font["hmtx"][own] = font["hmtx"][glyph]
        for table in font["cmap"].tables:
            if code in table.cmap:
                table.cmap[code] = own


def rename(font, family, style):
    full = f"{family} {style}"
    values = {1: family, 2: style, 3: f"{full}; made by subset.py", 4: full, 6: full.replace(" ", "")}
    for name in list(font["name"].names):
        if name.nameID in values:
            name.string = values[name.nameID]
        elif name.nameID in (16, 17, 21, 22, 25):
            font["name"].removeNames(nameID=name.nameID)


def make(source, target, family, style, codes, prepare):
    font = TTFont(source, recalcTimestamp=False)
    prepare(font)
    cutter = subset.Subsetter(options())
    cutter.populate(unicodes=codes)
    cutter.subset(font)
    separate(font)
    rename(font, family, style)
    font.save(HERE / target)
    print(target, (HERE / target).stat().st_size, "bytes,", len(font.getGlyphOrder()), "glyphs")
    return set(font.getBestCmap())


def main(inter, dejavu):
    everything = wanted()
    for (file, folder, target, style), fallback in zip(JOBS, ["DejaVuSans", "DejaVuSans-Bold"]):
        have = make(inter / folder / file, target, "Traywright Inter", style, everything, bake_figures)
        # The fallback keeps combining marks and the letters that carry them, so that a mark which
        # Inter lacks still finds a base in the same font.
        rest = (everything - have) | set(range(0x41, 0x5B)) | set(range(0x61, 0x7B)) | {0x20, 0x2E}
        rest |= set(range(0x0300, 0x0370))
        make(dejavu / f"{fallback}.ttf", f"dejavu-{style.lower()}.ttf", "Traywright DejaVu", style, rest, lambda _: None)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
