//! Loops that run into the floor on the inside.

use crate::findings::ways::one;
use files::remedy::Remedy;
use geometry::Length;
use geometry::Portable;
use piece::band::Loops;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::key::KeyPath;
use files::message::{Reading, Value, at_least};
use files::say;

/// On the inside wall the loops are cut off.
pub struct LoopMeetsFloor;

impl Check for LoopMeetsFloor {
    fn key(&self) -> &'static str {
        "loop-meets-floor"
    }

    fn asks(&self) -> &'static str {
        "are the loops whole on the inside, above the floor?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::FLOOR_FACE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let views = BandView::each_placed(survey);
        let found = views.iter().filter_map(|view| {
            let loops = &view.band.loops;
            if whole(view, loops) {
                return None;
            }
            let floor = view.piece.form.floor_top() - view.base();
            let lowest = loops.height - below_middle(view, loops)?;
            let shows = view.band.inside.top.is_some();
            let (path, mut remedy) = self.remedy(view);
            remedy.words = say!("{remedy}, if they are to be whole inside", remedy = remedy.words);
            Some(found(self, Said {
severity: Severity::WorthKnowing,
subject: view.subject(),
path,
what: say!(
                    "inside, {loops} run into the floor: at the wall they would reach {ength} below its face{either}",
                    loops = view.name(),
                    ength = Value::By((floor - lowest).max(Length::ZERO)),
                    either = if shows { "" } else { ", and their tops do not show either" },
                ),
remedy,
},
(Amount::Length(view.base() + lowest), Amount::Length(view.piece.form.floor_top())),
Working::new(
                        "middle - inner radius at the floor x tan(tilt) - removed / (2 cos(tilt)) >= floor's face",
                        limits::FLOOR_FACE.source,
                    )
                    .with("middle", Amount::Length(view.base() + loops.height))
                    .with("tilt", Amount::Angle(loops.tilt))
                    .with("removed", Amount::Fine(loops.thickness)),
))
        });
        found.collect()
    }
}

impl LoopMeetsFloor {
    fn remedy(&self, view: &BandView<'_>) -> (KeyPath, Remedy) {
        let floor = view.piece.form.floor_top() - view.base();
        let height = Reading::tried(false, |unit| {
            let mut loops = view.band.loops.clone();
            // With a reach the tilt follows the height: a few rounds settle it.
            for _ in 0..8 {
                let height = at_least(floor + below_middle(view, &loops)?, unit.step());
                let moved = view.moved(height)?;
                if whole(view, &moved) && view.as_good(&moved) {
                    return Some(height);
                }
                loops = moved;
            }
            None
        });
        if let Some(height) = height {
            return (
                view.path().height(),
                one(
                    say!(
                        "a height of at least {height} for the loops' middle",
                        height = height
                    ),
                    view.height_way(height),
                ),
            );
        }
        match view.flatter(|l| whole(view, l)) {
            Some(flatter) => (view.tilt_path(), flatter),
            None => (
                view.path().height(),
                say!("a taller section that lets the loops' middle stand higher").into(),
            ),
        }
    }
}

fn whole(view: &BandView<'_>, loops: &Loops) -> bool {
    let edges = loops.edges(&|z| view.inner(z));
    edges.bottom.is_some() && edges.bottom_upper_edge.is_some()
}

/// How far below their middle the loops reach at the inner wall's foot.
fn below_middle(view: &BandView<'_>, loops: &Loops) -> Option<Length> {
    let side = view.piece.form.inside();
    let radius = side.radius(side.lowest())?;
    let reach = radius * loops.tilt.as_rad().tangent() + BandView::half_along_axis(loops);
    Some(Length::mm(reach))
}
