//! Many makings of one piece, and what they come to.

use files::message::{Language, Said, Spelling};
use files::units::Unit;
use geometry::Length;
use piece::piece::{Origin, Piece};
use piece::work::{Cancel, Cancelled};
use serde::{Serialize, Serializer};

use super::cause::{CAUSES, Cause, Spread};
use super::errors::{Errors, count};
use super::measure::{MEASURES, Measure, Outcome};
use super::quantile::{Quantiles, share_beyond};
use super::random_stream::RandomStream;
use super::share::{Causes, causes, without_the_largest};
use super::watched_places::WatchedPlaces;
use super::work::map_each;
use crate::caution::Caution;
use crate::figure::{Amount, Figure, Working};

/// How often the piece is made, and with which chance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Makings {
    /// Makings, 1 or more.
    pub count: usize,
    /// Picks the chance; the same seed gives the same study.
    pub seed: u64,
}

impl Default for Makings {
    fn default() -> Self {
        Makings {
            count: 10_000,
            seed: 1,
        }
    }
}

/// What counts as seen, and how thin a wall may become.
#[derive(Debug, Clone, Copy, Default)]
pub struct Limits {
    /// What the eye sees; 0.3 mm where not given.
    pub eye: Option<Length>,
    /// Least wall; three quarters of the thinnest as drawn where not given.
    pub wall: Option<Length>,
}

/// What an eye at arm's length sees in a line that should be straight: about 0.3 mm,
/// or two minutes of arc at half a metre. Common practice.
pub const EYE: Length = Length::mm(0.3);
/// The share of the thinnest wall as drawn that should be left. Common practice.
pub const WALL_SHARE: f64 = 0.75;

/// How exact a maker must be: what chance makes of a piece.
#[derive(Debug, Clone, Serialize)]
pub struct ToleranceStudy {
    /// What the maker calls the piece.
    pub title: String,
    /// The unit that it is shown in.
    #[serde(serialize_with = "unit_word")]
    pub unit: Unit,
    /// How its words are spelled.
    #[serde(skip)]
    pub spelling: Spelling,
    /// What bare numbers mean, whatever the unit.
    pub numbers: &'static str,
    /// How often it was made, and with which chance.
    pub makings: Makings,
    /// Makings that the causes were told apart on.
    pub told_apart_on: usize,
    /// The errors reckoned with.
    pub errors: Vec<ErrorFigure>,
    /// The sled stays set from loop to loop.
    pub sled_stays_set: bool,
    /// What they come to.
    pub results: Vec<Measured>,
    /// The making whose outside is worst to the eye, and the one in the middle.
    pub worst: u64,
    /// As many makings are better as are worse.
    pub typical: u64,
    /// What must be said with it.
    pub cautions: Vec<Caution>,
}

impl ToleranceStudy {
    /// Whom it is written for.
    pub const fn language(&self) -> Language {
        Language::new(self.unit, self.spelling)
    }
}

fn unit_word<S: Serializer>(unit: &Unit, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(unit.word())
}

/// One error reckoned with.
#[derive(Debug, Clone, Serialize)]
pub struct ErrorFigure {
    /// The cause.
    pub cause: Cause,
    /// What 19 of 20 settings stay within, either way.
    pub figure: Figure<Said>,
    /// The maker's own, or common practice.
    pub by: Origin,
}

/// One measure over all makings.
#[derive(Debug, Clone, Serialize)]
pub struct Measured {
    /// What is measured.
    pub measure: Measure,
    /// As planned, without errors.
    pub planned: Figure<Said>,
    /// Half of the makings, 19 of 20, 99 of 100 are no worse; and the worst of all.
    pub quantiles: Quantiles,
    /// The limit.
    pub limit: Figure<Said>,
    /// The share of makings beyond it.
    pub beyond: f64,
    /// One standard error of that share: sqrt(p (1 − p) / makings).
    pub beyond_error: f64,
    /// What causes it.
    pub causes: Causes,
}

/// The largest count of makings: as much as fits comfortably in memory.
pub const MOST_MAKINGS: usize = 10_000_000;

/// Makes a piece many times over, each time with errors drawn by chance from the
/// maker's exactness, and says what comes of it.
///
/// Every making is the real model with other numbers in its steps. The same piece,
/// makings and limits give the same study, whatever the number of threads; it is said in one reader's language. Cost grows
/// with the makings; the first two thousand cost most, since causes are told apart on them.
///
/// ```
/// use files::{read::read_design, units::Unit, workshop::Workshop};
/// use piece::{settle::settle, work::Cancel};
/// use plan::tolerance::{Limits, Makings, Measure, study};
/// let file = "ringwright = 1\nunit = \"mm\"\n[form]\nouter = [[0, 50], [80, 50]]\nwall = 8\n\
///             [[section]]\nname = \"body\"\nrings = 5\n";
/// let (design, _, _) = read_design("cup", file);
/// let settled = design.map(|d| settle(&d, &Workshop::default()));
/// let piece = settled.and_then(|s| s.piece).ok_or("no piece")?;
/// let makings = Makings { count: 200, seed: 1 };
/// let study = study(&piece, makings, &Limits::default(), Unit::Mm.into(), &Cancel::default())?;
/// // No loops: only the rings' joints and the wall are measured.
/// assert_eq!(study.results.len(), 2);
/// assert_eq!(study.results[0].measure, Measure::RingGap);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// It was given up by `cancel`.
pub fn study(
    piece: &Piece,
    makings: Makings,
    limits: &Limits,
    language: Language,
    cancel: &Cancel,
) -> Result<ToleranceStudy, Cancelled> {
    let makings = Makings {
        count: makings.count.clamp(1, MOST_MAKINGS),
        ..makings
    };
    let exactness = &piece.workshop.exactness;
    let maker = Maker {
        watch: WatchedPlaces::new(piece),
        spread: Spread::of(exactness),
        seed: makings.seed,
        normals: count(piece),
    };
    // Causes are told apart on the first makings: a share is known to a hundredth or
    // two from two thousand.
    let told_apart_on = makings.count.min(TOLD_APART);
    let all: Vec<(Outcome, Option<[[f64; MEASURES]; CAUSES]>)> =
        map_each(makings.count, cancel, |i| {
            let normals = maker.normals(i as u64);
            let alone = (i < told_apart_on).then(|| maker.alone(&normals));
            (maker.outcome(&maker.spread, &normals), alone)
        })?;
    let outcomes: Vec<Outcome> = all.iter().map(|a| a.0).collect();
    let alone: Vec<[[f64; MEASURES]; CAUSES]> = all.iter().filter_map(|a| a.1).collect();
    let measures: Vec<Measure> = Measure::ALL
        .into_iter()
        .filter(|m| maker.watch.has(*m))
        .collect();
    let limit = |m: Measure| match m {
        Measure::WallLeft => limits.wall.map_or_else(
            || maker.watch.perfect().values[m.at()] * WALL_SHARE,
            Length::as_mm,
        ),
        _ => limits.eye.unwrap_or(EYE).as_mm(),
    };
    let causes_of: Vec<Causes> = measures
        .iter()
        .map(|m| causes(*m, &outcomes[..told_apart_on], &alone))
        .collect();
    let without = without_the_largest(&maker, &measures, &causes_of, told_apart_on, cancel)?;
    let results = measures
        .iter()
        .zip(causes_of)
        .map(|(&m, causes)| {
            let mut values: Vec<f64> = outcomes.iter().map(|o| o.values[m.at()]).collect();
            let limit = limit(m);
            let beyond = share_beyond(&values, limit, m.least_counts());
            let causes = causes.with(&without, m, limit);
            measured(
                &maker,
                (m, causes),
                &mut values,
                limit,
                beyond,
                limits,
                language,
            )
        })
        .collect();
    let (typical, worst) = pictured(&measures, &outcomes);
    Ok(ToleranceStudy {
        title: crate::words::plain(&piece.title),
        unit: language.unit,
        spelling: language.spelling,
        numbers: "lengths in mm, angles in degrees, shares and chances from 0 to 1",
        makings,
        told_apart_on,
        errors: Cause::ALL
            .into_iter()
            .map(|cause| error_figure(piece, cause, language))
            .collect(),
        sled_stays_set: *exactness.sled_stays_set,
        results,
        worst,
        typical,
        cautions: vec![Caution::Estimate],
    })
}

/// Makings that the causes are told apart on.
const TOLD_APART: usize = 2_000;

/// Makes one piece over and over.
pub(super) struct Maker<'a> {
    pub watch: WatchedPlaces<'a>,
    pub spread: Spread,
    seed: u64,
    normals: usize,
}

impl Maker<'_> {
    /// The chance of one making.
    pub fn normals(&self, making: u64) -> Vec<f64> {
        let mut chance = RandomStream::new(self.seed, making);
        (0..self.normals).map(|_| chance.normal()).collect()
    }

    /// What it comes to.
    pub fn outcome(&self, spread: &Spread, normals: &[f64]) -> Outcome {
        let errors = Errors::drawn(self.watch.piece(), spread, normals);
        self.watch.outcome(&errors)
    }

    /// The mean squares with each error alone.
    fn alone(&self, normals: &[f64]) -> [[f64; MEASURES]; CAUSES] {
        Cause::ALL.map(|cause| {
            if self.spread.has(cause) {
                let spread = self.spread.only(cause);
                let errors = Errors::drawn(self.watch.piece(), &spread, normals);
                self.watch.outcome_of(&errors, cause.bears()).squares
            } else {
                [0.0; MEASURES]
            }
        })
    }
}

/// The errors of one making of a study: for its pictures. `times` makes the loops' errors
/// so many times as large, so that the eye sees in a small picture what they are.
pub fn errors_of(piece: &Piece, seed: u64, making: u64, times: f64) -> Errors {
    let mut chance = RandomStream::new(seed, making);
    let normals: Vec<f64> = (0..count(piece)).map(|_| chance.normal()).collect();
    let spread = Spread::of(&piece.workshop.exactness).loops_times(times);
    Errors::drawn(piece, &spread, &normals)
}

fn error_figure(piece: &Piece, cause: Cause, language: Language) -> ErrorFigure {
    let amount = cause.amount(&piece.workshop.exactness);
    let figure = Figure::note(cause.key(), cause.words(), amount.value).said(language);
    ErrorFigure {
        cause,
        figure,
        by: amount.by,
    }
}

fn measured(
    maker: &Maker<'_>,
    (measure, causes): (Measure, Causes),
    values: &mut [f64],
    limit: f64,
    beyond: f64,
    limits: &Limits,
    language: Language,
) -> Measured {
    let n = values.len() as f64;
    let planned = maker.watch.perfect().values[measure.at()];
    let fine = |v: f64| Amount::Fine(Length::mm(v));
    let planned = Figure::note("planned", "as planned", fine(planned)).worked(Working::new(
        measure.formula(),
        "planes of the steps met with the finished wall; chance by JCGM 101:2008",
    ));
    let source = match (measure, limits.eye, limits.wall) {
        (Measure::WallLeft, _, None) => {
            "three quarters of the thinnest wall as drawn; common practice"
        }
        (Measure::WallLeft, ..) | (_, Some(_), _) => "as asked for",
        _ => "what the eye sees; common practice",
    };
    let limit = Figure::note("limit", "limit", fine(limit)).worked(Working::new(
        "the share of makings beyond it is counted",
        source,
    ));
    Measured {
        measure,
        planned: planned.said(language),
        quantiles: Quantiles::of(values, measure.least_counts(), language),
        limit: limit.said(language),
        beyond,
        beyond_error: (beyond * (1.0 - beyond) / n).sqrt(),
        causes,
    }
}

/// The making in the middle and the worst, by the largest of what shows outside.
fn pictured(measures: &[Measure], outcomes: &[Outcome]) -> (u64, u64) {
    let mut scores: Vec<(f64, u64)> = outcomes
        .iter()
        .zip(0..)
        .map(|(o, i)| {
            let shown = measures.iter().filter(|m| m.shows_outside());
            let worst = shown.fold(0.0_f64, |m, s| m.max(o.values[s.at()]));
            (worst, i)
        })
        .collect();
    scores.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let at = |i: usize| scores.get(i).map_or(0, |s| s.1);
    (at(scores.len() / 2), at(scores.len().saturating_sub(1)))
}
