//! The workshop that all projects share.

use std::sync::Arc;

use axum::extract::{Query, Request, State};
use axum::response::Response;

use super::Server;
use super::answer::{LARGEST, quick, read};
use super::shelf::{InUnit, answer};
use crate::serve::hold::hold;
use crate::serve::open_projects::Shop;
use crate::serve::store::{Saved, StoreError};
use crate::serve::view::{unit, workshop_ground, workshop_view};
use crate::serve::wire::{Problem, WorkshopEdited, WorkshopRequest, WorkshopView};
use files::edit::apply;
use files::key;

/// `GET /api/workshop?unit=`
pub async fn view(State(server): State<Arc<Server>>, Query(wanted): Query<InUnit>) -> Response {
    let done = quick(server, move |server| -> Result<WorkshopView, StoreError> {
        server.projects.look_around();
        let shop = server.projects.shop();
        Ok(workshop_view(
            &shop,
            wanted.unit.map_or(shop.workshop.unit, unit),
        ))
    });
    answer(done.await)
}

/// `POST /api/workshop?unit=`
pub async fn change(
    State(server): State<Arc<Server>>,
    Query(wanted): Query<InUnit>,
    request: Request,
) -> Response {
    let asked = match read::<WorkshopRequest>(request, LARGEST).await {
        Ok(asked) => asked,
        Err(answer) => return *answer,
    };
    let done = quick(
        server,
        move |server| -> Result<WorkshopEdited, StoreError> {
            let _shelf = hold(&server.projects.shelf);
            server.projects.look_around();
            let shop = server.projects.shop();
            let page = wanted.unit.map_or(shop.workshop.unit, unit);
            let same = |problems, conflict| {
                Ok(WorkshopEdited {
                    workshop: None,
                    problems,
                    conflict,
                })
            };
            if shop.version != asked.base {
                return same(Vec::new(), true);
            }
            if shop.seen.is_none()
                && let Some(problem) = shop.problems.first()
            {
                // There is a file that cannot be read; it is not written over.
                return Err(StoreError {
                    remedy: Some("move that file away, or save it as plain text (UTF-8)"),
                    ..StoreError::new(problem.what.clone())
                });
            }
            let text = match saws_written(&shop, &asked).and_then(|text| {
                apply(&text, &asked.edits, &workshop_ground(&shop, page))
                    .map_err(|p| vec![p.into()])
            }) {
                Ok(text) => text,
                Err(problems) => return same(problems, false),
            };
            let changed = Shop::from_text(&text);
            if !changed.problems.is_empty() {
                return same(changed.problems, false);
            }
            let folder = &server.projects.folder;
            if folder.save_workshop(text.as_bytes(), shop.seen.as_deref())? == Saved::Overtaken {
                return same(Vec::new(), true);
            }
            server.projects.set_shop(Shop {
                seen: Some(changed.version.clone()),
                ..changed
            });
            let shop = server.projects.shop();
            Ok(WorkshopEdited {
                workshop: Some(workshop_view(&shop, page)),
                problems: Vec::new(),
                conflict: false,
            })
        },
    );
    answer(done.await)
}

/// The workshop's text, with the usual saws written out if one of them is to be changed
/// and the file names none.
fn saws_written(shop: &Shop, asked: &WorkshopRequest) -> Result<String, Vec<Problem>> {
    use crate::serve::wire::Edit;
    let saws = key::shop().saw(0).path();
    let of_saws = asked.edits.iter().any(|e| {
        let (Edit::Set { path, .. }
        | Edit::Add { path, .. }
        | Edit::Remove { path }
        | Edit::Move { path, .. }) = e;
        path.steps().first() == saws.steps().first()
    });
    if !of_saws || shop.workshop.saws.is_said() {
        return Ok(shop.text.clone());
    }
    let saws = files::write::saws_text(&shop.workshop);
    Ok(format!("{}\n\n{saws}", shop.text.trim_end()))
}
