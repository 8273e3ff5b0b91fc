//! Long work on other threads while the main thread tells how far it is and listens for Ctrl-C.

use mistcoat::progress::Progress;
use pyo3::prelude::*;
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

/// How often signals are looked for.
const LISTEN: Duration = Duration::from_millis(50);
/// So many looks between two reports of progress.
const LOOKS_PER_REPORT: u32 = 4;

/// Does `work` without the interpreter lock. Meanwhile `report(done, total)` is called about five times a second, and once at
/// the end of work that was not stopped. An exception, from Ctrl-C or from `report`, stops the work at the next piece and
/// comes back beside what was finished.
pub fn watched<R: Send>(
    py: Python<'_>,
    progress: &Progress,
    report: Option<&Bound<'_, PyAny>>,
    work: impl FnOnce() -> R + Send,
) -> (R, Option<PyErr>) {
    let report = report.map(|r| r.clone().unbind());
    let tell = |py: Python<'_>| match &report {
        Some(report) => report.call1(py, (progress.done(), progress.total())).map(|_| ()),
        None => Ok(()),
    };
    py.detach(|| {
        thread::scope(|scope| {
            let (finished, listen) = channel::<()>();
            let worker = scope.spawn(move || {
                let _finished = finished; // dropped at the end, whatever the end is
                work()
            });
            let mut stopped = None;
            let mut looks = 0;
            while listen.recv_timeout(LISTEN) == Err(RecvTimeoutError::Timeout) {
                looks += 1;
                let heard = Python::attach(|py| {
                    py.check_signals()?;
                    if looks % LOOKS_PER_REPORT == 0 { tell(py) } else { Ok(()) }
                });
                if let Err(error) = heard
                    && stopped.is_none()
                {
                    progress.cancel();
                    stopped = Some(error);
                }
            }
            let result = match worker.join() {
                Ok(result) => result,
                Err(panic) => std::panic::resume_unwind(panic),
            };
            if stopped.is_none() {
                stopped = Python::attach(tell).err();
            }
            (result, stopped)
        })
    })
}
