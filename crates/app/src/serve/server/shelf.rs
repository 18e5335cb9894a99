//! The folder of projects, the bin and the workshop.

use std::sync::Arc;

use axum::extract::{Path, Query, Request, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use geometry::Length;
use piece::units::{Unit, parse_length};
use serde::Deserialize;

use super::Server;
use super::answer::{LARGEST, LARGEST_IMPORT, disk, either, json, read, work};
use crate::serve::desk::{Made, Shop, hold};
use crate::serve::file::apply;
use crate::serve::store::{Trouble, is_name, millis, name_from};
use crate::serve::view::{counts, encoded, page_unit, unit, workshop_ground, workshop_view};
use crate::serve::wire::{
    Binned, Counts, ImportRequest, Named, NewRequest, PageUnit, Problem, Project, RenameRequest,
    Shelf, Starter, WorkshopEdited, WorkshopRequest, WorkshopView,
};
use crate::starter::{self, Kind, Wish};

/// The page's unit.
#[derive(Deserialize)]
pub struct InUnit {
    unit: Option<PageUnit>,
}

fn answer<T: serde::Serialize>(done: Result<Result<T, Trouble>, Box<Response>>) -> Response {
    either(done.map(|value| value.map_or_else(|t| disk(&t), |v| json(&v))))
}

/// `GET /api/shelf?unit=`
pub async fn shelf(State(server): State<Arc<Server>>, Query(wanted): Query<InUnit>) -> Response {
    let page = wanted.unit.unwrap_or_default();
    answer(work(move || look(&server, unit(page))).await)
}

fn look(server: &Server, page: Unit) -> Result<Shelf, Trouble> {
    let folder = &server.bench.folder;
    let shop = server.bench.shop();
    let mut projects = Vec::new();
    for name in folder.names()? {
        let Ok(found) = folder.read(&folder.project(&name)?) else {
            continue;
        };
        let made = std::str::from_utf8(&found.bytes).map_err(|_| Vec::new());
        let made = made.and_then(|text| known(server, &name, text, &shop));
        let saved = millis(found.written);
        projects.push(match made {
            Ok(made) => Project {
                title: made.design.title.clone(),
                unit: page_unit(made.design.unit),
                saved,
                findings: counts(made.shown(made.design.unit).findings()),
                broken: false,
                picture: Some(format!(
                    "/api/shelf/{}/picture.png?v={}",
                    encoded(&name),
                    made.version
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
        starters: starters(page),
    })
}

/// A text worked out, at its desk so that its picture finds it.
fn known(
    server: &Server,
    name: &str,
    text: &str,
    shop: &Arc<Shop>,
) -> Result<Arc<Made>, Vec<Problem>> {
    let desk = server.bench.desk(name).map_err(|_| Vec::new())?;
    hold(&desk).make(text, shop)
}

/// The kinds with their usual measures.
const KINDS: [(Kind, &str, &str, [f64; 2], [&str; 2]); 4] = [
    (
        Kind::Bowl,
        "bowl",
        "Bowl",
        [110.0, 220.0],
        ["4 1/2 in", "9 in"],
    ),
    (
        Kind::Vase,
        "vase",
        "Vase",
        [250.0, 160.0],
        ["10 in", "6 1/2 in"],
    ),
    (
        Kind::Platter,
        "platter",
        "Platter",
        [54.0, 320.0],
        ["2 1/8 in", "12 1/2 in"],
    ),
    (
        Kind::Box,
        "box",
        "Box",
        [100.0, 120.0],
        ["4 in", "4 3/4 in"],
    ),
];

fn starters(page: Unit) -> Vec<Starter> {
    KINDS
        .iter()
        .map(|(_, kind, label, mm, inch)| {
            let shown = |i: usize| match page {
                Unit::Mm => format!("{} mm", mm[i]),
                Unit::Inch => inch[i].to_string(),
            };
            Starter {
                kind: (*kind).into(),
                label: (*label).into(),
                height: shown(0),
                diameter: shown(1),
                loops: 4,
                segments: 12,
                unit: page_unit(page),
            }
        })
        .collect()
}

fn problem(path: &str, what: String, remedy: String) -> Problem {
    Problem {
        path: Some(path.into()),
        what,
        remedy,
        ..Problem::default()
    }
}

/// What the maker asks for; every answer that cannot be used.
fn wish(asked: &NewRequest) -> Result<Wish, Vec<Problem>> {
    let mut problems = Vec::new();
    let unit = unit(asked.unit.unwrap_or_default());
    let found = KINDS.iter().find(|k| k.1 == asked.kind);
    if found.is_none() {
        problems.push(problem(
            "kind",
            "there is no such kind".into(),
            "choose bowl, vase, platter or box".into(),
        ));
    }
    let (kind, _, label, mm, inch) = found.unwrap_or(&KINDS[0]);
    let mut length = |path: &str, words: &Option<String>, usual: usize| {
        let usual_words = match unit {
            Unit::Mm => format!("{} mm", mm[usual]),
            Unit::Inch => inch[usual].to_string(),
        };
        let words = words.as_deref().map(str::trim).filter(|w| !w.is_empty());
        match parse_length(words.unwrap_or(&usual_words), unit) {
            Ok(length) => length,
            Err(e) => {
                problems.push(problem(
                    path,
                    format!("\"{}\" {}", words.unwrap_or(""), e.what),
                    e.remedy,
                ));
                Length::mm(100.0)
            }
        }
    };
    let (height, diameter) = (
        length("height", &asked.height, 0),
        length("diameter", &asked.diameter, 1),
    );
    let loops = asked.loops.unwrap_or(4);
    if loops == 1 || loops > 16 {
        problems.push(problem(
            "loops",
            format!("{loops} loops make no knot"),
            "2 to 16, or 0 for none".into(),
        ));
    }
    let segments = asked.segments.unwrap_or(12);
    if !(3..=144).contains(&segments) {
        problems.push(problem(
            "segments",
            format!("{segments} segments close no ring"),
            "3 to 144".into(),
        ));
    }
    let title = asked
        .title
        .as_deref()
        .map(str::trim)
        .filter(|t| !t.is_empty());
    let title: String = title
        .unwrap_or(label)
        .chars()
        .filter(|c| !c.is_control())
        .take(120)
        .collect();
    if problems.is_empty() {
        Ok(Wish {
            kind: *kind,
            title,
            height,
            diameter,
            loops: loops as usize,
            segments: segments as usize,
            unit,
        })
    } else {
        Err(problems)
    }
}

/// `POST /api/shelf/new`
pub async fn new(State(server): State<Arc<Server>>, request: Request) -> Response {
    let asked = match read::<NewRequest>(request, LARGEST).await {
        Ok(asked) => asked,
        Err(answer) => return *answer,
    };
    let done = work(move || {
        let wish = match wish(&asked) {
            Ok(wish) => wish,
            Err(problems) => {
                return Ok(Named {
                    name: None,
                    problems,
                });
            }
        };
        match starter::write(&wish) {
            Err(why) => {
                let remedy = "make it larger, or take fewer loops".to_string();
                let problems = vec![Problem {
                    what: why,
                    remedy,
                    ..Problem::default()
                }];
                Ok(Named {
                    name: None,
                    problems,
                })
            }
            Ok(text) => put(&server, &name_from(&wish.title), text.as_bytes()),
        }
    });
    answer(done.await)
}

/// Saves a text under a free name like the one wished for.
fn put(server: &Server, wished: &str, bytes: &[u8]) -> Result<Named, Trouble> {
    let folder = &server.bench.folder;
    let _shelf = hold(&server.bench.shelf);
    let name = folder.free(wished)?;
    folder.save(&name, bytes)?;
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
    let done = work(move || {
        if asked.text.len() > piece::reader::LARGEST_FILE {
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
        put(&server, &wished, asked.text.as_bytes())
    });
    answer(done.await)
}

/// `GET /api/shelf/{name}/file`
pub async fn file(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let done = work(move || -> Result<Response, Trouble> {
        let folder = &server.bench.folder;
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
pub async fn duplicate(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let done = work(move || {
        let folder = &server.bench.folder;
        let found = folder.read(&folder.project(&name)?)?;
        put(&server, &name, &found.bytes)
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
    let done = work(move || -> Result<Named, Trouble> {
        let to = asked.to.trim().to_string();
        if !is_name(&to) {
            let what = "a project cannot be called so".into();
            let remedy = "take letters, digits, spaces and - _ ( ) ' & , +".into();
            return Ok(Named {
                name: None,
                problems: vec![problem("to", what, remedy)],
            });
        }
        let _shelf = hold(&server.bench.shelf);
        server.bench.folder.rename_project(&name, &to)?;
        server.bench.put_away(&name);
        server.bench.put_away(&to);
        Ok(Named {
            name: Some(to),
            problems: Vec::new(),
        })
    });
    answer(done.await)
}

/// `POST /api/shelf/{name}/delete`
pub async fn delete(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let done = work(move || -> Result<Named, Trouble> {
        let _shelf = hold(&server.bench.shelf);
        server.bench.folder.delete(&name)?;
        server.bench.put_away(&name);
        Ok(Named {
            name: Some(name),
            problems: Vec::new(),
        })
    });
    answer(done.await)
}

/// `POST /api/bin/{id}/restore`
pub async fn restore(State(server): State<Arc<Server>>, Path(id): Path<String>) -> Response {
    let done = work(move || -> Result<Named, Trouble> {
        let _shelf = hold(&server.bench.shelf);
        let name = server.bench.folder.restore(&id)?;
        server.bench.put_away(&name);
        Ok(Named {
            name: Some(name),
            problems: Vec::new(),
        })
    });
    answer(done.await)
}

/// `GET /api/workshop?unit=`
pub async fn workshop(State(server): State<Arc<Server>>, Query(wanted): Query<InUnit>) -> Response {
    let done = work(move || -> Result<WorkshopView, Trouble> {
        server.bench.look_around();
        let shop = server.bench.shop();
        Ok(workshop_view(
            &shop,
            wanted.unit.map_or(shop.workshop.unit, unit),
        ))
    });
    answer(done.await)
}

/// `POST /api/workshop?unit=`
pub async fn change_workshop(
    State(server): State<Arc<Server>>,
    Query(wanted): Query<InUnit>,
    request: Request,
) -> Response {
    let asked = match read::<WorkshopRequest>(request, LARGEST).await {
        Ok(asked) => asked,
        Err(answer) => return *answer,
    };
    let done = work(move || -> Result<WorkshopEdited, Trouble> {
        let _shelf = hold(&server.bench.shelf);
        server.bench.look_around();
        let shop = server.bench.shop();
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
        let text = match saws_written(&shop, &asked).and_then(|text| {
            apply(&text, &asked.edits, &workshop_ground(&shop, page)).map_err(|p| vec![p])
        }) {
            Ok(text) => text,
            Err(problems) => return same(problems, false),
        };
        let changed = Shop::from_text(&text);
        if !changed.problems.is_empty() {
            return same(changed.problems, false);
        }
        let folder = &server.bench.folder;
        folder.replace(&folder.workshop(), text.as_bytes())?;
        server.bench.set_shop(changed);
        let shop = server.bench.shop();
        Ok(WorkshopEdited {
            workshop: Some(workshop_view(&shop, page)),
            problems: Vec::new(),
            conflict: false,
        })
    });
    answer(done.await)
}

/// The workshop's text, with the usual saws written out if one of them is to be changed
/// and the file names none.
fn saws_written(shop: &Shop, asked: &WorkshopRequest) -> Result<String, Vec<Problem>> {
    use crate::serve::wire::Edit;
    let of_saws = asked.edits.iter().any(|e| {
        let (Edit::Set { path, .. }
        | Edit::Add { path, .. }
        | Edit::Remove { path }
        | Edit::Move { path, .. }) = e;
        path.starts_with("saw")
    });
    if !of_saws || shop.workshop.gives("saw") {
        return Ok(shop.text.clone());
    }
    let mut with = shop.workshop.clone();
    with.given.insert("saw".into());
    let all = piece::write::workshop_text(&with);
    let saws = all.find("[[saw]]").map_or("", |at| &all[at..]);
    Ok(format!("{}\n\n{saws}", shop.text.trim_end()))
}
