//! Looking at a piece: what is at a point, pictures, and the drawings of operations.

use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use editor::answers::{Reader, look};
use editor::open_projects::Revision;
use editor::pictures::{Asked, What};
use editor::store::StoreError;
use editor::wire::{PageSpelling, PageUnit};
use glam::DVec3;
use serde::Deserialize;

use super::Server;
use super::answer::{broken, disk, either, json, nowhere};
use super::jobs::{Jobs, Pool};

/// Which version is asked about, and in which unit.
#[derive(Deserialize)]
pub struct Asking {
    v: Option<String>,
    unit: Option<PageUnit>,
    spelling: Option<PageSpelling>,
}

/// A point of the piece, mm.
#[derive(Deserialize)]
pub struct Point {
    x: f64,
    y: f64,
    z: f64,
    v: Option<String>,
    unit: Option<PageUnit>,
    spelling: Option<PageSpelling>,
}

/// An answer about one version, found off the answering threads.
async fn of_version(
    server: Arc<Server>,
    pool: fn(&Jobs) -> &Pool,
    name: String,
    asking: Asking,
    job: impl FnOnce(&Revision, Reader) -> Response + Send + 'static,
) -> Response {
    let working = server.clone();
    let done = pool(&server.jobs).run(move |_| -> Result<Response, StoreError> {
        let revision = look::version(&working.projects, &name, asking.v.as_deref())?;
        let reader = Reader {
            unit: asking.unit,
            spelling: asking.spelling,
        };
        Ok(revision.map_or_else(nowhere, |revision| job(&revision, reader)))
    });
    either(done.await.map(|answer| answer.unwrap_or_else(|t| disk(&t))))
}

/// How long a browser may keep what was asked for: a named version never changes.
fn kept(version: Option<&str>) -> &'static str {
    if version.is_some() {
        "private, max-age=31536000, immutable"
    } else {
        "no-cache"
    }
}

/// `GET /api/piece/{name}/at?x=&y=&z=&v=&unit=`
pub async fn at(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(point): Query<Point>,
) -> Response {
    let Point { x, y, z, .. } = point;
    let asking = Asking {
        v: point.v,
        unit: point.unit,
        spelling: point.spelling,
    };
    of_version(
        server,
        |jobs| &jobs.quick,
        name,
        asking,
        move |revision, reader| {
            let spot = look::at(revision, reader, DVec3::new(x, y, z));
            spot.map_or_else(|| StatusCode::NO_CONTENT.into_response(), |s| json(&s))
        },
    )
    .await
}

/// `GET /api/piece/{name}/operation/{number}/drawing.svg?v=&unit=`
pub async fn drawing(
    State(server): State<Arc<Server>>,
    Path((name, number)): Path<(String, usize)>,
    Query(asking): Query<Asking>,
) -> Response {
    let keep = kept(asking.v.as_deref());
    of_version(
        server,
        |jobs| &jobs.pictures,
        name,
        asking,
        move |revision, reader| {
            look::drawing(revision, reader, number).map_or_else(nowhere, |svg| {
                let headers = [
                    (header::CONTENT_TYPE, "image/svg+xml"),
                    (header::CACHE_CONTROL, keep),
                ];
                (headers, svg).into_response()
            })
        },
    )
    .await
}

/// How a picture is wanted.
#[derive(Deserialize)]
pub struct Wanted {
    v: Option<String>,
    w: Option<u32>,
    az: Option<f64>,
    z: Option<f64>,
    grain: Option<u8>,
    upto: Option<usize>,
}

/// `GET /api/piece/{name}/picture/{what}.png?v=&w=&az=&z=&grain=&upto=`
pub async fn picture(
    State(server): State<Arc<Server>>,
    Path((name, what)): Path<(String, String)>,
    Query(wanted): Query<Wanted>,
) -> Response {
    match what.strip_suffix(".png").and_then(What::named) {
        Some(what) => painted(server, name, what, wanted).await,
        None => nowhere(),
    }
}

/// `GET /api/shelf/{name}/picture.png?v=&w=`
pub async fn portrait(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    let wanted = Wanted {
        w: wanted.w.or(Some(360)),
        ..wanted
    };
    painted(server, name, What::Portrait, wanted).await
}

async fn painted(server: Arc<Server>, name: String, what: What, wanted: Wanted) -> Response {
    let asked = Asked {
        what,
        width: wanted.w.unwrap_or(1024),
        azimuth: wanted.az.filter(|a| a.is_finite()).unwrap_or(0.0),
        height: wanted.z.unwrap_or(0.0),
        grain: wanted.grain.unwrap_or(1) != 0,
        upto: wanted.upto,
    };
    let painting = server.clone();
    let keep = kept(wanted.v.as_deref());
    let done = server
        .jobs
        .pictures
        .run(move |job| -> Result<Response, StoreError> {
            let Some(revision) = look::version(&painting.projects, &name, wanted.v.as_deref())?
            else {
                return Ok(nowhere());
            };
            if revision.settled.piece.is_none() {
                return Ok(nowhere());
            }
            let painted = || look::picture(&painting.portraits, &revision, &asked);
            let Some(png) = job.spread(painted) else {
                return Ok(broken());
            };
            let headers = [
                (header::CONTENT_TYPE, "image/png"),
                (header::CACHE_CONTROL, keep),
            ];
            Ok((headers, png).into_response())
        });
    either(done.await.map(|answer| answer.unwrap_or_else(|t| disk(&t))))
}
