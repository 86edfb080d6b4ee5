//! Inputs of what lets sound through a box beside its walls.

use super::{Explanation, Topic};

explanations! {
    LID_FACE "lid-face" "Which face is the lid"
        plain "The face that opens. The longer its edge, the more can leak."
        relation "Length of the slit = perimeter of that face."
        source "Geometry of the box.";
    LID_EDGE "lid-edge" "Edge of the lid"
        plain "Straight through the wall, or with a step for every seal: a longer way for what leaks."
        relation "Every step adds 20 mm to the path; straight, seals and clearance share the thickness of the wall."
        source "Assumed."
        assumptions "Clearance 1 mm; the bends themselves count for nothing.";
    SEAL "seal" "Seal of the lid"
        plain "What closes the edge. What counts is how much stays open on average, and a gasket pressed all round leaves least."
        relation "Slit with the friction of its air: bare boards 0.5 mm, foam 0.5 mm of foam, gasket 0.1 mm, pressed 0.03 mm."
        source "Slits: Stinson (1991), ends: Gomperts & Kihlman (1967), from memory; heights assumed."
        assumptions "No measured gap of a workshop’s lid was found."
        validity "Heights within a factor of 2 either way.";
    SEALS "seals" "Seals in a row"
        plain "How many seals lie one behind the other along the edge, with clearance between them."
        relation "A chain of slits: seals 10 mm wide, clearance 1 mm high before, between and behind."
        source "Slits: Stinson (1991); widths assumed.";
    HOLES "holes" "Holes"
        plain "Round holes for cables, plugs or a hose: how many, and how wide."
        relation "Empty: a round tube through the wall, with friction and the ends of a piston."
        source "Tubes: Stinson (1991); ends: Norris & Sheng (1989), from memory."
        assumptions "Every hole radiates on its own.";
    CABLE "cable" "What is in a hole"
        plain "Diameter of the cable or plug in it; 0 is an empty hole. Sound goes through the ring that stays open."
        relation "Slit of height (D − d)/2, at least 0.05 mm, and length π(D + d)/2."
        source "White (1991), section 3-3, from memory; the least gap is assumed."
        assumptions "The cable lies in the middle; on the rim up to 2.5 times as much could pass.";
    SEALED "sealed" "Round cables"
        plain "Whether what stays open in a hole is filled with sealant. A little stays open where sealant has shrunk."
        relation "A slit of 0.02 mm stays at the rim and round the cable."
        source "Assumed.";
    VENTS "vents" "Vents"
        plain "Ducts from the source to the room that carry heat away, half of them in and half out. Each is a way out for sound."
        relation "Each a line with its attenuation spread along it, between open ends; higher up also as rays."
        source "Attenuation: Piening (1937), from memory; ends as a piston’s.";
    VENT_SECTION "vent-section" "Clear width and height of a vent"
        plain "Inside the lining. A narrow duct takes more of the sound but needs faster air."
        relation "1.5·α·U/A dB a metre, U the perimeter and A the area of the clear section."
        source "Piening (1937), VDI-Zeitschrift 81, 770, from memory."
        validity "In a straight duct it falls as 1/f above c/(smaller side).";
    VENT_LENGTH "vent-length" "Length of a vent"
        plain "Along the middle of the duct. Twice the length takes twice as many dB."
        relation "1.5·α·U/A dB a metre; every bend adds √A of length."
        source "Piening (1937), from memory.";
    VENT_BENDS "vent-bends" "Bends of a vent"
        plain "Right-angled bends: none is a straight duct, several make a labyrinth that treble cannot pass in a straight line."
        relation "Each up to 6·α dB, growing about the frequency c/(2·width)."
        source "Assumed.";
    VENT_LINING "vent-lining" "Lining of the vents"
        plain "Porous material on the walls of the duct. Bare ducts take hardly any sound."
        relation "Absorption α of the lining on a hard wall; bare walls 0.01."
        source "Wool: Miki (1990); bare walls assumed.";
}
