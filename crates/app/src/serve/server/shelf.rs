//! The folder of projects, the bin and the workshop.

use std::sync::Arc;

use axum::extract::{Path, Query, Request, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use files::units::Unit;
use serde::Deserialize;

use super::Server;
use super::answer::{LARGEST, LARGEST_IMPORT, disk, either, json, nothing, quick, read};
use super::starters::{self, new_piece, problem};
use crate::serve::hold::hold;
use crate::serve::open_projects::{Revision, Shop};
use crate::serve::store::{StoreError, is_name, millis, name_from};
use crate::serve::view::{counts, encoded, page_unit, unit};
use crate::serve::wire::{
    Binned, Counts, ImportRequest, Named, NewRequest, PageUnit, Problem, Project, RenameRequest,
    Shelf,
};
use crate::starter;

/// The page's unit.
#[derive(Deserialize)]
pub struct InUnit {
    pub(super) unit: Option<PageUnit>,
}

/// The answer to work that may not have been possible.
pub(super) fn answer<T: serde::Serialize>(
    done: Result<Result<T, StoreError>, Box<Response>>,
) -> Response {
    either(done.map(|value| value.map_or_else(|t| disk(&t), |v| json(&v))))
}

/// `GET /api/shelf?unit=`
pub async fn shelf(State(server): State<Arc<Server>>, Query(wanted): Query<InUnit>) -> Response {
    let page = wanted.unit.unwrap_or_default();
    answer(quick(server, move |server| look(server, unit(page))).await)
}

fn look(server: &Server, page: Unit) -> Result<Shelf, StoreError> {
    let folder = &server.projects.folder;
    let shop = server.projects.shop();
    let mut projects = Vec::new();
    for name in folder.names()? {
        let Ok(found) = folder.read(&folder.project(&name)?) else {
            continue;
        };
        let revision = std::str::from_utf8(&found.bytes).map_err(|_| Vec::new());
        let revision = revision.and_then(|text| known(server, &name, text, &shop));
        let saved = millis(found.written);
        projects.push(match revision {
            Ok(revision) => Project {
                title: revision.design.title.clone(),
                unit: page_unit(revision.design.unit),
                saved,
                findings: counts(revision.shown(revision.design.unit).findings()),
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
    let bin = folder.bin()?;
    Ok(Shelf {
        folder: folder
            .root()
            .file_name()
            .map_or_else(|| "projects".into(), |n| n.to_string_lossy().into_owned()),
        projects,
        bin: bin
            .into_iter()
            .map(|b| Binned {
                id: b.id,
                name: b.name,
                deleted: b.deleted,
            })
            .collect(),
        starters: starters::starters(page),
    })
}

/// A text worked out, at its project so that its picture finds it.
fn known(
    server: &Server,
    name: &str,
    text: &str,
    shop: &Arc<Shop>,
) -> Result<Arc<Revision>, Vec<Problem>> {
    let project = server.projects.project(name).map_err(|_| Vec::new())?;
    hold(&project).make(text, shop)
}

/// `POST /api/shelf/new`
pub async fn new(State(server): State<Arc<Server>>, request: Request) -> Response {
    let asked = match read::<NewRequest>(request, LARGEST).await {
        Ok(asked) => asked,
        Err(answer) => return *answer,
    };
    let done = quick(server, move |server| {
        let refused = |problems| Named {
            name: None,
            problems,
        };
        let new = match new_piece(&asked) {
            Ok(new) => new,
            Err(problems) => return Ok(refused(problems)),
        };
        match starter::write(&new, &server.projects.shop().workshop) {
            Ok(text) => put(server, &name_from(&new.title), text.as_bytes()),
            Err(refusals) => Ok(refused(
                refusals
                    .iter()
                    .map(|r| starters::refused(r, new.unit))
                    .collect(),
            )),
        }
    });
    answer(done.await)
}

/// Saves a text under a free name like the one wished for.
fn put(server: &Server, wished: &str, bytes: &[u8]) -> Result<Named, StoreError> {
    let _shelf = hold(&server.projects.shelf);
    let name = server.projects.folder.create(wished, bytes)?;
    server.projects.put_away(&name);
    Ok(Named {
        name: Some(name),
        problems: Vec::new(),
    })
}

/// `POST /api/shelf/import`. A file that cannot be used as it is comes in all the same:
/// it is repaired here.
pub async fn import(State(server): State<Arc<Server>>, request: Request) -> Response {
    let asked = match read::<ImportRequest>(request, LARGEST_IMPORT).await {
        Ok(asked) => asked,
        Err(answer) => return *answer,
    };
    let done = quick(server, move |server| {
        if asked.text.len() > files::reader::LARGEST_FILE {
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
        put(server, &wished, asked.text.as_bytes())
    });
    answer(done.await)
}

/// `GET /api/shelf/{name}/file`
pub async fn file(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let done = quick(server, move |server| -> Result<Response, StoreError> {
        let folder = &server.projects.folder;
        let found = folder.read(&folder.project(&name)?)?;
        let mut response = found.bytes.into_response();
        let out = response.headers_mut();
        out.insert(
            header::CONTENT_TYPE,
            HeaderValue::from_static("application/toml"),
        );
        let attached = format!("attachment; filename*=UTF-8''{}.toml", encoded(&name));
        if let Ok(value) = HeaderValue::from_str(&attached) {
            out.insert(header::CONTENT_DISPOSITION, value);
        }
        Ok(response)
    });
    either(done.await.map(|answer| answer.unwrap_or_else(|t| disk(&t))))
}

/// `POST /api/shelf/{name}/duplicate`
pub async fn duplicate(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    request: Request,
) -> Response {
    if let Err(answer) = nothing(request).await {
        return *answer;
    }
    let done = quick(server, move |server| {
        let folder = &server.projects.folder;
        let found = folder.read(&folder.project(&name)?)?;
        put(server, &name, &found.bytes)
    });
    answer(done.await)
}

/// `POST /api/shelf/{name}/rename`
pub async fn rename(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    request: Request,
) -> Response {
    let asked = match read::<RenameRequest>(request, LARGEST).await {
        Ok(asked) => asked,
        Err(answer) => return *answer,
    };
    let done = quick(server, move |server| -> Result<Named, StoreError> {
        let to = asked.to.trim().to_string();
        if !is_name(&to) {
            let what = "a project cannot be called so".into();
            let remedy = "take letters, digits, spaces and - _ ( ) ' & , +".into();
            return Ok(Named {
                name: None,
                problems: vec![problem("to", what, remedy)],
            });
        }
        let _shelf = hold(&server.projects.shelf);
        server
            .projects
            .take_name(&name, |folder| folder.rename_project(&name, &to))?;
        server.projects.put_away(&to);
        Ok(Named {
            name: Some(to),
            problems: Vec::new(),
        })
    });
    answer(done.await)
}

/// `POST /api/shelf/{name}/delete`
pub async fn delete(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    request: Request,
) -> Response {
    if let Err(answer) = nothing(request).await {
        return *answer;
    }
    let done = quick(server, move |server| -> Result<Named, StoreError> {
        let _shelf = hold(&server.projects.shelf);
        server
            .projects
            .take_name(&name, |folder| folder.delete(&name))?;
        Ok(Named {
            name: Some(name),
            problems: Vec::new(),
        })
    });
    answer(done.await)
}

/// `POST /api/bin/{id}/restore`
pub async fn restore(
    State(server): State<Arc<Server>>,
    Path(id): Path<String>,
    request: Request,
) -> Response {
    if let Err(answer) = nothing(request).await {
        return *answer;
    }
    let done = quick(server, move |server| -> Result<Named, StoreError> {
        let _shelf = hold(&server.projects.shelf);
        let name = server.projects.folder.restore(&id)?;
        server.projects.put_away(&name);
        Ok(Named {
            name: Some(name),
            problems: Vec::new(),
        })
    });
    answer(done.await)
}
