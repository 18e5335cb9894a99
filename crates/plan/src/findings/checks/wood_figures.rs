//! Woods of which too little is known.

use files::key;
use files::message::Value;
use files::say;
use files::wood::DensityFrom;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

/// The weight will be wrong or incomplete.
pub struct WoodFigures;

impl Check for WoodFigures {
    fn key(&self) -> &'static str {
        "wood-figures"
    }

    fn asks(&self) -> &'static str {
        "is the density of every wood known, and do sources agree on it?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::KNOWN_DENSITY]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let woods = piece.woods.iter().zip(&piece.wood_names);
        let found = woods.filter_map(|(wood, name)| {
            let (what, figure) = match (wood.density, &wood.uncertain) {
                (None, _) => (
                    say!(
                        "the density of {name} is not known: the piece's weight is without it",
                        name = Value::name(name),
                    ),
                    "not known",
                ),
                (Some(_), Some(why)) if wood.density_from != DensityFrom::Maker => {
                    (say!("figures of {name}: {why}", name = Value::name(name), why = Value::name(why)), "sources differ")
                }
                _ => return None,
            };
            Some(found(self, Said {
severity: Severity::WorthKnowing,
subject: Subject::default(),
path: key::project().woods(name).density(),
what,
remedy: say!(
                    "weigh a planed block of it: 1000 x grams / cm³ is its density in kg/m³, to be entered as the density of a wood of your own",
                ).into(),
},
(Amount::Text(figure.into()), (limits::KNOWN_DENSITY.value)(&piece.workshop)),
Working::new(wood.density_from.working(), limits::KNOWN_DENSITY.source),
))
        });
        found.collect()
    }
}
