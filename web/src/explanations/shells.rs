//! Inputs of the boxes, of the gap between them, and of what is in them.

use super::{Explanation, Topic};

explanations! {
    INSIDE_SIZE "inside-size" "Inside length, width and height"
        plain "Clear size between the boards, lining not taken off. A larger box has softer air and larger panels, which resonate lower."
        relation "Air spring V/(ρc²); panels as plates of these sides; first mode c/(2·longest side); power through walls ∝ S·τ."
        source "Energy balance: Vér & Beranek (2006), ch. 12; modes of plates: Warburton (1954)."
        assumptions "A rectangular box, all six faces of the same boards.";
    EXISTING "existing" "An old cabinet"
        plain "A cabinet that stands already costs nothing and is kept as it is. Measured outside, it stays so when its boards turn out thicker."
        relation "Inside = outside − 2·thickness of its boards."
        source "Geometry.";
    LINING "lining" "Lining"
        plain "Porous material on the walls inside. It takes up sound that would build up in the box; for bass it has to be thick."
        relation "Absorption α of wool on a hard wall, all directions alike; the walls take up S·(α + 0.05(1 − α))."
        source "Wool: Miki (1990), eq. 30 to 33; Paris’ formula. Bare boards 0.05: assumed."
        assumptions "The fibres never move; all walls are lined, a baffle is not."
        validity "Frequency over flow resistivity from 0.01 to 1 m³/kg; continued below.";
    SHEET "sheet" "Material of a sheet"
        plain "Density makes a board heavy; stiffness decides where it resonates and where coincidence lies; its loss damps both."
        relation "m = ρh; D = Eh³/(12(1 − ν²))·(1 + jη), less for short waves, which shear it."
        source "Catalogue: handbooks where one was found, many numbers from memory. Shear: Mindlin (1951)."
        assumptions "Alike in both directions, which plywood and OSB are not.";
    SHEET_THICKNESS "sheet-thickness" "Thickness of a sheet"
        plain "Twice as thick is twice as heavy and up to eight times as stiff: better by mass, but coincidence comes down."
        relation "m = ρh; D = Eh³/(12(1 − ν²)), with shear through the thickness (factor 5/6)."
        source "Plates with shear: Mindlin (1951).";
    JOINT "joint" "Joint between two sheets"
        plain "Screws alone let two boards slide, rigid glue makes one thick board of them, damping compound turns their sliding into heat."
        relation "Screwed: stiffnesses add. Glued: one board. Compound: G = 1 MPa·(f/100 Hz)^0.3, loss factor 0.9, and 25 screws a m²."
        source "Ross, Kerwin & Ungar (1959); numbers of compound and screws assumed."
        validity "No public curve of a compound was found: its numbers may be a factor of 5 off.";
    CORNERS "corners" "Corners held"
        plain "How firmly the corners hold the panels: 0 % lets them turn like hinges, 100 % clamps them. Firm corners raise the resonances."
        relation "Wavenumber and mean square slope of each side in geometric proportion between hinged and clamped."
        source "Plates: Warburton (1954); the proportion is assumed."
        assumptions "All edges of a box are alike. The range allows for 40 % more or less."
        validity "Counts at low frequencies and for what the suspension carries; higher up it has no effect.";
    BRACES "braces" "Braces"
        plain "Battens or open shelves across the four long walls. They divide the walls into equal bays, which resonate higher."
        relation "Battens: beams that couple the modes of a wall. Shelves: bays of their own, clamped where a shelf holds them."
        source "Softwood E = 10 GPa, 450 kg/m³, loss factor 0.03: assumed."
        assumptions "Glued and screwed; none behind a baffle."
        validity "Count at low frequencies; higher up they are left out.";
    BRACE_SIZE "brace-size" "Width and depth of a brace"
        plain "Width along the wall, depth away from it. Depth stiffens far more than width."
        relation "EI of batten and strip of wall together, less that of the strip; the strip is a bay wide, at most a quarter of its span."
        source "Beam theory; the width of the strip is assumed.";
    BAFFLE "baffle" "Baffle"
        plain "The board that the driver is mounted on. It parts the box into a chamber in front and a closed one behind."
        relation "The driver gives both chambers the same sound. What either lets out adds up as energy: 3 dB at most."
        source "Network and energy balance of the chambers; no source named."
        assumptions "Tight and bare (absorption 0.05). Its mass and thickness count, not its own vibration.";
    REAR "rear" "Room behind the baffle"
        plain "Depth of the closed chamber behind the driver. What lies behind is missing in front."
        relation "Air spring V/(ρc²) with its own panels, lining and part of the lid; holes and vents lead from the front chamber."
        source "Network of air and panels; no source named.";
    GAP_DEPTH "gap-depth" "Gap depth"
        plain "Air between the two boxes, the same on all sides. A deeper gap is a softer spring: the boxes part at a lower frequency."
        relation "Mass-air-mass resonance f = (1/2π)·√((ρc²/d)(1/m₁ + 1/m₂)), m in kg/m²."
        source "Layers: Allard & Atalla (2009), ch. 11; the formula has no source named."
        assumptions "Bare faces of an empty gap absorb 0.03 (assumed).";
    FILL "fill" "Fill of the gap"
        plain "Porous material in the gap, and what part of the depth it takes. It damps the air between the boxes and makes it a softer spring."
        relation "Layers of air and wool in the stack; at low frequencies the filled part of the gap’s volume."
        source "Wool: Miki (1990); layers: Allard & Atalla (2009), ch. 11."
        assumptions "The fibres never move: a full gap of very dense wool comes out too good in the bass."
        validity "Frequency over flow resistivity from 0.01 to 1 m³/kg; continued below.";
    FILL_SIDE "fill-side" "Where the fill lies"
        plain "Against the inner box, against the outer box, or in the middle with air on both sides."
        relation "Order of the layers; absorption in the gap: S·α of the face it lies on, of both faces in the middle."
        source "Layers: Allard & Atalla (2009), ch. 11; absorption of faces assumed.";
    OUTER "outer" "Outer box"
        plain "A second box round the first that touches it only by its suspension. Two walls with air between stop far more than one as heavy."
        relation "Both walls and the gap as one stack of layers; at low frequencies a network of two air springs and two shells."
        source "Layers: Allard & Atalla (2009), ch. 11; diffuse sound with the finite size of Villot et al. (2001), Davy (2009)."
        validity "Well above the mass-air-mass resonance; at it a second wall may bring nothing.";
}
