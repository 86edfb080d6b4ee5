//! What the page tells.

use super::{Explanation, Topic};

/// Makes [`Told`] and its explanations out of one table.
macro_rules! results {
    ($($name:ident $key:literal $title:literal $($part:ident $text:literal)+;)*) => {
        /// A result of the page.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Told {
            $(#[doc = $title] $name,)*
        }

        impl Told {
            /// All of them, in the order in which the page tells them.
            pub const ALL: &[Self] = &[$(Self::$name),*];
        }

        /// What is explained of a result.
        pub const fn of_result(told: Told) -> Topic {
            match told {
                $(Told::$name => Topic { key: $key, title: $title },)*
            }
        }

        /// The explanations of all of them.
        #[allow(clippy::needless_update, reason = "some rows leave nothing out")]
        pub const ALL: &[Explanation] = &[$(explanation!($key $title $($part $text)+)),*];
    };
}

results! {
    Level "level" "Level at the listener"
        plain "What is heard there while it plays (LAeq). Of several listeners it is the one with the least margin, who decides."
        relation "In each third: sound power of the box and the gain of the way there; then the A-weighted sum."
        source "ISO 12354-1:2017; outdoors ISO 12354-4:2017."
        assumptions "Nothing gets there through the frame of the house: that is told at the floor.";
    Range "range" "Range that holds in 8 of 10 cases"
        plain "In 8 of 10 cases the level lies within it, as far as we judged the unknowns rightly."
        relation "512 estimates, everything unknown drawn anew each time; 1 in 10 lies below, 1 in 10 above."
        source "Spreads assumed; scatter between laboratories: ISO 12999-1, from memory."
        validity "Too narrow for measured walls; no measured box is at hand.";
    Chance "chance" "Chance that the limit is met"
        plain "In how many of the cases the level stays within the limit."
        relation "Estimates with a margin of 0 dB or more over all 512; shown in tenths."
        source "Spreads assumed, as for the range.";
    Verdict "verdict" "Pass, at risk or fail"
        plain "Pass: all of the range is within the limit. At risk: the limit lies in it. Fail: all of it is over."
        relation "By the ends of the range of the margin; until it is known: pass from 5 dB under, fail from 5 dB over."
        source "Assumed.";
    Margin "margin" "Margin to the limit"
        plain "How far the level lies under the limit or over it."
        relation "In dBA: limit − level. NR, NC and not to be heard: the least difference of any band, which is named."
        source "Definition.";
    Source "source" "Level of the source"
        plain "The bare source on the floor, 1 m away, without any box."
        relation "A-weighted sum of its thirds."
        source "What was entered; from the driver: IEC 60268-5.";
    Inside "inside" "Level inside"
        plain "In the chamber before the driver, with what builds up there because it is shut in. A meter held inside reads it."
        relation "Many waves: Lw + 10 lg(4/A). Low: one pressure p = Q/(jωV/(ρc²) + Y), Y of walls and openings."
        source "Vér & Beranek (2006), ch. 12; network of air and panels."
        assumptions "The cone moves as much as in the open, whatever the air of the box does.";
    Gap "gap" "Level in the gap"
        plain "Between the two boxes. Where they bounce on the air between them it can be louder than inside."
        relation "Mean square pressure over the depth of the gap, and what openings let in over what the gap absorbs."
        source "Layers: Allard & Atalla (2009), ch. 11; balance: Vér & Beranek (2006), ch. 12.";
    Outside "outside" "Level 1 m outside"
        plain "What a meter would read 1 m from the box, on the floor, with nothing else around."
        relation "L = Lw − 10 lg(2πr²), r = 1 m + ½·∛volume."
        source "Half sphere of ISO 3744."
        assumptions "The box is a point in its middle.";
    Room "room" "Level in the room"
        plain "At the distance given: what comes directly and what walls, floor and ceiling give back."
        relation "L = Lw + 10 lg(2/(4πr²) + 4/A)."
        source "Beranek (1954), ch. 10, from memory, with A as ISO 12354 has it.";
    WithoutBox "without-box" "Level without any box"
        plain "What would be heard there, were the source bare on the floor."
        relation "The same way with the sound power of the bare source."
        source "As the level with the box.";
    InsertionLoss "insertion-loss" "Insertion loss"
        plain "What the box brings: how much less sound gets out with it than without."
        relation "IL = Lw(bare) − Lw(box), all ways out together; for this source A-weighted."
        source "Definition; energy balance: Vér & Beranek (2006), ch. 12."
        validity "Weakest in the octave between the two models, shaded in the chart. Less than 0 dB at a resonance is no error.";
    LevelDifference "level-difference" "Level difference"
        plain "What a meter reads inside less what it reads 1 m outside. As a rule more than what the box brings."
        relation "D = L(inside) − L(outside)."
        source "Definition.";
    WhyTheyDiffer "why-they-differ" "Why both differ"
        plain "Shut in, sound builds up, and outside it is farther from the source. Neither is won by the box."
        relation "D = IL + (L(inside) − L(source)) + 20 lg(r/1 m), r from the middle of the box."
        source "Follows from the definitions.";
    SoundReduction "sound-reduction" "Sound reduction index R"
        plain "What a wall alone stops of sound that comes from all directions: power that arrives over power that goes on."
        relation "R = 10 lg(1/τ): forced waves through the layers, finite size, and free bending waves below coincidence."
        source "Villot et al. (2001), Davy (2009); ISO 12354-1:2017, Annex B; both from memory."
        validity "Not in the band of the panels’ first resonance, and not below: there the network counts.";
    ApparentReduction "apparent-reduction" "Sound reduction index R′"
        plain "R as it is in the building, with what goes round the wall: lower than R. R′w says it in one number."
        relation "R′ = R − flanking. R′w: reference curve as high as its deficits sum to 32 dB at most."
        source "ISO 12354-1:2017; ISO 717-1:2020."
        validity "R′w takes in 100 to 3150 Hz: it says little about bass.";
    Walls "way-walls" "Way out: walls"
        plain "Through the boards of every box, from the air inside to the air outside."
        relation "Many waves: I·S·τ of all layers as one stack. Low: air that the panels push, and motion without volume."
        source "Vér & Beranek (2006), ch. 12; panels: Warburton (1954); radiation: Pierce (1981).";
    Leaks "way-leaks" "Way out: leaks"
        plain "Through the edge of a lid, and from there on whatever way further."
        relation "Slits with friction of the air; by way of the gap leak₁·(wall₂ + leak₂)/A and wall₁·leak₂/A."
        source "Stinson (1991); Gomperts & Kihlman (1967), from memory. Heights assumed."
        validity "Heights within a factor of 2 either way.";
    Holes "way-holes" "Way out: holes"
        plain "Through holes for cables, and from there on whatever way further."
        relation "As leaks; a leak in one box and a hole in the other count half with either."
        source "Stinson (1991); Norris & Sheng (1989), from memory.";
    Suspension "way-suspension" "Way out: suspension"
        plain "What holds the inner box shakes the boards of the outer one, which sound."
        relation "Power F²·Re Y/n into the boards, of which η(rad)/(η(rad) + η) leaves as sound."
        source "Cremer, Heckl & Petersson (2005), ch. 4; modes: Warburton (1954); radiation: ISO 12354-1:2017, Annex B."
        assumptions "The supports shake each for itself; the outer box as a whole radiates nothing by it.";
    Vents "way-vents" "Way out: vents"
        plain "Along the ducts, straight from the source to the room past both boxes."
        relation "Plane wave with 1.5·α·U/A dB a metre and up to 6·α dB a bend; higher up rays with the same attenuation."
        source "Piening (1937), from memory; bends assumed.";
    Motion "way-motion" "Way out: motion"
        plain "The driver’s recoil shakes the box as one piece, which pumps the air of the gap or of the room."
        relation "Rigid body on its supports and the air; two ends a length L apart radiate 1 − sin(kL)/(kL) of what they would alone."
        source "Rigid body on springs; no source named. Air round it: loss factor 0.1, assumed."
        validity "Low frequencies, lengthwise; only with a driver and supports that give.";
    LimitingPath "limiting-path" "Limiting path"
        plain "The way out that carries most of what is heard, and the band in which it is loudest."
        relation "Largest share of the A-weighted energy at the listener who decides, or in the room where nobody listens."
        source "Definition."
        assumptions "A cause is named where its frequency lies within a third of an octave of that band.";
    PanelResonance "panel-resonance" "Panel resonance"
        plain "Panels ring at their own note, like a drum head. There neither mass nor stiffness helps, only damping."
        relation "f = (1/2π)·√(D·k⁴/m), k by the sides and by how firmly the edges are held."
        source "Warburton (1954)."
        validity "As sure as the corners are known.";
    MassAirMass "mass-air-mass" "Mass-air-mass resonance"
        plain "Two walls bounce on the air between them as two weights on a spring. Only well above it is a double wall worth its weight."
        relation "f = (1/2π)·√((ρc²/d)(1/m₁ + 1/m₂)), m in kg/m², d the depth of the gap."
        source "Textbook relation; no source named."
        validity "The formula alone takes walls as limp and the gap as empty.";
    Coincidence "coincidence" "Coincidence"
        plain "Bending waves in a board run as fast as the sound along it, and it lets more through. Damping helps."
        relation "fc = (c²/2π)·√(m/D), D as the wave at fc sees it."
        source "Plate theory; stiffness: Ross, Kerwin & Ungar (1959), Mindlin (1951)."
        validity "Plywood has two such frequencies, along and across; one is taken.";
    Mass "mass" "Mass"
        plain "Boards, damping compound, braces, baffle, lining and fill. Not in it: what stands in the box, supports, seals, screws."
        relation "Volume × density of every layer, each a box round the one before."
        source "Densities of the catalogue, many from memory.";
    Cost "cost" "What it costs to build"
        plain "The shopping list: whole sheets, wool, compound, fittings, with waste and tax. Single changes are compared by the material alone, by area."
        relation "Sum of price times amount, rounded up to what shops sell."
        source "Prices are invented; each can be changed in the list."
        assumptions "Tools and what lies in a workshop are not in it.";
    HoursOfWork "hours" "Hours of work"
        plain "What building it takes, without the time that glue and compound need to dry."
        relation "Sum over all kinds of work of amount times minutes for one."
        source "Assumed; each can be changed in the list."
        validity "Within a factor of 2: hands and workshops differ.";
    OutsideSize "outside-size" "Outside size"
        plain "Of the whole box without feet, fittings and ducts: what has to pass the door."
        relation "Inside + 2 × (inner boards + gap + outer boards)."
        source "Geometry.";
    Nr "nr" "Noise rating NR"
        plain "One number for how loud it is to people in rooms: the highest NR curve that any octave reaches."
        relation "L = a + b·NR, octaves of 31.5 Hz to 8 kHz."
        source "ISO R 1996 (1971), from memory.";
    Nc "nc" "Noise criterion NC"
        plain "The same by the NC curves: the highest that any octave from 63 Hz on touches."
        relation "Tangency method, in proportion between tabled curves."
        source "ANSI S12.2, as in a general library."
        validity "NC 15 to 70; the standard’s look at speech interference is left out.";
    DbaLimit "dba-limit" "Limit that holds"
        plain "What the mean may be while it plays: your own limit, or the guideline’s strictest value."
        relation "Day 35, night 30 dBA indoors (outdoors 50, 45); by night also 45 (60) dB less the maximum above the mean."
        source "WHO (1999), Table 4.1; from memory: outdoors by day, and that the maximum belongs to the night."
        validity "A guideline, no law: local rules decide.";
    BandLimit "band-limit" "Limit of a band"
        plain "The limit line in the chart: what a band might be if it were all there is."
        relation "In dBA: limit − A-weighting. NR, NC: the octave’s limit less 10 lg 3."
        source "Follows from the limit.";
    Needed "needed" "What a box has to bring"
        plain "How many dB are needed in each band so that all together just meet the limit."
        relation "In dBA the least: bands that stand out come down to one A-weighted level. NR, NC: what the octave is over."
        source "Our choice among many that meet a limit in dBA.";
    Maximum "maximum" "Maximum level"
        plain "The loudest moments as a meter set to fast shows them (LAFmax)."
        relation "LAFmax = LAeq + what the source has above its mean."
        source "Assumed, or from the crest factor.";
    MeanOverPeriod "mean-over-period" "Mean over day or night"
        plain "The mean of the whole day or night, with the hours in which nothing plays."
        relation "LAeq − 10 lg(period/hours of use in it); day 16 h, night 8 h."
        source "WHO (1999).";
    Background "background" "Background level"
        plain "What is heard there anyway, beside the box."
        relation "Falls by 5 dB an octave, set to its level in dBA; or band levels of your own."
        source "Blazier (1981) for the slope; levels assumed.";
    Inaudible "inaudible" "Not to be heard"
        plain "No band is heard: each lies below the threshold of hearing, or is covered by the background."
        relation "Limit of a third = the higher of the threshold and background − 6 dB."
        source "Threshold: ISO 226:2003. 6 dB: Zwicker & Fastl, ch. 4, from memory."
        validity "Young ears, pure tones, third by third.";
    Left "what-is-left" "What is left to hear"
        plain "What the rest sounds like: the third that carries most of it, and how much."
        relation "Largest A-weighted third over the sum of all."
        source "Follows from the levels.";
    HearingHours "hearing-hours" "How long ears bear it"
        plain "Hours a day at this level that should not be exceeded, lid open and lid shut. Protect your ears."
        relation "T = 8 h/2^((L − 85)/3), L in dBA."
        source "NIOSH (1998), criteria document 98-126.";
    Amplifier "amplifier" "Amplifier"
        plain "Rated power of an amplifier that gives the peaks without clipping."
        relation "P·10^((crest − 3)/10), rated with a sine."
        source "Definition of the crest factor.";
    FloorBorne "floor-borne" "Floor-borne sound"
        plain "What the feet shake into the floor, as heard in the room below, or beside on the ground. Not counted in the level."
        relation "F²T²·Re Y/n, the part that radiates, and Lp = Lw + 10 lg(4/10 m²)."
        source "In the way of ISO 12354-2:2017; floors assumed or from memory."
        validity "Give or take 10 dB; only with a driver.";
    VentFlow "vent-flow" "Air through the vents"
        plain "How much air keeps the box no more than 10 K (18 °F) warmer than the room, and how fast it runs in the ducts."
        relation "V = P/(ρ·cp·ΔT), ΔT = 10 K; half the ducts lead in; above 2.5 m/s it hisses."
        source "Heat balance; 10 K assumed; 2.5 m/s: common practice, no source."
        assumptions "Something moves the air; no fan is worked out.";
    SupportLoad "support-load" "Load on the supports"
        plain "What each carries and may carry, how far it gives, and how fast the box bounces."
        relation "Sag = m·g/K; f = (1/2π)·√(K/m) with the stiffness in motion; working load a fifth of the breaking load."
        source "Mass on a spring, textbook relation; the fifth is common practice, no source.";
    Corners "corners-range" "Between loose and firm corners"
        plain "The answer with loose and with firm corners: how much hangs on what is hard to know."
        relation "Two estimates, all else alike: corners held 20 % and 90 %."
        source "Assumed.";
    Changes "changes" "What to change next"
        plain "Each change by itself, all else alike: what it brings, weighs, costs and adds to the longest side."
        relation "Estimate with the change less that without; sorted by margin won, alone or per kilogram, money or size."
        source "Changes offered: common practice, no source."
        validity "Two changes together may bring more or less than the sum of both.";
    Unknowns "unknowns" "What the range comes from"
        plain "Which unknown makes the range wide. Finding out the largest narrows it most."
        relation "Share of the variance of the margin that goes with each unknown alone."
        source "Sobol’ (1993); fit of cubics: Hastie & Tibshirani (1990), ch. 5."
        validity "What several do together is left out, so the sum is less than 100 %.";
    Coverage "coverage" "How such ranges did on measured walls"
        plain "How many measured values lay within the ranges worked out for them."
        relation "Values by octave within the range of R, over all values."
        source "UFC 3-450-01, Table 4-8; a handbook’s table, from memory."
        validity "Walls alone: what it means for a box is not known.";
    Search "search" "Best trade-offs"
        plain "Of all boxes of the sheets at hand: those that no other beats in sound, mass and cost at once."
        relation "All are compared by a coarse model; what may be best is estimated in full, and those figures are shown."
        source "Our own; the coarse model counts on 0.25 dB."
        assumptions "Sound in steps of 0.1 dB; inside size, source, rooms, supports and holes stay."
        validity "That the coarse model is so near was measured, not proven.";
    ChamberMode "chamber-mode" "First mode of the chamber"
        plain "The lowest frequency at which the air of the box rings: half a wave fits its longest side."
        relation "f = c/(2·longest side)."
        source "Air in a box with hard walls, textbook relation.";
    NetworkBelow "network-below" "Where the two models meet"
        plain "Below it air and panels count as springs and masses, an octave above as many waves. Between, neither holds well."
        relation "The chamber’s first mode, or 1.5 × the panels’ first resonance if higher, at most an octave more. Between: what lets out more."
        source "Chosen against a coupled model of modes of air and plates."
        validity "In the octave between a standard deviation of 4 dB is assumed.";
    Cautions "cautions" "When to take care"
        plain "When the page warns of weights, loads and levels. It replaces no engineer and no local code."
        relation "25 kg a person; 1.5 kPa on the floor; a fifth of the breaking load; 85 dBA."
        source "Common practice, no source; hearing: NIOSH (1998).";
}
