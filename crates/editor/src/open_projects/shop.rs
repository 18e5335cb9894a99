//! The workshop that all pieces of a store are made in.

use files::read::read_usable_workshop;
use files::reader::text_of;
use files::workshop::Workshop;

use super::revision::told;
use crate::store::{Store, Stored, hash};
use crate::wire::Problem;

/// The text that a store without a workshop's file starts from.
pub const EMPTY: &str = "ringwright = 1\nunit = \"mm\"\n";

/// The workshop as read.
#[derive(Debug)]
pub struct Shop {
    /// Its settings; the usual ones where there is no file, or no usable one.
    pub workshop: Workshop,
    /// The file's text; [`EMPTY`] where there is none.
    pub text: String,
    /// The text's version.
    pub version: String,
    /// Why the file cannot be used.
    pub problems: Vec<Problem>,
    /// The version of the file's bytes; `None` where there is no file, or none that can
    /// be read.
    pub seen: Option<String>,
}

impl Shop {
    /// Reads the store's workshop.
    pub fn read(store: &dyn Store) -> Shop {
        match store.read(Stored::Workshop) {
            Ok(found) => match text_of(&found.bytes) {
                Ok(text) => Shop {
                    seen: Some(found.version()),
                    ..Shop::from_text(text)
                },
                Err(problem) => Shop::unusable(told(&problem)),
            },
            Err(trouble) if trouble.missing => Shop::from_text(EMPTY),
            Err(trouble) => Shop::unusable(Problem {
                what: trouble.what,
                remedy: "the usual settings are taken instead".into(),
                ..Problem::default()
            }),
        }
    }

    /// Reads a text.
    pub fn from_text(text: &str) -> Shop {
        let (workshop, problems) = match read_usable_workshop(text) {
            Ok(workshop) => (workshop, Vec::new()),
            Err(problems) => (Workshop::default(), problems),
        };
        Shop {
            workshop,
            text: text.into(),
            version: hash(&[text.as_bytes()]),
            problems: problems.iter().map(told).collect(),
            seen: None,
        }
    }

    fn unusable(problem: Problem) -> Shop {
        Shop {
            workshop: Workshop::default(),
            text: EMPTY.into(),
            version: hash(&[problem.what.as_bytes()]),
            problems: vec![problem],
            seen: None,
        }
    }
}
