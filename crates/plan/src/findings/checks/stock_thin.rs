//! Boards too thin for the rings that are to come of them.

use crate::findings::ways::{any_of, fills_up, one, ring_key};
use files::remedy::{Remedy, Way};
use geometry::Length;
use piece::course::Course;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::{ring_name, rings_name};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::{Reading, Value};
use files::say;

/// Nothing is left to flatten.
pub struct StockThin;

impl Check for StockThin {
    fn key(&self) -> &'static str {
        "stock-thin"
    }

    fn asks(&self) -> &'static str {
        "is the board as thick as the ring and what flattening takes from both faces?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::FLATTENING]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let loss = *piece.workshop.allowances.flattening * 2.0;
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            let all_alike = section.rings.windows(2).all(|w| alike(&w[0], &w[1]));
            let told = if all_alike { 1 } else { section.rings.len() };
            for (r, ring) in section.rings.iter().enumerate().take(told) {
                let needed = ring.height + loss;
                if !needed.exceeds(ring.stock + limits::SKIN) {
                    continue;
                }
                let (name, path, height) = if all_alike {
                    (
                        rings_name(piece, s, 0, section.rings.len().saturating_sub(1)),
                        key::section(s).stock(),
                        key::section(s).ring_height(),
                    )
                } else {
                    (
                        ring_name(piece, s, r),
                        ring_key(piece, s, r).stock(),
                        ring_key(piece, s, r).height(),
                    )
                };
                let (board, stock) = (Reading::up_fine(needed), path.clone());
                let lower = ring.stock - loss;
                let lower = lower.exceeds(Length::mm(0.5)).then(|| {
                    let high = Reading::down_fine(lower);
                    let make = say!("make the rings {high} high", high = high);
                    // Lower rings make a lower stack, unless as many are taken as fill it.
                    let way = fills_up(piece, s).then(|| Way::new(make).set(height, high));
                    Remedy::from(say!("a ring height of at most {high}", high = high)).or_any(way)
                });
                let boards = one(
                    say!("boards of at least {board}", board = board),
                    Way::new(say!("take boards of {board}", board = board)).set(stock, board),
                );
                out.push(found(self, Said {
severity: Severity::Risky,
subject: Subject {
                        section: Some(s),
                        ring: Some(r),
                        ..Subject::default()
                    },
path,
what: say!(
                        "{name}: a height of {height} from boards of {stock} leaves {left} for flattening, which takes {loss} in all",
                        name = name,
                        height = Value::fine(ring.height),
                        stock = Value::fine(ring.stock),
                        left = Value::fine((ring.stock - ring.height).max(Length::ZERO)),
                        loss = Value::fine(loss),
                    ),
remedy: any_of([boards].into_iter().chain(lower)).unwrap_or_default(),
},
(Amount::Fine(ring.stock), Amount::Fine(needed)),
Working::new(
                            "board >= ring height + 2 flattening losses",
                            limits::FLATTENING.source,
                        )
                        .with("ring height", Amount::Fine(ring.height))
                        .with("flattening loss", Amount::Fine(*piece.workshop.allowances.flattening)),
));
            }
        }
        out
    }
}

fn alike(a: &Course, b: &Course) -> bool {
    let same = Length::mm(1e-6);
    a.height.within(b.height, same) && a.stock.within(b.stock, same)
}
