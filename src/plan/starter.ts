/**
 * The commented plan that `lacunar init` writes: the bookshop ceiling in Valparaíso, to be changed into one's own.
 * It is a plan that builds as it stands.
 */
export const STARTER_PLAN = `# A star ceiling for Lacunar. Change what is yours, then:   lacunar check PLAN   and   lacunar make PLAN -o DIR
# Lengths are millimetres, or text with a unit: 38mm, 2.4m, 48in, 8ft, 1/8in, 8' 4-1/2". Angles are degrees.
lacunar: 1
title: Bookshop, upstairs room

# The moment, by the clock on the wall at that place. If you know the offset from UTC, it may follow: 1998-07-11T21:15-04:00
moment: 1998-07-11T21:15

place:
  name: Valparaíso
  latitude: -33.0458       # north positive
  longitude: -71.6197      # east positive
  timeZone: America/Santiago
  elevation: 10            # metres

# What the ceiling shows. An eye view is true to direction from one point in the room; a chart is a map of the sky:
#   view: {kind: chart, projection: stereographic, span: 140}     (or equalArea, equidistant, orthographic)
view:
  kind: eye
  eye: {below: 1350mm}     # eye below the finished face; add x and y if it is not under the middle
  aim: zenith              # or {altitude, azimuth}, {rightAscension, declination}, {star: Vega}, {constellation: Cru}
  topBearing: 20           # TRUE azimuth of the ceiling's top edge; by a compass: {magnetic: 18, declination: 2}; or two points
                           # of a map along a side wall, bottom end to top end: {from: [lat, lon], to: [lat, lon]}
  roll: 0                  # turns the sky counter-clockwise, seen from below

show:
  planets: true
  moon: false              # true: one hole. {ring: 45mm}: the outline of its lit part, that wide, in holes
  refraction: false
  extinction: 0            # magnitudes lost per air mass near the horizon; 0.28 is common at sea level

# The ceiling as you see it lying on your back: width to the right, length toward the top edge.
# If you measured on a floor plan instead, say so (drawnAs: reflectedPlan) and every x is turned for you. The names of the
# walls are not turned: they are always those seen from below.
room: {height: 2.5m}
drawnAs: fromBelow
walls: {top: window wall, right: stair wall, bottom: door wall, left: shelf wall}
ceiling: {width: 3.66m, length: 2.44m}
# A room that is no rectangle, as the tape gives it: the walls, and the diagonals from lower left to upper right and from upper
# left to lower right, all as seen from below; panels are squared to one wall. Or its corners: {outline: [[0, 0], [3660, 0], ...]}
#   ceiling:
#     sides: {top: 3648mm, right: 2452mm, bottom: 3660mm, left: 2440mm}
#     diagonals: {risingRight: 4410mm, fallingRight: 4390mm}
#     squareTo: bottom

# What holes keep away from. kind: grille, hatch, luminaire, detector, sprinkler, speaker or other. Stars under it are moved, or
# left out (stars: drop). Also with {x, y, width, length} or {outline: [[x, y], ...]}.
#   keepOut:
#     - {id: lamp, kind: luminaire, at: [1830mm, 1220mm], radius: 60mm, clearance: {front: 0mm, behind: 90mm}}

# Equal panels, rows A, B .. from the top, columns 1, 2 .. from the left; or a list of {id, x, y, width, length} or
# {id, outline: [[x, y], ...]}.
panels: {columns: 3, rows: 2, gap: 3mm, perimeter: 10mm}
fabric: {thickness: 1mm}   # the board is cut smaller by this, all round
board: {material: mdf, thickness: 6mm}
# Battens glued behind each board: width lies along the board, depth away from it. With the cavity above the board, check says
# what they leave of it.
#   cavity: 90mm
#   frame: {batten: {width: 38mm, depth: 19mm}, inset: 0mm, crossBattens: 1, screws: {pitch: 200mm}, hangers: 4}

# The fibre you own: so many strands of each diameter in one bundle.
fibre:
  sizes:
    - {diameter: 0.5mm, bit: 0.6mm}
    - {diameter: 0.75mm, bit: 0.85mm}
    - {diameter: 1mm, bit: 1.1mm}
    - {diameter: 1.5mm, bit: 1.65mm}
  bundles:
    count: 6
    strands: {0.5mm: 70, 0.75mm: 20, 1mm: 8, 1.5mm: 2}
    overall: 3m
    sleeve: 0.8m
  reserve: 3%              # strands kept back for breakages
  milkyWay: 0%             # of the thinnest strands: sown along the Milky Way as dots of no star; 30% is well seen
  sharing: ceiling         # a bundle may feed any panel

# How the panels are drilled: pilot holes on the bare face, then opened from the back (pierce, hotNeedle or drill). For a router
# with a small bed: bed: [along X, along Y]. Boards as they came from the saw: asCut.
#   work: {pilot: 0.8mm, opening: pierce}
#   cnc: {mode: through, bed: [1200mm, 800mm], sacrificial: 12mm}
#   asCut: {A1: {width: 1206mm, length: 1205mm, diagonals: {risingRight: 1705mm, fallingRight: 1705mm}}}

holes:
  edge: 12mm               # from a hole's rim to the board's edge
  spacing: 3mm
  merge: 1mm               # stars closer than this share a hole, their light added
  maxShift: 60mm           # how far a star may be moved to a place that can be drilled

# What templates and labels are printed on: A4, A3, Letter, Tabloid or {roll: 610mm}. If a ruler of a printed template measures
# other than 100 mm, write what it does measure, and make the templates again.
paper: {size: A4, measured100: 100mm}
`;
