//! Small dense systems of equations.

/// Solves A x = b for one right-hand side by elimination with row pivoting; none when A is singular.
pub(crate) fn solve(a: Vec<Vec<f64>>, b: Vec<f64>) -> Option<Vec<f64>> {
    let columns = solve_many(a, b.into_iter().map(|v| vec![v]).collect())?;
    Some(columns.into_iter().map(|row| row[0]).collect())
}

/// Solves A X = B, B given by rows; none when A is singular.
pub(crate) fn solve_many(mut a: Vec<Vec<f64>>, mut b: Vec<Vec<f64>>) -> Option<Vec<Vec<f64>>> {
    let n = a.len();
    let scale = a.iter().flatten().fold(0.0f64, |m, v| m.max(v.abs()));
    for k in 0..n {
        let pivot = (k..n).max_by(|i, j| a[*i][k].abs().total_cmp(&a[*j][k].abs()))?;
        if a[pivot][k].abs() <= 1e-14 * scale || !a[pivot][k].is_finite() {
            return None;
        }
        a.swap(k, pivot);
        b.swap(k, pivot);
        let (top_a, rest_a) = a.split_at_mut(k + 1);
        let (top_b, rest_b) = b.split_at_mut(k + 1);
        let (pivot_a, pivot_b) = (&top_a[k], &top_b[k]);
        for (row_a, row_b) in rest_a.iter_mut().zip(rest_b) {
            // Spline matrices are banded: most rows have nothing to eliminate.
            if row_a[k] == 0.0 {
                continue;
            }
            let factor = row_a[k] / pivot_a[k];
            for (r, p) in row_a.iter_mut().zip(pivot_a).skip(k) {
                *r -= factor * p;
            }
            for (r, p) in row_b.iter_mut().zip(pivot_b) {
                *r -= factor * p;
            }
        }
    }
    for k in (0..n).rev() {
        let (done, below) = b.split_at_mut(k + 1);
        let row = &mut done[k];
        for (j, solved) in below.iter().enumerate() {
            let factor = a[k][k + 1 + j];
            if factor != 0.0 {
                for (r, s) in row.iter_mut().zip(solved) {
                    *r -= factor * s;
                }
            }
        }
        for r in row.iter_mut() {
            *r /= a[k][k];
        }
    }
    Some(b)
}

/// Inverts a small square matrix; none when it is singular.
pub(crate) fn invert(a: Vec<Vec<f64>>) -> Option<Vec<Vec<f64>>> {
    let n = a.len();
    let unit = (0..n).map(|i| (0..n).map(|j| f64::from(u8::from(i == j))).collect()).collect();
    solve_many(a, unit)
}
