"""Words of the trade for what a job calls otherwise, and how to write what is often written otherwise."""

from __future__ import annotations

#: The trade's word, in small letters, and ours.
TRADE_WORDS = {
    "couch": "sofa", "settee": "loveseat", "love seat": "loveseat", "chesterfield": "sofa", "sectional sofa": "sectional",
    "tv": "screen", "television": "screen", "tv stand": "media unit", "media console": "media unit",
    "end table": "side table", "lamp table": "side table", "bedside table": "nightstand", "night table": "nightstand",
    "night stand": "nightstand", "cocktail table": "coffee table", "hall table": "console", "console table": "console",
    "buffet": "sideboard", "credenza": "sideboard", "chest of drawers": "chest", "armoire": "wardrobe",
    "closet": "wardrobe", "bookshelf": "bookcase", "shelves": "bookcase", "easy chair": "armchair",
    "club chair": "armchair", "pouf": "ottoman", "footstool": "ottoman", "lounge chair": "armchair",
    "writing desk": "desk", "office chair": "desk chair", "chair": "armchair", "cot": "crib",
    "archway": "cased opening", "arch": "cased opening", "fireplace": "hearth", "socket": "outlet", "basin": "sink",
    "watch": "screen", "tv watching": "screen", "eat": "dine", "conversation": "talk",
    "curtains": "panels", "drapes": "panels", "drapery": "panels", "panel": "panels", "roman blind": "roman",
    "roman shade": "roman", "blind": "roller", "roller blind": "roller", "roller shade": "roller",
    "grommet": "eyelet", "grommets": "eyelet", "eyelets": "eyelet",
    "s fold": "wave", "roll fold": "wave", "french pleat": "triple pinch", "pinch pleat": "triple pinch",
    "pinch": "triple pinch", "two finger": "double pinch", "three finger": "triple pinch", "pencil pleat": "pencil",
    "box pleat": "box", "goblet pleat": "goblet", "cartridge pleat": "cartridge", "tab top": "tab", "tabs": "tab",
    "pole pocket": "rod pocket", "casing": "rod pocket", "in": "inside", "inside mount": "inside", "out": "outside",
    "outside mount": "outside", "ceiling mount": "ceiling", "floor": "clear", "float": "clear", "pool": "puddle",
    "one way left": "left", "one way right": "right", "two way": "pair", "center": "pair", "stationary": "fixed",
    "chain": "free loop", "bead chain": "free loop", "cordless": "none", "baton": "wand", "motorized": "motor",
    "half drop": "half-drop", "drop": "half-drop", "interlining": "interlined", "lining": "lined",
}  # fmt: skip

#: How to write a number that is often written otherwise, by its key.
NUMBER_HINTS = {
    "fullness": "a ratio, flat width over finished width: 2.5; a percent means two things in the trade and is not read",
    "widths": "how many widths of the cloth, in all panels: 4, or 2.5",
}
