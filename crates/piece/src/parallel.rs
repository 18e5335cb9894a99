//! Work shared out over the cores. What a share gives depends on its number alone, so
//! the result is the same for any number of threads, and without any.

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

/// The first of `items`, in their order, that is `wanted`.
pub fn find_first<T: Sync>(items: &[T], wanted: impl Fn(&T) -> bool + Send + Sync) -> Option<&T> {
    #[cfg(feature = "parallel")]
    {
        use rayon::prelude::*;
        items.par_iter().find_first(|item| wanted(item))
    }
    #[cfg(not(feature = "parallel"))]
    items.iter().find(|item| wanted(item))
}

/// What two pieces of work give.
pub fn both<A: Send, B: Send>(
    a: impl FnOnce() -> A + Send,
    b: impl FnOnce() -> B + Send,
) -> (A, B) {
    #[cfg(feature = "parallel")]
    return rayon::join(a, b);
    #[cfg(not(feature = "parallel"))]
    (a(), b())
}
