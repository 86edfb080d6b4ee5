//! The terms of the trade that the page uses, each in a sentence.

/// A term.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    /// Its place in ids.
    pub key: &'static str,
    /// The term.
    pub name: &'static str,
    /// What it means, in one sentence.
    pub meaning: &'static str,
    /// Other forms and signs under which the page or the trade has it.
    pub also: &'static [&'static str],
}

/// Makes the list out of a table.
macro_rules! terms {
    ($($key:literal $name:literal $meaning:literal [$($also:literal),*];)*) => {
        /// All terms, by name.
        pub const TERMS: &[Term] = &[$(Term { key: $key, name: $name, meaning: $meaning, also: &[$($also),*] }),*];
    };
}

terms! {
    "a-weighting" "A-weighting" "Counts bass and the highest treble for less, about as ears do when it is quiet." ["A-weighted"];
    "absorption" "absorption" "What part of the sound that meets a surface does not come back, from 0 to 1." ["absorption coefficient"];
    "apparent-sound-reduction-index" "apparent sound reduction index" "R of a wall as it is in the building, with what goes round it." ["R′"];
    "background" "background" "What is heard at a place anyway, while nothing plays." [];
    "baffle" "baffle" "The board that a driver is mounted on, which parts the air before the cone from that behind." [];
    "batten" "batten" "A strip of timber on edge that stiffens a wall." ["battens", "brace", "braces"];
    "bay" "bay" "The part of a wall between two braces." ["bays"];
    "bending-wave" "bending wave" "A wave that runs along a board and bends it, as in a shaken sheet." ["bending waves"];
    "breaking-load" "breaking load" "The load at which one support breaks or goes solid." ["fails at"];
    "build-up" "build-up inside" "What a sound grows louder because it is shut in." [];
    "casement" "casement" "The part of a window that opens, with its pane." [];
    "chamber" "chamber" "The air in the inner box, before the driver or behind the baffle." [];
    "coincidence" "coincidence" "What happens where bending waves in a board run as fast as the sound along it, so that it lets more through." ["critical frequency"];
    "cone-area" "cone area" "Area of the cone that pushes the air." ["Sd"];
    "crest-factor" "crest factor" "How far the peaks of a signal stand above its mean (rms)." [];
    "damping-compound" "damping compound" "A soft, sticky layer between two boards that turns their sliding into heat." ["compound"];
    "db" "dB" "Decibel, a measure of ratios: 10 dB more is about twice as loud, 3 dB more is twice the energy." ["decibel"];
    "dba" "dBA" "Level in decibels, A-weighted, so that one number says how loud ears find it." ["dB(A)"];
    "decoupling" "decoupling" "Keeping two parts from touching, so that shaking does not pass from one to the other." ["isolation"];
    "density" "density" "How heavy a material is for its size." [];
    "diffuse" "diffuse sound" "Sound that comes from all directions alike." ["diffuse field"];
    "driver" "driver" "A loudspeaker without its box: magnet, coil and cone." ["loudspeaker driver"];
    "energy-balance" "energy balance" "The estimate for higher frequencies, which takes sound as many waves at once." [];
    "fill" "fill" "Porous material in the gap between two boxes." [];
    "fixity" "fixity of corners" "How firmly the edges of a panel are held, from 0 % as by hinges to 100 % as in a vice." ["corners held", "edge fixity"];
    "flanking" "flanking" "Sound that goes round a wall, through the floor, ceiling and walls beside it." [];
    "floor-borne-sound" "floor-borne sound" "Shaking that goes through the feet into the floor and is heard in another room." ["structure-borne sound"];
    "flow-resistivity" "flow resistivity" "How hard it is to blow through a porous material, which decides how well it absorbs." [];
    "frequency" "frequency" "How often in a second air moves to and fro, in hertz: 110 Hz is the open A string of a guitar." ["Hz", "kHz"];
    "gap" "gap" "The air between the inner and the outer box." ["gap depth"];
    "insertion-loss" "insertion loss" "How much less sound gets out with the box than without it." [];
    "joint" "joint" "What lies between two boards: nothing but screws, rigid glue or damping compound." ["bond"];
    "joists" "joists" "The beams of a timber floor." ["joist floor"];
    "labyrinth" "labyrinth" "A duct with several bends, through which air passes and sound only with loss." [];
    "laeq" "LAeq" "The mean level over a time, by energy and A-weighted." ["mean"];
    "lafmax" "LAFmax" "The loudest moment, as a meter set to A and fast shows it." ["maximum"];
    "leak" "leak" "A narrow opening that sound slips through, most of all the edge of a lid." ["leaks"];
    "level" "level" "How loud a sound is at a place, in decibels over a fixed small pressure." ["sound pressure level"];
    "level-difference" "level difference" "What a meter reads inside less what it reads outside." [];
    "limiting-path" "limiting path" "The one way out that lets most of the sound through and so decides the result." ["weak path"];
    "lining" "lining" "Porous material on the walls inside a box, which takes up sound." [];
    "loss-factor" "loss factor" "How much of its energy a thing loses when it vibrates: the higher it is, the sooner it stops ringing." ["damping"];
    "margin" "margin" "How far a level lies under or over its limit, in decibels." [];
    "mass-air-mass-resonance" "mass-air-mass resonance" "The bouncing of two walls on the air between them, where a double wall is at its worst." [];
    "chamber-mode" "mode" "A standing wave: at its frequency the air of a box or a panel rings." ["chamber mode", "modes"];
    "motion" "motion" "The shaking of a whole box by the recoil of the driver, as a way out for sound." [];
    "moving-mass" "moving mass" "Mass of all that moves in a driver, cone and coil." ["Mms"];
    "natural-frequency" "natural frequency" "How often in a second something bounces or rings by itself once it was pushed." ["bounce"];
    "nc" "NC" "Noise criterion: much as NR, with curves that are usual for rooms in buildings." ["NC curve", "noise criterion"];
    "network" "network" "The estimate for low frequencies, which takes air and panels as springs and masses." [];
    "niosh" "NIOSH" "The institute whose rule says how long ears bear a level: 85 dBA for 8 h, half as long for every 3 dB more." [];
    "nr" "NR" "Noise rating: the number of a curve over the octaves below which a sound has to stay." ["NR curve", "noise rating"];
    "octave" "octave" "A band from a frequency to twice that frequency, as from one note to the same note above." [];
    "one-third-octave" "one-third octave" "A band of frequencies a third of an octave wide, four semitones; the page has 27 from 25 Hz to 10 kHz." ["third", "thirds", "band"];
    "shelf" "open shelf" "A frame across the inside of a box that holds its walls apart." ["shelves"];
    "partition" "partition" "The wall, floor, window or door between the room and a listener." ["what lies between"];
    "path" "path" "A way by which sound gets out: walls, leaks, holes, suspension, vents or motion." ["way out", "ways out"];
    "pink-noise" "pink noise" "Noise with the same energy in every octave, which sounds even from bass to treble." [];
    "poissons-ratio" "Poisson’s ratio" "How much a strip grows narrower for what it grows longer when it is stretched." [];
    "porous" "porous material" "Wool or open foam, in whose pores moving air rubs itself warm." ["mineral wool", "glass wool", "wool"];
    "range" "range" "Two levels between which the true one lies in 8 of 10 cases." ["8 of 10"];
    "rc-curves" "RC curves" "Curves of steady background noise that ears find even, falling by 5 dB an octave." [];
    "recoil" "recoil" "The push of a moving cone back on the box that holds its driver." [];
    "resonance" "resonance" "The strong answer of a thing that is driven at its own frequency." ["resonate"];
    "rigid-glue" "rigid glue" "Glue that sets hard, so that two boards bend as one." [];
    "rms" "rms" "The steady value that has the same energy as a signal that goes up and down." [];
    "rw" "Rw" "R in one number by ISO 717-1; C and Ctr in brackets say what to add to it for pink noise and for town traffic." ["Rw (C; Ctr)", "R′w", "weighted sound reduction index"];
    "sag" "sag under load" "How far a support gives under the mass that it carries." ["sag"];
    "seal" "seal" "What closes the edge of a lid: tape, a gasket, or one that catches press together." ["gasket", "foam tape"];
    "sensitivity" "sensitivity" "How loud a driver is 1 m away when it takes 1 W." [];
    "share" "share" "What part of all that gets out goes one way, in percent." [];
    "shear-modulus" "shear modulus" "How stiff a material is against faces that slide past each other." [];
    "shore-a" "Shore A hardness" "How hard rubber is, by how far a blunt needle sinks in: from 0 to 100." ["Shore A"];
    "sound-power" "sound power" "All sound that leaves a source, whatever the room and the distance." ["Lw"];
    "sound-reduction-index" "sound reduction index" "How much of the sound that meets a wall it stops, in decibels by band." ["R", "transmission loss"];
    "spectrum" "spectrum" "How the energy of a sound spreads over low and high frequencies." [];
    "station" "station" "A place on the way of the sound from the source to the listener, with a level of its own." [];
    "stc" "STC" "Sound transmission class, the one number for R by ASTM E413, near to Rw." ["sound transmission class"];
    "step" "step" "A rebate in the edge of a lid, which makes the way of a leak longer and bends it." ["stepped"];
    "suspension" "suspension" "What holds the inner box in the outer one: straps, springs, pads or screws." [];
    "threshold-of-hearing" "threshold of hearing" "The level below which young, healthy ears hear nothing." [];
    "trade-off" "trade-off" "A box that can get quieter only if it gets heavier or dearer." ["trade-offs"];
    "transmissibility" "transmissibility" "What part of a shaking force a mass on springs passes on to what it stands on." [];
    "variance" "variance" "A measure of how far results spread, of which each unknown has its share." [];
    "vent" "vent" "A duct that lets cooling air into the box or out of it, lined so that it takes up sound." ["vents", "duct"];
    "verdict" "verdict" "Pass, at risk or fail: the limit above, within or below the range." ["pass", "at risk", "fail"];
    "who-guideline" "WHO guideline" "Levels for homes by day and night that the World Health Organization named in 1999." [];
    "working-load" "working load" "The load that a support may carry for years, a fifth of its breaking load." [];
    "youngs-modulus" "Young’s modulus" "How stiff a material is when it is stretched or bent." ["stiffness"];
}
