//! Where projects are kept: a folder on the disk, the browser's own storage, memory.

mod memory;
mod name;

pub use memory::MemoryStore;
pub use name::{free_name, is_name, name_from};

/// Versions that are kept of each project.
pub const VERSIONS_KEPT: usize = 20;
/// Deleted projects that are kept.
pub const BIN_KEPT: usize = 200;

/// One text of the store.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stored<'a> {
    /// The project of a name.
    Project(&'a str),
    /// The workshop that all projects share.
    Workshop,
}

/// A text as it was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// When it was saved, milliseconds since 1970 UTC.
    pub saved: f64,
}

impl Found {
    /// The version of its bytes.
    pub fn version(&self) -> String {
        hash(&[&self.bytes])
    }
}

/// What tells cheaply whether a text may have changed since it was last looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp {
    /// Its length, bytes.
    pub length: u64,
    /// When it was saved, nanoseconds since 1970 UTC.
    pub saved: u64,
}

impl Stamp {
    /// When it was saved, milliseconds since 1970 UTC.
    pub fn millis(self) -> f64 {
        (self.saved as f64 / 1e6).round()
    }
}

/// A text that a project had.
#[derive(Debug, Clone, PartialEq)]
pub struct Version {
    /// The text's own hash.
    pub version: String,
    /// When it was saved, milliseconds since 1970 UTC.
    pub saved: f64,
    /// Its number: a later one has a greater.
    pub number: u64,
}

/// A project in the bin.
#[derive(Debug, Clone, PartialEq)]
pub struct InBin {
    /// Its number.
    pub id: String,
    /// The name it had.
    pub name: String,
    /// When it was deleted, milliseconds since 1970 UTC.
    pub deleted: f64,
}

/// What became of a save.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[must_use = "a save that was overtaken is not done"]
pub enum Saved {
    /// The text is in the store.
    Done,
    /// Another program has saved since the text was last read. Its text stands, and is
    /// kept among the versions.
    Overtaken,
}

/// A place that keeps projects, their versions and the workshop, and loses none of them:
/// every text that was saved, by this program or another, stands or is among the versions
/// or in the bin.
pub trait Store: Send + Sync {
    /// What a person calls this place.
    fn place(&self) -> String;

    /// Names of the projects, in order.
    ///
    /// # Errors
    /// The store cannot be read.
    fn names(&self) -> Result<Vec<String>, StoreError>;

    /// Reads a text.
    ///
    /// # Errors
    /// There is none ([`StoreError::missing`]), or it cannot be read.
    fn read(&self, what: Stored<'_>) -> Result<Found, StoreError>;

    /// What tells whether a text may have changed; nothing where there is none.
    fn stamp(&self, what: Stored<'_>) -> Option<Stamp>;

    /// Saves a text, and keeps it among the versions. `seen` is the version of the text as
    /// it was last read; `None` where there was none.
    ///
    /// # Errors
    /// It could not be saved; what stood still stands.
    fn save(&self, what: Stored<'_>, bytes: &[u8], seen: Option<&str>)
    -> Result<Saved, StoreError>;

    /// Saves a new project under the wished name or one like it, never over another. Gives
    /// its name.
    ///
    /// # Errors
    /// It could not be saved.
    fn create(&self, wished: &str, bytes: &[u8]) -> Result<String, StoreError>;

    /// Gives a project another name, with its versions, never over another.
    ///
    /// # Errors
    /// There is no such project, or another of that name.
    fn rename(&self, from: &str, to: &str) -> Result<(), StoreError>;

    /// Puts a project into the bin, with its versions.
    ///
    /// # Errors
    /// There is no such project.
    fn delete(&self, name: &str) -> Result<(), StoreError>;

    /// What is in the bin, newest first.
    ///
    /// # Errors
    /// The bin cannot be read.
    fn bin(&self) -> Result<Vec<InBin>, StoreError>;

    /// Takes a project out of the bin with its versions, under its old name or one like it.
    /// Gives its name.
    ///
    /// # Errors
    /// It is no longer there.
    fn restore(&self, id: &str) -> Result<String, StoreError>;

    /// Keeps a text among a project's versions, unless it is the newest there already.
    ///
    /// # Errors
    /// It could not be kept.
    fn keep(&self, name: &str, bytes: &[u8]) -> Result<(), StoreError>;

    /// The versions of a project, oldest first.
    ///
    /// # Errors
    /// They cannot be read.
    fn versions(&self, name: &str) -> Result<Vec<Version>, StoreError>;

    /// The text of a version.
    ///
    /// # Errors
    /// It is no longer there.
    fn version(&self, name: &str, version: &Version) -> Result<Vec<u8>, StoreError>;
}

/// Why a text could not be read or saved, in words for the maker.
#[derive(Debug, Default)]
pub struct StoreError {
    /// What is wrong.
    pub what: String,
    /// What can be done, where that is known.
    pub remedy: Option<&'static str>,
    /// There is no such thing.
    pub missing: bool,
    /// The name is in use.
    pub taken: bool,
}

impl StoreError {
    /// A trouble.
    pub fn new(what: impl Into<String>) -> Self {
        StoreError {
            what: what.into(),
            ..StoreError::default()
        }
    }

    /// There is no such thing.
    pub fn missing(what: impl Into<String>) -> Self {
        StoreError {
            missing: true,
            ..StoreError::new(what)
        }
    }

    /// There is no project of a name.
    pub fn no_project() -> Self {
        StoreError::missing("there is no such project")
    }
}

/// A text's version: the first 16 hexadecimal digits of its SHA-256.
pub fn hash(parts: &[&[u8]]) -> String {
    use sha2::{Digest, Sha256};
    let mut sum = Sha256::new();
    for part in parts {
        sum.update((part.len() as u64).to_le_bytes());
        sum.update(part);
    }
    sum.finalize()
        .iter()
        .take(8)
        .map(|b| format!("{b:02x}"))
        .collect()
}
