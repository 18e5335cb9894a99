//! Connections: only from this machine, not too many, none that idles for ever.

use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;
use tokio_io_timeout::TimeoutStream;

use super::guard::Guard;
use super::jobs::Jobs;
use super::{Server, routes};
use crate::serve::store::Folder;
use editor::open_projects::OpenProjects;
use editor::pictures::Portraits;

/// Connections at once. A browser keeps six for each site.
const CONNECTIONS: usize = 256;
/// A request's head must be here by then; so long may a connection idle.
const HEAD_TIME: Duration = Duration::from_secs(15);
/// So long may a reader take no byte of an answer.
const WRITE_TIME: Duration = Duration::from_secs(30);
/// How often files are looked at for changes.
const LOOK: Duration = Duration::from_millis(400);
/// Largest head of a request, bytes.
const HEAD: usize = 32 << 10;

/// A server that is ready.
pub struct Listening {
    /// The address with the token.
    pub address: String,
    listener: TcpListener,
    router: Router,
    server: Arc<Server>,
}

/// Opens a folder at a port of this machine; port 0 takes any that is free.
pub async fn listen(folder: Folder, port: u16) -> Result<Listening, String> {
    let at = SocketAddr::from((Ipv4Addr::LOCALHOST, port));
    let listener = TcpListener::bind(at)
        .await
        .map_err(|e| format!("port {port}: {e}"))?;
    let port = listener.local_addr().map_err(|e| e.to_string())?.port();
    let server = Arc::new(Server {
        projects: OpenProjects::new(folder),
        guard: Guard::new(port)?,
        jobs: Jobs::new()?,
        portraits: Portraits::default(),
        streams: Arc::new(Semaphore::new(64)),
    });
    Ok(Listening {
        address: server.guard.address(),
        listener,
        router: routes::router(server.clone()),
        server,
    })
}

impl Listening {
    /// Answers until the program is ended.
    pub async fn serve(self) {
        let Listening {
            listener,
            router,
            server,
            ..
        } = self;
        tokio::spawn(watch(server));
        let room = Arc::new(Semaphore::new(CONNECTIONS));
        loop {
            let stream = match listener.accept().await {
                Ok((stream, from)) if from.ip().is_loopback() => stream,
                Ok(_) => continue,
                Err(_) => {
                    // Out of file handles, most likely: those that idle are let go soon.
                    tokio::time::sleep(Duration::from_millis(50)).await;
                    continue;
                }
            };
            match room.clone().try_acquire_owned() {
                Ok(place) => {
                    let router = router.clone();
                    tokio::spawn(async move {
                        converse(stream, router).await;
                        drop(place);
                    });
                }
                Err(_) => turn_away(&stream),
            }
        }
    }
}

async fn converse(stream: TcpStream, router: Router) {
    // Small answers go out at once; without it the picture waits for a timer.
    let _ = stream.set_nodelay(true);
    let mut stream = TimeoutStream::new(stream);
    stream.set_write_timeout(Some(WRITE_TIME));
    let service = TowerToHyperService::new(router);
    // How a conversation ends, well or badly, is the other side's business.
    let _ = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(HEAD_TIME)
        .max_buf_size(HEAD)
        .max_headers(64)
        .serve_connection(TokioIo::new(Box::pin(stream)), service)
        .await;
}

/// A short answer without waiting; then the connection ends.
fn turn_away(stream: &TcpStream) {
    let _ = stream.try_write(
        b"HTTP/1.1 503 Service Unavailable\r\nconnection: close\r\ncontent-length: 0\r\n\r\n",
    );
}

async fn watch(server: Arc<Server>) {
    let mut tick = tokio::time::interval(LOOK);
    tick.set_missed_tick_behavior(tokio::time::MissedTickBehavior::Delay);
    loop {
        tick.tick().await;
        let server = server.clone();
        // A look that broke is no reason not to look again.
        let _ = tokio::task::spawn_blocking(move || server.projects.look_around()).await;
    }
}
