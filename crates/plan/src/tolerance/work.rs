//! Makings shared out over the cores. What a making comes to depends on its number
//! alone, and they are gathered in order.

use piece::parallel;
use piece::work::{Cancel, Cancelled};

/// The results of `work` for 0 to `count` - 1, in order.
///
/// # Errors
/// It was given up: no further making is begun.
pub fn map_each<T: Send>(
    count: usize,
    cancel: &Cancel,
    work: impl Fn(usize) -> T + Send + Sync,
) -> Result<Vec<T>, Cancelled> {
    let results = parallel::map_each(count, |i| cancel.check().map(|()| work(i)));
    results.into_iter().collect()
}
