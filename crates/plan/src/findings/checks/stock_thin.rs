//! Boards too thin for the rings that are to come of them.

use geometry::Length;
use piece::piece::Ring;

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::say::{ring_name, ring_path, rings_name};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::{Message, Value};
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
                let (name, path) = if all_alike {
                    (
                        rings_name(piece, s, 0, section.rings.len().saturating_sub(1)),
                        key::section(s).stock(),
                    )
                } else {
                    (ring_name(piece, s, r), ring_path(piece, s, r).stock())
                };
                let lower = ring.stock - loss;
                let lower = if lower.exceeds(Length::mm(0.5)) {
                    say!(
                        "; or a ring height of at most {lower}",
                        lower = Value::down_fine(lower),
                    )
                } else {
                    Message::default()
                };
                out.push(Finding {
                    key: self.key(),
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
                    remedy: say!(
                        "boards of at least {needed}{lower}",
                        needed = Value::up_fine(needed),
                        lower = lower,
                    ),
                    against: Some(Against {
                        figure: Amount::Fine(ring.stock),
                        limit: Amount::Fine(needed),
                        working: Working::new(
                            "board >= ring height + 2 flattening losses",
                            limits::FLATTENING.source,
                        )
                        .with("ring height", Amount::Fine(ring.height))
                        .with("flattening loss", Amount::Fine(*piece.workshop.allowances.flattening)),
                    }),
                });
            }
        }
        out
    }
}

fn alike(a: &Ring, b: &Ring) -> bool {
    let same = Length::mm(1e-6);
    a.height.within(b.height, same) && a.stock.within(b.stock, same)
}
