//! The disc that a faceplate is indexed by.

use files::message::{Language, Message, Value};
use files::say;
use geometry::Portable;
use std::f64::consts::TAU;

use drawings::vector::{Anchor, LineKind, Pen, Text};
use files::units::degrees;
use geometry::Length;
use glam::DVec2;
use plan::settings::band::BandAt;

use super::{Template, band_key};

/// How far the disc stands out beyond the section, mm, if the sled leaves room.
const BEYOND: f64 = 8.0;

/// The index disc of a band.
pub(super) fn template(at: &BandAt<'_>, language: Language) -> Template {
    let blank = at.section.blank_radius.as_mm();
    // It must not touch the sled's base.
    let rim = blank
        + BEYOND
            .min(at.piece.workshop.sled.clearance.as_mm() * 0.6)
            .max(4.0);
    let title = say!("Index disc for {band}", band = at.name()).said(language);
    let description = say!(
        "A disc {across} across with a mark for each of {count} loops, anticlockwise from \
         the start mark as seen from the free end.",
        across = Length::mm(rim * 2.0),
        count = at.count(),
    )
    .said(language);
    let mut pen = Pen::new(title.as_str(), description, language.unit);
    let on = |angle: f64, radius: f64| DVec2::new(angle.cosine(), -angle.sine()) * radius;
    pen.layer("rim");
    pen.circle(DVec2::ZERO, rim, LineKind::Thin);
    pen.layer("section");
    pen.circle(DVec2::ZERO, blank, LineKind::Hidden);
    pen.layer("degrees");
    for k in 0..72 {
        let a = TAU * f64::from(k) / 72.0;
        let long = if k % 6 == 0 { 5.0 } else { 2.5 };
        pen.line(on(a, blank - long), on(a, blank), LineKind::Dimension);
    }
    pen.layer("centre");
    for way in [DVec2::X, DVec2::Y] {
        pen.line(way * -10.0, way * 10.0, LineKind::Centre);
    }
    pen.circle(DVec2::ZERO, 1.5, LineKind::Thin);
    pen.layer("index marks");
    for (number, azimuth) in at.band.loops.azimuths.iter().enumerate() {
        let a = azimuth.as_rad();
        pen.line(on(a, blank - 8.0), on(a, rim), LineKind::Cut);
        pen.balloon(on(a, blank - 13.0), &(number + 1).to_string(), 4.5);
        let words = degrees(*azimuth, 2);
        pen.text(Text::centred(on(a, blank - 22.0), words, 3.5));
    }
    pen.layer("start mark");
    pen.arrow_head(on(0.0, rim), DVec2::X);
    pen.line(on(0.0, blank), on(0.0, rim), LineKind::Outline);
    pen.layer("words");
    let below = |y: f64| DVec2::new(0.0, y);
    let said = |words: &'static str| Message::plain(words).said(language);
    pen.words(
        below(18.0),
        said("printed face to the section"),
        Anchor::Middle,
    );
    pen.words(below(23.0), said("arrow: start mark"), Anchor::Middle);
    pen.words(
        below(28.0),
        say!(
            "dashed: the section, ⌀ {across}",
            across = Value::Bare(Length::mm(blank * 2.0)),
        )
        .said(language),
        Anchor::Middle,
    );
    Template {
        key: format!("index-disc-{}", band_key(at)),
        title,
        how: say!(
            "Between faceplate and waste block, printed face to the section, arrow on the start \
             mark. Its marks stand out beyond the section; each in turn goes to the pointer."
        )
        .said(language),
        drawing: pen.finish(0.6),
    }
}
