//! A shop too cold for its glue.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::say;

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
                path: key::shop().climate().shop_temperature(),
                what: say!(
                    "the shop has {figure}, the glue wants {limit}: it dries to chalk and does not hold",
                    figure = figure.clone(),
                    limit = limit.clone(),
                ),
                remedy: say!(
                    "warm shop, wood and glue to at least {limit} until it is cured",
                    limit = limit.clone(),
                )
                .into(),
            },
            (figure, limit),
            Working::new("the shop's temperature", "the workshop's file"),
        )]
    }
}
