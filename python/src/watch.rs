//! Long work on other threads while the main thread tells how far it is and listens for Ctrl-C.

use mistcoat::progress::Progress;
use pyo3::{prelude::*, types::PyBool};
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

/// How progress is told: by a function of the caller, by a line of our own, or not at all.
pub struct Report<'py> {
    function: Option<Bound<'py, PyAny>>,
    line: bool,
}

impl<'py> Report<'py> {
    /// From the argument `progress`: True, False, None or a function; `what` begins the line.
    pub fn new(py: Python<'py>, progress: Option<Bound<'py, PyAny>>, what: &str) -> PyResult<Self> {
        match progress {
            Some(given) if given.is_instance_of::<PyBool>() => {
                if !given.is_truthy()? {
                    return Ok(Self { function: None, line: false });
                }
                let line = py.import("mistcoat._progress")?.getattr("Line")?.call1((what,))?;
                Ok(Self { function: Some(line), line: true })
            }
            function => Ok(Self { function, line: false }),
        }
    }

    /// What is called with (done, total).
    pub fn function(&self) -> Option<&Bound<'py, PyAny>> {
        self.function.as_ref()
    }

    /// Ends the line, when it is ours.
    pub fn close(&self) -> PyResult<()> {
        match &self.function {
            Some(line) if self.line => line.call_method0("close").map(|_| ()),
            _ => Ok(()),
        }
    }
}
