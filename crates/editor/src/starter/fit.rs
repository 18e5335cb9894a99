//! Does a knot fit? And if not, why, and what would do.

use files::key::KeyPath;
use files::message::Language;
use files::read::{FEWEST_SEGMENTS, MOST_SEGMENTS, read_design};
use files::say;
use files::units::Unit;
use files::workshop::Workshop;
use geometry::Length;
use geometry::Portable;
use piece::parallel::{find_first, map_each};
use piece::settle::settle;
use plan::finding::{Finding, Severity};

use super::text::text;
use super::{Answer, LOOPS, NewPiece, Refusal, Remedy, out_of_range};

/// Sizes that are tried on either side of the one asked for, each this much further off.
const SIZES: u32 = 16;
const FURTHER: f64 = 1.045;
/// Segments that are tried on either side of those asked for, and usual ones.
const SEGMENTS: i64 = 10;
const USUAL_SEGMENTS: i64 = 12;
/// Of all reaches only every so many is tried with another answer.
const STRIDE: usize = 5;

/// The file with the largest reach, of those tried, that nothing stops or puts at risk.
pub fn fitting(new: &NewPiece, workshop: &Workshop, stride: usize) -> Option<String> {
    reaches(new)
        .step_by(stride)
        .map(|reach| text(new, Some(reach)))
        .find(|text| obstacles(text, workshop).is_empty())
}

/// Reaches to try, the largest first.
fn reaches(new: &NewPiece) -> impl Iterator<Item = Length> {
    let height = new.height;
    (2..=36)
        .rev()
        .map(move |share| height * (f64::from(share) / 40.0))
}

/// What stops the work or puts it at risk, worst first.
fn obstacles(text: &str, workshop: &Workshop) -> Vec<Finding> {
    let (Some(design), _, _) = read_design("starter", text) else {
        return vec![unreadable()];
    };
    let mut found = plan::findings::find(&settle(&design, workshop));
    found.retain(|f| f.severity != Severity::WorthKnowing);
    found
}

/// Stands for a file that the reader itself refuses.
fn unreadable() -> Finding {
    Finding {
        key: "",
        severity: Severity::Stops,
        subject: plan::operation::Subject::default(),
        path: KeyPath::default(),
        what: say!("a piece of these sizes cannot be written down"),
        remedy: files::remedy::Remedy::default(),
        against: None,
        of_rings: Vec::new(),
        cases: Vec::new(),
    }
}

/// Why nothing fits, and what else may be entered.
pub fn refusal(new: &NewPiece, workshop: &Workshop) -> Refusal {
    let without_loops = obstacles(&text(new, None), workshop);
    let mut ways: Vec<Vec<Answer>> = [
        sizes(new.height, new.unit).map(Answer::Height).collect(),
        sizes(new.diameter, new.unit)
            .map(Answer::Diameter)
            .collect(),
        segments(new).map(Answer::Segments).collect(),
        (LOOPS.0..new.loops).rev().map(Answer::Loops).collect(),
    ]
    .iter()
    .map(|answers: &Vec<Answer>| answers.iter().map(|a| vec![*a]).collect::<Vec<_>>())
    .filter_map(|ways| first_that_fits(new, workshop, &ways))
    .collect();
    if ways.is_empty() {
        ways.extend(first_that_fits(new, workshop, &usual(new)));
    }
    if without_loops.is_empty() {
        ways.push(vec![Answer::Loops(0)]);
    }
    Refusal {
        about: None,
        what: cause(new, workshop, &without_loops),
        remedy: Remedy::OneOf(ways),
    }
}

/// What is left in the way when all else is as good as it gets.
fn cause(new: &NewPiece, workshop: &Workshop, without_loops: &[Finding]) -> String {
    let reaches: Vec<Length> = reaches(new).collect();
    let tried = map_each(reaches.len(), |i| {
        obstacles(&text(new, Some(reaches[i])), workshop)
    });
    let least = tried.iter().min_by_key(|found| {
        let stops = found.iter().filter(|f| f.severity == Severity::Stops);
        (stops.count(), found.len())
    });
    let least = least.map_or(&[][..], Vec::as_slice);
    // The loops are not to blame for what is there without them.
    let of_the_size = least
        .iter()
        .find(|f| without_loops.iter().any(|w| w.key == f.key));
    let language = Language::from(new.unit);
    match (of_the_size, least.first()) {
        (Some(cause), _) => cause.what.said(language),
        (None, Some(cause)) => {
            let what = cause.what.said(language);
            format!("{} loops do not fit: {what}", new.loops)
        }
        (None, None) => format!("{} loops do not fit", new.loops),
    }
}

/// The first of these ways that fits.
fn first_that_fits(
    new: &NewPiece,
    workshop: &Workshop,
    ways: &[Vec<Answer>],
) -> Option<Vec<Answer>> {
    let fits = |way: &Vec<Answer>| {
        let changed = changed(new, way);
        let of_the_lathe = |f: &Finding| f.key.starts_with("lathe-");
        out_of_range(&changed).is_empty()
            // What the lathe does not take without loops it takes with none.
            && !obstacles(&text(&changed, None), workshop).iter().any(of_the_lathe)
            && fitting(&changed, workshop, STRIDE).is_some()
    };
    find_first(ways, fits).cloned()
}

/// The kind's usual size, and as a last resort with usual segments too.
fn usual(new: &NewPiece) -> [Vec<Answer>; 2] {
    let (height, diameter) = new.kind.usual_size(new.unit);
    let size = vec![Answer::Height(height), Answer::Diameter(diameter)];
    let all = [&size[..], &[Answer::Segments(USUAL_SEGMENTS)]].concat();
    [size, all]
}

/// The piece with some answers changed.
fn changed(new: &NewPiece, answers: &[Answer]) -> NewPiece {
    let mut changed = new.clone();
    for answer in answers {
        match *answer {
            Answer::Height(height) => changed.height = height,
            Answer::Diameter(diameter) => changed.diameter = diameter,
            Answer::Loops(loops) => changed.loops = loops,
            Answer::Segments(segments) => changed.segments = segments,
        }
    }
    changed
}

/// Sizes round in the unit, smaller and larger in turn, ever further off.
fn sizes(asked: Length, unit: Unit) -> impl Iterator<Item = Length> {
    let step = match unit {
        Unit::Mm => Length::mm(1.0),
        Unit::Inch => Length::inches(0.125),
    };
    (1..=SIZES).flat_map(move |k| {
        let factor = FURTHER.to_the(k);
        [
            step * (asked.as_mm() / factor / step.as_mm()).floor(),
            step * (asked.as_mm() * factor / step.as_mm()).ceil(),
        ]
    })
}

/// Numbers of segments, fewer and more in turn, ever further off.
fn segments(new: &NewPiece) -> impl Iterator<Item = i64> {
    let asked = new.segments;
    let all = FEWEST_SEGMENTS as i64..=MOST_SEGMENTS as i64;
    (1..=SEGMENTS)
        .flat_map(move |k| [asked - k, asked + k])
        .filter(move |n| all.contains(n))
}

#[cfg(test)]
mod tests {
    use super::super::{PieceKind, write};
    use super::*;

    fn piece(kind: PieceKind, (height, diameter): (f64, f64), loops: i64) -> NewPiece {
        NewPiece {
            kind,
            title: "Trial".into(),
            height: Length::mm(height),
            diameter: Length::mm(diameter),
            loops,
            segments: 12,
            unit: Unit::Mm,
        }
    }

    fn shop(text: &str) -> Workshop {
        let text = format!("ringwright = 1\nunit = \"mm\"\n{text}");
        files::read::read_workshop(&text).0.unwrap()
    }

    /// Refused for this reason; every way of the remedy makes the file when it is
    /// entered as it is said.
    #[track_caller]
    fn refused_with_a_remedy(new: &NewPiece, workshop: &Workshop, says: &str) -> Vec<String> {
        let refusals = write(new, workshop).unwrap_err();
        assert_eq!(refusals.len(), 1);
        assert!(refusals[0].what.contains(says), "{}", refusals[0].what);
        let Remedy::OneOf(ways) = &refusals[0].remedy else {
            panic!("{:?}", refusals[0]);
        };
        assert!(!ways.is_empty());
        for way in ways {
            let entered: Vec<Answer> = way.iter().map(|a| entered(*a, new.unit)).collect();
            let again = write(&changed(new, &entered), workshop);
            assert!(again.is_ok(), "{way:?}: {again:?}");
        }
        let questions = |way: &Vec<Answer>| {
            let each: Vec<&str> = way.iter().map(|a| a.question()).collect();
            each.join(" and ")
        };
        ways.iter().map(questions).collect()
    }

    /// An answer read again from what is to be entered.
    fn entered(answer: Answer, unit: Unit) -> Answer {
        let text = answer.entered(unit);
        let length = || files::units::parse_length(&text, unit).unwrap();
        match answer {
            Answer::Height(_) => Answer::Height(length()),
            Answer::Diameter(_) => Answer::Diameter(length()),
            Answer::Loops(_) => Answer::Loops(text.parse().unwrap()),
            Answer::Segments(_) => Answer::Segments(text.parse().unwrap()),
        }
    }

    #[test]
    fn a_machine_that_is_too_small_is_named_and_not_the_loops() {
        // Loops or none, the lathe does not take it.
        let small = shop("[lathe]\nswing = 200\n");
        let bowl = piece(PieceKind::Bowl, (110.0, 220.0), 3);
        let ways = refused_with_a_remedy(&bowl, &small, "the lathe swings 200.0 mm");
        assert_eq!(ways, ["diameter"]);
        let what = &write(&bowl, &small).unwrap_err()[0].what;
        assert!(!what.contains("loops"), "{what}");
        let small = shop("[lathe]\nswing = 300\n");
        for kind in PieceKind::ALL {
            let large = piece(kind, (300.0, 300.0), 3);
            let ways = refused_with_a_remedy(&large, &small, "the lathe swings 300.0 mm");
            assert!(!ways.contains(&"loops".to_string()), "{kind:?}: {ways:?}");
        }
    }

    #[test]
    fn loops_that_the_saw_cannot_cut_are_told_with_the_saw() {
        let large = piece(PieceKind::Bowl, (300.0, 300.0), 3);
        let usual = Workshop::default();
        let ways = refused_with_a_remedy(&large, &usual, "the band saw cuts 300.0 mm high");
        assert_eq!(ways, ["diameter", "loops"]);
    }

    #[test]
    fn where_no_answer_alone_helps_the_usual_size_does() {
        let platter = piece(PieceKind::Platter, (54.0, 320.0), 4);
        let ways = refused_with_a_remedy(&platter, &Workshop::default(), "");
        assert_eq!(ways, ["height and diameter"]);
    }

    #[test]
    fn segments_too_small_to_hold_are_named_and_fewer_advised() {
        let vase = NewPiece {
            segments: 36,
            ..piece(PieceKind::Vase, (250.0, 160.0), 8)
        };
        let ways = refused_with_a_remedy(&vase, &Workshop::default(), "too small to be held");
        assert_eq!(ways, ["diameter", "segments"]);
    }

    #[test]
    fn a_low_piece_is_told_a_height_in_either_unit() {
        for unit in [Unit::Mm, Unit::Inch] {
            let low = NewPiece {
                unit,
                ..piece(PieceKind::Platter, (54.0, 225.0), 4)
            };
            let ways = refused_with_a_remedy(&low, &Workshop::default(), "4 loops do not fit");
            assert_eq!(ways[0], "height", "{ways:?}");
        }
    }
}
