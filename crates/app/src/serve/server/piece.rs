//! One piece: its view, edits, pictures.

use std::sync::Arc;

use axum::extract::{Path, Query, Request, State};
use axum::response::Response;
use files::units::Unit;
use serde::Deserialize;

use super::Server;
use super::answer::{LARGEST, disk, either, json, nothing, quick, read};
use crate::serve::hold::hold;
use crate::serve::open_projects::{Answer, OpenProject, Revision};
use crate::serve::store::StoreError;
use crate::serve::view::{self, About, as_edits, unit};
use crate::serve::wire::{
    EditRequest, Edited, Kept, PageUnit, TakeRequest, TextAnswer, TextRequest, View,
};

/// The page's unit; the file's own where it is left out.
#[derive(Deserialize)]
pub struct InUnit {
    pub(super) unit: Option<PageUnit>,
}

impl InUnit {
    pub(super) fn of(&self, revision: Option<&Revision>) -> Unit {
        self.unit
            .map(unit)
            .or(revision.map(|m| m.design.unit))
            .unwrap_or_default()
    }
}

/// The view of what stands, after someone let go of the project.
fn shown(
    project: &OpenProject,
    wanted: &InUnit,
) -> (Option<Arc<Revision>>, impl FnOnce() -> View + use<>) {
    let now = project.now.clone();
    let problems = project
        .broken
        .as_ref()
        .map(|b| b.problems.clone())
        .unwrap_or_default();
    let (name, saved, steps) = (project.name.clone(), project.saved, project.steps());
    let unit = wanted.of(now.as_deref());
    let revision = now.clone();
    let make = move || match revision {
        Some(revision) => view::view(
            &revision,
            About {
                name: &name,
                unit,
                whole: true,
                saved: Some(saved),
                steps,
                problems,
            },
        ),
        None => view::empty(&name, unit, problems),
    };
    (now, make)
}

/// `GET /api/piece/{name}?unit=`
pub async fn view(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<InUnit>,
) -> Response {
    let done = quick(server, move |server| -> Result<View, StoreError> {
        let project = server.projects.project(&name)?;
        let make = {
            let mut project = hold(&project);
            let shop = server.projects.shop();
            project.catch_up(&server.projects.folder, &shop)?;
            shown(&project, &wanted).1
        };
        Ok(make())
    });
    either(
        done.await
            .map(|view| view.map_or_else(|t| disk(&t), |v| json(&v))),
    )
}

/// `POST /api/piece/{name}/edit?unit=`
pub async fn edit(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<InUnit>,
    request: Request,
) -> Response {
    let asked: EditRequest = match read(request, LARGEST).await {
        Ok(asked) => asked,
        Err(answer) => return *answer,
    };
    let done = quick(server, move |server| {
        let seq = asked.seq;
        let answer = if asked.preview == Some(true) {
            preview(server, &name, &wanted, &asked)
        } else {
            commit(server, &name, &wanted, &asked)
        };
        answer.map(|edited| Edited { seq, ..edited })
    });
    either(
        done.await
            .map(|edited| edited.map_or_else(|t| disk(&t), |e| json(&e))),
    )
}

/// Is a newer question of the same page known?
fn overtaken(server: &Server, asked: &EditRequest) -> bool {
    match (&asked.client, asked.seq) {
        (Some(client), Some(seq)) => !server.projects.is_newest(client, seq),
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
    server: &Server,
    name: &str,
    wanted: &InUnit,
    asked: &EditRequest,
) -> Result<Edited, StoreError> {
    if overtaken(server, asked) {
        return Ok(superseded());
    }
    let project = server.projects.project(name)?;
    let shop = server.projects.shop();
    let (base, steps) = {
        let project = hold(&project);
        (project.version(&asked.base), project.steps())
    };
    let Some(base) = base else {
        return Ok(superseded());
    };
    let unit = wanted.of(Some(&base));
    let refused = |problems| {
        Ok(Edited {
            problems,
            ..Edited::default()
        })
    };
    let text = as_edits(&base, &asked.edits, unit)
        .map_err(|p| vec![p])
        .and_then(|edits| OpenProject::edited(&base, &edits, unit));
    let revision = match text.and_then(|text| Revision::for_reader(name, &text, &shop, unit)) {
        Ok(revision) => Arc::new(revision),
        Err(problems) => return refused(problems),
    };
    if overtaken(server, asked) {
        return Ok(superseded());
    }
    hold(&project).remember(revision.clone());
    let view = view::view(
        &revision,
        About {
            name,
            unit,
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
    server: &Server,
    name: &str,
    wanted: &InUnit,
    asked: &EditRequest,
) -> Result<Edited, StoreError> {
    overtaken(server, asked);
    answered(server, name, wanted, |project| {
        let shop = server.projects.shop();
        let folder = &server.projects.folder;
        let unit = wanted.of(project.now.as_deref());
        let base = project.version(&asked.base).or(project.now.clone());
        let edits = match base.map(|base| as_edits(&base, &asked.edits, unit)) {
            Some(Err(problem)) => return Answer::Refused(vec![problem]),
            Some(Ok(edits)) => edits,
            None => asked.edits.clone(),
        };
        project.edit(
            folder,
            &shop,
            (&edits, unit),
            &asked.base,
            asked.client.as_deref(),
        )
    })
}

/// Does something at a project and shows what stands after it.
fn answered(
    server: &Server,
    name: &str,
    wanted: &InUnit,
    act: impl FnOnce(&mut OpenProject) -> Answer,
) -> Result<Edited, StoreError> {
    let project = server.projects.project(name)?;
    let mut project = hold(&project);
    let answer = act(&mut project);
    let make = match answer {
        Answer::Done => shown(&project, wanted).1,
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

async fn act(
    server: Arc<Server>,
    name: String,
    wanted: InUnit,
    act: impl FnOnce(&Server, &mut OpenProject) -> Answer + Send + 'static,
) -> Response {
    let done = quick(server, move |server| {
        answered(server, &name, &wanted, |project| act(server, project))
    });
    either(
        done.await
            .map(|edited| edited.map_or_else(|t| disk(&t), |e| json(&e))),
    )
}

/// `POST /api/piece/{name}/undo?unit=`
pub async fn undo(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<InUnit>,
    request: Request,
) -> Response {
    if let Err(answer) = nothing(request).await {
        return *answer;
    }
    act(server, name, wanted, |s, project| {
        project.undo(&s.projects.folder, &s.projects.shop())
    })
    .await
}

/// `POST /api/piece/{name}/redo?unit=`
pub async fn redo(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<InUnit>,
    request: Request,
) -> Response {
    if let Err(answer) = nothing(request).await {
        return *answer;
    }
    act(server, name, wanted, |s, project| {
        project.redo(&s.projects.folder, &s.projects.shop())
    })
    .await
}

/// `POST /api/piece/{name}/take?unit=`
pub async fn take(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<InUnit>,
    request: Request,
) -> Response {
    match read::<TakeRequest>(request, LARGEST).await {
        Err(answer) => *answer,
        Ok(asked) => {
            let take = move |s: &Server, project: &mut OpenProject| {
                project.take(&s.projects.folder, &s.projects.shop(), &asked.version)
            };
            act(server, name, wanted, take).await
        }
    }
}

/// `GET /api/piece/{name}/text`
pub async fn text(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let done = quick(server, move |server| -> Result<TextAnswer, StoreError> {
        let project = server.projects.project(&name)?;
        let mut project = hold(&project);
        project.catch_up(&server.projects.folder, &server.projects.shop())?;
        let version = project
            .now
            .as_ref()
            .map(|m| m.version.clone())
            .unwrap_or_default();
        Ok(match (&project.broken, &project.now) {
            (Some(broken), _) => TextAnswer {
                text: broken.text.clone(),
                version,
                problems: broken.problems.clone(),
            },
            (None, now) => TextAnswer {
                text: now.as_ref().map(|m| m.text.clone()).unwrap_or_default(),
                version,
                problems: Vec::new(),
            },
        })
    });
    either(
        done.await
            .map(|text| text.map_or_else(|t| disk(&t), |v| json(&v))),
    )
}

/// `POST /api/piece/{name}/text?unit=`
pub async fn write(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<InUnit>,
    request: Request,
) -> Response {
    let asked = match read::<TextRequest>(request, LARGEST).await {
        Err(answer) => return *answer,
        Ok(asked) => asked,
    };
    let write = move |s: &Server, project: &mut OpenProject| {
        let meant = (asked.text.as_str(), asked.base.as_str());
        project.write(&s.projects.folder, &s.projects.shop(), meant)
    };
    act(server, name, wanted, write).await
}

/// `GET /api/piece/{name}/versions`
pub async fn versions(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let done = quick(server, move |server| -> Result<Vec<Kept>, StoreError> {
        let path = server.projects.folder.project(&name)?;
        server.projects.folder.read(&path)?;
        let kept = server.projects.folder.versions(&name)?;
        Ok(kept
            .into_iter()
            .rev()
            .map(|v| Kept {
                version: v.version,
                saved: v.saved,
            })
            .collect())
    });
    either(
        done.await
            .map(|kept| kept.map_or_else(|t| disk(&t), |k| json(&k))),
    )
}
