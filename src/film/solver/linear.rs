//! Linear algebra of a few unknowns that all act on each other (the core) and a chain of unknowns that hang on
//! the last of them, each acting on its two neighbours only: heat in the layers under a film.
//!
//! The chain is eliminated from its end, which costs a division a link and leaves a small dense matrix: LU
//! factors with partial pivoting, in place, no allocation after construction. Dense matrices are stored by
//! columns, so that every inner loop adds a multiple of one run of numbers to another.

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

    pub(crate) fn column(&self, j: usize) -> &[f64] {
        &self.data[j * self.n..(j + 1) * self.n]
    }

    pub(crate) fn column_mut(&mut self, j: usize) -> &mut [f64] {
        &mut self.data[j * self.n..(j + 1) * self.n]
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

/// One link of a chain: what the rate of a node takes from the node above it (the core for the first), from
/// itself, and from the node below it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Link {
    pub(crate) above: f64,
    pub(crate) here: f64,
    pub(crate) below: f64,
}

/// A Jacobian: core, chain, and what the last rate of the core takes from the first node.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Jacobian {
    pub(crate) core: Matrix,
    pub(crate) chain: Vec<Link>,
    pub(crate) core_from_chain: f64,
}

impl Jacobian {
    pub(crate) fn zeros(core: usize, chain: usize) -> Self {
        Self { core: Matrix::zeros(core), chain: vec![Link::default(); chain], core_from_chain: 0.0 }
    }
}

/// Factors of `shift·I − A`.
///
/// The chain needs no pivoting: its rows are dominated by their diagonal for a positive shift and nodes that
/// only exchange.
#[derive(Debug, Clone)]
pub(crate) struct Factors {
    core: Dense,
    /// With the signs of `shift·I − A`, divided by the pivot; `here` holds its reciprocal.
    chain: Vec<Link>,
    core_from_chain: f64,
}

impl Factors {
    pub(crate) fn new(core: usize, chain: usize) -> Self {
        Self { core: Dense::new(core), chain: vec![Link::default(); chain], core_from_chain: 0.0 }
    }

    /// Factors `shift·I − a`; false when it is singular to working precision.
    pub(crate) fn factor_shifted(&mut self, shift: f64, a: &Jacobian) -> bool {
        self.core_from_chain = -a.core_from_chain;
        // What eliminating the node below takes off the diagonal.
        let mut taken = 0.0;
        for (i, link) in a.chain.iter().enumerate().rev() {
            let here = 1.0 / (shift - link.here - taken);
            let to = Link { above: -link.above * here, here, below: -link.below * here };
            self.chain[i] = to;
            let from_above = if i > 0 { -a.chain[i - 1].below } else { self.core_from_chain };
            taken = from_above * to.above;
        }
        self.core.factor_shifted(shift, &a.core, taken)
    }

    /// Solves in place.
    pub(crate) fn solve(&self, b: &mut [f64]) {
        let (core, nodes) = b.split_at_mut(self.core.lu.n);
        let mut below = 0.0;
        for (node, link) in nodes.iter_mut().zip(&self.chain).rev() {
            *node = *node * link.here - link.below * below;
            below = *node;
        }
        if let Some(last) = core.last_mut() {
            *last -= self.core_from_chain * below;
        }
        self.core.solve(core);
        let mut above = core.last().copied().unwrap_or(0.0);
        for (node, link) in nodes.iter_mut().zip(&self.chain) {
            *node -= link.above * above;
            above = *node;
        }
    }
}

/// Calls with the size as a constant for a film of up to seven species, which unrolls its loops.
macro_rules! of_fixed_size {
    ($n:expr, $call:ident($($argument:expr),*)) => {
        match $n {
            3 => $call(3, $($argument),*),
            4 => $call(4, $($argument),*),
            5 => $call(5, $($argument),*),
            6 => $call(6, $($argument),*),
            7 => $call(7, $($argument),*),
            8 => $call(8, $($argument),*),
            n => $call(n, $($argument),*),
        }
    };
}
/// LU factors of `shift·I − A`, dense.
#[derive(Debug, Clone)]
struct Dense {
    lu: Matrix,
    pivots: Vec<usize>,
    /// Reciprocals of the diagonal.
    per_diagonal: Vec<f64>,
}

impl Dense {
    fn new(n: usize) -> Self {
        Self { lu: Matrix::zeros(n), pivots: vec![0; n], per_diagonal: vec![0.0; n] }
    }

    /// Factors `shift·I − a` with `taken` off its last diagonal entry.
    fn factor_shifted(&mut self, shift: f64, a: &Matrix, taken: f64) -> bool {
        let n = a.n;
        for (to, from) in self.lu.data.iter_mut().zip(&a.data) {
            *to = -from;
        }
        for i in 0..n {
            self.lu[(i, i)] += shift;
        }
        if let Some(last) = self.lu.data.last_mut() {
            *last -= taken;
        }
        let Self { lu, pivots, per_diagonal } = self;
        of_fixed_size!(n, factor(&mut lu.data, pivots, per_diagonal))
    }

    fn solve(&self, b: &mut [f64]) {
        for (k, pivot) in self.pivots.iter().enumerate() {
            b.swap(k, *pivot);
        }
        of_fixed_size!(self.lu.n, solve(&self.lu.data, &self.per_diagonal, b));
    }
}

/// Factors in place, with pivots; false when singular.
#[allow(clippy::inline_always, reason = "a copy for each constant size")]
#[inline(always)]
fn factor(n: usize, lu: &mut [f64], pivots: &mut [usize], per_diagonal: &mut [f64]) -> bool {
    for k in 0..n {
        let (left, right) = lu[..n * n].split_at_mut((k + 1) * n);
        let column = &mut left[k * n..][..n];
        let mut pivot = k;
        for i in k + 1..n {
            if column[i].abs() > column[pivot].abs() {
                pivot = i;
            }
        }
        pivots[k] = pivot;
        let diagonal = column[pivot];
        if diagonal == 0.0 || !diagonal.is_finite() {
            return false;
        }
        per_diagonal[k] = 1.0 / diagonal;
        column.swap(k, pivot);
        for entry in &mut column[k + 1..] {
            *entry *= per_diagonal[k];
        }
        for other in right.chunks_exact_mut(n) {
            other.swap(k, pivot);
            let factor = other[k];
            add_multiple(&mut other[k + 1..], -factor, &column[k + 1..]);
        }
        for other in left[..k * n].chunks_exact_mut(n) {
            other.swap(k, pivot);
        }
    }
    true
}

/// Solves for a right-hand side whose rows are swapped already.
#[allow(clippy::inline_always, reason = "a copy for each constant size")]
#[inline(always)]
fn solve(n: usize, lu: &[f64], per_diagonal: &[f64], b: &mut [f64]) {
    let (lu, b) = (&lu[..n * n], &mut b[..n]);
    for k in 0..n {
        let (done, rest) = b.split_at_mut(k + 1);
        add_multiple(rest, -done[k], &lu[k * n..][k + 1..n]);
    }
    for k in (0..n).rev() {
        let (rest, done) = b.split_at_mut(k);
        done[0] *= per_diagonal[k];
        add_multiple(rest, -done[0], &lu[k * n..][..k]);
    }
}

#[allow(clippy::inline_always, reason = "within loops of a constant size")]
#[inline(always)]
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
            // Core of 6, and core of 3 with a chain of 3.
            for core in [6, 3] {
                let mut a = Matrix::zeros(6);
                a.data.copy_from_slice(&entries); // any order of entries will do
                let mut j = Jacobian::zeros(core, 6 - core);
                for (i, k) in (0..6_usize).flat_map(|i| (0..6_usize).map(move |k| (i, k))) {
                    let apart = i.abs_diff(k);
                    match (i < core, k < core) {
                        (true, true) => j.core[(i, k)] = a[(i, k)],
                        (true, false) if i + 1 == core && k == core => j.core_from_chain = a[(i, k)],
                        (false, _) if apart <= 1 && k < i => j.chain[i - core].above = a[(i, k)],
                        (false, false) if apart == 0 => j.chain[i - core].here = a[(i, k)],
                        (false, false) if apart == 1 => j.chain[i - core].below = a[(i, k)],
                        _ => a[(i, k)] = 0.0,
                    }
                }
                let mut f = Factors::new(core, 6 - core);
                // Shift 7 makes the matrix diagonally dominant, hence well conditioned.
                proptest::prop_assert!(f.factor_shifted(7.0, &j));
                let mut x = b.clone();
                f.solve(&mut x);
                for i in 0..6 {
                    let back: f64 = 7.0 * x[i] - (0..6).map(|j| a[(i, j)] * x[j]).sum::<f64>();
                    proptest::prop_assert!((back - b[i]).abs() < 1e-13);
                }
            }
        }
    }

    #[test]
    fn pivots_when_the_diagonal_is_zero() {
        let mut a = Jacobian::zeros(2, 0);
        a.core[(0, 1)] = -2.0;
        a.core[(1, 0)] = -4.0;
        let mut f = Factors::new(2, 0);
        assert!(f.factor_shifted(0.0, &a));
        let mut x = [2.0, 4.0];
        f.solve(&mut x);
        assert!(x.iter().all(|x| (x - 1.0).abs() < 1e-15), "{x:?}");
        assert!(!f.factor_shifted(0.0, &Jacobian::zeros(2, 0)));
    }
}
