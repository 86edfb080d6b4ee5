//! Inputs of what a box hangs or stands on.

use super::{Explanation, Topic};

explanations! {
    SUSPENSION "suspension" "What holds the inner box"
        plain "The only touch of the two boxes. Soft supports keep the shaking of the inner box from the outer boards; screws pass all of it."
        relation "Recoil times |K/(K − ω²M)|, raised by waves in the supports; the walls’ vibration v adds n·v²/((ω/K₁)² + Y²)."
        source "Harris & Piersol (2002), ch. 30; waves in supports: Snowdon (1968), from memory."
        assumptions "The inner box is a rigid mass. Screwed to light boards, the force is an upper bound.";
    FEET "feet" "What the whole box stands on"
        plain "Straps, springs, rubber pads or the bare floor. With a driver in the box, soft feet keep its recoil from the floor."
        relation "Recoil times |K/(K − ω²M)| goes into the floor; a single box also shakes on them as a whole."
        source "Harris & Piersol (2002), ch. 30; in the way of ISO 12354-2:2017."
        assumptions "The box is a rigid mass; a floor that yields takes less force.";
    COUNT "support-count" "Number of supports"
        plain "How many share the load. More of them are stiffer together, so that the box bounces faster and less is isolated."
        relation "K = n·K₁; load on each M/n; natural frequency f = (1/2π)·√(K/M)."
        source "Mass on a spring, textbook relation."
        assumptions "They share the load evenly.";
    TEST "support-test" "Test mass and sag"
        plain "Hang or put a known mass on one support and measure how far it gives. That is its stiffness: no data sheet needed."
        relation "K₁ = m·g/sag; a cord or strap of rubber is 1.4 times as stiff when it shakes."
        source "Definition of stiffness; the 1.4 is assumed."
        assumptions "As stiff at every load. Cords are not: test near the load."
        validity "Loss factor 0.1 for straps, 0.01 for steel springs (assumed).";
    HEIGHT "support-height" "Height, loaded"
        plain "From fitting to fitting under load; it has to fit into the gap. The longer a strap, the lower sound begins to run along it."
        relation "Of a strap, own mass m = K·(height/45 m/s)²; its waves pass most at √(K/m)/2 and above."
        source "Snowdon (1968), from memory; 45 m/s assumed.";
    BREAKING "support-breaking" "Load at which it fails"
        plain "The load at which one strap breaks or one spring goes solid. For years it should carry no more than a fifth."
        relation "Working load = this/5. Of a steel spring the mass of its wire follows, and with it where its coils surge."
        source "Factor 5: common practice, no source. Spring: Wahl (1963), from memory."
        assumptions "A spring pressed solid has a shear stress of 700 MPa.";
    PAD_SIZE "pad-size" "Side and thickness of a pad"
        plain "A square rubber pad: thick and narrow is soft, thin and wide is stiff, since rubber must bulge to give."
        relation "K₁ = Ea·side²/thickness; 1/Ea = 1/(E(1 + 2S²)) + 1/(2 GPa), S = side/(4·thickness)."
        source "Gent & Lindley (1959); its last term from memory."
        assumptions "Plates hold both faces; working load at 15 % of its thickness (common practice, no source)."
        validity "Within 30 %, by the filler of the rubber.";
    SHORE "shore-a" "Shore A hardness"
        plain "How hard rubber is: about 30 an eraser, 60 the tread of a tyre, 80 a shoe heel. Hard rubber isolates less."
        relation "E = 98.1 kPa·(56 + 7.623A)/(0.1375(254 − 2.54A)); when it shakes 1.1 times as stiff at 40, 1.5 at 60, 2 at 70."
        source "Gent (1958), from memory; stiffness in motion from memory."
        assumptions "Loss factor 0.1 (assumed)."
        validity "25 to 85; rubber of one hardness varies by some 25 %.";
}
