//! Symmetric positive matrices, as their lower triangular roots.

/// The root L of a matrix, L Lᵀ, by rows.
#[derive(Clone, Debug)]
pub(crate) struct Root {
    rows: Vec<Vec<f64>>,
}

impl Root {
    /// Takes the root; `None` where the matrix is not positive.
    pub(crate) fn of(matrix: &[Vec<f64>]) -> Option<Root> {
        let n = matrix.len();
        let mut rows: Vec<Vec<f64>> = Vec::with_capacity(n);
        for (i, given) in matrix.iter().enumerate() {
            let mut row = Vec::with_capacity(i + 1);
            for j in 0..i {
                let above: &Vec<f64> = &rows[j];
                let dot: f64 = above[..j].iter().zip(&row).map(|(a, b): (&f64, &f64)| a * b).sum();
                row.push((given[j] - dot) / above[j]);
            }
            let square = given[i] - row.iter().map(|v| v * v).sum::<f64>();
            if square.is_nan() || square <= 1e-14 {
                return None;
            }
            row.push(libm::sqrt(square));
            rows.push(row);
        }
        Some(Root { rows })
    }

    /// Solves L z = b.
    pub(crate) fn half_solve(&self, b: &[f64]) -> Vec<f64> {
        let mut z: Vec<f64> = Vec::with_capacity(b.len());
        for (row, b) in self.rows.iter().zip(b) {
            let dot: f64 = row.iter().zip(&z).map(|(a, b)| a * b).sum();
            z.push((b - dot) / row[row.len() - 1]);
        }
        z
    }

    /// Solves L Lᵀ x = b.
    pub(crate) fn solve(&self, b: &[f64]) -> Vec<f64> {
        let mut x = self.half_solve(b);
        for i in (0..x.len()).rev() {
            x[i] /= self.rows[i][i];
            for j in 0..i {
                x[j] -= self.rows[i][j] * x[i];
            }
        }
        x
    }

    /// Returns the logarithm of the determinant of L Lᵀ.
    pub(crate) fn log_determinant(&self) -> f64 {
        2.0 * self.rows.iter().enumerate().map(|(i, r)| libm::log(r[i])).sum::<f64>()
    }
}
