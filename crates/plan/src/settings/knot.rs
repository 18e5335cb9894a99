//! Where a band's loops are: marks, blocks, edges, crossings, widths on the wall.

use files::message::Value;
use files::say;
use geometry::{Angle, Length, Profile};
use piece::band::{BlockPlace, LoopEdges};

use super::band::BandAt;
use super::ring::arc;
use super::{PLANE, PRACTICE, SUM, WALL};
use crate::figure::{Amount, Figure, Working};

impl BandAt<'_> {
    /// A loop's index mark: its azimuth, and the same round the blank from the start mark.
    pub fn mark(&self, number: usize) -> Vec<Figure> {
        let Some(azimuth) = self.band.loops.azimuths.get(number).copied() else {
            return Vec::new();
        };
        vec![
            Figure::setting(
                "mark",
                "index mark from the start mark, anticlockwise",
                Amount::Angle(azimuth),
                Working::new(
                    "mark = azimuth of the first loop + (loop − 1) · 360° / loops, or as given",
                    "equal division of a turn",
                )
                .with("loop", Amount::Count(number + 1))
                .with("loops", Amount::Count(self.count())),
            ),
            Figure::setting(
                "mark_arc",
                "the same round the blank",
                Amount::Length(arc(self.section.blank_radius, azimuth)),
                Working::new(
                    "arc = radius at the blade · mark (in radians)",
                    "closed form",
                )
                .with(
                    "radius at the blade",
                    Amount::Length(self.section.blank_radius),
                )
                .with("mark", Amount::Angle(azimuth)),
            ),
        ]
    }

    /// Azimuth on the blank of a place for blocks, seen from the start mark.
    pub fn block_azimuth(&self, number: usize, place: &BlockPlace) -> Angle {
        let climb = self.band.loops.azimuths.get(number);
        (climb.copied().unwrap_or(Angle::ZERO) + place.from_climb).wrapped()
    }

    /// The three places for a loop's positioning blocks.
    pub fn blocks(&self, number: usize) -> Vec<Figure> {
        let mut out = Vec::new();
        for (k, place) in self.band.blocks.places.iter().enumerate() {
            let letter = char::from(b'A' + (k % 26) as u8);
            let (k, letter) = (k + 1, Value::name(letter));
            let azimuth = self.block_azimuth(number, place);
            out.push(Figure::setting(
                format!("block_{k}"),
                say!(
                    "blocks {letter}: from the start mark",
                    letter = letter.clone()
                ),
                Amount::Angle(azimuth),
                Working::new(
                    "the three places with most wood above and below the cut, 75° to 170° apart, \
                     clear of the sled's base",
                    PRACTICE,
                )
                .with("loop climbs at", {
                    let climb = self.band.loops.azimuths.get(number);
                    Amount::Angle(climb.copied().unwrap_or(Angle::ZERO))
                })
                .with("from the climb", Amount::Angle(place.from_climb)),
            ));
            out.push(Figure::setting(
                format!("block_arc_{k}"),
                say!(
                    "blocks {letter}: the same round the blank",
                    letter = letter.clone()
                ),
                Amount::Length(arc(self.section.blank_radius, azimuth)),
                Working::new(
                    "arc = radius at the blade · azimuth (in radians)",
                    "closed form",
                )
                .with(
                    "radius at the blade",
                    Amount::Length(self.section.blank_radius),
                )
                .with("azimuth", Amount::Angle(azimuth)),
            ));
            out.push(Figure::setting(
                format!("block_height_{k}"),
                say!(
                    "blocks {letter}: cut's middle above the section's underside",
                    letter = letter.clone()
                ),
                Amount::Length(place.cut_height),
                Working::new(
                    "height = loops' height + radius at the blade · tan(tilt) · cos(azimuth from \
                     the climb)",
                    PLANE,
                )
                .with("loops' height", Amount::Length(self.band.loops.height))
                .with(
                    "radius at the blade",
                    Amount::Length(self.section.blank_radius),
                )
                .with("tilt", Amount::Angle(self.band.loops.tilt))
                .with("azimuth from the climb", Amount::Angle(place.from_climb)),
            ));
            let half = "wood removed / (2 · cos(tilt))";
            out.push(
                Figure::note(
                    format!("block_above_{k}"),
                    say!(
                        "blocks {letter}: wood above the cut",
                        letter = letter.clone()
                    ),
                    Amount::Length(place.room_above),
                )
                .worked(Working::new(
                    say!(
                        "section's height − height of the cut's middle − {half}",
                        half = half
                    ),
                    PLANE,
                )),
            );
            out.push(
                Figure::note(
                    format!("block_below_{k}"),
                    say!(
                        "blocks {letter}: wood below the cut",
                        letter = letter.clone()
                    ),
                    Amount::Length(place.room_below),
                )
                .worked(Working::new(
                    say!("height of the cut's middle − {half}", half = half),
                    PLANE,
                )),
            );
        }
        out
    }

    /// Heights of a loop's edges on one wall, in the piece and above the section's underside.
    pub fn edges(&self, inside: bool) -> Vec<Figure> {
        let (wall, edges): (&str, &LoopEdges) = if inside {
            ("inside", &self.band.inside)
        } else {
            ("outside", &self.band.outside)
        };
        let all = [
            ("top", "highest edge", edges.top),
            ("top_lower", "top, lower edge", edges.top_lower_edge),
            (
                "bottom_upper",
                "bottom, upper edge",
                edges.bottom_upper_edge,
            ),
            ("bottom", "lowest edge", edges.bottom),
        ];
        let mut out = Vec::new();
        for (key, label, height) in all {
            let amount = |raise: Length| match height {
                Some(h) => Amount::Length(h + raise),
                None => Amount::Text("off the wall".into()),
            };
            let working = || {
                Working::new(
                    "where height = edge's height on the axis ± radius of the wall · tan(tilt)",
                    WALL,
                )
                .with("loops' height", Amount::Length(self.band.loops.height))
                .with("tilt", Amount::Angle(self.band.loops.tilt))
                .with("removed", Amount::Fine(self.band.loops.thickness))
            };
            out.push(
                Figure::note(
                    format!("{wall}_{key}"),
                    say!("{label}, above the foot", label = label),
                    amount(self.section.base_of(self.band)),
                )
                .worked(working()),
            );
            out.push(
                Figure::note(
                    format!("{wall}_{key}_in_section"),
                    say!("{label}, above the section's underside", label = label),
                    amount(Length::ZERO),
                )
                .worked(working()),
            );
        }
        out
    }

    /// Reach on the finished outside.
    pub fn reach(&self) -> Figure {
        let amount = match self.band.outside.reach() {
            Some(reach) => Amount::Length(reach),
            None => Amount::Text("the loops run off the wall".into()),
        };
        Figure::note("reach", "reach, lowest to highest edge outside", amount).worked(Working::new(
            "highest edge − lowest edge of the layer, its two glue lines with it, on the finished \
             outside wall",
            WALL,
        ))
    }

    /// Band's width on the outside wall where a loop tops out, at its middle and where
    /// it bottoms out.
    pub fn widths(&self) -> Vec<Figure> {
        let loops = &self.band.loops;
        let side: &Profile = self.piece.form.outside();
        let middle = |a: Option<Length>, b: Option<Length>| Some((a? + b?) / 2.0);
        let e = &self.band.outside;
        [
            ("top", 0.0, middle(e.top, e.top_lower_edge)),
            ("middle", 90.0, Some(loops.height)),
            ("bottom", 180.0, middle(e.bottom, e.bottom_upper_edge)),
        ]
        .into_iter()
        .map(|(place, from_climb, height)| {
            let slope =
                height.and_then(|h| side.slope((h + self.section.base_of(self.band)).as_mm()));
            let amount = match slope {
                Some(slope) => Amount::Fine(loops.band_width(Angle::deg(from_climb), slope)),
                None => Amount::Text("off the wall".into()),
            };
            Figure::note(
                format!("width_{place}"),
                say!("band's width on the wall, {place}", place = place),
                amount,
            )
            .worked(
                Working::new(
                    "width = removed / √(1 − c²), c the cosine between layer and wall, both \
                     taken square to themselves",
                    PLANE,
                )
                .with("removed", Amount::Fine(loops.thickness))
                .with("tilt", Amount::Angle(loops.tilt)),
            )
        })
        .collect()
    }

    /// Least heights of a section that hold the cuts.
    pub fn least_section(&self) -> Vec<Figure> {
        let b = self.band;
        vec![
            Figure::note(
                "least_section",
                "least height of the section, for the cuts",
                Amount::Length(b.least_section),
            )
            .worked(
                Working::new(
                    "2 · (radius at the blade · tan(tilt) + removed / (2 · cos(tilt)) + keep off)",
                    PLANE,
                )
                .with(
                    "radius at the blade",
                    Amount::Length(self.section.blank_radius),
                )
                .with("tilt", Amount::Angle(b.loops.tilt))
                .with("removed", Amount::Fine(b.loops.thickness))
                .with(
                    "keep off",
                    Amount::Length(*self.piece.workshop.sled.keep_off),
                ),
            ),
            Figure::note(
                "least_section_with_blocks",
                "least height of the section, with room for blocks",
                Amount::Length(b.least_section_with_blocks),
            )
            .worked(
                Working::new(
                    "the larger of that and section's height + 2 · (block's length + keep off − \
                     least wood at a block)",
                    SUM,
                )
                .with("section's height", Amount::Length(self.section.stacked))
                .with(
                    "block's length",
                    Amount::Length(*self.piece.workshop.sled.block_length),
                )
                .with("least wood at a block", Amount::Length(b.blocks.least_room)),
            ),
        ]
    }
}
