//! Inputs of the source.

use super::{Explanation, Topic};

explanations! {
    SPECTRUM "spectrum" "Spectrum"
        plain "What kind of sound it is: how its energy spreads from bass to treble."
        relation "Shape in one-third octaves, moved as a whole until its A-weighted sum is the level at 1 m. A new shape brings its usual maximum."
        source "Voice: Byrne et al. (1994), from memory. All others assumed: sums of simple filters."
        validity "25 Hz to 10 kHz.";
    OWN_LEVELS "own-levels" "Band levels of the source"
        plain "Levels that you measured yourself, by octave or third, 1 m from the bare source on the floor."
        relation "An octave is shared evenly by its thirds, 10 lg 3 dB less each. Bands that are not given count as silent."
        source "Your own measurement."
        assumptions "Unweighted dB, the mean while it plays."
        validity "Octaves of 31.5 Hz to 8 kHz or thirds of 25 Hz to 10 kHz, none missing between.";
    DRIVER "driver" "Loudspeaker driver"
        plain "Whether a loudspeaker driver makes the sound. Its recoil then shakes the box, and its printed figures can give the level."
        relation "F = Mms·a on the baffle, with a = 2πr·p/(ρ·Sd) for a sound pressure p at distance r."
        source "Piston in a half space; no source named."
        validity "Above the frequency at which the cone breaks up the force is smaller.";
    LEVEL_FROM "level-from" "Where the level comes from"
        plain "Either you give the level at 1 m, or it is worked out from the driver’s sensitivity and the power that it takes."
        relation "From the driver: energy sum of all bands = S + 10 lg P, and what several drivers gain together."
        source "IEC 60268-5, the meaning of sensitivity."
        assumptions "The spectrum is that of the sound as it leaves the driver.";
    SOURCE_LEVEL "source-level-given" "Level at 1 m"
        plain "How loud the bare source is on the floor, 1 m away: A-weighted mean while it plays (LAeq). Every later level moves with it, dB by dB."
        relation "Sound power level Lw = L + 10 lg(2πr²), r = 1 m."
        source "Power of a small source on the floor; no source named."
        assumptions "Nothing near it but the floor.";
    MAX_ABOVE "max-above" "Maximum above the mean"
        plain "How far the loudest moments (LAFmax) lie above the mean: 1 dB for noise, 10 dB for a drum kit. It counts where a limit has a maximum."
        relation "LAFmax = LAeq + this."
        source "Assumed for each kind of source.";
    HOURS "hours-of-use" "Hours of use"
        plain "When it plays and for how long. By night the guideline allows less, and ears bear loud sound only so long."
        relation "Day and evening 7 to 23 h, night 23 to 7 h: of those in which it plays, the strictest value is the limit."
        source "WHO (1999), 16 h and 8 h; where they begin is usual, local rules differ.";
    DRIVER_COUNT "driver-count" "Number of drivers"
        plain "How many equal drivers play the same. At the same total power, more of them are louder in the bass, where they help each other."
        relation "10 lg(1 + (2/n)·Σ sin(kd)/(kd)) over all pairs: at most 10 lg n."
        source "Two monopoles: Fahy, Foundations of Engineering Acoustics, ch. 6, from memory."
        assumptions "In columns of two (assumed); pairs beyond half a wavelength add nothing.";
    DRIVER_DIAMETER "driver-diameter" "Nominal diameter"
        plain "The size by which a driver is sold. It says how far apart several drivers sit; for one alone it changes no level."
        relation "Distance between the middles of neighbours d = 1.1 diameters."
        source "Assumed.";
    SENSITIVITY "sensitivity" "Sensitivity"
        plain "Level 1 m before one driver that takes 1 W, as its data sheet has it. 3 dB more is as much as twice the power."
        relation "Energy sum of all bands at 1 m = S + 10 lg P, P in W."
        source "IEC 60268-5, the meaning of sensitivity."
        assumptions "Half space; the figure holds for the sound that is played.";
    POWER "power-used" "Power used"
        plain "Electrical power that all drivers take up together, as a mean while they play; not what the amplifier could give."
        relation "Level + 10 lg P: twice the power is 3 dB more."
        source "IEC 60268-5, the meaning of sensitivity."
        assumptions "The drivers share it evenly.";
    CREST "crest" "Crest factor"
        plain "How far the peaks of the signal stand above its rms: 3 dB for a sine, 6 dB for noise clipped at twice its rms."
        relation "LAFmax = LAeq + crest − 3 dB; amplifier, rated with a sine: P·10^((crest − 3)/10)."
        source "Definition; that it gives the maximum is assumed."
        assumptions "In the loudest moments the signal is a sine up to its peak.";
    SOURCE_MASS "source-mass" "Mass in the box"
        plain "What stands or hangs in the box beside its boards and lining: loudspeaker, frame, microphone stand."
        relation "Part of the load on suspension, feet and floor, and of what the recoil shakes; not of the mass shown for the box."
        source "Weigh it."
        assumptions "It moves with the box as one rigid body.";
    SOURCE_HEAT "source-heat" "Heat given off"
        plain "Power that becomes heat in the box: nearly all that a loudspeaker takes. It says how much air the vents must carry."
        relation "Flow V = P/(ρ·cp·ΔT), ΔT = 10 K."
        source "Heat balance; the rise of 10 K is assumed."
        validity "Only with vents: how hot a sealed box grows is not worked out.";
    RECOIL "recoil" "Moving mass and cone area"
        plain "They say how hard the driver pushes back on the box: the heavier the cone for its area, the more."
        relation "F = (Mms/Sd)·2πr·p/ρ for a sound pressure p at distance r."
        source "Piston in a half space; no source named."
        validity "Below the frequency at which the cone breaks up.";
    DRIVER_SIZE "driver-size" "Size of the driver"
        plain "Sets diameter, moving mass and cone area to what is common for instrument loudspeakers of this size."
        source "Assumed.";
}
