//! The printed plan and its full-size templates.

use std::str::FromStr;
use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::Response;
use sheets::{Request, TypesetError};

use super::Server;
use super::answer::{broken, given_up, nowhere, refuse};
use super::archive;
use super::papers::{Wanted, file, make};

/// What is asked for, if all of its words are known.
fn request(wanted: &Wanted) -> Result<Request, String> {
    fn one<T: FromStr<Err: ToString>>(word: &str) -> Result<T, String> {
        let word: String = word.chars().take(40).collect();
        word.parse().map_err(|e: T::Err| e.to_string())
    }
    let given = |word: &Option<String>| word.clone().filter(|w| !w.is_empty());
    let only = given(&wanted.only).unwrap_or_default();
    Ok(Request {
        paper: given(&wanted.paper).map_or_else(|| Ok(Default::default()), |w| one(&w))?,
        only: only
            .split(',')
            .filter(|w| !w.is_empty())
            .map(one)
            .collect::<Result<_, _>>()?,
        date: given(&wanted.date).map(|w| one(&w)).transpose()?,
    })
}

/// `GET /api/piece/{name}/plan.pdf?unit=&paper=&only=&date=&inline=`
pub async fn pdf(
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
            let request = match request(order.wanted) {
                Ok(request) => request,
                Err(why) => {
                    return refuse(StatusCode::BAD_REQUEST, &why, "choose one that there is");
                }
            };
            let shown = order.revision.shown(order.language());
            let Some(piece) = &shown.settled.piece else {
                return nowhere();
            };
            let plan = shown.plan();
            let set = || sheets::pdf(piece, plan, &request, &order.job.cancel);
            match order.job.spread(set) {
                Ok(bytes) => file(
                    bytes,
                    "application/pdf",
                    &format!("{}.pdf", order.name),
                    order.wanted.inline == Some(1),
                ),
                Err(TypesetError::Cancelled(_)) => given_up(),
                Err(TypesetError::Fault(_)) => broken(),
            }
        },
    )
    .await
}

/// `GET /api/piece/{name}/templates.zip?unit=`
pub async fn templates(
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
            archive::answer(order.job, &format!("{}-templates.zip", order.name), || {
                sheets::template_files(piece, order.language())
            })
        },
    )
    .await
}
