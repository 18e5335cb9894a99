//! Makings shared out over the cores. What a making comes to depends on its number
//! alone, and they are gathered in order.

/// The results of `work` for 0 to `count` - 1, in order.
pub fn map_each<T: Send>(count: usize, work: impl Fn(usize) -> T + Send + Sync) -> Vec<T> {
    #[cfg(feature = "parallel")]
    {
        use rayon::prelude::*;
        (0..count).into_par_iter().map(work).collect()
    }
    #[cfg(not(feature = "parallel"))]
    (0..count).map(work).collect()
}
