//! One segment of a ring.

use drawings::vector::{Anchor, LineKind, Pen, Text};
use files::message::Language;
use files::say;
use glam::DVec2;
use plan::ring_group::RingGroup;

use super::{Template, slug};

/// The template of a ring's segment; a disc has none.
pub(super) fn template(group: &RingGroup<'_>, language: Language) -> Option<Template> {
    if !group.segmented() {
        return None;
    }
    let sizes = group.sizes();
    let (long, short) = (sizes.long_edge().as_mm(), sizes.short_edge().as_mm());
    let wide = sizes.board_width().as_mm();
    let name = group.name();
    let title = say!("Segment of {name}", name = name.clone()).said(language);
    let description = say!(
        "A trapezoid: long edge {long}, short edge {short}, width {width}, both ends at {mitre} \
         from square.",
        long = sizes.long_edge(),
        short = sizes.short_edge(),
        width = sizes.board_width(),
        mitre = sizes.mitre(),
    )
    .said(language);
    let mut pen = Pen::new(title.as_str(), description, language.unit);
    let p = |x: f64, y: f64| DVec2::new(x, y);
    pen.layer("segment");
    let mut corners = vec![p(-long / 2.0, 0.0), p(long / 2.0, 0.0)];
    if short > 0.0 {
        corners.extend([p(short / 2.0, wide), p(-short / 2.0, wide)]);
    } else {
        corners.push(p(0.0, wide));
    }
    pen.round(corners, LineKind::Thin);
    pen.layer("words");
    // Words go inside where there is room for them, otherwise below.
    let lines = [
        name.said(language),
        say!(
            "{count} segments, {mitre}",
            count = sizes.segments,
            mitre = sizes.mitre(),
        )
        .said(language),
    ];
    let longest = lines
        .iter()
        .map(|l| drawings::vector::width_of(l, 3.5, false))
        .fold(0.0, f64::max);
    let inside = wide >= 14.0 && (long + short) / 2.0 >= longest + 6.0;
    let top = if inside { wide / 2.0 - 0.8 } else { wide + 9.0 };
    for (k, line) in lines.iter().enumerate() {
        pen.text(Text::new(
            p(0.0, top + 4.6 * k as f64),
            line.as_str(),
            Anchor::Middle,
            3.5,
        ));
    }
    pen.layer("dimensions");
    let figure = pen.figure(sizes.long_edge());
    pen.dimension(p(-long / 2.0, 0.0), p(long / 2.0, 0.0), 6.0, &figure);
    if short > 0.0 {
        let figure = pen.figure(sizes.short_edge());
        pen.dimension(p(short / 2.0, wide), p(-short / 2.0, wide), 5.0, &figure);
    }
    let figure = pen.figure(sizes.board_width());
    pen.dimension(p(long / 2.0, wide), p(long / 2.0, 0.0), -6.0, &figure);
    Some(Template {
        key: format!("segment-{}", slug(&name.said(language))),
        title,
        how: say!("Lay a cut segment on it: edges and ends lie on the lines.").said(language),
        drawing: pen.finish(4.0),
    })
}
