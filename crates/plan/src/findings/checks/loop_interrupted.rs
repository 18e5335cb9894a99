//! Loops whose visible edges leave their section: the layer ends at the joint.

use files::message::Value;
use files::say;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};

/// On the finished wall a loop is not whole.
pub struct LoopInterrupted;

impl Check for LoopInterrupted {
    fn key(&self) -> &'static str {
        "loop-interrupted"
    }

    fn asks(&self) -> &'static str {
        "do the loops' edges on the finished outside stay within their section?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::SECTION_ENDS]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let views = BandView::each_placed(survey);
        views
            .iter()
            .filter(|v| v.interrupted(&v.band.loops))
            .map(|v| self.finding(v))
            .collect()
    }
}

impl LoopInterrupted {
    fn finding(&self, view: &BandView<'_>) -> Finding {
        let (edges, stacked) = (&view.band.outside, view.section.stacked);
        let last = view.section.bottom + stacked;
        let ends_piece = !(view.piece.form.height() - limits::UNSEEN).exceeds(last);
        let mut ways = Vec::new();
        match edges.bottom {
            Some(z) if !(-z).exceeds(limits::SKIN) => {}
            Some(z) => ways.push(say!("{z} below its underside", z = Value::By(-z))),
            None => ways.push(say!("below its underside and off the wall")),
        }
        match edges.top {
            Some(z) if !(z - stacked).exceeds(limits::SKIN) => {}
            Some(z) => ways.push(say!(
                "{stacked} above its top",
                stacked = Value::By(z - stacked),
            )),
            None if ends_piece => ways.push(say!("over the rim")),
            None => ways.push(say!("above its top and off the wall")),
        }
        let (path, remedy) = view.fitting();
        found(self, Said {
severity: Severity::Stops,
subject: view.subject(),
path,
what: say!(
                "on the finished outside {loops} would run {ways}: they end at the section's joint",
                loops = view.name(),
                ways = Value::list(ways),
            ),
remedy,
},
(Amount::Length(view.half_on_blank(&view.band.loops)), Amount::Length(view.band.loops.height.min(stacked - view.band.loops.height).max(Length::ZERO))),
Working::new(
                    "from the loops' middle to the furthest cut: radius x tan(tilt) + removed / (2 cos(tilt)) <= distance to the section's nearer end",
                    limits::SECTION_ENDS.source,
                )
                .with("radius of the blank", Amount::Length(view.section.blank_radius))
                .with("tilt", Amount::Text(Value::from(view.band.loops.tilt).into()))
                .with("removed", Amount::Fine(view.band.loops.thickness)),
)
    }
}
