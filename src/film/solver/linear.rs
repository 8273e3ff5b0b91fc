//! Small dense matrices: LU factors with partial pivoting, in place, no allocation after construction.
//!
//! Stored by columns, so that every inner loop adds a multiple of one run of numbers to another.

/// A square matrix by columns.
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
}

impl core::ops::Index<(usize, usize)> for Matrix {
    type Output = f64;
    fn index(&self, (i, j): (usize, usize)) -> &f64 {
        &self.data[j * self.n + i]
    }
}

impl core::ops::IndexMut<(usize, usize)> for Matrix {
    fn index_mut(&mut self, (i, j): (usize, usize)) -> &mut f64 {
        &mut self.data[j * self.n + i]
    }
}

/// LU factors of `shift·I − A`.
#[derive(Debug, Clone)]
pub(crate) struct Factors {
    lu: Matrix,
    pivots: Vec<usize>,
    /// Reciprocals of the diagonal.
    per_diagonal: Vec<f64>,
}

impl Factors {
    pub(crate) fn new(n: usize) -> Self {
        Self { lu: Matrix::zeros(n), pivots: vec![0; n], per_diagonal: vec![0.0; n] }
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
            let (left, right) = self.lu.data.split_at_mut((k + 1) * n);
            let column = &mut left[k * n..];
            let mut pivot = k;
            for i in k + 1..n {
                if column[i].abs() > column[pivot].abs() {
                    pivot = i;
                }
            }
            self.pivots[k] = pivot;
            let diagonal = column[pivot];
            if diagonal == 0.0 || !diagonal.is_finite() {
                return false;
            }
            let per_diagonal = 1.0 / diagonal;
            self.per_diagonal[k] = per_diagonal;
            column.swap(k, pivot);
            for entry in &mut column[k + 1..] {
                *entry *= per_diagonal;
            }
            for other in right.chunks_exact_mut(n) {
                other.swap(k, pivot);
                let factor = other[k];
                if factor != 0.0 {
                    add_multiple(&mut other[k + 1..], -factor, &column[k + 1..]);
                }
            }
            for other in left[..k * n].chunks_exact_mut(n) {
                other.swap(k, pivot);
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
        for (k, column) in self.lu.data.chunks_exact(n).enumerate() {
            let (done, rest) = b.split_at_mut(k + 1);
            add_multiple(rest, -done[k], &column[k + 1..]);
        }
        for (k, column) in self.lu.data.chunks_exact(n).enumerate().rev() {
            let (rest, done) = b.split_at_mut(k);
            done[0] *= self.per_diagonal[k];
            add_multiple(rest, -done[0], &column[..k]);
        }
    }
}

fn add_multiple(to: &mut [f64], factor: f64, from: &[f64]) {
    for (to, from) in to.iter_mut().zip(from) {
        *to += factor * from;
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
            a.data.copy_from_slice(&entries); // any order of entries will do
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
        assert!(x.iter().all(|x| (x - 1.0).abs() < 1e-15), "{x:?}");
        assert!(!f.factor_shifted(0.0, &Matrix::zeros(2)));
    }
}
