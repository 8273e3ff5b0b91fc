//! Small dense matrices: LU factors with partial pivoting, in place, no allocation after construction.

/// A square matrix by rows.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Matrix {
    n: usize,
    data: Vec<f64>,
}

impl Matrix {
    pub(crate) fn zeros(n: usize) -> Self {
        Self { n, data: vec![0.0; n * n] }
    }

    pub(crate) fn fill(&mut self, value: f64) {
        self.data.fill(value);
    }

    pub(crate) fn row(&self, i: usize) -> &[f64] {
        &self.data[i * self.n..(i + 1) * self.n]
    }
}

impl core::ops::Index<(usize, usize)> for Matrix {
    type Output = f64;
    fn index(&self, (i, j): (usize, usize)) -> &f64 {
        &self.data[i * self.n + j]
    }
}

impl core::ops::IndexMut<(usize, usize)> for Matrix {
    fn index_mut(&mut self, (i, j): (usize, usize)) -> &mut f64 {
        &mut self.data[i * self.n + j]
    }
}

/// LU factors of `shift·I − A`.
#[derive(Debug, Clone)]
pub(crate) struct Factors {
    lu: Matrix,
    pivots: Vec<usize>,
}

impl Factors {
    pub(crate) fn new(n: usize) -> Self {
        Self { lu: Matrix::zeros(n), pivots: vec![0; n] }
    }

    /// Factors `shift·I − a`; false when it is singular to working precision.
    pub(crate) fn factor_shifted(&mut self, shift: f64, a: &Matrix) -> bool {
        let n = a.n;
        for (to, from) in self.lu.data.iter_mut().zip(&a.data) {
            *to = -from;
        }
        for i in 0..n {
            self.lu[(i, i)] += shift;
        }
        for k in 0..n {
            let mut pivot = k;
            for i in k + 1..n {
                if self.lu[(i, k)].abs() > self.lu[(pivot, k)].abs() {
                    pivot = i;
                }
            }
            self.pivots[k] = pivot;
            let diagonal = self.lu[(pivot, k)];
            if diagonal == 0.0 || !diagonal.is_finite() {
                return false;
            }
            if pivot != k {
                for j in 0..n {
                    self.lu.data.swap(k * n + j, pivot * n + j);
                }
            }
            let (upper, lower) = self.lu.data.split_at_mut((k + 1) * n);
            let pivot_row = &upper[k * n..];
            for row in lower.chunks_exact_mut(n) {
                if row[k] == 0.0 {
                    continue; // the heat nodes are tridiagonal: most rows need nothing
                }
                let factor = row[k] / diagonal;
                row[k] = factor;
                for (to, from) in row[k + 1..].iter_mut().zip(&pivot_row[k + 1..]) {
                    *to -= factor * from;
                }
            }
        }
        true
    }

    /// Solves in place.
    pub(crate) fn solve(&self, b: &mut [f64]) {
        let n = b.len();
        for k in 0..n {
            b.swap(k, self.pivots[k]);
        }
        for i in 1..n {
            let (done, rest) = b.split_at_mut(i);
            let sum: f64 = self.lu.row(i)[..i].iter().zip(done.iter()).map(|(l, x)| l * x).sum();
            rest[0] -= sum;
        }
        for i in (0..n).rev() {
            let (head, done) = b.split_at_mut(i + 1);
            let row = self.lu.row(i);
            let sum: f64 = row[i + 1..].iter().zip(done.iter()).map(|(u, x)| u * x).sum();
            head[i] = (head[i] - sum) / row[i];
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    proptest::proptest! {
        // What is solved, multiplied back, is the right-hand side.
        #[test]
        fn solves(entries in proptest::collection::vec(-1.0_f64..1.0, 36), b in proptest::collection::vec(-1.0_f64..1.0, 6)) {
            let mut a = Matrix::zeros(6);
            a.data.copy_from_slice(&entries);
            let mut f = Factors::new(6);
            // Shift 7 makes the matrix diagonally dominant, hence well conditioned.
            proptest::prop_assert!(f.factor_shifted(7.0, &a));
            let mut x = b.clone();
            f.solve(&mut x);
            for i in 0..6 {
                let back: f64 = 7.0 * x[i] - (0..6).map(|j| a[(i, j)] * x[j]).sum::<f64>();
                proptest::prop_assert!((back - b[i]).abs() < 1e-13);
            }
        }
    }

    #[test]
    fn pivots_when_the_diagonal_is_zero() {
        let mut a = Matrix::zeros(2);
        a[(0, 1)] = -2.0;
        a[(1, 0)] = -4.0;
        let mut f = Factors::new(2);
        assert!(f.factor_shifted(0.0, &a));
        let mut x = [2.0, 4.0];
        f.solve(&mut x);
        assert_eq!(x, [1.0, 1.0]);
        assert!(!f.factor_shifted(0.0, &Matrix::zeros(2)));
    }
}
