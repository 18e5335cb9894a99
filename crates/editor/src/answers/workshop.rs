//! The workshop that all projects share.

use files::edit::apply;
use files::key;

use super::Reader;
use crate::hold::hold;
use crate::open_projects::{OpenProjects, Shop};
use crate::store::{Saved, StoreError, Stored};
use crate::view::{unit, workshop_ground, workshop_view};
use crate::wire::{Problem, WorkshopEdited, WorkshopRequest, WorkshopView};

/// The workshop as it stands in the store.
pub fn view(projects: &OpenProjects, reader: Reader) -> WorkshopView {
    projects.look_around();
    let shop = projects.shop();
    workshop_view(&shop, reader.unit.map_or(shop.workshop.unit, unit))
}

/// Changes the workshop.
///
/// # Errors
/// What stands there cannot be read, or the store would not take it.
pub fn change(
    projects: &OpenProjects,
    reader: Reader,
    asked: &WorkshopRequest,
) -> Result<WorkshopEdited, StoreError> {
    let _shelf = hold(&projects.shelf);
    projects.look_around();
    let shop = projects.shop();
    let page = reader.unit.map_or(shop.workshop.unit, unit);
    let same = |problems, conflict| {
        Ok(WorkshopEdited {
            workshop: None,
            problems,
            conflict,
        })
    };
    if shop.version != asked.base {
        return same(Vec::new(), true);
    }
    if shop.seen.is_none()
        && let Some(problem) = shop.problems.first()
    {
        // There is a file that cannot be read; it is not written over.
        return Err(StoreError {
            remedy: Some("move that file away, or save it as plain text (UTF-8)"),
            ..StoreError::new(problem.what.clone())
        });
    }
    let text = match saws_written(&shop, asked).and_then(|text| {
        apply(&text, &asked.edits, &workshop_ground(&shop, page)).map_err(|p| vec![p.into()])
    }) {
        Ok(text) => text,
        Err(problems) => return same(problems, false),
    };
    let changed = Shop::from_text(&text);
    if !changed.problems.is_empty() {
        return same(changed.problems, false);
    }
    if projects
        .store
        .save(Stored::Workshop, text.as_bytes(), shop.seen.as_deref())?
        == Saved::Overtaken
    {
        return same(Vec::new(), true);
    }
    projects.set_shop(Shop {
        seen: Some(changed.version.clone()),
        ..changed
    });
    let shop = projects.shop();
    Ok(WorkshopEdited {
        workshop: Some(workshop_view(&shop, page)),
        problems: Vec::new(),
        conflict: false,
    })
}

/// The workshop's text, with the usual saws written out if one of them is to be changed
/// and the file names none.
fn saws_written(shop: &Shop, asked: &WorkshopRequest) -> Result<String, Vec<Problem>> {
    use crate::wire::Edit;
    let saws = key::shop().saw(0).path();
    let of_saws = asked.edits.iter().any(|e| {
        let (Edit::Set { path, .. }
        | Edit::Add { path, .. }
        | Edit::Remove { path }
        | Edit::Move { path, .. }) = e;
        path.steps().first() == saws.steps().first()
    });
    if !of_saws || shop.workshop.saws.is_said() {
        return Ok(shop.text.clone());
    }
    let saws = files::write::saws_text(&shop.workshop);
    Ok(format!("{}\n\n{saws}", shop.text.trim_end()))
}
