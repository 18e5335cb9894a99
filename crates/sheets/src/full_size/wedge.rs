//! The wedge that the sled is set by.

use drawings::vector::{Anchor, LineKind, Pen, Text};
use files::message::Language;
use files::say;
use files::units::degrees;
use geometry::Portable;
use glam::DVec2;
use plan::settings::band::BandAt;

use super::{Template, band_key};

/// Longest edge of the wedge that is read along, mm: as long as paper allows.
const LONG: f64 = 165.0;

/// The wedge of a band's tilt.
pub(super) fn template(at: &BandAt<'_>, language: Language) -> Template {
    let tilt = at.band.cuts.tilt;
    let slope = tilt.as_rad().tangent().abs();
    let base = if slope > 1.0 { LONG / slope } else { LONG };
    let rise = base * slope;
    let title = say!("Sled's wedge for {band}", band = at.name()).said(language);
    let description = say!(
        "A right-angled triangle whose sharp corner is the tilt, {tilt}.",
        tilt = tilt,
    )
    .said(language);
    let mut pen = Pen::new(title.as_str(), description, language.unit);
    let p = |x: f64, y: f64| DVec2::new(x, -y);
    pen.layer("wedge");
    pen.round(
        vec![p(0.0, 0.0), p(base, 0.0), p(base, rise)],
        LineKind::Thin,
    );
    pen.layer("words");
    pen.words(
        p(base / 2.0, -5.5),
        say!("this edge along the line of travel").said(language),
        Anchor::Middle,
    );
    let turn = slope.arctangent();
    let off = DVec2::new(-turn.sine(), -turn.cosine()) * 2.2;
    pen.text(Text {
        turn,
        ..Text::new(
            p(base / 2.0, rise / 2.0) + off,
            say!("this edge along the faceplate's face").said(language),
            Anchor::Middle,
            3.5,
        )
    });
    pen.layer("dimensions");
    let figure = degrees(tilt, 2);
    // Far enough out that the figure stands between the edges.
    let arc = if rise > 20.0 {
        (base * 0.42).min(14.0 / slope.max(0.14))
    } else {
        base * 0.5
    };
    pen.angle(p(0.0, 0.0), arc, 0.0, turn, &figure);
    Template {
        key: format!("wedge-{}", band_key(at)),
        title,
        how: say!(
            "Glue it on thin board, cut to the lines, and set the sled's stop by it. Check the \
             first setting with a protractor."
        )
        .said(language),
        drawing: pen.finish(4.0),
    }
}
