//! The plan as text, and drawings, to take away.

use files::message::Language;
use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use piece::work::Cancelled;
use plan::tolerance::{Limits, Makings, study};
use serde::Deserialize;

use super::Server;
use super::answer::{disk, either, given_up, nowhere};
use super::archive;
use super::jobs::{Job, Jobs, Pool};
use editor::answers::Reader;
use editor::hold::hold;
use editor::open_projects::Revision;
use editor::store::StoreError;
use editor::view::encoded;
use editor::wire::{PageSpelling, PageUnit};

/// How papers are wanted.
#[derive(Deserialize)]
pub struct Wanted {
    pub(super) unit: Option<PageUnit>,
    pub(super) spelling: Option<PageSpelling>,
    /// Show it in the browser instead of saving it.
    pub(super) inline: Option<u8>,
    /// The paper's size.
    pub(super) paper: Option<String>,
    /// Only these sheets, parted by commas.
    pub(super) only: Option<String>,
    /// The day to print.
    pub(super) date: Option<String>,
}

/// What a paper is made of.
pub(super) struct Order<'a> {
    pub revision: &'a Revision,
    pub name: &'a str,
    pub wanted: &'a Wanted,
    pub job: &'a Job,
}

impl Order<'_> {
    /// Whom it is written for.
    pub fn language(&self) -> Language {
        let (unit, spelling) = (self.wanted.unit, self.wanted.spelling);
        Reader { unit, spelling }.language(Some(self.revision))
    }
}

/// Makes one paper of what stands, in a pool of its own.
pub(super) async fn make(
    server: Arc<Server>,
    pool: fn(&Jobs) -> &Pool,
    name: String,
    wanted: Wanted,
    paper: impl FnOnce(&Order<'_>) -> Response + Send + 'static,
) -> Response {
    let working = server.clone();
    let done = pool(&server.jobs).run(move |job| -> Result<Response, StoreError> {
        let project = working.projects.project(&name)?;
        let now = hold(&project).now.clone();
        Ok(now.map_or_else(nowhere, |revision| {
            paper(&Order {
                revision: &revision,
                name: &name,
                wanted: &wanted,
                job,
            })
        }))
    });
    either(done.await.map(|answer| answer.unwrap_or_else(|t| disk(&t))))
}

/// A file to save, or to show.
pub(super) fn file(bytes: Vec<u8>, kind: &'static str, name: &str, inline: bool) -> Response {
    named(bytes.into_response(), kind, name, inline)
}

/// An answer as a file of a name.
pub(super) fn named(
    mut response: Response,
    kind: &'static str,
    name: &str,
    inline: bool,
) -> Response {
    let out = response.headers_mut();
    out.insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
    let how = if inline { "inline" } else { "attachment" };
    let named = format!("{how}; filename*=UTF-8''{}", encoded(name));
    if let Ok(value) = HeaderValue::from_str(&named) {
        out.insert(header::CONTENT_DISPOSITION, value);
    }
    response
}

/// `GET /api/piece/{name}/plan.txt?unit=`
pub async fn text(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    make(
        server,
        |jobs| &jobs.quick,
        name,
        wanted,
        |order| {
            let plan = order.revision.shown(order.language()).plan();
            let text = plan::render_text(plan, 80, false);
            file(
                text.into_bytes(),
                "text/plain; charset=utf-8",
                &format!("{}.txt", order.name),
                order.wanted.inline != Some(0),
            )
        },
    )
    .await
}

/// `GET /api/piece/{name}/exact.txt?unit=`: the study of tolerances, with its working.
pub async fn exact(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    make(
        server,
        |jobs| &jobs.papers,
        name,
        wanted,
        |order| {
            let Some(piece) = &order.revision.settled.piece else {
                return nowhere();
            };
            let makings = Makings {
                count: 10_000,
                seed: 1,
            };
            let limits = Limits::default();
            let language = order.language();
            let studied = || study(piece, makings, &limits, language, &order.job.cancel);
            match order.job.spread(studied) {
                Ok(study) => file(
                    plan::render_study(&study, 80, true).into_bytes(),
                    "text/plain; charset=utf-8",
                    &format!("{}-exact.txt", order.name),
                    order.wanted.inline != Some(0),
                ),
                Err(Cancelled) => given_up(),
            }
        },
    )
    .await
}

/// `GET /api/piece/{name}/drawings.zip?unit=`
pub async fn drawings(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    make(
        server,
        |jobs| &jobs.papers,
        name,
        wanted,
        |order| {
            let language = order.language();
            let Some(piece) = &order.revision.settled.piece else {
                return nowhere();
            };
            archive::answer(order.job, &format!("{}-drawings.zip", order.name), || {
                drawings::draw_all(piece, language, 2400)
            })
        },
    )
    .await
}
