//! Looking at a piece: what is at a point, pictures, and the drawings of operations.

use std::sync::Arc;

use drawings::to_svg;
use glam::DVec3;

use super::Reader;
use crate::hold::hold;
use crate::open_projects::{OpenProjects, Revision};
use crate::pictures::{self, Asked, Portraits, paint};
use crate::store::StoreError;
use crate::view;
use crate::wire::{Spot, StepKind};

/// The version asked for, if it is still known; the one that stands where none is.
///
/// # Errors
/// There is no such project, or it cannot be read.
pub fn version(
    projects: &OpenProjects,
    name: &str,
    version: Option<&str>,
) -> Result<Option<Arc<Revision>>, StoreError> {
    let project = projects.project(name)?;
    let project = hold(&project);
    Ok(match version {
        Some(version) => project.version(version),
        None => project.now.clone(),
    })
}

/// What is at a point, mm, and how it came there; nothing outside the wood.
pub fn at(revision: &Revision, reader: Reader, point: DVec3) -> Option<Spot> {
    point
        .is_finite()
        .then(|| view::spot(revision, reader.language(Some(revision)), point))
        .flatten()
}

/// The drawing of an operation, counted from 1, as SVG.
pub fn drawing(revision: &Revision, reader: Reader, number: usize) -> Option<String> {
    let language = reader.language(Some(revision));
    let shown = revision.shown(language);
    let piece = shown.settled.piece.as_ref()?;
    let operation = shown.plan().operations.get(number.checked_sub(1)?)?;
    pictures::drawing(piece, operation, language).map(|drawing| to_svg(&drawing))
}

/// A picture as a PNG; nothing where there is no piece. It is painted on all cores.
pub fn picture(portraits: &Portraits, revision: &Revision, asked: &Asked) -> Option<Vec<u8>> {
    let piece = revision.settled.piece.as_ref()?;
    if let Some(png) = portraits.get(&revision.version, asked) {
        return Some(png);
    }
    let done = asked.upto.map(|upto| loops_done(revision, upto));
    let png = paint(piece, done.as_deref(), asked)?;
    portraits.keep(&revision.version, asked, &png);
    Some(png)
}

/// How many loops of each section are sawn when a stage is done.
fn loops_done(revision: &Revision, upto: usize) -> Vec<(usize, usize)> {
    let shown = revision.shown(revision.language());
    let Some(piece) = &shown.settled.piece else {
        return Vec::new();
    };
    view::steps(piece, &shown.plan().operations)
        .iter()
        .take(upto.saturating_add(1))
        .filter(|s| s.kind == StepKind::Loop)
        .filter_map(|s| s.section.map(|s| (s as usize, 1)))
        .collect()
}
