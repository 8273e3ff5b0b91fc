//! How far is it, and can I stop it? Long work in many pieces, on all cores.
//!
//! [`for_rows`] works through a slice, each element by itself, with feature `parallel` on all cores of the `rayon` pool it is
//! called from. A [`Progress`] shared with another thread tells how far it is and can stop it: what was
//! finished by then stays, the rest is left as it was. Nothing here is global; every call has its own handle. What comes out
//! does not depend on how the rows were shared out, as long as the work on one does not look at another.

use core::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// Rows that one core takes at a time, so that what it sets up serves more than one.
#[cfg(feature = "parallel")]
const LEAST_ROWS: usize = 4;

/// How far a long piece of work is, and the way to stop it.
///
/// ```
/// use mistcoat::progress::{Progress, for_rows};
/// let progress = Progress::new(1000);
/// let mut squares: Vec<f64> = (0..1000).map(f64::from).collect();
/// for_rows(&mut squares, &progress, || (), |(), _, x| *x *= *x);
/// assert_eq!((progress.done(), squares[9]), (1000, 81.0));
///
/// progress.cancel(); // by another thread, while it runs
/// for_rows(&mut squares, &progress, || (), |(), _, x| *x = 0.0);
/// assert_eq!(squares[9], 81.0);
/// ```
#[derive(Debug)]
pub struct Progress {
    total: usize,
    done: AtomicUsize,
    cancelled: AtomicBool,
}

impl Progress {
    /// For work of so many pieces; nothing done yet.
    pub const fn new(total: usize) -> Self {
        Self { total, done: AtomicUsize::new(0), cancelled: AtomicBool::new(false) }
    }

    /// Pieces in all.
    pub const fn total(&self) -> usize {
        self.total
    }

    /// Pieces finished so far.
    pub fn done(&self) -> usize {
        self.done.load(Ordering::Relaxed)
    }

    /// One piece more is finished.
    pub fn advance(&self) {
        self.done.fetch_add(1, Ordering::Relaxed);
    }

    /// Asks the work to stop: pieces under way are finished, no other is begun.
    pub fn cancel(&self) {
        self.cancelled.store(true, Ordering::Relaxed);
    }

    /// Whether it was asked to stop.
    pub fn is_cancelled(&self) -> bool {
        self.cancelled.load(Ordering::Relaxed)
    }
}

/// Works on every row by itself until done or stopped; `work` gets what `scratch` set up for this core, the index and the
/// row.
pub fn for_rows<T: Send, S>(
    rows: &mut [T],
    progress: &Progress,
    scratch: impl Fn() -> S + Sync + Send,
    work: impl Fn(&mut S, usize, &mut T) + Sync + Send,
) {
    let one = |scratch: &mut S, (index, row): (usize, &mut T)| {
        if !progress.is_cancelled() {
            work(scratch, index, row);
            progress.advance();
        }
    };
    #[cfg(feature = "parallel")]
    {
        use rayon::prelude::*;
        rows.par_iter_mut().enumerate().with_min_len(LEAST_ROWS).for_each_init(scratch, one);
    }
    #[cfg(not(feature = "parallel"))]
    {
        let mut scratch = scratch();
        rows.iter_mut().enumerate().for_each(|item| one(&mut scratch, item));
    }
}
