//! Everything there is to draw of a piece, by file name.

use files::message::Language;
use piece::piece::Piece;

use crate::picture::{MapOptions, wall_map};
use crate::portrait::{Camera, portrait};
use crate::vector::{Drawing, to_svg};
use crate::views::{
    Options, half_section, layer_blank, ring_from_above, sled_from_above, unrolled_wall, wrap_strip,
};
use piece::form::WallSide;

/// Every drawing of a piece by the name of its SVG without the ending, each drawn when
/// it is asked for. Rings are numbered through the piece from 1; sections go by their
/// names.
pub fn all_drawings<'a>(
    piece: &'a Piece,
    options: &Options,
) -> impl Iterator<Item = (String, Drawing)> + use<'a> {
    let options = *options;
    let walls = [("outside", WallSide::Outside), ("inside", WallSide::Inside)];
    let walls = walls
        .into_iter()
        .map(move |(name, side)| (name.to_string(), unrolled_wall(piece, side, &options)));
    let half =
        std::iter::once_with(move || ("half-section".to_string(), half_section(piece, &options)));
    let rings = piece
        .sections
        .iter()
        .enumerate()
        .flat_map(move |(s, section)| {
            (0..section.rings.len()).filter_map(move |r| {
                let drawing = ring_from_above(piece, s, r, &options)?;
                Some((format!("ring-{}", piece.ring_number(s, r)), drawing))
            })
        });
    walls
        .chain(half)
        .chain(rings)
        .chain((0..piece.sections.len()).flat_map(move |s| of_section(piece, s, options)))
}

/// Sleds, layers and wrap strips of one section.
fn of_section<'a>(
    piece: &'a Piece,
    s: usize,
    options: Options,
) -> impl Iterator<Item = (String, Drawing)> + use<'a> {
    let place = place_name(piece, s);
    let bands = piece
        .sections
        .get(s)
        .map_or(&[][..], |section| &section.bands);
    let of_bands = {
        let place = place.clone();
        bands.iter().enumerate().flat_map(move |(b, band)| {
            let more = if b == 0 {
                String::new()
            } else {
                format!("-{}", b + 1)
            };
            let place = format!("{place}{more}");
            let sled = {
                let name = format!("sled-{place}");
                std::iter::once_with(move || Some((name, sled_from_above(piece, s, b, &options)?)))
            };
            let layer = {
                let name = format!("layer-{place}");
                std::iter::once_with(move || Some((name, layer_blank(piece, s, b, &options)?)))
            };
            let wraps = (0..band.loops.azimuths.len()).map(move |l| {
                let strip = wrap_strip(piece, s, Some((b, l)), &options)?;
                Some((format!("wrap-{place}-loop-{}", l + 1), strip))
            });
            sled.chain(layer).chain(wraps).flatten()
        })
    };
    let whole = std::iter::once_with(move || {
        Some((
            format!("wrap-{place}"),
            wrap_strip(piece, s, None, &options)?,
        ))
    });
    of_bands.chain(whole.flatten())
}

/// Every drawing and picture as the bytes of a file, each made when it is asked for: SVG
/// drawings, and PNG pictures of both walls (`width` pixels wide) and of the piece.
pub fn draw_all(
    piece: &Piece,
    language: Language,
    width: u32,
) -> impl Iterator<Item = (String, Vec<u8>)> + use<'_> {
    let sides = [
        ("outside.png", WallSide::Outside),
        ("inside.png", WallSide::Inside),
    ];
    let maps = sides.into_iter().map(move |(name, side)| {
        let options = MapOptions {
            width,
            height: None,
            grain: true,
        };
        (name.to_string(), wall_map(piece, side, &options).to_png())
    });
    // Half as wide as a wall is round is about as large as the same wood in it.
    let side = (width / 2).clamp(64, 2400);
    let picture = std::iter::once_with(move || {
        let picture = portrait(piece, side, side, &Camera::default());
        ("piece.png".to_string(), picture.to_png())
    });
    let drawn = all_drawings(piece, &Options::full_size(language))
        .map(|(name, d)| (format!("{name}.svg"), to_svg(&d).into_bytes()));
    maps.chain(picture).chain(drawn)
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
