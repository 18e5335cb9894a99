//! One piece: its view, edits, versions.

use std::sync::Arc;

use files::edit::point_by_point;

use super::Reader;
use crate::hold::hold;
use crate::open_projects::{Answer, OpenProject, OpenProjects, Revision};
use crate::store::{StoreError, Stored};
use crate::view::{self, About};
use crate::wire::{EditRequest, Edited, Kept, TakeRequest, TextAnswer, TextRequest, View};

/// The view of what stands, after someone let go of the project.
fn shown(project: &OpenProject, reader: Reader) -> impl FnOnce() -> View + use<> {
    let now = project.now.clone();
    let problems = project
        .broken
        .as_ref()
        .map(|b| b.problems.clone())
        .unwrap_or_default();
    let (name, saved, steps) = (project.name.clone(), project.saved, project.steps());
    let language = reader.language(now.as_deref());
    move || match now {
        Some(revision) => view::view(
            &revision,
            About {
                name: &name,
                language,
                whole: true,
                saved: Some(saved),
                steps,
                problems,
            },
        ),
        None => view::empty(&name, language, problems),
    }
}

/// The view of a project as it stands in the store.
///
/// # Errors
/// There is no such project, or it cannot be read.
pub fn view(projects: &OpenProjects, name: &str, reader: Reader) -> Result<View, StoreError> {
    let project = projects.project(name)?;
    let make = {
        let mut project = hold(&project);
        project.catch_up(&*projects.store, &projects.shop())?;
        shown(&project, reader)
    };
    Ok(make())
}

/// Makes edits, or shows what they would give.
///
/// # Errors
/// There is no such project, or the store would not take it.
pub fn edit(
    projects: &OpenProjects,
    name: &str,
    reader: Reader,
    asked: &EditRequest,
) -> Result<Edited, StoreError> {
    let answer = if asked.preview == Some(true) {
        preview(projects, name, reader, asked)
    } else {
        commit(projects, name, reader, asked)
    };
    answer.map(|edited| Edited {
        seq: asked.seq,
        ..edited
    })
}

/// Is a newer question of the same page known?
fn overtaken(projects: &OpenProjects, asked: &EditRequest) -> bool {
    match (&asked.client, asked.seq) {
        (Some(client), Some(seq)) => !projects.is_newest(client, seq),
        _ => false,
    }
}

fn superseded() -> Edited {
    Edited {
        superseded: true,
        ..Edited::default()
    }
}

/// What edits would give; nothing is kept but the version for its pictures.
fn preview(
    projects: &OpenProjects,
    name: &str,
    reader: Reader,
    asked: &EditRequest,
) -> Result<Edited, StoreError> {
    if overtaken(projects, asked) {
        return Ok(superseded());
    }
    let project = projects.project(name)?;
    let shop = projects.shop();
    let (base, steps) = {
        let project = hold(&project);
        (project.version(&asked.base), project.steps())
    };
    let Some(base) = base else {
        return Ok(superseded());
    };
    let language = reader.language(Some(&base));
    let refused = |problems| {
        Ok(Edited {
            problems,
            ..Edited::default()
        })
    };
    let text = point_by_point(&base.design.form, &asked.edits, language.unit)
        .map_err(|refused| vec![refused.into()])
        .and_then(|edits| OpenProject::edited(&base, &edits, language.unit));
    let revision = match text.and_then(|text| Revision::for_reader(name, &text, &shop, language)) {
        Ok(revision) => Arc::new(revision),
        Err(problems) => return refused(problems),
    };
    if overtaken(projects, asked) {
        return Ok(superseded());
    }
    hold(&project).remember(revision.clone());
    let view = view::view(
        &revision,
        About {
            name,
            language,
            whole: false,
            saved: None,
            steps,
            problems: Vec::new(),
        },
    );
    Ok(Edited {
        view: Some(view),
        ..Edited::default()
    })
}

fn commit(
    projects: &OpenProjects,
    name: &str,
    reader: Reader,
    asked: &EditRequest,
) -> Result<Edited, StoreError> {
    overtaken(projects, asked);
    answered(projects, name, reader, |project| {
        let shop = projects.shop();
        let language = reader.language(project.now.as_deref());
        let base = project.version(&asked.base).or(project.now.clone());
        let edits =
            match base.map(|base| point_by_point(&base.design.form, &asked.edits, language.unit)) {
                Some(Err(refused)) => return Answer::Refused(vec![refused.into()]),
                Some(Ok(edits)) => edits,
                None => asked.edits.clone(),
            };
        project.edit(
            &*projects.store,
            &shop,
            (&edits, language),
            &asked.base,
            asked.client.as_deref(),
        )
    })
}

/// Does something at a project and shows what stands after it.
fn answered(
    projects: &OpenProjects,
    name: &str,
    reader: Reader,
    act: impl FnOnce(&mut OpenProject) -> Answer,
) -> Result<Edited, StoreError> {
    let project = projects.project(name)?;
    let mut project = hold(&project);
    let answer = act(&mut project);
    let make = match answer {
        Answer::Done => shown(&project, reader),
        Answer::Refused(problems) => {
            return Ok(Edited {
                problems,
                ..Edited::default()
            });
        }
        Answer::Conflict(conflict) => {
            return Ok(Edited {
                conflict: Some(conflict),
                ..Edited::default()
            });
        }
        Answer::Disk(trouble) => return Err(trouble),
    };
    drop(project);
    Ok(Edited {
        view: Some(make()),
        ..Edited::default()
    })
}

/// Takes back the last step.
///
/// # Errors
/// There is no such project, or the store would not take it.
pub fn undo(projects: &OpenProjects, name: &str, reader: Reader) -> Result<Edited, StoreError> {
    answered(projects, name, reader, |project| {
        project.undo(&*projects.store, &projects.shop())
    })
}

/// Makes the last step that was taken back again.
///
/// # Errors
/// As [`undo`].
pub fn redo(projects: &OpenProjects, name: &str, reader: Reader) -> Result<Edited, StoreError> {
    answered(projects, name, reader, |project| {
        project.redo(&*projects.store, &projects.shop())
    })
}

/// Lets an earlier version, or the other side of a conflict, stand.
///
/// # Errors
/// As [`undo`].
pub fn take(
    projects: &OpenProjects,
    name: &str,
    reader: Reader,
    asked: &TakeRequest,
) -> Result<Edited, StoreError> {
    answered(projects, name, reader, |project| {
        project.take(&*projects.store, &projects.shop(), &asked.version)
    })
}

/// Lets a whole new text stand.
///
/// # Errors
/// As [`undo`].
pub fn write(
    projects: &OpenProjects,
    name: &str,
    reader: Reader,
    asked: &TextRequest,
) -> Result<Edited, StoreError> {
    answered(projects, name, reader, |project| {
        let meant = (asked.text.as_str(), asked.base.as_str());
        project.write(&*projects.store, &projects.shop(), meant)
    })
}

/// The text as it stands in the store, and what is wrong with it.
///
/// # Errors
/// There is no such project, or it cannot be read.
pub fn text(projects: &OpenProjects, name: &str) -> Result<TextAnswer, StoreError> {
    let project = projects.project(name)?;
    let mut project = hold(&project);
    project.catch_up(&*projects.store, &projects.shop())?;
    let now = project.now.as_ref();
    let version = now.map(|m| m.version.clone()).unwrap_or_default();
    Ok(match &project.broken {
        Some(broken) => TextAnswer {
            text: broken.text.clone(),
            version,
            problems: broken.problems.clone(),
        },
        None => TextAnswer {
            text: now.map(|m| m.text.clone()).unwrap_or_default(),
            version,
            problems: Vec::new(),
        },
    })
}

/// The versions of a project, newest first.
///
/// # Errors
/// There is no such project, or they cannot be read.
pub fn versions(projects: &OpenProjects, name: &str) -> Result<Vec<Kept>, StoreError> {
    projects.store.read(Stored::Project(name))?;
    let kept = projects.store.versions(name)?;
    let kept = kept.into_iter().rev().map(|v| Kept {
        version: v.version,
        saved: v.saved,
    });
    Ok(kept.collect())
}
