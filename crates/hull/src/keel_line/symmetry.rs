//! Is she the same on both sides? The best mirror between paired points.

use crate::HullError;

/// The same point measured on both sides, each in the same axes: along, athwart, up, in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// What the point is, e.g. `sheer at frame 12`.
    pub name: String,
    /// On the port side.
    pub port: [f64; 3],
    /// On the starboard side.
    pub starboard: [f64; 3],
}

/// How far the two sides are from being each other's mirror.
#[derive(Clone, Debug, PartialEq)]
pub struct Symmetry {
    /// For each pair, how far the port point lies from where the mirrored starboard point would put it, in
    /// millimetres: along, athwart, up, in the axes of measuring.
    pub off_mm: Vec<[f64; 3]>,
    /// Root mean square of their lengths, in millimetres.
    pub rms_mm: f64,
    /// The largest of them, and its pair's index.
    pub greatest_mm: (f64, usize),
}

/// Finds the rotation, with mirroring, and shift that best bring the starboard points onto the port points.
///
/// The starboard points are mirrored athwart, then turned by the best rotation: the eigenvector of the largest
/// eigenvalue of the quaternion matrix. Source: B. K. P. Horn, Closed-form solution of absolute orientation using
/// unit quaternions, J. Opt. Soc. Am. A 4 (1987).
///
/// # Errors
/// Refuses fewer than four pairs: three can always be made to fit.
pub fn symmetry(pairs: &[Pair]) -> Result<Symmetry, HullError> {
    if pairs.len() < 4 {
        return Err(HullError::value("The number of paired points", pairs.len(), "4 at least"));
    }
    if pairs.iter().flat_map(|p| p.port.iter().chain(&p.starboard)).any(|v| !v.is_finite()) {
        return Err(HullError::value("A paired point", "not a number", "three finite figures in metres"));
    }
    let n = pairs.len() as f64;
    let mirrored: Vec<[f64; 3]> = pairs.iter().map(|p| [p.starboard[0], -p.starboard[1], p.starboard[2]]).collect();
    let mean = |points: &mut dyn Iterator<Item = [f64; 3]>| {
        let sum = points.fold([0.0; 3], |s, p| [s[0] + p[0], s[1] + p[1], s[2] + p[2]]);
        sum.map(|v| v / n)
    };
    let centre_p = mean(&mut pairs.iter().map(|p| p.port));
    let centre_q = mean(&mut mirrored.iter().copied());
    let mut s = [[0.0; 3]; 3];
    for (p, q) in pairs.iter().zip(&mirrored) {
        for (a, row) in s.iter_mut().enumerate() {
            for (b, cell) in row.iter_mut().enumerate() {
                *cell += (q[a] - centre_q[a]) * (p.port[b] - centre_p[b]);
            }
        }
    }
    let turn = rotation(&s);
    let mut off_mm = Vec::new();
    for (p, q) in pairs.iter().zip(&mirrored) {
        let off: [f64; 3] = std::array::from_fn(|a| {
            let put: f64 = (0..3).map(|b| turn[a][b] * (q[b] - centre_q[b])).sum();
            (p.port[a] - centre_p[a] - put) * 1000.0
        });
        off_mm.push(off);
    }
    let long = |o: &[f64; 3]| (o[0] * o[0] + o[1] * o[1] + o[2] * o[2]).sqrt();
    let rms_mm = (off_mm.iter().map(|o| long(o).powi(2)).sum::<f64>() / n).sqrt();
    let greatest = (0..off_mm.len()).max_by(|a, b| long(&off_mm[*a]).total_cmp(&long(&off_mm[*b]))).unwrap_or(0);
    Ok(Symmetry { rms_mm, greatest_mm: (long(&off_mm[greatest]), greatest), off_mm })
}

/// Horn's rotation of the cross sums S.
fn rotation(s: &[[f64; 3]; 3]) -> [[f64; 3]; 3] {
    let trace = s[0][0] + s[1][1] + s[2][2];
    let d = [s[1][2] - s[2][1], s[2][0] - s[0][2], s[0][1] - s[1][0]];
    let mut n = [[0.0; 4]; 4];
    n[0][0] = trace;
    for i in 0..3 {
        (n[0][i + 1], n[i + 1][0]) = (d[i], d[i]);
        for j in 0..3 {
            n[i + 1][j + 1] = s[i][j] + s[j][i] - if i == j { trace } else { 0.0 };
        }
    }
    let q = greatest_eigenvector(n);
    let (w, x, y, z) = (q[0], q[1], q[2], q[3]);
    [
        [w * w + x * x - y * y - z * z, 2.0 * (x * y - w * z), 2.0 * (x * z + w * y)],
        [2.0 * (x * y + w * z), w * w - x * x + y * y - z * z, 2.0 * (y * z - w * x)],
        [2.0 * (x * z - w * y), 2.0 * (y * z + w * x), w * w - x * x - y * y + z * z],
    ]
}

/// The eigenvector of the largest eigenvalue, by Jacobi's turns.
#[expect(clippy::needless_range_loop, reason = "the index names a station or an axis in several tables at once")]
fn greatest_eigenvector(mut a: [[f64; 4]; 4]) -> [f64; 4] {
    let mut v = [[0.0; 4]; 4];
    for (i, row) in v.iter_mut().enumerate() {
        row[i] = 1.0;
    }
    for _ in 0..60 {
        let (mut p, mut q, mut most) = (0, 1, 0.0);
        for i in 0..4 {
            for j in i + 1..4 {
                if a[i][j].abs() > most {
                    (p, q, most) = (i, j, a[i][j].abs());
                }
            }
        }
        if most < 1e-300 {
            break;
        }
        let theta = 0.5 * libm::atan2(2.0 * a[p][q], a[q][q] - a[p][p]);
        let (sin, cos) = (libm::sin(theta), libm::cos(theta));
        for k in 0..4 {
            let (x, y) = (a[k][p], a[k][q]);
            (a[k][p], a[k][q]) = (cos * x - sin * y, sin * x + cos * y);
        }
        for k in 0..4 {
            let (x, y) = (a[p][k], a[q][k]);
            (a[p][k], a[q][k]) = (cos * x - sin * y, sin * x + cos * y);
            let (x, y) = (v[k][p], v[k][q]);
            (v[k][p], v[k][q]) = (cos * x - sin * y, sin * x + cos * y);
        }
    }
    let best = (0..4).max_by(|i, j| a[*i][*i].total_cmp(&a[*j][*j])).unwrap_or(0);
    std::array::from_fn(|k| v[k][best])
}
