//! Giving up work that nobody waits for any more.

use std::fmt;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// A cancellation token: whoever asked for a result says with it that the result is
/// wanted no more, and long work asks it in its loops. Clones are one token.
///
/// ```
/// use piece::work::{Cancel, Cancelled};
/// let cancel = Cancel::default();
/// let asked = cancel.clone();
/// assert_eq!(cancel.check(), Ok(()));
/// asked.cancel();
/// assert_eq!(cancel.check(), Err(Cancelled));
/// ```
#[derive(Debug, Clone, Default)]
pub struct Cancel(Arc<AtomicBool>);

impl Cancel {
    /// The result is wanted no more.
    pub fn cancel(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Is it wanted no more?
    pub fn is_cancelled(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }

    /// For `?` in a loop.
    ///
    /// # Errors
    /// The result is wanted no more.
    pub fn check(&self) -> Result<(), Cancelled> {
        if self.is_cancelled() {
            Err(Cancelled)
        } else {
            Ok(())
        }
    }
}

/// Work was given up, since nobody waited for its result.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cancelled;

impl fmt::Display for Cancelled {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("given up: nobody waits for the result")
    }
}

impl std::error::Error for Cancelled {}
