//! Everything there is to draw of a piece, by file name.

use files::units::Unit;
use piece::piece::Piece;

use crate::picture::{MapOptions, wall_map};
use crate::portrait::{Camera, portrait};
use crate::vector::{Drawing, to_svg};
use crate::views::{
    Options, half_section, layer_blank, ring_from_above, sled_from_above, unrolled_wall, wrap_strip,
};
use piece::form::WallSide;

/// Every drawing of a piece by the name of its SVG without the ending. Rings are
/// numbered through the piece from 1; sections go by their names.
pub fn all_drawings(piece: &Piece, options: &Options) -> Vec<(String, Drawing)> {
    let mut out = vec![
        (
            "outside".to_string(),
            unrolled_wall(piece, WallSide::Outside, options),
        ),
        (
            "inside".to_string(),
            unrolled_wall(piece, WallSide::Inside, options),
        ),
        ("half-section".to_string(), half_section(piece, options)),
    ];
    for (s, section) in piece.sections.iter().enumerate() {
        for r in 0..section.rings.len() {
            let name = format!("ring-{}", piece.ring_number(s, r));
            out.extend(ring_from_above(piece, s, r, options).map(|d| (name, d)));
        }
    }
    for (s, section) in piece.sections.iter().enumerate() {
        let place = place_name(piece, s);
        for (b, band) in section.bands.iter().enumerate() {
            let more = if b == 0 {
                String::new()
            } else {
                format!("-{}", b + 1)
            };
            let sled = sled_from_above(piece, s, b, options);
            out.extend(sled.map(|d| (format!("sled-{place}{more}"), d)));
            let layer = layer_blank(piece, s, b, options);
            out.extend(layer.map(|d| (format!("layer-{place}{more}"), d)));
            for l in 0..band.loops.azimuths.len() {
                let strip = wrap_strip(piece, s, Some((b, l)), options);
                out.extend(strip.map(|d| (format!("wrap-{place}{more}-loop-{}", l + 1), d)));
            }
        }
        let strip = wrap_strip(piece, s, None, options);
        out.extend(strip.map(|d| (format!("wrap-{place}"), d)));
    }
    out
}

/// Every drawing and picture as the bytes of a file: SVG drawings, and PNG pictures of
/// both walls (`width` pixels wide) and of the piece.
pub fn draw_all(piece: &Piece, unit: Unit, width: u32) -> Vec<(String, Vec<u8>)> {
    let map = |side| {
        let options = MapOptions {
            width,
            height: None,
            grain: true,
        };
        wall_map(piece, side, &options).to_png()
    };
    let mut out = vec![
        ("outside.png".to_string(), map(WallSide::Outside)),
        ("inside.png".to_string(), map(WallSide::Inside)),
    ];
    // Half as wide as a wall is round is about as large as the same wood in it.
    let side = (width / 2).clamp(64, 2400);
    let picture = portrait(piece, side, side, &Camera::default());
    out.push(("piece.png".to_string(), picture.to_png()));
    out.extend(
        all_drawings(piece, &Options::full_size(unit))
            .into_iter()
            .map(|(name, d)| (format!("{name}.svg"), to_svg(&d).into_bytes())),
    );
    out
}

/// A section's name as part of a file's name; its number too where another section's
/// name reads the same.
fn place_name(piece: &Piece, section: usize) -> String {
    let plain = |name: &str| -> String {
        let mut out = String::new();
        for c in name.chars() {
            if c.is_alphanumeric() {
                out.extend(c.to_lowercase());
            } else if !out.is_empty() && !out.ends_with('-') {
                out.push('-');
            }
        }
        out.truncate(out.trim_end_matches('-').len());
        out.chars().take(40).collect()
    };
    let names: Vec<String> = piece.sections.iter().map(|s| plain(&s.name)).collect();
    let Some(name) = names.get(section) else {
        return String::new();
    };
    let alone = names.iter().filter(|n| *n == name).count() == 1;
    if alone && !name.is_empty() {
        name.clone()
    } else {
        format!("{name}-{}", section + 1)
            .trim_start_matches('-')
            .to_string()
    }
}
