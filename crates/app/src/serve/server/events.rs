//! The stream of a piece's events.

use std::convert::Infallible;
use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::sse::{Event as Line, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use editor::hold::hold;
use editor::wire::Event;
use tokio::sync::broadcast;
use tokio_stream::StreamExt;
use tokio_stream::wrappers::BroadcastStream;

use super::Server;
use super::answer::{disk, either, quick, refuse};

/// Events that a slow page may fall behind.
const BEHIND: usize = 64;

/// `GET /api/piece/{name}/events`
pub async fn events(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let Ok(place) = server.streams.clone().try_acquire_owned() else {
        return refuse(
            StatusCode::SERVICE_UNAVAILABLE,
            "too many pages are open",
            "close some of them",
        );
    };
    let listening = quick(server, move |server| {
        let project = server.projects.project(&name)?;
        let (sender, listener) = broadcast::channel::<Event>(BEHIND);
        hold(&project).listen(move |event| sender.send(event.clone()).is_ok());
        Ok(listener)
    });
    either(listening.await.map(|listener| match listener {
        Err(trouble) => disk(&trouble),
        Ok(listener) => {
            let stream = BroadcastStream::new(listener).map(move |event| {
                // The place is kept as long as the stream is.
                let _ = &place;
                // A page that fell behind looks at the piece anew.
                let event = event.unwrap_or(Event::Behind {});
                let line = Line::default().json_data(&event).unwrap_or_default();
                Ok::<Line, Infallible>(line)
            });
            Sse::new(stream)
                .keep_alive(KeepAlive::default())
                .into_response()
        }
    }))
}
