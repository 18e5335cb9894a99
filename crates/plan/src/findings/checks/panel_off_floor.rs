//! A floor panel that does not fill the form's floor.

use crate::findings::ways::{one, ring_key};
use files::key::KeyPath;
use files::remedy::{Remedy, Way};
use files::units::Unit;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::message::{Message, Reading, Value};
use files::say;

/// Wood is missing under or over the panel.
pub struct PanelOffFloor;

impl Check for PanelOffFloor {
    fn key(&self) -> &'static str {
        "panel-off-floor"
    }

    fn asks(&self) -> &'static str {
        "does the floor panel reach from the foot's recess to the floor's face?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::SOLID_FLOOR]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let form = &piece.form;
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            for (r, ring) in section.rings.iter().enumerate() {
                let Some(panel) = &ring.let_in else {
                    continue;
                };
                let low = form.foot_recess().max(ring.spans.0);
                let high = form.floor_top().min(ring.spans.1);
                let under = ring.spans.0 + panel.above;
                let over = under + panel.thickness;
                let (missing_low, missing_high) = (under - low, high - over);
                let mut add = |path: KeyPath, what: Message, remedy: Remedy, figure, limit| {
                    out.push(found(
                        self,
                        Said {
                            severity: Severity::Stops,
                            subject: Subject {
                                section: Some(s),
                                ring: Some(r),
                                ..Subject::default()
                            },
                            path,
                            what,
                            remedy,
                        },
                        (Amount::Length(figure), Amount::Length(limit)),
                        Working::new(
                            "panel's underside <= foot's recess, panel's face >= floor's face",
                            limits::SOLID_FLOOR.source,
                        )
                        .with("ring's underside", Amount::Length(ring.spans.0))
                        .with("foot's recess", Amount::Length(form.foot_recess()))
                        .with("floor's face", Amount::Length(form.floor_top())),
                    ));
                };
                // A ring that the floor does not run through needs no panel here.
                if !high.exceeds(low) {
                    continue;
                }
                let key = ring_key(piece, s, r).floor();
                let panel_path = ring_path(piece, s, r).floor();
                let name = || ring_name(piece, s, r);
                if missing_low.exceeds(limits::SKIN) {
                    let would_do = Reading::down((low - ring.spans.0).max(Length::ZERO));
                    // Set lower it would end lower too.
                    let lowest = would_do.length(Unit::Mm).min(would_do.length(Unit::Inch));
                    let thick = Reading::up(panel.thickness.max(high - ring.spans.0 - lowest));
                    add(
                        panel_path.above(),
                        say!(
                            "the floor panel of {name} begins {missing_low} above the foot's recess: that much of the floor is missing",
                            name = name(),
                            missing_low = Value::By(missing_low),
                        ),
                        one(
                            say!(
                                "set the panel at most {would_do} above the ring's underside",
                                would_do = would_do,
                            ),
                            Way::new(say!(
                                "set the panel {would_do} above the ring's underside",
                                would_do = would_do,
                            ))
                            .set(key.above(), would_do)
                            .set(key.thickness(), thick),
                        ),
                        under,
                        low,
                    );
                }
                if missing_high.exceeds(limits::SKIN) {
                    let would_do = Reading::up(high - under);
                    add(
                        panel_path.thickness(),
                        say!(
                            "the floor panel of {name} ends {missing_high} below the floor's face: that much of the floor is missing",
                            name = name(),
                            missing_high = Value::By(missing_high),
                        ),
                        one(
                            say!("a panel at least {would_do} thick", would_do = would_do),
                            Way::new(say!("make the panel {would_do} thick", would_do = would_do))
                                .set(key.thickness(), would_do),
                        ),
                        over,
                        high,
                    );
                }
            }
        }
        out
    }
}
