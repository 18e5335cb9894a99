//! Where work is done: quick answers, pictures and papers in pools of their own.
//!
//! ```text
//!   a request ─► waits for a place in its pool ─► the job, off the answering threads
//!      │ given up: the wait ends, nothing begins     │ holds its place until it really ends
//!      └───────────── given up: its token says so ───┘ and asks the token in its loops
//! ```
//!
//! A place belongs to the job and not to the request: a browser that asks, gives up and
//! asks again cannot have more work done at once than one that waits.

use std::sync::Arc;

use axum::response::Response;
use piece::work::Cancel;
use rayon::ThreadPool;
use tokio::sync::Semaphore;

use super::answer::broken;

/// Quick answers at once: they wait for the disk and for each other more than they work.
const QUICK: usize = 32;
/// Pictures at once: each of them is painted on every core.
const PICTURES: usize = 2;
/// Papers at once: setting one takes all cores and a hundred megabytes.
const PAPERS: usize = 1;

/// The pools of a server.
pub struct Jobs {
    /// Views, edits, the shelf: what a person waits for at every step.
    pub quick: Pool,
    /// Pictures and drawings.
    pub pictures: Pool,
    /// The printed plan, archives, the tolerance study.
    pub papers: Pool,
}

/// So many jobs at once, with threads of their own for work that is spread over the cores.
pub struct Pool {
    places: Arc<Semaphore>,
    threads: Option<Arc<ThreadPool>>,
}

/// What a job is given.
pub struct Job {
    /// Set when nobody waits for the result any more.
    pub cancel: Cancel,
    threads: Option<Arc<ThreadPool>>,
}

impl Jobs {
    /// Pools for this machine.
    ///
    /// # Errors
    /// The system gives no threads.
    pub fn new() -> Result<Jobs, String> {
        let heavy = |name: &'static str, places| {
            let threads = rayon::ThreadPoolBuilder::new()
                .thread_name(move |i| format!("{name} {i}"))
                .build()
                .map_err(|e| format!("no threads: {e}"))?;
            Ok::<Pool, String>(Pool {
                places: Arc::new(Semaphore::new(places)),
                threads: Some(Arc::new(threads)),
            })
        };
        Ok(Jobs {
            quick: Pool {
                places: Arc::new(Semaphore::new(QUICK)),
                threads: None,
            },
            pictures: heavy("pictures", PICTURES)?,
            papers: heavy("papers", PAPERS)?,
        })
    }
}

impl Pool {
    /// Does a job when there is a place for it; one whose asker is gone by then never
    /// begins. A panic in it ends this call alone.
    pub async fn run<T: Send + 'static>(
        &self,
        job: impl FnOnce(&Job) -> T + Send + 'static,
    ) -> Result<T, Box<Response>> {
        let place = self
            .places
            .clone()
            .acquire_owned()
            .await
            .map_err(|_| Box::new(broken()))?;
        let given = Job {
            cancel: Cancel::default(),
            threads: self.threads.clone(),
        };
        let _asker = Asker(given.cancel.clone());
        tokio::task::spawn_blocking(move || {
            let _place = place;
            job(&given)
        })
        .await
        .map_err(|_| Box::new(broken()))
    }
}

impl Job {
    /// Does work that spreads over the cores on the threads of this job's pool, so that
    /// quick answers never wait behind it.
    ///
    /// Nothing in it may wait for what another job works out: while a thread waits for
    /// its share, it may take up another job's.
    pub fn spread<T: Send>(&self, work: impl FnOnce() -> T + Send) -> T {
        match &self.threads {
            Some(threads) => threads.install(work),
            None => work(),
        }
    }
}

/// Whoever waits for a result: dropped with the request when the browser gives it up.
struct Asker(Cancel);

impl Drop for Asker {
    fn drop(&mut self) {
        self.0.cancel();
    }
}
