//! Bending stiffness of a laminate as a wave of given wavenumber and frequency sees it.
//!
//! Every sheet has its own rotation and stretch; bonds carry shear between them. With unit slope w' = 1 the energy is
//!
//! sum_i [D_i k^2 phi_i^2 + 5/6 G_i h_i (1 - phi_i)^2 + K_i k^2 u_i^2]
//! + sum_j T_j [u_(j+1) - u_j - (h_j phi_j + h_(j+1) phi_(j+1))/2 - t_j]^2,
//!
//! with T_j the shear stiffness per area of the bond, and D(k, f) is its stationary value over k^2. For thin sheets this
//! is Ross, Kerwin & Ungar (1959, "Damping of plate flexural vibrations by means of viscoelastic laminae", in Structural
//! Damping, ASME, 49-87) for any number of sheets, with each sheet's own shear after Mindlin (1951, J. Appl. Mech. 18,
//! 31-38; factor 5/6).

use num_complex::Complex64;

use crate::buildup::{Bond, Laminate, Sheet};
use crate::lanes::{Lanes, f64x2};
use crate::math::complex;

const ZERO: Lanes<f64x2> = Lanes { re: f64x2::ZERO, im: f64x2::ZERO };
const ONE: Lanes<f64x2> = Lanes { re: f64x2::ONE, im: f64x2::ZERO };
/// Most sheets of one bonded group.
const MOST: usize = crate::buildup::check::MOST_SHEETS;
/// Shear stiffness per area in Pa/m of a glue line taken as rigid: so stiff that a further factor of ten changes nothing.
pub const RIGID_BOND_STIFFNESS: f64 = 1e16;
/// Half bandwidth of the equations: a bond couples the two unknowns of a sheet to those of the next.
const HALF_BAND: usize = 3;

/// Complex bending stiffness per width in N m of `laminate` for a wave of `wavenumber` rad/m at `hz`.
///
/// Groups of sheets with nothing but loose contact between them bend independently, so that their stiffnesses add.
/// Preconditions: `wavenumber` and `hz` positive.
pub fn bending_stiffness(laminate: &Laminate, wavenumber: f64, hz: f64) -> Complex64 {
    // Both alike: a vector of two costs no more than one number, and there is no second copy of the code.
    let both = bending_stiffnesses(laminate, f64x2::splat(wavenumber), hz);
    complex(both.re.to_array()[0], both.im.to_array()[0])
}

/// As [`bending_stiffness`], for two waves.
pub fn bending_stiffnesses(laminate: &Laminate, wavenumbers: f64x2, hz: f64) -> Lanes<f64x2> {
    let k2 = wavenumbers * wavenumbers;
    let mut total = ZERO;
    let mut first = 0;
    for index in 0..laminate.sheets.len() {
        let ends_here = index + 1 == laminate.sheets.len() || laminate.bonds[index] == Bond::Loose;
        if ends_here {
            let (sheets, bonds) = (&laminate.sheets[first..=index], &laminate.bonds[first..index]);
            total += if sheets.len() == 1 { single_sheet(&sheets[0], k2) } else { bonded_group(sheets, bonds, k2, hz) };
            first = index + 1;
        }
    }
    total
}

/// Shear stiffness 5/6 G h in N/m of a sheet, with the loss factor of the sheet.
fn shear_stiffness(sheet: &Sheet) -> Complex64 {
    let real = 5.0 / 6.0 * sheet.shear_modulus * sheet.thickness_m;
    complex(real, real * sheet.loss_factor)
}

fn plate_stiffness(sheet: &Sheet) -> Complex64 {
    let real = sheet.bending_stiffness();
    complex(real, real * sheet.loss_factor)
}

/// The closed form for one sheet: bending and shear in series.
fn single_sheet(sheet: &Sheet, k2: f64x2) -> Lanes<f64x2> {
    let (d, s) = (plate_stiffness(sheet), shear_stiffness(sheet));
    Lanes::all(d * s) * (Lanes::all(d).scaled(k2).plus(s)).inverse()
}

/// A bond's shear stiffness per area in Pa/m and its thickness in m.
fn bond_stiffness(bond: &Bond, hz: f64) -> (Complex64, f64) {
    match bond {
        Bond::Rigid => (complex(RIGID_BOND_STIFFNESS, 0.0), 0.0),
        Bond::Loose => (complex(0.0, 0.0), 0.0),
        Bond::Viscoelastic(layer) => {
            let (g, loss) = layer.at(hz);
            let real = g / layer.thickness_m;
            (complex(real + layer.screw_stiffness, real * loss), layer.thickness_m)
        }
    }
}

/// Sheets bonded to one another: the stationary energy over the unknowns u_1, psi_1, u_2, psi_2 ... with psi = 1 - phi.
///
/// The unknown psi is small for sheets that hardly shear, and the energy is summed from its parts at the solution, where
/// it is stationary: both keep stiff bonds from cancelling digits.
fn bonded_group(sheets: &[Sheet], bonds: &[Bond], k2: f64x2, hz: f64) -> Lanes<f64x2> {
    let size = 2 * sheets.len();
    // `band[row][offset]` is the element (row, row - offset) of the symmetric matrix.
    let mut band = [[ZERO; HALF_BAND + 1]; 2 * MOST];
    let mut x = [ZERO; 2 * MOST];
    let mut bond_parts = [(complex(0.0, 0.0), 0.0); MOST];
    let bent = |sheet: &Sheet| Lanes::all(plate_stiffness(sheet)).scaled(k2);
    let stretch = |sheet: &Sheet| 12.0 / (sheet.thickness_m * sheet.thickness_m);

    for (i, sheet) in sheets.iter().enumerate() {
        let bending = bent(sheet);
        band[2 * i][0] += bending.times(stretch(sheet));
        band[2 * i + 1][0] += bending.plus(shear_stiffness(sheet));
        x[2 * i + 1] += bending;
    }
    for (j, bond) in bonds.iter().enumerate() {
        let (stiffness, thickness_m) = bond_stiffness(bond, hz);
        let (lower, upper) = (0.5 * sheets[j].thickness_m, 0.5 * sheets[j + 1].thickness_m);
        let distance = thickness_m + lower + upper;
        bond_parts[j] = (stiffness, distance);
        let row = [-1.0, lower, 1.0, upper];
        for (a, &va) in row.iter().enumerate() {
            x[2 * j + a] += Lanes::all(stiffness * (va * distance));
            for (b, &vb) in row.iter().enumerate().take(a + 1) {
                band[2 * j + a][a - b] += Lanes::all(stiffness * (va * vb));
            }
        }
    }

    solve_symmetric_band(&mut band[..size], &mut x[..size]);

    let mut energy = ZERO;
    for (i, sheet) in sheets.iter().enumerate() {
        let (u, psi) = (x[2 * i], x[2 * i + 1]);
        let phi = ONE - psi;
        let bending = bent(sheet);
        energy += bending * phi * phi + Lanes::all(shear_stiffness(sheet)) * psi * psi + bending.times(stretch(sheet)) * u * u;
    }
    for (j, &(stiffness, distance)) in bond_parts[..bonds.len()].iter().enumerate() {
        let (lower, upper) = (0.5 * sheets[j].thickness_m, 0.5 * sheets[j + 1].thickness_m);
        let slip = x[2 * j + 2] - x[2 * j] + x[2 * j + 1].times(lower) + x[2 * j + 3].times(upper);
        let slip = slip.plus_real(-distance);
        energy += Lanes::all(stiffness) * slip * slip;
    }
    energy.scaled(f64x2::splat(1.0) / k2)
}

/// Solves A x = b by A = L D L^T within the band; `band` holds A and is overwritten, `x` holds b and becomes the solution.
fn solve_symmetric_band(band: &mut [[Lanes<f64x2>; HALF_BAND + 1]], x: &mut [Lanes<f64x2>]) {
    let size = x.len();
    for row in 0..size {
        let start = row.saturating_sub(HALF_BAND);
        // Elements of the row are L(row, column) D(column) until the row is done.
        for column in start..row {
            let mut value = band[row][row - column];
            for inner in start.max(column.saturating_sub(HALF_BAND))..column {
                // L D of this row is still there; L of the column's row was divided when that row was done.
                value = value - band[row][row - inner] * band[column][column - inner];
            }
            band[row][row - column] = value;
        }
        let mut pivot = band[row][0];
        for column in start..row {
            let scaled = band[row][row - column];
            let l = scaled * band[column][0];
            pivot = pivot - scaled * l;
            band[row][row - column] = l;
        }
        // The diagonal keeps 1/D: one division a row.
        band[row][0] = pivot.inverse();
    }
    for row in 0..size {
        for column in row.saturating_sub(HALF_BAND)..row {
            x[row] = x[row] - band[row][row - column] * x[column];
        }
    }
    for (value, row) in x.iter_mut().zip(band.iter()) {
        *value = *value * row[0];
    }
    for row in (0..size).rev() {
        for below in row + 1..(row + HALF_BAND + 1).min(size) {
            x[row] = x[row] - band[below][below - row] * x[below];
        }
    }
}

/// Wavenumber in rad/m of the free bending wave of `laminate` at `hz`: the root of Re D(k, f) k^4 = m w^2.
///
/// Fixed-point steps k = (m w^2 / D)^(1/4), which converge because D falls with k slower than k^-2, until one changes less
/// than 1e-5, at most 24.
pub fn free_wavenumber(laminate: &Laminate, hz: f64) -> f64 {
    let omega = 2.0 * std::f64::consts::PI * hz;
    let inertia = laminate.surface_mass() * omega * omega;
    let mut wavenumber = 1.0;
    for _ in 0..24 {
        let stiffness = bending_stiffness(laminate, wavenumber, hz).re;
        let next = (inertia / stiffness).sqrt().sqrt();
        let done = (next - wavenumber).abs() < 1e-5 * next;
        wavenumber = next;
        if done {
            break;
        }
    }
    wavenumber
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::buildup::{LogTable, ViscoelasticBond};

    fn sheet(thickness_m: f64, youngs_modulus: f64) -> Sheet {
        Sheet { thickness_m, density: 700.0, youngs_modulus, poisson: 0.3, loss_factor: 0.0, shear_modulus: 1e16 }
    }

    fn core(thickness_m: f64, g: f64, loss: f64) -> Bond {
        let table = |value| LogTable::new(vec![(100.0, value)]).unwrap();
        Bond::Viscoelastic(ViscoelasticBond {
            thickness_m,
            density: 1200.0,
            shear_modulus: table(g),
            power_law: 0.0,
            reference_hz: 100.0,
            loss_factor: table(loss),
            screw_stiffness: 0.0,
        })
    }

    fn relative(got: Complex64, want: Complex64) -> f64 {
        (got - want).l1_norm() / want.l1_norm()
    }

    #[test]
    fn rigid_bonds_give_the_composite_section() {
        let sheets = vec![sheet(0.018, 8e9), sheet(0.0125, 3.2e9), sheet(0.012, 6e9)];
        let laminate = Laminate { sheets: sheets.clone(), bonds: vec![Bond::Rigid, Bond::Rigid] };
        let e = |s: &Sheet| s.youngs_modulus / (1.0 - s.poisson * s.poisson);
        let mut bottom = 0.0;
        let (mut area, mut moment) = (0.0, 0.0);
        for s in &sheets {
            area += e(s) * s.thickness_m;
            moment += e(s) * s.thickness_m * (bottom + 0.5 * s.thickness_m);
            bottom += s.thickness_m;
        }
        let axis = moment / area;
        bottom = 0.0;
        let mut want = 0.0;
        for s in &sheets {
            let arm = bottom + 0.5 * s.thickness_m - axis;
            want += s.bending_stiffness() + e(s) * s.thickness_m * arm * arm;
            bottom += s.thickness_m;
        }
        for wavenumber in [0.5, 5.0, 30.0] {
            let got = bending_stiffness(&laminate, wavenumber, 500.0);
            assert!(relative(got, complex(want, 0.0)) < 1e-3, "k {wavenumber}: {got} against {want}");
        }
    }

    #[test]
    fn bonds_without_stiffness_add_the_sheets() {
        let sheets = vec![sheet(0.018, 8e9), sheet(0.0125, 3.2e9)];
        let want = complex(sheets.iter().map(Sheet::bending_stiffness).sum(), 0.0);
        for bond in [Bond::Loose, core(0.3e-3, 1.0, 0.0)] {
            let laminate = Laminate { sheets: sheets.clone(), bonds: vec![bond] };
            assert!(relative(bending_stiffness(&laminate, 5.0, 500.0), want) < 1e-3);
        }
    }

    #[test]
    fn two_sheets_and_a_core_follow_ross_kerwin_ungar() {
        let (a, b) = (sheet(0.018, 8e9), sheet(0.0125, 3.2e9));
        let stretch = |s: &Sheet| s.bending_stiffness() * 12.0 / (s.thickness_m * s.thickness_m);
        let (k1, k2) = (stretch(&a), stretch(&b));
        let t = 0.3e-3;
        let d = t + 0.5 * (a.thickness_m + b.thickness_m);
        for g in [1e5, 1e6, 1e7] {
            for wavenumber in [1.0, 5.0, 20.0] {
                let shear = complex(g, 0.9 * g);
                let parameter = shear / (t * wavenumber * wavenumber) * (1.0 / k1 + 1.0 / k2);
                let coupling = d * d * k1 * k2 / (k1 + k2) * parameter / (parameter + 1.0);
                let want = coupling + a.bending_stiffness() + b.bending_stiffness();
                let laminate = Laminate { sheets: vec![a.clone(), b.clone()], bonds: vec![core(t, g, 0.9)] };
                let got = bending_stiffness(&laminate, wavenumber, 500.0);
                assert!(relative(got, want) < 1e-5, "G {g}, k {wavenumber}: {got} against {want}");
            }
        }
    }

    #[test]
    fn sheets_soft_in_shear_glued_together_are_nearly_one_thick_sheet() {
        let soft = |thickness_m| Sheet { shear_modulus: 0.3e9, ..sheet(thickness_m, 8e9) };
        for (count, tolerance) in [(2, 1e-3), (4, 0.10)] {
            let parts = Laminate { sheets: vec![soft(0.018); count], bonds: vec![Bond::Rigid; count - 1] };
            let whole = Laminate { sheets: vec![soft(0.018 * count as f64)], bonds: vec![] };
            for wavenumber in [1.0, 5.0, 20.0] {
                let (got, want) = (bending_stiffness(&parts, wavenumber, 500.0), bending_stiffness(&whole, wavenumber, 500.0));
                assert!(relative(got, want) < tolerance, "{count} sheets, k {wavenumber}: {got} against {want}");
            }
        }
    }

    #[test]
    fn the_free_wave_satisfies_its_equation() {
        let laminate = Laminate { sheets: vec![sheet(0.018, 8e9), sheet(0.0125, 3.2e9)], bonds: vec![core(0.3e-3, 1e6, 0.9)] };
        for hz in [25.0, 250.0, 2500.0, 10000.0] {
            let k = free_wavenumber(&laminate, hz);
            let omega = 2.0 * std::f64::consts::PI * hz;
            let balance = bending_stiffness(&laminate, k, hz).re * k.powi(4) / (laminate.surface_mass() * omega * omega);
            assert!((balance - 1.0).abs() < 1e-3, "{hz} Hz: {balance}");
        }
    }
}
