//! The workshop that all projects share.

use std::sync::Arc;

use axum::extract::{Query, Request, State};
use axum::response::Response;
use editor::answers::{Reader, workshop};

use super::Server;
use super::answer::{answered, asked};

/// `GET /api/workshop?unit=`
pub async fn view(State(server): State<Arc<Server>>, Query(reader): Query<Reader>) -> Response {
    answered(server, move |projects| Ok(workshop::view(projects, reader))).await
}

/// `POST /api/workshop?unit=`
pub async fn change(
    State(server): State<Arc<Server>>,
    Query(reader): Query<Reader>,
    request: Request,
) -> Response {
    asked(server, request, move |projects, asked| {
        workshop::change(projects, reader, asked)
    })
    .await
}
