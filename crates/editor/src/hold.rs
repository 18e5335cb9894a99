//! A lock that a panic does not close for good.

use std::sync::{Mutex, MutexGuard, PoisonError};

/// A lock that is had even if its last holder ended in a panic: what is behind it is
/// always put in place whole.
pub fn hold<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
