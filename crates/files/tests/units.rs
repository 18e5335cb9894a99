//! Lengths and other quantities, read and written.

use files::units::{Unit, degrees, parse_length};
use geometry::{Angle, Length};
use proptest::prelude::*;

fn mm(text: &str, bare: Unit) -> f64 {
    match parse_length(text, bare) {
        Ok(length) => length.as_mm(),
        Err(e) => panic!("{text}: {e:?}"),
    }
}

#[test]
fn reads_what_makers_write() {
    // Expected values by hand at 25.4 mm to the inch.
    let cases: [(&str, f64); 31] = [
        ("6 3/8 in", 161.925),
        ("6-3/8\"", 161.925),
        ("6 - 3/8 in", 161.925),
        ("6⅜\"", 161.925),
        ("6 ⅜ in", 161.925),
        ("6\u{2044}8 in", 19.05),
        ("6 3/8″", 161.925),
        ("6 3/8”", 161.925),
        ("6 3/8''", 161.925),
        ("6 3/8’’", 161.925),
        ("3/4 in", 19.05),
        ("¾in", 19.05),
        ("½ inch", 12.7),
        ("162 mm", 162.0),
        ("162mm", 162.0),
        ("162", 162.0),
        ("16.2cm", 162.0),
        ("0.5 m", 500.0),
        (".5 m", 500.0),
        ("5. mm", 5.0),
        ("1 ft 2 in", 355.6),
        ("1' 2\"", 355.6),
        ("1′ 2 1/2″", 368.3),
        ("1’ 2½”", 368.3),
        ("1 ft - 2 in", 355.6),
        ("2 feet", 609.6),
        ("-3 mm", -3.0),
        ("−3/4 in", -19.05),
        ("+3 mm", 3.0),
        ("  7 MM  ", 7.0),
        ("12 inches", 304.8),
    ];
    for (text, expected) in cases {
        assert!((mm(text, Unit::Mm) - expected).abs() < 1e-9, "{text}");
    }
    assert!((mm("3/4", Unit::Inch) - 19.05).abs() < 1e-9);
    assert!((mm("6 3/8", Unit::Inch) - 161.925).abs() < 1e-9);
    assert!((mm("2", Unit::Inch) - 50.8).abs() < 1e-9);
}

#[test]
fn refuses_with_a_remedy() {
    let cases = [
        ("", "is not a length"),
        ("mm", "is not a length"),
        ("-", "is not a length"),
        (".", "is not a length"),
        ("6,5 mm", "has a comma"),
        ("1,000 mm", "has a comma"),
        ("6.5,5", "more than one decimal mark"),
        ("1.2.3 mm", "more than one decimal mark"),
        ("3/0 in", "divides by nothing"),
        ("3/ in", "without its lower half"),
        ("6 9/8 in", "fraction of one or more"),
        ("6.5 3/8 in", "is more than one length"),
        ("6.5⅜ in", "mixes a decimal"),
        ("3/8/4 in", "is not a length"),
        ("3 furlongs", "unknown unit \"furlongs\""),
        ("3 mm 4 mm", "is more than one length"),
        ("1 ft 14 in", "12 inches or more"),
        ("1 ft 2 mm", "is more than one length"),
        ("3/4", "fraction without a unit"),
        ("⅜", "fraction without a unit"),
        ("1e3 mm", "unknown unit \"e\""),
        ("nan", "is not a length"),
        ("inf mm", "is not a length"),
        ("--3 mm", "is not a length"),
        ("12 mm, 13 mm", "comma"),
    ];
    for (text, part) in cases {
        match parse_length(text, Unit::Mm) {
            Ok(length) => panic!("{text} was read as {length:?}"),
            Err(e) => {
                assert!(e.what.contains(part), "{text}: {}", e.what);
                assert!(!e.remedy.is_empty(), "{text}");
            }
        }
    }
    let nines = "9".repeat(400);
    let trouble = parse_length(&nines, Unit::Mm).expect_err("400 digits are no length");
    assert!(trouble.what.contains("too large") && trouble.what.chars().count() < 80);
}

#[test]
fn fractions_never_show_a_full_inch() {
    let cases = [
        (13.85641, "13 55/64 in"), // Wood magazine, "Staves and segments": hexagon 24 in across flats
        (0.0, "0 in"),
        (1.0 / 128.0, "1/64 in"), // half a step rounds away from nothing
        (0.007, "0 in"),
        (-0.007, "0 in"),
        (0.5, "1/2 in"),
        (63.6 / 64.0, "1 in"),
        (5.0 + 63.6 / 64.0, "6 in"),
        (-6.375, "-6 3/8 in"),
        (-0.75, "-3/4 in"),
        (12.0, "12 in"),
        (1e12, "1.000e12 in"),
        (f64::NAN, "unknown in"),
    ];
    for (inches, expected) in cases {
        assert_eq!(Unit::Inch.length(Length::inches(inches)), expected);
    }
    for count in 0..=640_u32 {
        let text = Unit::Inch.length(Length::inches(f64::from(count) / 64.0));
        assert!(!text.contains("64/64"), "{text}");
        let back = mm(&text, Unit::Inch) / 25.4 * 64.0;
        assert!((back - f64::from(count)).abs() < 1e-9, "{text}");
    }
}

#[test]
fn millimetres_and_the_rest() {
    assert_eq!(Unit::Mm.length(Length::mm(162.0)), "162.0 mm");
    assert_eq!(Unit::Mm.length(Length::mm(-0.04)), "0.0 mm");
    assert_eq!(Unit::Mm.length(Length::mm(-0.06)), "-0.1 mm");
    assert_eq!(Unit::Mm.fine(Length::mm(1.234)), "1.23 mm");
    assert_eq!(Unit::Inch.fine(Length::inches(0.0472)), "0.047 in");
    assert_eq!(Unit::Mm.length(Length::mm(f64::INFINITY)), "unknown mm");
    assert_eq!(Unit::Mm.length(Length::mm(1e300)), "1.000e300 mm");
    assert_eq!(degrees(Angle::deg(22.5), 1), "22.5°");
    assert_eq!(degrees(Angle::deg(-0.001), 2), "0.00°");
    // NIST Handbook 44 App. C (from memory): 1 US fl oz = 29.573 53 ml; 1 in³ = 16.387 064 ml.
    assert_eq!(Unit::Inch.capacity(29_573.53 * 15.2), "15.2 US fl oz");
    assert_eq!(Unit::Inch.volume(16_387.064 * 27.5), "27.5 in³");
    assert_eq!(Unit::Mm.volume(27_500.0), "27.5 cm³");
    assert_eq!(Unit::Mm.capacity(99_960.0), "100 ml");
    assert_eq!(Unit::Mm.capacity(12_340.0), "12.3 ml");
    assert_eq!(Unit::Mm.area(12_345.0), "123.5 cm²");
    assert_eq!(Unit::Inch.area(645.16 * 3.0), "3.0 in²");
    assert_eq!(Unit::Mm.weight(999.6), "1.00 kg");
    assert_eq!(Unit::Mm.weight(12.34), "12.3 g");
    assert_eq!(Unit::Mm.weight(850.0), "850 g");
    assert_eq!(Unit::Inch.weight(28.349_523_125 * 15.96), "1 lb 0.0 oz");
    assert_eq!(Unit::Inch.weight(28.349_523_125 * 35.4), "2 lb 3.4 oz");
    assert_eq!(Unit::Inch.weight(28.349_523_125 * 31.97), "2 lb 0.0 oz");
    assert_eq!(Unit::Inch.weight(f64::NAN), "unknown");
}

proptest! {
    #[test]
    fn what_is_written_reads_back(value in -5000.0..5000.0_f64) {
        let length = Length::mm(value);
        for unit in [Unit::Mm, Unit::Inch] {
            let half_step = unit.step() * 0.5 + Length::mm(1e-9);
            // Each text carries its unit, so the reader's own unit must not matter.
            for bare in [Unit::Mm, Unit::Inch] {
                let back = Length::mm(mm(&unit.length(length), bare));
                prop_assert!(back.within(length, half_step), "{:?} {}", back, unit.length(length));
            }
            // 0.001 in is the coarser of the two fine steps.
            let fine = Length::mm(mm(&unit.fine(length), unit));
            prop_assert!(fine.within(length, Length::mm(0.0127 + 1e-9)));
            let other = if unit == Unit::Mm { " in" } else { " mm" };
            prop_assert!(!unit.length(length).contains(other));
        }
    }

    #[test]
    fn no_text_breaks_the_reader(text in "\\PC{0,24}") {
        if let Ok(length) = parse_length(&text, Unit::Inch) {
            prop_assert!(length.as_mm().is_finite());
        }
    }

    #[test]
    fn no_near_length_breaks_the_reader(text in "[-+0-9 /.,'\"½⅜⁄minftc]{0,16}") {
        if let Ok(length) = parse_length(&text, Unit::Inch) {
            prop_assert!(length.as_mm().is_finite());
        }
    }
}
