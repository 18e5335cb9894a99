//! Changes of the file that more than one check knows.

use files::design::{InnerSide, RingsGiven, SectionSpec};
use files::key::{self, KeyPath, RingPath};
use files::message::{Message, Reading, Value};
use files::remedy::{Remedy, To, Way};
use files::say;
use geometry::Length;
use piece::piece::Piece;

use super::say::{ring_name, rings_name, section_name};

/// Several remedies of which each would do by itself.
pub(super) fn any_of(remedies: impl IntoIterator<Item = Remedy>) -> Option<Remedy> {
    remedies.into_iter().reduce(|all, other| {
        Remedy::from(say!("{all}; or {way}", all = all.words, way = other.words))
            .or_any(all.ways)
            .or_any(other.ways)
    })
}

/// A remedy of one way.
pub(super) fn one(words: Message, way: Way) -> Remedy {
    Remedy::from(words).or(way)
}

fn spec(piece: &Piece, section: usize) -> Option<&SectionSpec> {
    piece.design.sections.get(section)
}

/// A ring's table as a change writes it: the entry that the file lists it by, or the ring
/// itself where rings are only counted.
pub(super) fn ring_key(piece: &Piece, section: usize, ring: usize) -> RingPath {
    let listed =
        spec(piece, section).is_some_and(|s| matches!(s.rings_given(), RingsGiven::Listed(_)));
    let settled = piece.sections.get(section).and_then(|s| s.rings.get(ring));
    match settled {
        Some(ring) if listed => ring.path.clone(),
        _ => key::section(section).real_ring(ring),
    }
}

/// The key that says how many segments a ring has: the section's, unless an entry does.
pub(super) fn segments_key(piece: &Piece, section: usize, ring: usize) -> KeyPath {
    if says_segments(piece, section) {
        ring_key(piece, section, ring).segments()
    } else {
        key::section(section).segments()
    }
}

fn says_segments(piece: &Piece, section: usize) -> bool {
    let own = |spec: &SectionSpec| spec.listed.iter().any(|ring| ring.segments.is_some());
    spec(piece, section).is_some_and(own)
}

/// Some rings of a section in so many segments: the whole section where it is the section
/// that says how many.
pub(super) fn of_segments(piece: &Piece, section: usize, rings: &[usize], count: usize) -> Way {
    let last = piece.sections.get(section).map_or(0, |s| s.rings.len());
    if !says_segments(piece, section) {
        let what = say!(
            "make {rings} of {count} segments",
            rings = rings_name(piece, section, 0, last.saturating_sub(1)),
            count = count,
        );
        return Way::new(what).set(key::section(section).segments(), count);
    }
    let (first, last) = (rings.first().copied(), rings.last().copied());
    let what = say!(
        "make {rings} of {count} segments",
        rings = rings_name(piece, section, first.unwrap_or(0), last.unwrap_or(0)),
        count = count,
    );
    let mut keys: Vec<_> = rings
        .iter()
        .map(|ring| ring_key(piece, section, *ring).segments())
        .collect();
    keys.dedup();
    keys.into_iter()
        .fold(Way::new(what), |way, key| way.set(key, count))
}

/// A section at least so high, with the middle of its loops at half of it.
pub(super) fn taller(piece: &Piece, section: usize, tall: Length) -> Option<Way> {
    let (given, settled) = (spec(piece, section)?, piece.sections.get(section)?);
    let last = settled.rings.last()?;
    let short = tall - settled.stacked;
    let more = (short.as_mm() / last.height.as_mm().max(1.0) - 1e-6).ceil();
    let more = if (1.0..100.0).contains(&more) {
        more as usize
    } else {
        return None;
    };
    let path = key::section(section);
    let way = match given.rings_given() {
        RingsGiven::Auto(_) => {
            let (name, tall) = (section_name(piece, section), Reading::up(tall));
            let what = say!("make {section} {tall} high", section = name, tall = tall);
            Way::new(what).set(path.height(), tall)
        }
        _ => more_rings(piece, section, more)?,
    };
    let high = settled.stacked + last.height * more as f64;
    let middle = Reading::nearest(high / 2.0);
    let way =
        (0..given.bands.len()).fold(way, |way, band| way.set(path.band(band).height(), middle));
    higher_form(piece, section, high, way)
}

/// A way that makes a section so high, with the form raised above it where it ends there
/// and no section above fills up what is left of it. None where the inside has points of
/// its own.
fn higher_form(piece: &Piece, section: usize, high: Length, mut way: Way) -> Option<Way> {
    let settled = piece.sections.get(section)?;
    let (top, end) = (settled.bottom + settled.stacked, settled.bottom + high);
    let filled = (section + 1..piece.sections.len()).any(|s| fills_up(piece, s));
    if filled || !end.exceeds(piece.form.height()) {
        return Some(way);
    }
    let InnerSide::Wall(walls) = piece.design.form.inner_side() else {
        return None;
    };
    // What stood above the section, or in its last ring, stands as much higher.
    let last = settled.rings.last()?;
    let above = |height: Length| height.exceeds(top - last.height);
    let raised = |height: Length| Reading::down(height + (end - top));
    let form = key::form();
    for (at, point) in piece.design.form.outer.iter().enumerate() {
        if above(point.height) {
            way = way.set(form.outer().entry(at).entry(0), raised(point.height));
        }
    }
    for (at, wall) in walls.iter().enumerate() {
        if walls.len() > 1 && above(wall.height) {
            way = way.set(form.wall().entry(at).entry(0), raised(wall.height));
        }
    }
    way.what = say!("{way}, and the form as much higher", way = way.what);
    Some(way)
}

/// A section with more rings like its last, where the file says how many it has.
pub(super) fn more_rings(piece: &Piece, section: usize, more: usize) -> Option<Way> {
    let (given, settled) = (spec(piece, section)?, piece.sections.get(section)?);
    let (count, last) = (settled.rings.len() + more, settled.rings.last()?);
    let path = key::section(section);
    let what = say!(
        "make {section} of {count} rings, {high} high",
        section = section_name(piece, section),
        count = count,
        high = settled.stacked + last.height * more as f64,
    );
    match given.rings_given() {
        RingsGiven::Auto(_) => None,
        RingsGiven::Count(_) => Some(Way::new(what).set(path.rings(), count)),
        RingsGiven::Listed(entries) => {
            let repeat = entries.last()?.repeat.unwrap_or(1) + more;
            let last = path.ring(entries.len().checked_sub(1)?);
            Some(Way::new(what).set(last.repeat(), repeat))
        }
    }
}

/// A section of only its first rings.
pub(super) fn of_rings(piece: &Piece, section: usize, count: usize) -> Option<Way> {
    let given = spec(piece, section)?;
    let path = key::section(section);
    let what = say!(
        "make {section} of {count} rings",
        section = section_name(piece, section),
        count = count,
    );
    let RingsGiven::Listed(entries) = given.rings_given() else {
        return Some(Way::new(what).set(path.rings(), count));
    };
    let mut way = Way::new(what);
    let mut left = count;
    for (at, entry) in entries.iter().enumerate() {
        let repeat = entry.repeat.unwrap_or(1);
        if repeat > left && left > 0 {
            way = way.set(path.ring(at).repeat(), left);
        }
        left = left.saturating_sub(repeat);
    }
    let kept = entries.iter().scan(0, |sum, entry| {
        let before = *sum;
        *sum += entry.repeat.unwrap_or(1);
        Some(before)
    });
    let kept = kept.filter(|before| *before < count).count();
    // From the last, so that the numbers before it stay.
    let gone = (kept..entries.len()).rev();
    Some(gone.fold(way, |way, at| way.set(path.ring(at).path(), To::Gone)))
}

/// The wall nowhere thinner than this; none where the inside is given by points.
pub(super) fn wall_of(piece: &Piece, thick: Length) -> Option<Way> {
    let InnerSide::Wall(walls) = piece.design.form.inner_side() else {
        return None;
    };
    let thick = Reading::up(thick);
    let path = key::form().wall();
    if walls.len() < 2 {
        let what = say!("make the wall {thick} thick", thick = thick);
        return Some(Way::new(what).set(path, thick));
    }
    let what = say!("make the wall nowhere thinner than {thick}", thick = thick);
    let thin = walls.iter().enumerate().filter(|(_, wall)| {
        let least = thick.length(piece.design.unit);
        least.exceeds(wall.thickness)
    });
    let way = thin.fold(Way::new(what), |way, (at, _)| {
        way.set(path.entry(at).entry(1), thick)
    });
    (!way.settings.is_empty()).then_some(way)
}

/// The form drawn in to a largest radius; none where its inside is given by points.
pub(super) fn drawn_in(piece: &Piece, radius: Length) -> Option<Way> {
    let form = &piece.design.form;
    let InnerSide::Wall(_) = form.inner_side() else {
        return None;
    };
    let largest = piece.form.largest_radius().0;
    if !radius.exceeds(Length::ZERO) || !largest.exceeds(radius) {
        return None;
    }
    let share = radius.as_mm() / largest.as_mm();
    let what = say!(
        "draw the form in to a largest radius of {radius}",
        radius = Value::down(radius),
    );
    let points = form.outer.iter().enumerate();
    Some(points.fold(Way::new(what), |way, (at, point)| {
        let drawn = Reading::down(point.radius * share);
        way.set(key::form().outer().entry(at).entry(1), drawn)
    }))
}

/// One disc instead of a ring.
pub(super) fn disc(piece: &Piece, section: usize, ring: usize) -> Way {
    let name = ring_name(piece, section, ring);
    Way::new(say!("make {ring} one disc", ring = name))
        .set(ring_key(piece, section, ring).solid(), true)
}

/// A floor panel loose in a groove of a ring, with room at its edge and a reach into the
/// wall where they are known.
pub(super) fn panel(
    piece: &Piece,
    (section, ring): (usize, usize),
    sizes: Option<(Reading, Reading)>,
) -> Option<Way> {
    let settled = piece.sections.get(section)?.rings.get(ring)?;
    let wood = piece.wood_name(*settled.woods.first()?);
    let path = ring_key(piece, section, ring);
    let what = say!(
        "give {ring} a loose floor panel of {wood}",
        ring = ring_name(piece, section, ring),
        wood = Value::name(wood),
    );
    let mut way = Way::new(what).set(path.floor().path(), wood);
    if let Some((gap, groove)) = sizes {
        way = way
            .set(path.floor().gap(), gap)
            .set(path.floor().groove(), groove);
    }
    Some(way)
}

/// A steady rest at a height.
pub(super) fn steady_way(at: Reading) -> Way {
    Way::new(say!("put a steady rest at {at}", at = at)).set(key::holding().steady(), at)
}

/// A ring of another outside, flat to flat.
pub(super) fn outside_way(piece: &Piece, (section, ring): (usize, usize), wide: Reading) -> Way {
    let what = say!(
        "make {ring} {wide} from flat to flat",
        ring = ring_name(piece, section, ring),
        wide = wide,
    );
    Way::new(what).set(ring_key(piece, section, ring).outside(), wide)
}

/// A ring of wider boards.
pub(super) fn width_way(piece: &Piece, (section, ring): (usize, usize), wide: Reading) -> Way {
    let what = say!(
        "make the boards of {ring} {wide} wide",
        ring = ring_name(piece, section, ring),
        wide = wide,
    );
    Way::new(what).set(ring_key(piece, section, ring).width(), wide)
}

/// The same as a remedy.
pub(super) fn outside_of(piece: &Piece, at: (usize, usize), wide: Reading) -> Remedy {
    let words = say!("an outside of at least {wide} flat to flat", wide = wide);
    one(words, outside_way(piece, at, wide))
}

/// The same as a remedy.
pub(super) fn width_of(piece: &Piece, at: (usize, usize), wide: Reading) -> Remedy {
    let words = say!("a board width of at least {wide}", wide = wide);
    one(words, width_way(piece, at, wide))
}

/// Does a section have as many rings as its height asks for?
pub(super) fn fills_up(piece: &Piece, section: usize) -> bool {
    spec(piece, section).is_some_and(|s| matches!(s.rings_given(), RingsGiven::Auto(_)))
}
