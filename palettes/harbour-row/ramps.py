# SPDX-License-Identifier: MIT
"""The ramps of the three invented thread lines: codes, dye recipes and names.

A ramp is a row of shades dyed from one recipe, deep to pale, with neighbouring codes. One line a ramp:

    first number | hue, degrees | strength | lightness L*, deepest-palest | names, deepest first

`strength` is the share of the chroma that dyed fibre can reach at that hue and lightness
(`dyed_colour.reach`). A single shade has one lightness. The gaps between the numbers are room for
shades that a line might bring out later. Every name and number here was made up for this demo.
"""

COTTON = """
# whites and naturals
101  86 0.17 84-94.3 Raw canvas, Old sailcloth, Sailcloth, Gull breast
110 258 0.34 86-94.6 Herring milk, Salt crust, Whitewash, Gannet white
117  75 0.30 46-87   Old hawser, Hawser, Hemp line, Flax tow, Net twine, New twine
# greys, warm to cool, and the blacks
129  68 0.12 24-82   Wet cinder, Cinder, Hearth ash, Driftwood, Dry driftwood, Bleached spar
139  45 0.11 27-85   Winkle, Limpet shell, Dogwhelk, Barnacle, Dry barnacle, Oyster lip
147  98 0.15 25-79   Low-water mud, Mud bank, Silt, Dry silt, Sandhopper
157 245 0.16 14.3-37 Pitch, Boat tar, Coal wharf, Stove lid, Anchor iron
166  30 0.14 14.8-36 Cormorant, Peat smoke, Boot black, Old boot, Tarred fence
176 246 0.20 26-87   Storm front, Rain gauge, Squall, Drizzle, Mizzle, Sea fret
185 286 0.15 29-86   Dusk slip, Lead line, Sounding lead, Zinc pail, Tin roof, Frosted tin
197 165 0.18 27-82   Weedy stone, Slipway stone, Harbour wall, Breakwater, Lichen bloom
# slates and blue-greys
216 257 0.43 20-57   Deep slate, Roof slate, Harbour slate, Wet slate, Dry slate
223 236 0.42 26-83   Ferry funnel, Ferry rail, Gull back, Wing grey, Fulmar, Grey dawn
234 272 0.42 26-80   Wet mussel, Mussel blue, Mussel bed, Mussel shell, Mussel pearl, Inside of a mussel
# blues
244 284 0.80 16-58   Night watch, Pea jacket, Bosun's coat, Coxswain, Launch blue, Regatta
255 276 1.00 19-74   Midnight mooring, Blue ensign, Signal blue, Rowing blue, Bunting, Fair-day blue
264 264 0.92 21-87   Deepwater, Roadstead, Open sea, Blue buoy, Fair sky, High sky
276 252 0.80 24-86   Tidal race, Ebb, Flood tide, Slack water, Shallows, Ripple
286 268 0.60 27-85   Stiff smock, Work smock, Washed smock, Faded smock, Patched smock, Threadbare smock
294 240 0.98 23-88   Diving bell, Ferryman's blue, Lobster blue, Blue door, Morning blue, Window blue
305 290 0.62 26-84   Squill root, Bluebell bank, Squill, Squill petal, Squill mist
314 232 0.62 30-85   Weathered hull, Hull blue, Oar blade, Skiff, Paddling pool
# turquoises
324 218 0.98 24-86   Cold current, Sea gate, Harbour mouth, Swim buoy, Bathing hut, Sea glass blue
333 203 0.98 25-88   Bottle sea, Mackerel back, Mackerel, Rock pool, Clear pool, Pool light
345 205 0.55 27-86   Old copper, Verdigris, Brass green, Boathouse trim, Faded trim, Sea mist
355 188 0.95 24-86   Deep weed, Sea lettuce, Green wave, Wave crest, Curling wave, Spindrift
363 190 0.40 25-80   Night tide, Backwater, Sluice, Mill pool, Eel grass, Tidewrack
# greens
374 172 0.95 23-85   Starboard, Starboard lamp, Green flag, Bottle glass, Sea glass, Thin glass
384 158 0.90 22-84   Boathouse door, Green shutter, Garden gate, Watering can, Pea pod, Mint bed
395 150 0.55 24-83   Ivy wall, Sea ivy, Sea beet, Sea kale, Kale rib, Kale flower
404 140 0.95 26-86   Dark fern, Fern, Cliff fern, Fern tip, Fennel, Fennel frond
416 128 0.60 25-82   Kelp bed, Kelp, Kelp blade, Kelp stem, Dried kelp, Kelp ribbon
426 132 0.30 24-80   Wet rockweed, Rockweed, Lichen grey, Lovage, Sage bank, Old lichen
434 118 0.96 32-88   Samphire root, Marsh samphire, Samphire, Young samphire, Lime rind, Lime water
445 110 0.72 28-86   Bladderwrack, Wrack, Egg wrack, Moss on slate, Moss, Pale moss
455 104 0.50 24-84   Oiled canvas, Tarpaulin, Old tarpaulin, Marram root, Marram, Marram seed
466 114 0.34 30-86   Reed bed, Reed, Sedge, Dune sedge, Dune grass
# yellows
474 100 0.92 46-91   Wet gorse, Gorse thorn, Gorse, Gorse bud, Lemon sole, Lemon peel
486  92 0.90 50-92   Brass lamp, Lamp oil, Sou'wester, Oilskin, Lamp yellow, Lamp glow
496  85 0.96 44-91   Tallow jar, Binnacle, Beacon, Quayside lamp, Yolk, Candle end, Candlelight
505  88 0.58 42-90   Old brass, Rubbed brass, Barley, Stubble, Straw hat, Fresh straw
516  82 0.36 38-89   Wet sand, Low-tide sand, Ribbed sand, Dry sand, Dune, Blown sand
# oranges
526  73 0.96 42-88   Marmalade rind, Marmalade, Lifebuoy, Sunrise buoy, Apricot jam, Apricot
537  62 1.00 40-86   Rusted chain, Rusty shackle, Orange buoy, Crab claw, Peeled orange, Prawn, Shrimp
547  66 0.60 33-86   Toffee tin, Ginger beer, Gingerbread, Amber bead, Honeycomb, Honey milk
559  53 0.88 32-85   Rust, Red lead, Boiled crab, Terracotta pot, Salmon, Salmon pink
# brick and red
569  47 0.62 27-84   Kiln brick, Brick quay, Brick, Old brick, Brick dust, Shell pink
577  40 0.94 26-78   Tan bark, Tan sail, Gurnard, Red gurnard, Coral weed, Coral
588  32 1.00 22-70   Ox blood, Net shed door, Red door, Port lamp, Signal red, Anemone
598  24 0.98 21-80   Sloe wine, Damson tart, Red ensign, Rowan berry, Boiled sweet, Rose hip
609  36 0.45 24-84   Dulse, Dried dulse, Old barge, Faded barge, Plaster, Pink plaster
# pinks
618  12 0.96 24-86   Beetroot, Ripe cherry, Ragged robin, Campion, Dog rose, Dog rose petal
630   2 0.95 26-87   Loganberry, Raspberry cane, Fuchsia hedge, Sea pink, Thrift, Pale thrift
640  18 0.55 28-87   Garnet weed, Rose wall, Worn velvet, Blush rose, Dawn cloud, First blush
648 352 0.62 25-86   Mulberry, Foxglove, Mallow, Mallow petal, Rest-harrow, Sugar mouse
659 343 1.00 27-84   Carnival flag, Paper lantern, Pink lantern, Regatta pink, Candy stall, Candy floss
669   8 0.34 27-85   Wet rosewood, Rosewood, Dusty rose, Pink shell, Tellin, Cockle lip
# purples and violets
680 330 0.90 22-82   Elderberry, Bramble, Bramble jam, Sea aster, Aster, Aster petal
689 322 0.50 22-84   Laver, Purple laver, Heather root, Heather, Ling, Heather mist
701 312 0.95 19-80   Plum cellar, Violet ink, Wild violet, Crocus, Lilac lane, Lilac
711 300 0.92 19-82   Iris root, Dark iris, Iris, Bugloss, Viper grass, Iris mist
719 306 0.45 22-84   Thundercloud, Twilight quay, Sea lavender, Lavender bunch, Dried lavender, Lavender water
730 338 0.32 21-82   Fig, Bilberry stain, Old mauve, Mauve ribbon, Pigeon, Moth wing
# browns
740  58 0.55 19-56   Bog oak, Oak keel, Oak plank, Varnish, Boat varnish, Cedar strip
751  50 0.42 18-66   Black tea, Strong tea, Barque, Cocoa, Cocoa tin, Milky tea
760  72 0.50 20-70   Wet bark, Tarred rope, Jute sack, Tobacco tin, Cork float, Pale cork
772  64 0.34 20-76   Peat, Wet otter, Otter, Dry otter, Sand eel, Sea biscuit
782  56 0.30 60-91.5 Bracken bread, Plaice, Dab, Freckled egg, Tern egg, Cream jug
790  48 0.34 56-90   Bare foot, Sandal, Sunburn, Peach stone, Cheek, Ivory cheek
"""

COTTON_METALLIC = """
901  84 0.44 60 Gilt rail
903  74 0.44 49 Brass sprat
906  54 0.40 50 Copper nail
909 252 0.14 71 Herring scale
912 268 0.22 46 Pewter herring
915 214 0.28 64 Moonlit scale
"""

COTTON_VARIEGATED = """
941 258 0.60 44 Tide turning
942 205 0.62 53 Rock pool garden
943 132 0.62 45 Kelp forest
945  88 0.62 70 Sand and gorse
946  66 0.66 56 Bracken hillside
948  40 0.66 52 Sunset quay
950   6 0.62 58 Dog rose hedge
952 318 0.58 43 Heather headland
953 286 0.52 36 Night ferry lights
955  70 0.20 57 Shingle and shell
"""

SILK = """
# pearls, pebbles and inks
 21  84 0.22 78-94.3 Raw cocoon, Cream ribbon, Chapel candle, Pearl button, Mother of pearl
 29 262 0.32 79-93.8 Rainy pearl, Moonstone, Moon on water, White lace
 39  60 0.16 26-82   Wet pebble, Pebble, Grey agate, Smoke curl, Pale smoke
 46 250 0.20 15-78   Ink bottle, Jet bead, Graphite, Pewter mug, Quicksilver, Minnow
 57  90 0.30 40-86   Old varnish, Bulrush, Oat husk, Oat milk, Silk twine
# blues
 65 258 0.48 22-78   Rainy slate, Dusk slate, Ink wash, Washed ink, Evening tide
 76 280 1.00 17-72   Midnight lantern, Ultramarine tile, Harbour night, Sapphire bead, Blue flame
 83 268 0.95 22-82   Ocean floor, Long wave, Blue glass, Glass float, Float in the sun
 93 246 0.92 24-86   Damselfly, Blue pennant, Swallow dive, Summer noon, Noon haze
101 285 0.60 24-85   Evening bell, Harebell stem, Harebell, Harebell cup, Twilight thread
112 234 0.75 26-87   Squid ink, Cold spring, Spring water, Ice window, Frost fern
# turquoises
119 214 1.00 25-86   Peacock sea, Dragonfly, Halcyon, Lagoon, Shallow lagoon
129 198 1.00 26-88   Jewel beetle, Jade sea, Tide glass, Clear tide, Water light
137 208 0.52 27-84   Drowned bell, Bell metal green, Rain barrel, Pond ice, Breath on glass
148 184 0.85 22-84   Pine shade, Emerald eel, Eel pond, Duckweed, Dew
# greens
155 166 1.00 22-84   Green bottle, Malachite bead, Hart's tongue, Clover, Clover dew
165 148 0.92 24-86   Holly hedge, Ivy berry, New ivy, Apple green, Green apple skin
173 136 0.55 24-84   Olive jar, Bay leaf, Dry bay leaf, Sage silk, Sage milk
184 120 1.00 30-89   Moss garden, Parrot feather, Lime leaf, Lime flower, Lime cordial
191 108 0.70 28-88   Olive oil, Pickled fennel, Fennel seed, Pear skin, Pear flesh
# yellows and oranges
201  97 1.00 54-92   Mustard pot, Mustard seed, Horned poppy, Canary wing, Primrose
209  86 1.00 44-91   Amber jar, Honey jar, Marigold, Lantern light, Buttercup, Butter curl
221  76 0.72 36-88   Cask, Cask gold, Old gold, Cider fizz, Fizz
228  68 1.00 40-86   Ember, Saffron bun, Orange peel, Ripe apricot, Apricot cream
238  57 0.92 34-84   Copper kettle, Fox, Nasturtium, Melon, Melon ice
246  60 0.42 20-78   Mahogany, Walnut shell, Almond skin, Almond, Praline
# reds and pinks
257  44 0.96 28-80   Burnt sugar, Paprika, Poppy, Poppy petal, Coral bead
264  31 1.05 22-74   Garnet, Ruby glass, Carnival red, Lacquer, Watermelon
274  16 1.00 21-82   Black cherry, Cherry cordial, Rose red, Rose petal, Rose water
282   4 1.00 25-87   Pomegranate, Redcurrant, Peony, Peony petal, Sugar rose
293 346 1.00 26-86   Cerise sash, Orchid root, Bright orchid, Sweet pea, Pea blossom
300  22 0.45 26-86   Mulled wine, Tea rose, Powder puff, Slipper pink, Ballet ribbon
310 356 0.45 24-84   Elder wine, Faded cabbage rose, Antique rose, Shell ear, Rose ash
# purples
318 326 1.00 21-82   Blackcurrant, Velvet plum, Purple sash, Cyclamen, Cyclamen mist
329 310 1.00 19-80   Amethyst cave, Purple lamp, Amethyst bead, Lilac ribbon, Lilac frost
336 298 0.95 19-84   Pansy, Blue iris, Hyacinth, Wisteria, Wisteria rain
346 316 0.45 24-84   Shadow plum, Grape bloom, Mauve sash, Violet powder, Violet sugar
354 304 0.30 24-82   Storm silk, Dove wing, Dusk pearl, Dove breast, Opal
"""

SILK_VARIEGATED = """
370 272 0.70 46 Weather changing
371 212 0.72 56 Mermaid's purse
372 152 0.70 50 Kitchen garden
374  92 0.72 74 Lantern parade
375  62 0.72 60 Bonfire night
376  30 0.72 48 Paper poppies
378   0 0.70 62 Rose arbour
379 308 0.66 46 Dusk chorus
380 280 0.20 70 Gulls in fog
"""

WOOL = """
# fleeces
102  82 0.26 48-91   Fell fleece, Oatcake, Washed fleece, Cream fleece, Lambswool
111  66 0.24 16-62   Black ewe, Peat ewe, Brown fleece, Oat ewe, Fawn fleece
123 250 0.16 18-74   Wet coal, Grey ram, Grey fleece, Rain ewe, Silver fleece
130  88 0.22 26-76   Stone dyke, Ditch reed, Shingle, Dry shingle, Shingle bank
# blues
138 258 0.52 24-70   Gale, Gale slate, Fog bank, Fog horn, Thin fog
149 274 0.88 17-66   Trawl night, Best jumper, Jumper, Washed jumper, Salted jumper
158 250 0.72 22-78   Net float, Heron, Heron wing, Heron mist, Wool sky
170 286 0.50 20-74   Blackberry rain, Bilberry bog, Bilberry, Scabious, Pale scabious
177 236 0.50 26-80   Cold hands, Bait bucket, Ice crate, Ice chip, Hoarfrost
# turquoises and greens
185 206 0.78 24-78   Drake, Teal wing, Teal, Duck pond, Duck egg
196 178 0.66 22-76   Spruce deck, Spruce, Juniper, Juniper smoke, Frosted juniper
205 150 0.72 22-76   Bottle wool, Hedge, Nettle, Nettle tea, Nettle milk
217 134 0.50 23-76   Bog moss, Sphagnum, Mossy roof, Turf, Dry turf
224 116 0.78 30-82   Gorse leaf, Bog myrtle, Crab apple, Willow catkin, Willow down
232 104 0.56 24-78   Peaty grass, Rush, Rush mat, Hay, Haystack
# yellows and browns
243  90 0.86 44-86   Onion skin, Broom, Weld pot, Egg tart, Custard
252  76 0.80 38-82   Crottle, Crottle gold, Turmeric, Bread crust, Bun glaze
264  60 0.86 34-78   Fox brush, Bracken fire, Carrot, Smoked haddock, Smoked salmon
271  64 0.44 20-66   Peat stack, Treacle, Treacle toffee, Twill brown, Toasted oats
279  50 0.50 22-72   Loam, Kiln, Clay pipe, Flowerpot, Flowerpot dust
# reds, pinks and purples
290  42 0.82 24-68   Rusty anchor, Rowan bark, Haws, Rosehip jelly, Salmon fly
299  28 0.92 20-66   Madder vat, Madder, Guard's flag, Red muffler, Faded muffler
311  14 0.70 22-76   Claret, Beet soup, Cranberry, Rosy cheek, Pink nose
318 358 0.62 24-80   Heath, Bell heather, Clover head, Mallow wool, Pink fleece
326 338 0.62 20-74   Bramble dye, Damson, Damson skin, Thistle head, Thistle down
337 316 0.58 19-74   Bilge plum, Plum wool, Lichen purple, Faded plum, Lilac fleece
346 300 0.62 19-74   Night heather, Violet wool, Moor dusk, Dusk wool, Dawn wool
358 282 0.24 24-76   Lead sky, Flint, Flint chip, Chip of pearl, Snow cloud
"""

# Shades set by hand, not dyed from their ramp. LF-218 is the demo's missing thread. The others see to it
# that each line holds a near answer and none an exact one, and that one strand each of the two cottons,
# which lie either side of it in hue, comes closer than any single thread.
PLACED = {
    "LF-218": (38.20, -4.10, -17.60),  # Harbour slate
    "LF-224": (39.10, -6.70, -15.90),  # Ferry rail
    "LF-235": (37.20, -1.90, -19.10),  # Mussel blue
    "MS-66": (36.30, -5.70, -21.00),  # Dusk slate
    "TW-139": (35.00, -3.90, -13.40),  # Gale slate
}
