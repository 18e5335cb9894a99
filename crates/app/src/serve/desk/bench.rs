//! Every open project, the workshop and the folder.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::{Desk, Shop};
use crate::serve::store::{Folder, Trouble};

/// Projects that are kept open at once; the one opened longest ago is put away.
const MOST: usize = 64;

/// The bench.
pub struct Bench {
    /// The folder.
    pub folder: Folder,
    desks: Mutex<BTreeMap<String, Open>>,
    shop: Mutex<(Arc<Shop>, Option<Stamp>)>,
    newest: Mutex<BTreeMap<String, u32>>,
    count: std::sync::atomic::AtomicU64,
    /// Held while projects are made, moved or deleted.
    pub shelf: Mutex<()>,
}

/// An open project, and when it was last asked for, in calls.
type Open = (u64, Arc<Mutex<Desk>>);

type Stamp = (u64, std::time::SystemTime);

/// A lock that is had even if its last holder ended in a panic: what is behind it is
/// always put in place whole.
pub fn hold<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Bench {
    /// A bench at a folder.
    pub fn new(folder: Folder) -> Bench {
        let stamp = folder.stamp(&folder.workshop());
        let shop = Arc::new(Shop::read(&folder));
        Bench {
            folder,
            desks: Mutex::default(),
            shop: Mutex::new((shop, stamp)),
            newest: Mutex::default(),
            count: Default::default(),
            shelf: Mutex::new(()),
        }
    }

    /// The workshop.
    pub fn shop(&self) -> Arc<Shop> {
        hold(&self.shop).0.clone()
    }

    /// An open project; it is opened if it is not.
    pub fn desk(&self, name: &str) -> Result<Arc<Mutex<Desk>>, Trouble> {
        let shop = self.shop();
        let mut desks = hold(&self.desks);
        let age = self
            .count
            .fetch_add(1, std::sync::atomic::Ordering::Relaxed);
        if let Some((used, desk)) = desks.get_mut(name) {
            *used = age;
            return Ok(desk.clone());
        }
        let desk = Arc::new(Mutex::new(Desk::open(&self.folder, name, &shop)?));
        if desks.len() >= MOST
            && let Some(oldest) = desks
                .iter()
                .min_by_key(|(_, (used, _))| *used)
                .map(|(n, _)| n.clone())
        {
            desks.remove(&oldest);
        }
        desks.insert(name.into(), (age, desk.clone()));
        Ok(desk)
    }

    /// Does something with a project's file that takes its name from it, while nobody
    /// else does anything with the project.
    pub fn take_name<T>(
        &self,
        name: &str,
        act: impl FnOnce(&Folder) -> Result<T, Trouble>,
    ) -> Result<T, Trouble> {
        let desk = self.desk(name)?;
        let mut desk = hold(&desk);
        let done = act(&self.folder)?;
        desk.close();
        hold(&self.desks).remove(name);
        Ok(done)
    }

    /// Puts a project away whose name now means another file.
    pub fn put_away(&self, name: &str) {
        let desk = hold(&self.desks).remove(name);
        if let Some((_, desk)) = desk {
            hold(&desk).close();
        }
    }

    fn open(&self) -> Vec<Arc<Mutex<Desk>>> {
        hold(&self.desks)
            .values()
            .map(|(_, desk)| desk.clone())
            .collect()
    }

    /// Notes a page's question; is it the newest of that page?
    pub fn is_newest(&self, client: &str, seq: u32) -> bool {
        let mut newest = hold(&self.newest);
        if newest.len() > 256 {
            newest.clear();
        }
        let known = newest
            .entry(client.chars().take(64).collect())
            .or_insert(seq);
        *known = seq.max(*known);
        *known == seq
    }

    /// Looks after every file that may have changed on disk.
    pub fn look_around(&self) {
        let stamp = self.folder.stamp(&self.folder.workshop());
        if hold(&self.shop).1 != stamp {
            self.set_shop(Shop::read(&self.folder));
        }
        let shop = self.shop();
        for desk in self.open() {
            let mut desk = hold(&desk);
            if desk.may_have_changed(&self.folder) {
                // A file that cannot be read now is looked at again next time.
                let _ = desk.catch_up(&self.folder, &shop);
            }
        }
    }

    /// A changed workshop, for every open piece.
    pub fn set_shop(&self, shop: Shop) {
        let shop = Arc::new(shop);
        let stamp = self.folder.stamp(&self.folder.workshop());
        let changed = {
            let mut held = hold(&self.shop);
            let changed = held.0.version != shop.version;
            *held = (shop.clone(), stamp);
            changed
        };
        if changed {
            for desk in self.open() {
                hold(&desk).move_to(&self.folder, &shop);
            }
        }
    }
}
