//! Work shared out over the cores. What a share gives depends on its number alone, so
//! the result is the same for any number of threads.

/// Calls `work` with each chunk of `size` items and its number.
pub fn each_chunk<T: Send>(
    items: &mut [T],
    size: usize,
    work: impl Fn(usize, &mut [T]) + Send + Sync,
) {
    let size = size.max(1);
    #[cfg(feature = "parallel")]
    {
        use rayon::prelude::*;
        items
            .par_chunks_mut(size)
            .enumerate()
            .for_each(|(i, chunk)| work(i, chunk));
    }
    #[cfg(not(feature = "parallel"))]
    for (i, chunk) in items.chunks_mut(size).enumerate() {
        work(i, chunk);
    }
}

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
