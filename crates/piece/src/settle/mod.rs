//! From a design and a workshop to a piece: every open figure is filled in, every
//! derived one worked out, and what was chosen is written down.

mod bands;
mod overload;
mod rings;

use geometry::{Angle, Length};

use crate::course::Course;
use crate::form::{Form, FormProblem};
use crate::model::{CutAndRejoin, SectionBody, Stack, WoodId};
use crate::piece::{Chosen, ChosenValue, Origin, Piece, Section, Split};
use crate::work::Load;
use files::design::{BlankShape, Design, SectionSpec};
use files::key::{self, KeyPath};
use files::keys::{File, find};
use files::message::{Message, Value};
use files::remedy::{Remedy, Way};
use files::say;
use files::wood::{Wood, find_among};
use files::workshop::{Saw, Workshop};

pub use bands::WHOLE_SLICE;
pub use overload::{Fits, Overload};

/// Something that stops the piece from being made as it is written.
#[derive(Debug, Clone)]
pub struct SettleProblem {
    /// The key it is about, counted from 0: `section[1].band[0].reach`.
    pub path: KeyPath,
    /// What is wrong.
    pub what: Message,
    /// What would do.
    pub remedy: Remedy,
}

/// A settled piece, as far as it could be settled, and what stands in the way.
#[derive(Debug, Clone, Default)]
pub struct Settled {
    /// The piece; `None` only when there is no form or no section, or when it is more work
    /// than is taken on.
    pub piece: Option<Piece>,
    /// Troubles with the form.
    pub form: Vec<FormProblem>,
    /// The piece is more work than is taken on; there is none then.
    pub overload: Option<Overload>,
    /// Everything else that stops the work. Where a figure was impossible the
    /// nearest possible one stands in the piece.
    pub troubles: Vec<SettleProblem>,
}

/// Settles a design in a workshop.
///
/// A piece whose cuts and cells are more than [`Load`] takes on is told of in
/// [`Settled::overload`] and not handed out, so that nothing can be worked out of it.
pub fn settle(design: &Design, workshop: &Workshop) -> Settled {
    let mut out = settled(design, workshop);
    let load = out.piece.as_ref().map(|p| Load::of(&p.stack));
    if let Some(load) = load.filter(|load| !load.fits()) {
        out.piece = None;
        out.overload = Some(Overload::of(design, workshop, load));
    }
    out
}

/// The same, whatever work the piece is.
fn settled(design: &Design, workshop: &Workshop) -> Settled {
    let (form, problems) = Form::build(&design.form);
    let mut out = Settled {
        piece: None,
        form: problems,
        ..Settled::default()
    };
    let Some(form) = form else {
        return out;
    };
    if design.sections.is_empty() {
        out.troubles.push(SettleProblem {
            path: key::section(0).path().list(),
            what: say!("there is no section"),
            remedy: say!("add [[section]] with its wood and rings").into(),
        });
        return out;
    }
    let mut held = workshop.clone();
    design.holding.over(&mut held);
    let workshop = &held;
    let mut settler = Settler {
        design,
        workshop,
        form: &form,
        woods: Vec::new(),
        names: Vec::new(),
        chosen: Vec::new(),
        troubles: Vec::new(),
    };
    let mut sections = Vec::new();
    let mut bodies = Vec::new();
    let (mut bottom, mut turn) = (Length::ZERO, Angle::ZERO);
    for (i, spec) in design.sections.iter().enumerate() {
        let (mut section, body) = settler.section(i, spec, bottom);
        turn += spec
            .turn
            .unwrap_or_else(|| settler.usual_turn(i, sections.last(), &section));
        section.turn = turn;
        bottom += section.height;
        sections.push(section);
        bodies.push((body, turn.as_rad()));
    }
    let Settler {
        woods,
        names,
        chosen,
        troubles,
        ..
    } = settler;
    out.troubles.extend(troubles);
    out.piece = Some(Piece {
        title: design.title.clone(),
        notes: design.notes.clone(),
        form,
        woods,
        wood_names: names,
        sections,
        stack: Stack::new(bodies),
        chosen,
        workshop: workshop.clone(),
        design: design.clone(),
    });
    out
}

/// What is at hand while sections are settled one after another.
struct Settler<'a> {
    design: &'a Design,
    workshop: &'a Workshop,
    form: &'a Form,
    woods: Vec<Wood>,
    names: Vec<String>,
    chosen: Vec<Chosen>,
    troubles: Vec<SettleProblem>,
}

impl Settler<'_> {
    fn section(
        &mut self,
        index: usize,
        spec: &SectionSpec,
        bottom: Length,
    ) -> (Section, SectionBody) {
        let path = key::section(index);
        let splits: Vec<Split> = spec
            .splits
            .iter()
            .enumerate()
            .map(|(k, s)| Split {
                spec: s.clone(),
                saw: self.saw(s.saw.as_deref(), path.split(k).saw()),
            })
            .collect();
        let blank = spec.blank.unwrap_or(BlankShape::Cylinder);
        let rings = self.rings(&path, spec, bottom, &splits, blank);
        let stacked = rings.last().map_or(Length::ZERO, |r| r.bottom + r.height);
        let blank_radius = rings
            .iter()
            .map(|r| match blank {
                BlankShape::Cylinder => r.sizes.flat_out,
                BlankShape::Polygon => r.sizes.corner_out(),
            })
            .reduce(Length::max)
            .unwrap_or(Length::ZERO);
        let mut bands = Vec::new();
        let mut steps = Vec::new();
        for (k, b) in spec.bands.iter().enumerate() {
            let band = self.band(
                &path.band(k),
                b,
                &bands::SawnSection {
                    bottom,
                    stacked,
                    blank_radius,
                    rings: &rings,
                    splits: &splits,
                },
            );
            bands::steps(k as u16, &band, &mut steps);
            bands.push(band);
        }
        for (k, s) in splits.iter().enumerate() {
            let at = s.spec.height;
            if !at.exceeds(Length::ZERO) || !stacked.exceeds(at) {
                self.trouble(
                    path.split(k).height(),
                    say!(
                        "the split at {at} is outside the section, which is {stacked} high",
                        at = at,
                        stacked = stacked,
                    ),
                    say!("give a height between 0 and {stacked}", stacked = stacked),
                );
                continue;
            }
            steps.push(CutAndRejoin::split(
                k as u16,
                at.as_mm(),
                s.saw.kerf.as_mm(),
                s.spec.turn.as_rad(),
            ));
        }
        let bodies = rings.iter().map(Course::body).collect();
        let body = SectionBody::new(bodies, steps);
        let section = Section {
            name: if spec.name.is_empty() {
                format!("section {}", index + 1)
            } else {
                spec.name.clone()
            },
            bottom,
            stacked,
            height: Length::mm(body.height()),
            turn: Angle::ZERO,
            rings,
            bands,
            splits,
            blank,
            blank_radius,
        };
        (section, body)
    }

    /// The turn against the section below that puts the first ring's joints half a
    /// segment from those of the ring under it.
    fn usual_turn(&mut self, index: usize, below: Option<&Section>, section: &Section) -> Angle {
        let (Some(under), Some(first)) =
            (below.and_then(|s| s.rings.last()), section.rings.first())
        else {
            return Angle::ZERO;
        };
        // What is alike all round has no joints to stagger.
        if under.repeats().is_none() || first.repeats().is_none() {
            return Angle::ZERO;
        }
        let share = Angle::full().divided_by(first.sizes.segments);
        let split: Angle =
            below.map_or(Angle::ZERO, |s| s.splits.iter().map(|k| k.spec.turn).sum());
        let wanted = under.rotation + split + share / 2.0 - first.rotation;
        let turn = Angle::rad(wanted.as_rad().rem_euclid(share.as_rad()));
        // Rounding may leave a whole share for none.
        let turn = if (share - turn).within(Angle::ZERO, Angle::deg(1e-9)) {
            Angle::ZERO
        } else {
            turn
        };
        self.choose(
            key::section(index).turn(),
            ChosenValue::Angle(turn),
            Origin::CommonPractice,
        );
        turn
    }

    /// The wood that a name stands for; an unknown one is a trouble and stands in
    /// as the workshop's usual wood.
    fn wood(&mut self, name: &str, path: KeyPath) -> WoodId {
        if let Some(at) = self.names.iter().position(|n| n == name) {
            return WoodId(at as u16);
        }
        let wood = match find_among(name, &self.design.woods) {
            Ok(wood) => wood,
            Err(unknown) => {
                self.trouble(
                    path,
                    say!("no wood is known as \"{name}\"", name = Value::name(name)),
                    match unknown.nearest.first() {
                        Some(near) => Remedy::from(say!(
                            "did you mean \"{near}\"? Or describe it as a wood of your own",
                            near = Value::name(near.as_str()),
                        )),
                        None => say!("describe it as a wood of your own").into(),
                    },
                );
                match find_among("hard maple", &self.design.woods) {
                    Ok(wood) => wood,
                    // The built-in table has it; should it ever not, any wood will do for a picture.
                    Err(_) => files::wood::all()[0].clone(),
                }
            }
        };
        self.names.push(name.to_string());
        self.woods.push(wood);
        WoodId((self.names.len() - 1) as u16)
    }

    /// The saw of a name, or the first band saw, or whichever saw there is.
    fn saw(&mut self, name: Option<&str>, path: KeyPath) -> Saw {
        let saws = &self.workshop.saws;
        if let Some(name) = name {
            if let Some(saw) = saws.iter().find(|s| s.name == name) {
                return saw.clone();
            }
            let known: Vec<&str> = saws.iter().map(|s| s.name.as_str()).collect();
            let known = Value::name(known.join(", "));
            let usual = self.workshop.band_saw().value.name;
            let take = say!("take the {saw}", saw = Value::name(usual.as_str()));
            let remedy = Remedy::from(say!("the workshop has {saws}", saws = known))
                .or(Way::new(take).set(path.clone(), usual.as_str()));
            self.trouble(
                path.clone(),
                say!(
                    "the workshop has no saw \"{name}\"",
                    name = Value::name(name)
                ),
                remedy,
            );
        }
        let usual = self.workshop.band_saw();
        if name.is_none() {
            self.choose(path, ChosenValue::Word(usual.name.clone()), usual.by);
        }
        usual.value
    }

    fn trouble(&mut self, path: KeyPath, what: Message, remedy: impl Into<Remedy>) {
        let remedy = remedy.into();
        self.troubles.push(SettleProblem { path, what, remedy });
    }

    /// Notes a figure that the file leaves open, by what its key is called.
    fn choose(&mut self, path: KeyPath, value: ChosenValue, origin: Origin) {
        let name = find(File::Project, &path).map_or("", |found| found.key.label);
        self.chosen.push(Chosen {
            path,
            name,
            value,
            origin,
        });
    }
}
