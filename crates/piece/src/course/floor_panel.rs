//! A closed ring of segments round a floor panel.

use geometry::Length;

use super::{Asked, Between, Construction, Course, Cut, Joint, Opening};
use crate::model::{CourseBody, PanelBody, WoodId};
use files::design::{Board, RingSpec};

/// A floor panel.
#[derive(Debug, Clone)]
pub struct Panel {
    /// Its wood.
    pub wood: WoodId,
    /// How its board was sawn from the log.
    pub board: Board,
    /// Its thickness.
    pub thickness: Length,
    /// Its underside above the ring's.
    pub above: Length,
    /// Its diameter, groove included.
    pub diameter: Length,
    /// How far its edge reaches into the finished wall.
    pub groove: Length,
    /// Loose in its groove.
    pub floating: bool,
    /// Room left at its edge.
    pub gap: Length,
}

/// Mitred segments round a panel that is let into their inner side.
#[derive(Debug)]
pub struct FloorPanel;

impl Construction for FloorPanel {
    fn word(&self) -> &'static str {
        "panel"
    }

    fn example(&self) -> &'static str {
        "floor = { wood = \"cherry\" }"
    }

    fn answers_to(&self, spec: &RingSpec) -> bool {
        spec.floor.is_some()
    }

    /// It only has to reach in as far as the wall at the floor.
    fn inner(&self, asked: &dyn Asked) -> Option<Length> {
        asked.inner_at_floor()
    }

    fn shape(&self, asked: &mut dyn Asked, course: &mut Course) {
        if let Some(floor) = asked.spec().floor.clone() {
            let inner = asked.inner_at_floor().unwrap_or(Length::ZERO);
            course.let_in = Some(asked.panel(&floor, inner));
        }
    }

    fn joints(&self, course: &Course) -> Vec<Joint> {
        let edge = course.let_in.as_ref().map(|panel| Joint {
            between: Between::Edge,
            count: 1,
            face: (panel.diameter * std::f64::consts::PI, panel.thickness),
            glued: !panel.floating,
        });
        [course.end_joints()].into_iter().chain(edge).collect()
    }

    fn cuts(&self, course: &Course) -> Vec<Cut> {
        let mut cuts = course.segment_cuts();
        cuts.extend(course.let_in.as_ref().map(|panel| Cut {
            wood: panel.wood,
            board: panel.board,
            count: 1,
            length: panel.diameter,
            width: panel.diameter,
            thickness: panel.thickness,
            mitre: None,
            let_in: true,
        }));
        cuts
    }

    fn openings(&self, course: &Course) -> Vec<Opening> {
        let loose = course.let_in.iter().filter(|p| p.gap.exceeds(Length::ZERO));
        loose
            .map(|panel| {
                let edge = panel.diameter / 2.0;
                Opening::Edge {
                    radii: (edge, edge + panel.gap),
                    heights: (panel.above, panel.above + panel.thickness),
                }
            })
            .collect()
    }

    fn body(&self, course: &Course) -> CourseBody {
        let body = super::closed_ring::segments(course);
        let Some(panel) = &course.let_in else {
            return body;
        };
        let (low, high) = course.heights();
        let bottom = low + panel.above.as_mm();
        let flat = panel.diameter.as_mm() / 2.0;
        body.with_panel(&PanelBody {
            wood: panel.wood,
            bottom,
            top: (bottom + panel.thickness.as_mm()).min(high),
            flat,
            groove: flat + panel.gap.as_mm(),
        })
    }
}
