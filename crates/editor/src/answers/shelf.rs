//! The shelf: every project, new ones, the bin.

use std::sync::Arc;

use files::reader::LARGEST_FILE;
use files::units::Unit;

use super::Reader;
use crate::hold::hold;
use crate::open_projects::{OpenProjects, Revision, Shop};
use crate::starter;
use crate::starter::asked::{new_piece, problem, refused, starters};
use crate::store::{StoreError, Stored, is_name, name_from};
use crate::view::{counts, encoded, page_unit, unit};
use crate::wire::{
    Binned, Counts, ImportRequest, Named, NewRequest, PageUnit, Problem, Project, RenameRequest,
    Shelf,
};

/// Every project of the store, and what new ones can be.
///
/// # Errors
/// The store cannot be read.
pub fn shelf(projects: &OpenProjects, reader: Reader) -> Result<Shelf, StoreError> {
    let page: Unit = unit(reader.unit.unwrap_or_default());
    let store = &projects.store;
    let shop = projects.shop();
    let mut listed = Vec::new();
    for name in store.names()? {
        let Ok(found) = store.read(Stored::Project(&name)) else {
            continue;
        };
        let revision = std::str::from_utf8(&found.bytes).map_err(|_| Vec::new());
        let revision = revision.and_then(|text| known(projects, &name, text, &shop));
        let saved = found.saved;
        listed.push(match revision {
            Ok(revision) => Project {
                title: revision.design.title.clone(),
                unit: page_unit(revision.design.unit),
                saved,
                findings: counts(revision.shown(revision.language()).findings()),
                broken: false,
                picture: Some(format!(
                    "/api/shelf/{}/picture.png?v={}",
                    encoded(&name),
                    revision.version
                )),
                name,
            },
            Err(_) => Project {
                title: name.clone(),
                name,
                unit: PageUnit::default(),
                saved,
                findings: Counts::default(),
                broken: true,
                picture: None,
            },
        });
    }
    let bin = store.bin()?;
    Ok(Shelf {
        folder: store.place(),
        projects: listed,
        bin: bin
            .into_iter()
            .map(|b| Binned {
                id: b.id,
                name: b.name,
                deleted: b.deleted,
            })
            .collect(),
        starters: starters(page),
    })
}

/// A text worked out, at its project so that its picture finds it.
fn known(
    projects: &OpenProjects,
    name: &str,
    text: &str,
    shop: &Arc<Shop>,
) -> Result<Arc<Revision>, Vec<Problem>> {
    let project = projects.project(name).map_err(|_| Vec::new())?;
    hold(&project).make(text, shop)
}

/// Writes a new project from what the maker answers.
///
/// # Errors
/// The store would not take it.
pub fn new(projects: &OpenProjects, asked: &NewRequest) -> Result<Named, StoreError> {
    let refusals = |problems| {
        Ok(Named {
            name: None,
            problems,
        })
    };
    let new = match new_piece(asked) {
        Ok(new) => new,
        Err(problems) => return refusals(problems),
    };
    match starter::write(&new, &projects.shop().workshop) {
        Ok(text) => put(projects, &name_from(&new.title), text.as_bytes()),
        Err(found) => refusals(found.iter().map(|r| refused(r, new.unit)).collect()),
    }
}

/// Saves a text under a free name like the one wished for.
fn put(projects: &OpenProjects, wished: &str, bytes: &[u8]) -> Result<Named, StoreError> {
    let _shelf = hold(&projects.shelf);
    let name = projects.store.create(wished, bytes)?;
    projects.put_away(&name);
    Ok(named(&name))
}

/// Brings a file in. One that cannot be used as it is comes in all the same: it is
/// repaired here.
///
/// # Errors
/// The store would not take it.
pub fn import(projects: &OpenProjects, asked: &ImportRequest) -> Result<Named, StoreError> {
    if asked.text.len() > LARGEST_FILE {
        return Ok(Named {
            name: None,
            problems: vec![Problem {
                what: "this file is larger than a project can be".into(),
                remedy: "bring in a project's file".into(),
                ..Problem::default()
            }],
        });
    }
    let stem = asked.name.trim();
    let stem = stem.strip_suffix(".toml").unwrap_or(stem);
    let wished = if is_name(stem) {
        stem.to_string()
    } else {
        name_from(stem)
    };
    put(projects, &wished, asked.text.as_bytes())
}

/// A project's file as it stands.
///
/// # Errors
/// There is no such project, or it cannot be read.
pub fn file(projects: &OpenProjects, name: &str) -> Result<Vec<u8>, StoreError> {
    Ok(projects.store.read(Stored::Project(name))?.bytes)
}

/// Saves a project once more under a name like its own.
///
/// # Errors
/// There is no such project, or the store would not take another.
pub fn duplicate(projects: &OpenProjects, name: &str) -> Result<Named, StoreError> {
    put(projects, name, &file(projects, name)?)
}

/// Gives a project another name.
///
/// # Errors
/// There is no such project, or another of that name.
pub fn rename(
    projects: &OpenProjects,
    name: &str,
    asked: &RenameRequest,
) -> Result<Named, StoreError> {
    let to = asked.to.trim();
    if !is_name(to) {
        let what = "a project cannot be called so".into();
        let remedy = "take letters, digits, spaces and - _ ( ) ' & , +".into();
        return Ok(Named {
            name: None,
            problems: vec![problem("to", what, remedy)],
        });
    }
    let _shelf = hold(&projects.shelf);
    projects.take_name(name, |store| store.rename(name, to))?;
    projects.put_away(to);
    Ok(named(to))
}

/// Puts a project into the bin.
///
/// # Errors
/// There is no such project.
pub fn delete(projects: &OpenProjects, name: &str) -> Result<Named, StoreError> {
    let _shelf = hold(&projects.shelf);
    projects.take_name(name, |store| store.delete(name))?;
    Ok(named(name))
}

/// Takes a project out of the bin.
///
/// # Errors
/// It is no longer there.
pub fn restore(projects: &OpenProjects, id: &str) -> Result<Named, StoreError> {
    let _shelf = hold(&projects.shelf);
    let name = projects.store.restore(id)?;
    projects.put_away(&name);
    Ok(named(&name))
}

fn named(name: &str) -> Named {
    Named {
        name: Some(name.into()),
        problems: Vec::new(),
    }
}
