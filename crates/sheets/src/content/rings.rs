//! Sheet 3: one card a ring, grouped where alike.

use drawings::vector::Looks;
use drawings::views::{Options, ring_from_above};
use files::message::Said;
use geometry::Length;
use plan::figure::Figure;
use plan::operation::Operation;
use plan::operations::OperationKind;
use plan::ring_group::RingGroup;
use serde::Serialize;

use super::art::{Art, Picture, stripped};
use super::steps::{Steps, capital, said};
use super::{Setting, Source};

/// Rooms for a ring from above on its card: the first that gives a drawing of at least
/// this width, mm: what the card has.
const ROOMS: [Length; 2] = [Length::mm(72.0), Length::mm(90.0)];
const LEAST: f64 = 108.0;

/// The rings' sheet.
#[derive(Debug, Serialize)]
pub struct Rings {
    cards: Vec<Card>,
    steps: Steps,
}

#[derive(Debug, Serialize)]
struct Card {
    title: String,
    numbers: String,
    section: String,
    picture: Option<Picture>,
    settings: Vec<Setting>,
    notes: Vec<Setting>,
    /// For each ring its number and the letters of its segments, to tick off.
    ticks: Vec<Ticks>,
    /// Letters with their woods.
    woods: Vec<Setting>,
    operations: String,
}

#[derive(Debug, Serialize)]
struct Ticks {
    ring: String,
    letters: Vec<String>,
}

const KINDS: [OperationKind; 7] = OperationKind::OF_RINGS;

/// The rings' sheet of a piece.
pub fn rings(source: &Source<'_>, art: &mut Art) -> Rings {
    let piece = source.piece;
    let mut cards = Vec::new();
    for section in 0..piece.sections.len() {
        for group in RingGroup::of_section(piece, section) {
            cards.push(card(source, &group, art));
        }
    }
    let ops = source.plan.operations.iter();
    Rings {
        cards,
        steps: Steps::of(
            ops.filter(|o| KINDS.contains(&o.kind)),
            &KINDS,
            source.plan.spelling,
        ),
    }
}

fn card(source: &Source<'_>, group: &RingGroup<'_>, art: &mut Art) -> Card {
    let piece = source.piece;
    let first = group.rings.first().copied().unwrap_or(0);
    let ops: Vec<&Operation<Said>> = source
        .plan
        .operations
        .iter()
        .filter(|o| KINDS.contains(&o.kind))
        .filter(|o| o.subject.section == Some(group.section) && o.subject.ring == Some(first))
        .collect();
    let figures = || ops.iter().flat_map(|o| &o.figures);
    let settings: Vec<Setting> = figures().filter(|f| f.cut_to).map(Setting::from).collect();
    let mut notes: Vec<Setting> = figures()
        .filter(|f| !f.cut_to && !is_text_elsewhere(f))
        .map(Setting::from)
        .collect();
    if group.segmented() {
        notes.insert(
            0,
            Setting {
                label: "stock, planed".into(),
                value: source.unit.length(group.ring.stock),
            },
        );
    }
    let looks = Looks::new(piece);
    let letter = |id| looks.of(id).map_or(String::new(), |l| l.letter.to_string());
    let letters: Vec<String> = if group.segmented() {
        group.ring.woods.iter().map(|w| letter(*w)).collect()
    } else {
        group
            .ring
            .woods
            .first()
            .map(|w| letter(*w))
            .into_iter()
            .collect()
    };
    let mut woods: Vec<_> = group
        .woods()
        .into_iter()
        .map(|(id, n)| (id, Some(n)))
        .collect();
    if let Some(panel) = &group.ring.let_in {
        woods.push((panel.wood, None));
    }
    let numbers: Vec<usize> = ops.iter().map(|o| o.number).collect();
    let mut drawings = ROOMS.into_iter().filter_map(|room| {
        let options = Options::within(source.plan.language(), room);
        let drawing = ring_from_above(piece, group.section, first, &options)?;
        Some(stripped(drawing, &["heading", "legend", "diameters"]))
    });
    let drawing = drawings.next().map(|small| {
        let large = (small.width < LEAST).then(|| drawings.next()).flatten();
        large.unwrap_or(small)
    });
    Card {
        title: capital(&group.name().said(source.plan.language())),
        numbers: said(&group.numbers()),
        section: piece
            .sections
            .get(group.section)
            .map_or(String::new(), |s| s.name.clone()),
        picture: drawing.map(|d| art.drawing(&d)),
        settings,
        notes,
        ticks: group
            .numbers()
            .into_iter()
            .map(|n| Ticks {
                ring: n.to_string(),
                letters: letters.clone(),
            })
            .collect(),
        woods: woods
            .into_iter()
            .map(|(id, count)| Setting {
                label: letter(id),
                value: match count {
                    Some(1) if !group.segmented() => piece.wood_name(id).into(),
                    Some(n) => format!("{} × {n}", piece.wood_name(id)),
                    None => format!("{}, floor panel", piece.wood_name(id)),
                },
            })
            .collect(),
        operations: said(&numbers),
    }
}

/// Words that the card shows in another way: woods and counts of segments.
fn is_text_elsewhere(figure: &Figure<Said>) -> bool {
    matches!(figure.sort(), "segments" | "wood" | "panel_wood")
}
