//! A shop too cold for its glue.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

/// The shop is colder than the glue may be.
pub struct GlueCold;

impl Check for GlueCold {
    fn key(&self) -> &'static str {
        "glue-cold"
    }

    fn asks(&self) -> &'static str {
        "is the shop warm enough for the glue?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::COLDEST]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let (own, least) = (
            piece.workshop.climate.shop().temperature,
            piece.workshop.glue.coldest,
        );
        if own >= *least {
            return Vec::new();
        }
        let (figure, limit) = (Amount::Temperature(own), Amount::Temperature(*least));
        vec![found(
            self,
            Said {
                severity: Severity::Risky,
                subject: Subject::default(),
                path: "climate.shop_temperature".into(),
                what: format!(
                    "the shop has {}, the glue wants {}: it dries to chalk and does not hold",
                    figure.show(piece.unit),
                    limit.show(piece.unit)
                ),
                remedy: format!(
                    "warm shop, wood and glue to at least {} until it is cured",
                    limit.show(piece.unit)
                ),
            },
            (figure, limit),
            Working::new("the shop's temperature", "the workshop's file"),
        )]
    }
}
