//! Screws whose tips come where a tool will be.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::{Reading, Round};
use files::remedy::{Remedy, Way};
use files::say;
use files::workshop::Fixing;
use geometry::Length;

/// The faceplate's screws come too near the line where the piece is parted off.
pub struct ScrewTips;

impl Check for ScrewTips {
    fn key(&self) -> &'static str {
        "screw-tips"
    }

    fn asks(&self) -> &'static str {
        "do the faceplate's screws end well below the parting line?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::SCREWS_CLEAR]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let (holding, thick) = (&piece.workshop.holding, *piece.workshop.sled.waste_block);
        if *holding.fixing != Fixing::Screws {
            return Vec::new();
        }
        let left = thick - *holding.screw_bite;
        if !limits::SCREW_TIPS.exceeds(left) {
            return Vec::new();
        }
        let most = Reading::down(thick - limits::SCREW_TIPS);
        let shorter = most.length(piece.design.unit).exceeds(Length::mm(1.0));
        let way = shorter.then(|| {
            Way::new(say!("take screws that bite {most}", most = most))
                .set(key::holding().screw_bite(), most)
        });
        let thicker = Reading::rounded(*holding.screw_bite + limits::SCREW_TIPS, Round::Up, false);
        vec![found(
            self,
            Said {
                severity: Severity::Risky,
                subject: Subject::default(),
                path: key::holding().screw_bite(),
                what: if left.exceeds(Length::ZERO) {
                    say!(
                        "the screws end {left} below the joint on the waste block: the parting tool meets them",
                        left = left,
                    )
                } else {
                    say!(
                        "the screws bite {bite} and the waste block is {thick} thick: they come out into the wood that is turned and sawn",
                        bite = *holding.screw_bite,
                        thick = thick,
                    )
                },
                remedy: Remedy::from(say!(
                    "a waste block of at least {thicker}, or screws that bite at most {most}",
                    thicker = thicker,
                    most = most,
                ))
                .or_any(way)
                .or(Way::new(say!(
                    "take a waste block {thicker} thick",
                    thicker = thicker
                ))
                .set(key::holding().thickness(), thicker)),
            },
            (Amount::Length(left), Amount::Length(limits::SCREW_TIPS)),
            Working::new(
                "thickness of the waste block − bite of the screws",
                limits::SCREWS_CLEAR.source,
            )
            .with("thickness of the waste block", Amount::Length(thick))
            .with("bite of the screws", Amount::Length(*holding.screw_bite)),
        )]
    }
}
