//! Inputs of the workshop, and what it says.

use super::{Explanation, Topic};

explanations! {
    CONTENTS "contents" "What stands in the box"
        plain "How deep, wide and high it is. With lining and air it says how large the inside has to be; it changes no sound."
        relation "Length = lining + depth + distance + microphone + lining + 10 mm of air; with a baffle its chamber comes first."
        source "Geometry."
        assumptions "5 mm of air on each side.";
    MICROPHONES "microphones" "Microphones in the box"
        plain "How many stand in front of the loudspeaker, how far off, and how long each is with plug, holder and the bend of its cable."
        relation "Side by side they take 60 mm of width each."
        source "Assumed.";
    WAY "way" "The way to its place"
        plain "The narrowest door, a corridor from which the box is turned into it, a corner of two corridors, stairs with their landing. 0 where there is none."
        relation "Door: two sides with 10 mm for hands on each side. Corner: the widest that gets round at any angle. One way of holding it throughout."
        source "The ladder round a corner (textbook calculus), with a width; clearances: common practice, no source."
        assumptions "A door’s wall is 120 mm thick. Headroom on stairs is not looked at.";
    PLAY "play" "Play in the seams"
        plain "What is left open between two boards of a layer so that they go together although no saw is exact. Sealant fills it."
        relation "A board that ends at others is shorter by it at each end."
        source "Geometry.";
    LID_PLAY "lid-play" "Play round the lid"
        plain "What is left open round the boards of the lid, so that it comes out in winter as in summer. It is the slit that seals have to close."
        relation "The lid is smaller by it on each side; in the model it is the height of the slit before, between and behind the seals."
        source "Assumed: 1 mm is what a lid needs.";
    COMPOUND "compound" "How far a tube goes"
        plain "Area that a tube of 0.8 l covers. It sets how many tubes are bought, how thick the joint is, and by that its sound."
        relation "Thickness = 0.8 l over that area: 0.27 mm for 3 m²."
        source "Common practice, no source.";
    FASTENING "fastening" "Screws and sealant"
        plain "How far screws are apart, and how thick the bead of sealant is that goes into each seam."
        relation "Screws: rows at that distance, 25 mm from the edges. Sealant: length of all seams times the section of the bead."
        source "Common practice, no source."
        assumptions "The stiffness of screws in the model stays that of 25 a square metre.";
    SAWING "sawing" "Saw cut and trimmed edge"
        plain "What the saw turns into dust at each cut, and what is cut off all round a sheet first, because edges are bruised."
        relation "Every cut goes from edge to edge of the piece in hand; many ways are tried and the best is taken."
        source "Geometry.";
    GRAIN "grain" "Grain of the boards"
        plain "Whether plywood and OSB have their grain along the longer side. It looks better and saws cleaner, and may take a sheet more."
        relation "Boards may not be turned in the layout."
        source "Common practice, no source.";
    ALLOWANCE "allowance" "Waste, tax, currency"
        plain "What is bought on top, the tax on everything, and what money is called."
        relation "Amounts are rounded up to what shops sell."
        source "Prices are invented.";
}
