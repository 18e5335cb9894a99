//! One piece: its view, edits, pictures.

use std::sync::Arc;

use axum::extract::{Path, Query, Request, State};
use axum::response::Response;
use files::units::Unit;
use serde::Deserialize;

use super::Server;
use super::answer::{LARGEST, disk, either, json, nothing, quick, read};
use crate::serve::desk::{Answer, Desk, Made, hold};
use crate::serve::store::Trouble;
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
    pub(super) fn of(&self, made: Option<&Made>) -> Unit {
        self.unit
            .map(unit)
            .or(made.map(|m| m.design.unit))
            .unwrap_or_default()
    }
}

/// The view of what stands, after someone let go of the desk.
fn shown(desk: &Desk, wanted: &InUnit) -> (Option<Arc<Made>>, impl FnOnce() -> View + use<>) {
    let now = desk.now.clone();
    let problems = desk
        .broken
        .as_ref()
        .map(|b| b.problems.clone())
        .unwrap_or_default();
    let (name, saved, steps) = (desk.name.clone(), desk.saved, desk.steps());
    let unit = wanted.of(now.as_deref());
    let made = now.clone();
    let make = move || match made {
        Some(made) => view::view(
            &made,
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
    let done = quick(server, move |server| -> Result<View, Trouble> {
        let desk = server.bench.desk(&name)?;
        let make = {
            let mut desk = hold(&desk);
            let shop = server.bench.shop();
            desk.catch_up(&server.bench.folder, &shop)?;
            shown(&desk, &wanted).1
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
        (Some(client), Some(seq)) => !server.bench.is_newest(client, seq),
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
) -> Result<Edited, Trouble> {
    if overtaken(server, asked) {
        return Ok(superseded());
    }
    let desk = server.bench.desk(name)?;
    let shop = server.bench.shop();
    let (base, steps) = {
        let desk = hold(&desk);
        (desk.version(&asked.base), desk.steps())
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
        .and_then(|edits| Desk::edited(&base, &edits, unit));
    let made = match text.and_then(|text| Made::for_reader(name, &text, &shop, unit)) {
        Ok(made) => Arc::new(made),
        Err(problems) => return refused(problems),
    };
    if overtaken(server, asked) {
        return Ok(superseded());
    }
    hold(&desk).remember(made.clone());
    let view = view::view(
        &made,
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
) -> Result<Edited, Trouble> {
    overtaken(server, asked);
    answered(server, name, wanted, |desk| {
        let shop = server.bench.shop();
        let folder = &server.bench.folder;
        let unit = wanted.of(desk.now.as_deref());
        let base = desk.version(&asked.base).or(desk.now.clone());
        let edits = match base.map(|base| as_edits(&base, &asked.edits, unit)) {
            Some(Err(problem)) => return Answer::Refused(vec![problem]),
            Some(Ok(edits)) => edits,
            None => asked.edits.clone(),
        };
        desk.edit(
            folder,
            &shop,
            (&edits, unit),
            &asked.base,
            asked.client.as_deref(),
        )
    })
}

/// Does something at a desk and shows what stands after it.
fn answered(
    server: &Server,
    name: &str,
    wanted: &InUnit,
    act: impl FnOnce(&mut Desk) -> Answer,
) -> Result<Edited, Trouble> {
    let desk = server.bench.desk(name)?;
    let mut desk = hold(&desk);
    let answer = act(&mut desk);
    let make = match answer {
        Answer::Done => shown(&desk, wanted).1,
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
    drop(desk);
    Ok(Edited {
        view: Some(make()),
        ..Edited::default()
    })
}

async fn act(
    server: Arc<Server>,
    name: String,
    wanted: InUnit,
    act: impl FnOnce(&Server, &mut Desk) -> Answer + Send + 'static,
) -> Response {
    let done = quick(server, move |server| {
        answered(server, &name, &wanted, |desk| act(server, desk))
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
    act(server, name, wanted, |s, desk| {
        desk.undo(&s.bench.folder, &s.bench.shop())
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
    act(server, name, wanted, |s, desk| {
        desk.redo(&s.bench.folder, &s.bench.shop())
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
            let take = move |s: &Server, desk: &mut Desk| {
                desk.take(&s.bench.folder, &s.bench.shop(), &asked.version)
            };
            act(server, name, wanted, take).await
        }
    }
}

/// `GET /api/piece/{name}/text`
pub async fn text(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let done = quick(server, move |server| -> Result<TextAnswer, Trouble> {
        let desk = server.bench.desk(&name)?;
        let mut desk = hold(&desk);
        desk.catch_up(&server.bench.folder, &server.bench.shop())?;
        let version = desk
            .now
            .as_ref()
            .map(|m| m.version.clone())
            .unwrap_or_default();
        Ok(match (&desk.broken, &desk.now) {
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
    let write = move |s: &Server, desk: &mut Desk| {
        let meant = (asked.text.as_str(), asked.base.as_str());
        desk.write(&s.bench.folder, &s.bench.shop(), meant)
    };
    act(server, name, wanted, write).await
}

/// `GET /api/piece/{name}/versions`
pub async fn versions(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let done = quick(server, move |server| -> Result<Vec<Kept>, Trouble> {
        let path = server.bench.folder.project(&name)?;
        server.bench.folder.read(&path)?;
        let kept = server.bench.folder.versions(&name)?;
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
