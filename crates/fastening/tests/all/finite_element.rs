//! A beam by finite elements, written apart from the room's solver, to hold it against.

use fastening::plank::beam::forced;
use fastening::random::Random;

/// Reactions and support moments of a beam with deflections `offsets` forced at `positions`, by cubic (Hermite) elements, four to a
/// bay, forced displacements put in by striking out rows. Pull is taken as the force that the support exerts inwards.
fn by_elements(ei: f64, positions: &[f64], offsets: &[f64]) -> Vec<f64> {
    const PARTS: usize = 4;
    let mut nodes = vec![positions[0]];
    for bay in positions.windows(2) {
        for part in 1..=PARTS {
            nodes.push(bay[0] + (bay[1] - bay[0]) * part as f64 / PARTS as f64);
        }
    }
    let size = 2 * nodes.len();
    let mut k = vec![vec![0.0; size]; size];
    for (e, pair) in nodes.windows(2).enumerate() {
        let l = pair[1] - pair[0];
        let c = ei / l.powi(3);
        let local = [
            [12.0, 6.0 * l, -12.0, 6.0 * l],
            [6.0 * l, 4.0 * l * l, -6.0 * l, 2.0 * l * l],
            [-12.0, -6.0 * l, 12.0, -6.0 * l],
            [6.0 * l, 2.0 * l * l, -6.0 * l, 4.0 * l * l],
        ];
        for (i, row) in local.iter().enumerate() {
            for (j, value) in row.iter().enumerate() {
                k[2 * e + i][2 * e + j] += c * value;
            }
        }
    }
    let held: Vec<usize> = (0..positions.len()).map(|i| 2 * PARTS * i).collect();
    let (mut a, mut b) = (k.clone(), vec![0.0; size]);
    for (dof, w) in held.iter().zip(offsets) {
        for (r, row) in a.iter_mut().enumerate() {
            b[r] -= row[*dof] * w;
            row[*dof] = 0.0;
        }
        a[*dof] = vec![0.0; size];
        a[*dof][*dof] = 1.0;
    }
    for (dof, w) in held.iter().zip(offsets) {
        b[*dof] = *w;
    }
    let u = eliminated(a, b);
    // The support pushes outwards with K u; the fastening pulls inwards with the opposite.
    held.iter().map(|dof| -k[*dof].iter().zip(&u).map(|(k, u)| k * u).sum::<f64>()).collect()
}

/// Gauss elimination with row exchange.
fn eliminated(mut a: Vec<Vec<f64>>, mut b: Vec<f64>) -> Vec<f64> {
    let n = b.len();
    for c in 0..n {
        let pivot = (c..n).max_by(|i, j| a[*i][c].abs().total_cmp(&a[*j][c].abs())).unwrap();
        a.swap(c, pivot);
        b.swap(c, pivot);
        for r in c + 1..n {
            let f = a[r][c] / a[c][c];
            if f != 0.0 {
                let (upper, lower) = a.split_at_mut(r);
                lower[0].iter_mut().zip(&upper[c]).skip(c).for_each(|(x, y)| *x -= f * y);
                b[r] -= f * b[c];
            }
        }
    }
    for r in (0..n).rev() {
        let sum: f64 = (r + 1..n).map(|c| a[r][c] * b[c]).sum();
        b[r] = (b[r] - sum) / a[r][r];
    }
    b
}

#[test]
fn the_solver_agrees_with_finite_elements_on_fifty_random_planks() {
    let mut random = Random::seeded(50);
    for case in 0..50 {
        let rows = 3 + random.below(8) as usize;
        let mut positions = vec![0.0];
        for i in 1..rows {
            positions.push(positions[i - 1] + 120.0 + 280.0 * random.share());
        }
        let offsets: Vec<f64> = positions.iter().map(|x| 30.0 * (x / 900.0).sin() + 8.0 * random.share()).collect();
        let ei = 10f64.powf(7.0 + 3.0 * random.share());
        let ours = forced(ei, &positions, &offsets).unwrap().pulls_n;
        let theirs = by_elements(ei, &positions, &offsets);
        let scale = theirs.iter().fold(0.0, |a: f64, b| a.max(b.abs()));
        for (a, b) in ours.iter().zip(&theirs) {
            // 0.5 % of each pull, and of the greatest where a pull is next to nothing
            assert!((a - b).abs() <= 0.005 * b.abs().max(0.001 * scale), "case {case}: {a} against {b}");
        }
    }
}
