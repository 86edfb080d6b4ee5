//! A wall on standard input, its sound reduction index and ratings on standard output, both as JSON.
//!
//! `cargo run -q --release -p hushwright-core --example wall < wall.json`, for example with
//! ```json
//! {"size_m": [1.5, 1.25], "mounting": "laboratory", "temperature_c": 20,
//!  "layers": [{"sheet": "birch-plywood", "thickness_mm": 18}, {"gap_mm": 60}, {"sheet": "mdf", "thickness_mm": 16}]}
//! ```
//! `mounting` is "laboratory" (edge loss of a test opening added) or "box" (material and bond loss only);
//! `temperature_c` may be absent and is 20 then.

mod support;

use std::process::ExitCode;

use hushwright::air::{Air, STANDARD_PRESSURE_PA};
use hushwright::bands::NOMINAL_HZ;
use hushwright::buildup::check::{Problems, check_stack};
use hushwright::buildup::raw::Layer;
use hushwright::buildup::{EdgeLoss, GapLoss};
use hushwright::error::FieldError;
use hushwright::rating::{ThirdOctaves, astm_e413, iso717_1};
use hushwright::transmission::{Mount, sound_reduction_db};
use serde::{Deserialize, Serialize};

/// Smallest and largest side of the wall in m.
const SIZE_M: (f64, f64) = (0.1, 20.0);
/// Coldest and hottest air in degrees Celsius.
const TEMPERATURE_C: (f64, f64) = (-20.0, 50.0);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Input {
    size_m: [f64; 2],
    mounting: String,
    #[serde(default = "room_temperature_c")]
    temperature_c: f64,
    layers: Vec<Layer>,
}

#[derive(Serialize)]
struct Output {
    bands_hz: Vec<f64>,
    r_db: Vec<f64>,
    rw: i64,
    c: i64,
    ctr: i64,
    stc: i64,
    surface_mass: f64,
}

fn room_temperature_c() -> f64 {
    20.0
}

fn main() -> ExitCode {
    support::run(compute)
}

fn compute(input: Input) -> Result<Output, FieldError> {
    let Input { size_m, mounting, temperature_c, layers } = input;
    let mut problems = Problems::default();
    let why = "a hatch to the wall of a hall";
    let size_m =
        [problems.within("size_m[0]", size_m[0], SIZE_M, "m", why), problems.within("size_m[1]", size_m[1], SIZE_M, "m", why)];
    let edge_loss = match &*mounting {
        "laboratory" => EdgeLoss::Laboratory,
        "box" => EdgeLoss::None,
        _ => {
            problems.push("mounting", "allowed are laboratory and box");
            EdgeLoss::None
        }
    };
    let why = "air in which walls are built and measured";
    let temperature_c = problems.within("temperature_c", temperature_c, TEMPERATURE_C, "degrees Celsius", why);
    let edges = GapLoss::Edges {
        absorption: GapLoss::EDGE_ABSORPTION,
        perimeter_per_area: 2.0 * (size_m[0] + size_m[1]) / (size_m[0] * size_m[1]),
    };
    let stack = check_stack(&mut problems, "layers", &layers, edges);
    let stack = problems.finish(stack).map_err(|mut errors| errors.swap_remove(0))?;
    let stack = stack.ok_or_else(|| FieldError::new("layers", "the layers make no wall"))?;
    let air = Air::new(temperature_c, STANDARD_PRESSURE_PA);
    let r_db = sound_reduction_db(&stack, &Mount { size_m, edge_loss }, &air);
    let thirds = ThirdOctaves::from(&r_db);
    let rated = iso717_1::rate_thirds(&thirds).zip(astm_e413::stc(&thirds)).filter(|_| r_db.is_finite());
    let Some((weighted, stc)) = rated else {
        return Err(FieldError::new("layers", "the sound reduction of this wall is beyond what numbers hold"));
    };
    Ok(Output {
        bands_hz: NOMINAL_HZ.to_vec(),
        r_db: r_db.iter().collect(),
        rw: weighted.rw,
        c: weighted.terms.c,
        ctr: weighted.terms.ctr,
        stc,
        surface_mass: stack.surface_mass(),
    })
}
