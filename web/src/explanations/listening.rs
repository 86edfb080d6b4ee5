//! Inputs of the room with the box and of the listeners.

use super::{Explanation, Topic};

explanations! {
    ROOM_SIZE "room-size" "Floor area and ceiling height"
        plain "Size of the room. In a small room the same source is louder, since there is less surface to take up the sound."
        relation "Surface 2F + 4√F·h, floor taken as square; absorption area A = α·surface."
        source "Geometry; no source named."
        assumptions "The sound of a room is one even field beside what comes directly.";
    ABSORPTION "absorption" "Absorption of the room"
        plain "What part of the sound its surfaces take up, on average: 0.05 bare, 0.2 a living room, 0.5 treated for recording."
        relation "A = α·surface; even field L = Lw + 10 lg(4/A)."
        source "Beranek (1954), ch. 10, from memory, with A as ISO 12354 has it."
        assumptions "The same at all frequencies.";
    KIND_OF_ROOM "kind-of-room" "Kind of room"
        plain "Sets the absorption to what is usual in a room furnished like this."
        source "Assumed, rounded from rooms of the kind.";
    ROOM_DISTANCE "room-distance" "Distance in the room"
        plain "From the middle of the box to the ear or microphone. Farther off than a step or two, the echo of the room counts more than the distance."
        relation "L = Lw + 10 lg(2/(4πr²) + 4/A); both terms are equal at r = √(A/(8π))."
        source "Beranek (1954), ch. 10, from memory.";
    FLOOR "floor" "Floor"
        plain "What the box stands on. It decides how much of the shaking is heard in the room below or beside."
        relation "How easily a plate of 5 × 4 m moves, and what part of that it radiates."
        source "Plates: Cremer, Heckl & Petersson (2005), ch. 4; ISO 12354-1:2017. Numbers assumed or from memory."
        validity "Floors of one kind differ by 10 dB.";
    PLACE "place" "Where the listener is"
        plain "Whether a wall or floor, a window, or doors and a corridor lie between."
        relation "Next room: L₂ = L₁ − R′ + 10 lg(S/(A₂ + S·τ′)), with L₁ = Lw + 10 lg(4/A₁)."
        source "ISO 12354-1:2017; outdoors ISO 12354-4:2017."
        assumptions "Nothing else leads there.";
    PARTITION "partition" "What lies between"
        plain "The wall, floor, window or door. Its insulation is worked out as that of the box is, with its studs, joists and gaps."
        relation "Layers, slits and areas as for a box; studs and joists as rigid lines from leaf to leaf."
        source "Build-ups: common practice, no source. Lines: Heckl (1959), Sharp (1978), from memory."
        assumptions "Gaps of windows and doors as its description says (assumed)."
        validity "Stud walls and joist floors: within 6 dB below 125 Hz.";
    AREA "partition-area" "Area between"
        plain "Area of what lies between. Twice the area lets twice as much through, 3 dB."
        relation "L₂ = L₁ − R′ + 10 lg(S/A₂)."
        source "ISO 12354-1:2017.";
    FLANKING "flanking-loss" "Lost to flanking"
        plain "How many dB the partition loses since sound also goes round it, through floor, ceiling and side walls."
        relation "R′ = R − this, at all frequencies."
        source "3 dB to begin with: assumed."
        validity "A rough stand-in: real flanking depends on every junction.";
    CORRIDOR "corridor-floor" "Floor of the corridor"
        plain "Area of the corridor’s floor. A larger one takes up more of the sound."
        relation "A = 0.05·(2F + 4√F·2.4 m), as a room."
        source "Height and absorption assumed."
        validity "Too little near its doors, too much far down.";
    LISTENER_DISTANCE "listener-distance" "Distance of the listener"
        plain "From the middle of the box in its own room, or from the window outdoors."
        relation "Outdoors: L = L₁ − 6 dB − R′ + 10 lg(4S/(4πr² + 4S))."
        source "ISO 12354-4:2017 with Cd = −6 dB; a quarter of the space is assumed."
        validity "Outdoors to 100 m: farther off wind and ground count.";
    CRITERION "criterion" "What the limit is taken from"
        plain "A limit of your own in dBA, the WHO guideline, an NR or NC curve, or that it is not to be heard at all."
        relation "Margin = limit − level; of several listeners the one with the least margin decides."
        source "WHO (1999), Table 4.1; ISO R 1996 (1971), from memory; ANSI S12.2; ISO 226:2003."
        assumptions "Local rules may ask for another measure.";
    LIMIT_DBA "limit-dba" "Limit in dBA"
        plain "A limit of your own: a local rule, a lease, a neighbour’s word. It holds for the mean while it plays."
        relation "Margin = limit − LAeq."
        source "Yours; for instance the local noise code.";
    LIMIT_NR "limit-nr" "NR curve"
        plain "A curve that allows more in the bass than in the treble; every octave has to stay below it."
        relation "Octave limits L = a + b·NR; margin = the least of limit − level over the octaves."
        source "ISO R 1996 (1971), from memory."
        validity "Octaves of 31.5 Hz to 8 kHz.";
    LIMIT_NC "limit-nc" "NC curve"
        plain "A curve used for rooms in buildings, much as NR; every octave has to stay below it."
        relation "Tabled octave limits, in proportion between two curves; margin = the least of limit − level."
        source "ANSI S12.2, as in a general library."
        validity "Octaves of 63 Hz to 8 kHz; NC 15 to 70.";
    QUIET_HOURS "quiet-hours" "Quiet hours"
        plain "The guideline means the whole day or night. To count its silent hours allows more; not to count them is stricter."
        relation "Counted: limit while it plays = guideline + 10 lg(period/hours of use)."
        source "WHO (1999), Table 4.1."
        validity "The night’s maximum, 45 dB indoors and 60 dB outdoors, holds either way.";
    BACKGROUND "background-there" "Background"
        plain "What is heard there anyway. Where nothing is to be heard, it covers what lies well below it."
        relation "Falls by 5 dB an octave, moved as a whole to its level in dBA."
        source "Slope of the RC curves, Blazier (1981); levels assumed."
        assumptions "Steady. No limit in dBA, NR or NC takes notice of it.";
    OWN_REDUCTION "own-reduction" "Own sound reduction index R′"
        plain "What lies between, as somebody measured it: by octave or third."
        relation "An octave’s value holds for its three thirds; beyond the ends the end values hold."
        source "Your own measurement; R′ as in ISO 16283-1."
        assumptions "What goes round is in it; no flanking is taken off.";
    OWN_BACKGROUND "own-background" "Own background levels"
        plain "What is heard there anyway, as you measured it: by octave or third, while nothing plays."
        relation "An octave is shared evenly by its thirds. Bands that are not given count as silent."
        source "Your own measurement."
        assumptions "Unweighted dB.";
}
