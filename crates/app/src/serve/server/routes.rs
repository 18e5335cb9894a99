//! Which address does what.

use std::sync::Arc;

use axum::Router;
use axum::middleware::from_fn_with_state;
use axum::routing::{get, post};

use super::{Server, answer, events, guard, look, page, papers, piece, printed, shelf, workshop};

/// Every address of the server, behind its guard.
pub fn router(server: Arc<Server>) -> Router {
    Router::new()
        .route("/", get(page::index))
        .route("/assets/{*path}", get(page::asset))
        .route(
            "/favicon.svg",
            get(|headers| page::beside("favicon.svg", headers)),
        )
        .route(
            "/favicon.ico",
            get(|headers| page::beside("favicon.ico", headers)),
        )
        .route("/api/shelf", get(shelf::shelf))
        .route("/api/shelf/new", post(shelf::new))
        .route("/api/shelf/import", post(shelf::import))
        .route("/api/shelf/{name}/file", get(shelf::file))
        .route("/api/shelf/{name}/picture.png", get(look::portrait))
        .route("/api/shelf/{name}/duplicate", post(shelf::duplicate))
        .route("/api/shelf/{name}/rename", post(shelf::rename))
        .route("/api/shelf/{name}/delete", post(shelf::delete))
        .route("/api/bin/{id}/restore", post(shelf::restore))
        .route("/api/workshop", get(workshop::view).post(workshop::change))
        .route("/api/piece/{name}", get(piece::view))
        .route("/api/piece/{name}/edit", post(piece::edit))
        .route("/api/piece/{name}/undo", post(piece::undo))
        .route("/api/piece/{name}/redo", post(piece::redo))
        .route("/api/piece/{name}/take", post(piece::take))
        .route(
            "/api/piece/{name}/text",
            get(piece::text).post(piece::write),
        )
        .route("/api/piece/{name}/versions", get(piece::versions))
        .route("/api/piece/{name}/events", get(events::events))
        .route("/api/piece/{name}/at", get(look::at))
        .route("/api/piece/{name}/picture/{what}", get(look::picture))
        .route(
            "/api/piece/{name}/operation/{number}/drawing.svg",
            get(look::drawing),
        )
        .route("/api/piece/{name}/plan.txt", get(papers::text))
        .route("/api/piece/{name}/exact.txt", get(papers::exact))
        .route("/api/piece/{name}/drawings.zip", get(papers::drawings))
        .route("/api/piece/{name}/plan.pdf", get(printed::pdf))
        .route("/api/piece/{name}/templates.zip", get(printed::templates))
        .fallback(async || answer::nowhere())
        .method_not_allowed_fallback(async || {
            answer::refuse(
                axum::http::StatusCode::METHOD_NOT_ALLOWED,
                "this cannot be done here",
                "go back to the shelf",
            )
        })
        .layer(from_fn_with_state(server.clone(), guard::check))
        .with_state(server)
}
