//! Every open project, the workshop and their store.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex};

use super::{OpenProject, Shop};
use crate::hold::hold;
use crate::store::{Stamp, Store, StoreError, Stored};

/// Projects that are kept open at once; the one opened longest ago is put away.
const MOST: usize = 64;

/// Every open project.
pub struct OpenProjects {
    /// Where they are kept.
    pub store: Box<dyn Store>,
    open: Mutex<BTreeMap<String, Kept>>,
    shop: Mutex<(Arc<Shop>, Option<Stamp>)>,
    newest: Mutex<BTreeMap<String, u32>>,
    count: std::sync::atomic::AtomicU64,
    /// Held while projects are made, moved or deleted.
    pub shelf: Mutex<()>,
}

/// A project's place among the open ones, and when it was last asked for, in calls.
struct Kept {
    used: u64,
    place: Arc<Mutex<Place>>,
}

/// What stands at a project's place. Whoever opens the project holds this place and no
/// other, so that opening one keeps nobody from the rest.
enum Place {
    /// Nothing yet: whoever comes first opens it.
    Free,
    /// The project.
    Taken(Arc<Mutex<OpenProject>>),
    /// The place was taken away: a new one has to be asked for.
    Gone,
}

impl OpenProjects {
    /// The open projects of a store.
    pub fn new(store: impl Store + 'static) -> OpenProjects {
        let stamp = store.stamp(Stored::Workshop);
        let shop = Arc::new(Shop::read(&store));
        OpenProjects {
            store: Box::new(store),
            open: Mutex::default(),
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
    pub fn project(&self, name: &str) -> Result<Arc<Mutex<OpenProject>>, StoreError> {
        loop {
            let place = self.place(name);
            let mut held = hold(&place);
            match &*held {
                Place::Taken(project) => return Ok(project.clone()),
                Place::Gone => {}
                Place::Free => match self.opened(name) {
                    Ok(project) => {
                        *held = Place::Taken(project.clone());
                        return Ok(project);
                    }
                    Err(trouble) => {
                        *held = Place::Gone;
                        self.give_up(name, &place);
                        return Err(trouble);
                    }
                },
            }
        }
    }

    /// A project's place; a free one if it has none.
    fn place(&self, name: &str) -> Arc<Mutex<Place>> {
        let mut open = hold(&self.open);
        let used = self
            .count
            .fetch_add(1, std::sync::atomic::Ordering::Relaxed);
        if let Some(kept) = open.get_mut(name) {
            kept.used = used;
            return kept.place.clone();
        }
        if open.len() >= MOST
            && let Some(oldest) = open
                .iter()
                .min_by_key(|(_, kept)| kept.used)
                .map(|(n, _)| n.clone())
        {
            open.remove(&oldest);
        }
        let place = Arc::new(Mutex::new(Place::Free));
        let kept = Kept {
            used,
            place: place.clone(),
        };
        open.insert(name.into(), kept);
        place
    }

    /// A project with the workshop as it is when it stands open.
    fn opened(&self, name: &str) -> Result<Arc<Mutex<OpenProject>>, StoreError> {
        let mut shop = self.shop();
        let mut project = OpenProject::open(&*self.store, name, &shop)?;
        // Another workshop may have been saved meanwhile. One that is saved from here on
        // waits at this place.
        while shop.version != self.shop().version {
            shop = self.shop();
            project.move_to(&*self.store, &shop);
        }
        Ok(Arc::new(Mutex::new(project)))
    }

    /// Takes a place away, if it is still the project's.
    fn give_up(&self, name: &str, place: &Arc<Mutex<Place>>) {
        let mut open = hold(&self.open);
        if open
            .get(name)
            .is_some_and(|kept| Arc::ptr_eq(&kept.place, place))
        {
            open.remove(name);
        }
    }

    /// Does something with a project's file that takes its name from it, while nobody
    /// else does anything with the project.
    pub fn take_name<T>(
        &self,
        name: &str,
        act: impl FnOnce(&dyn Store) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let project = self.project(name)?;
        let mut project = hold(&project);
        let done = act(&*self.store)?;
        project.close();
        let kept = hold(&self.open).remove(name);
        drop(project);
        if let Some(kept) = kept {
            *hold(&kept.place) = Place::Gone;
        }
        Ok(done)
    }

    /// Puts a project away whose name now means another file.
    pub fn put_away(&self, name: &str) {
        let kept = hold(&self.open).remove(name);
        let Some(kept) = kept else { return };
        let was = std::mem::replace(&mut *hold(&kept.place), Place::Gone);
        if let Place::Taken(project) = was {
            hold(&project).close();
        }
    }

    /// Every open project; those that are being opened are waited for.
    fn open(&self) -> Vec<Arc<Mutex<OpenProject>>> {
        let places: Vec<_> = hold(&self.open)
            .values()
            .map(|kept| kept.place.clone())
            .collect();
        let project = |place: &Arc<Mutex<Place>>| match &*hold(place) {
            Place::Taken(project) => Some(project.clone()),
            Place::Free | Place::Gone => None,
        };
        places.iter().filter_map(project).collect()
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
        let stamp = self.store.stamp(Stored::Workshop);
        if hold(&self.shop).1 != stamp {
            self.set_shop(Shop::read(&*self.store));
        }
        let shop = self.shop();
        for project in self.open() {
            let mut project = hold(&project);
            if project.may_have_changed(&*self.store) {
                // A file that cannot be read now is looked at again next time.
                let _ = project.catch_up(&*self.store, &shop);
            }
        }
    }

    /// A changed workshop, for every open piece.
    pub fn set_shop(&self, shop: Shop) {
        let shop = Arc::new(shop);
        let stamp = self.store.stamp(Stored::Workshop);
        let changed = {
            let mut held = hold(&self.shop);
            let changed = held.0.version != shop.version;
            *held = (shop.clone(), stamp);
            changed
        };
        if changed {
            for project in self.open() {
                hold(&project).move_to(&*self.store, &shop);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::time::{Duration, Instant};

    use super::*;
    use crate::store::MemoryStore;

    const BOWL: &str = include_str!("../../../../examples/sandpiper-bowl.toml");

    /// A text that takes its time to read and cannot be used.
    fn unusable(number: usize) -> String {
        let mut text = format!("# version {number}\n{BOWL}\n");
        for i in 0..10_000 {
            text += &format!("[[section]]\nnam = {i}\nrinks = 3\n");
        }
        text
    }

    #[test]
    fn a_project_that_is_being_opened_keeps_nobody_from_the_others() {
        let store = MemoryStore::new(|| 0.0);
        store.create("slow", unusable(20).as_bytes()).unwrap();
        for i in 0..20 {
            store.keep("slow", unusable(i).as_bytes()).unwrap();
        }
        let others: Vec<String> = (0..500).map(|i| format!("other {i}")).collect();
        for name in &others {
            store.create(name, BOWL.as_bytes()).unwrap();
        }
        let projects = OpenProjects::new(store);
        let timed = |name: &str| {
            let start = Instant::now();
            projects.project(name).unwrap();
            start.elapsed()
        };
        let (slow, opened, longest) = std::thread::scope(|scope| {
            let slow = scope.spawn(|| timed("slow"));
            let (mut opened, mut longest) = (0, Duration::ZERO);
            for name in &others {
                longest = longest.max(timed(name));
                if slow.is_finished() {
                    break;
                }
                opened += 1;
            }
            (slow.join().unwrap(), opened, longest)
        });
        println!("the slow one took {slow:?}; meanwhile {opened}, the longest {longest:?}");
        // A busy machine may hold up one of them, not all.
        assert!(opened >= 20, "only {opened} in {slow:?}");
    }
}
