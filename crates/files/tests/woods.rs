//! The table of woods.

use std::collections::BTreeMap;

use files::design::OwnWood;
use files::wood::{self, Colour, DensityFrom, Hatch};

#[test]
fn one_wood_many_names() {
    let cases = [
        ("hard maple", "Maple, sugar"),
        ("Sugar Maple", "Maple, sugar"),
        ("maple, sugar", "Maple, sugar"),
        ("black walnut", "Walnut, black"),
        ("walnut", "Walnut, black"),
        ("padauk", "Padauk, African"),
        ("white ash", "Ash, white"),
        ("Ash, white", "Ash, white"),
        ("ASH", "Ash, white"),
        ("cherry", "Cherry, black"),
        ("wenge", "Wenge"),
        ("purpleheart", "Purpleheart"),
        ("purple-heart", "Purpleheart"),
        ("oak", "Oak, white"),
        ("red oak", "Oak, northern red"),
        ("osage orange", "Osage-orange"),
        ("jatoba", "Courbaril (jatoba)"),
        ("gonçalo alves", "Goncalo alves"),
        ("khaya", "Mahogany, African (Khaya)"),
        ("pumpkin ash", "Ash, pumpkin"),
        ("kempas", "Kempas (Koompassia malaccensis)"),
    ];
    for (asked, name) in cases {
        match wood::find(asked) {
            Ok(wood) => assert_eq!(wood.name, name, "{asked}"),
            Err(e) => panic!("{e:?}"),
        }
    }
    for wood in wood::all() {
        let found = wood::find(&wood.name).map(|w| w.name);
        assert_eq!(found.as_ref(), Ok(&wood.name));
        assert!(wood::find(&wood.plain).is_ok(), "{}", wood.plain);
    }
    assert_eq!(wood::all().len(), 205);
}

#[test]
fn every_plain_name_points_at_a_row() {
    let names = include_str!("../data/plain_names.csv");
    let mut rows = 0;
    for line in names.lines().filter(|l| !l.starts_with('#')) {
        let parts: Vec<&str> = line.split('|').collect();
        let [aliases, name, colour, contrast] = parts[..] else {
            panic!("{line}");
        };
        for alias in aliases.split("; ") {
            let found = wood::find(alias).map(|w| w.name);
            assert_eq!(found, Ok(name.to_string()), "{alias}");
        }
        assert!(Colour::parse(colour).is_some(), "{line}");
        assert!(
            contrast
                .parse::<f64>()
                .is_ok_and(|c| (0.0..=1.0).contains(&c)),
            "{line}"
        );
        rows += 1;
    }
    assert!(rows >= 40);
}

#[test]
fn a_slip_gets_the_nearest_name() {
    let nearest = |name: &str| {
        wood::find(name)
            .map(|w| w.name)
            .expect_err("no such wood")
            .nearest
    };
    assert_eq!(nearest("wallnut")[0], "walnut");
    assert_eq!(nearest("padauck")[0], "padauk");
    assert_eq!(
        nearest("maple hard").first().map(String::as_str),
        Some("hard maple")
    );
    assert!(nearest("xyzzy").is_empty());
    assert!(nearest("").is_empty());
    assert!(nearest(&"maple".repeat(100_000)).len() <= 3);
}

#[test]
fn density_follows_the_handbooks_definition() {
    // Specific gravity at 12 % is oven-dry mass over volume at 12 %; sugar maple is printed at 0.63.
    let maple = wood::find("hard maple").expect("known");
    assert!((maple.density.expect("printed") - 705.6).abs() < 1e-9);
    assert_eq!(maple.density_from, DensityFrom::Printed);
    assert_eq!(maple.uncertain, None);
    // Purpleheart is printed green only, 0.67: 0.67/0.89347 * 1120.
    let purple = wood::find("purpleheart").expect("known");
    assert!((purple.density.expect("carried over") - 839.87).abs() < 0.01);
    assert_eq!(purple.density_from, DensityFrom::Green);
    let padauk = wood::find("padauk").expect("known");
    assert_eq!(padauk.density, None);
    assert!(
        padauk
            .note
            .is_some_and(|n| n.contains("no specific gravity"))
    );
    assert_eq!(padauk.change.tangential, Some(0.0018));
    for name in [
        "wenge",
        "bubinga",
        "ebony",
        "goncalo alves",
        "sapele",
        "jatoba",
    ] {
        assert!(
            wood::find(name).expect("known").uncertain.is_some(),
            "{name}"
        );
    }
    // Iroko's shrinkage and gravity stand in two rows of the handbook.
    let iroko = wood::find("iroko").expect("known");
    assert!(iroko.density.is_some() && iroko.shrinkage.radial == Some(2.8));
}

#[test]
fn carrying_green_gravity_over_agrees_with_what_is_printed() {
    // Every wood that has both figures: the formula must give the printed one back.
    let mut pairs = 0;
    let mut worst: f64 = 0.0;
    let mut sum = 0.0;
    for line in include_str!("../data/woods.csv").lines().skip(2) {
        // Names hold commas; the cells wanted are counted from the botanical name on.
        let after_name = match line.strip_prefix('"') {
            Some(rest) => rest.split_once("\",").map(|(_, r)| r),
            None => line.split_once(',').map(|(_, r)| r),
        };
        let Some(after_name) = after_name else {
            continue;
        };
        if after_name.starts_with('"') {
            continue;
        }
        let cells: Vec<&str> = after_name.split(',').collect();
        let (Ok(at_12), Ok(green)) = (cells[1].parse::<f64>(), cells[2].parse::<f64>()) else {
            continue;
        };
        let carried = green / (1.0 - 0.265 * 0.6 * green);
        pairs += 1;
        sum += (carried / at_12 - 1.0).abs();
        worst = worst.max((carried / at_12 - 1.0).abs());
    }
    assert!(pairs > 80, "{pairs}");
    let mean = sum / f64::from(pairs);
    assert!(mean < 0.03, "mean {mean}");
    assert!(worst < 0.15, "worst {worst}");
}

#[test]
fn densities_are_woods() {
    for wood in wood::all() {
        if let Some(density) = wood.density {
            assert!(
                (180.0..1450.0).contains(&density),
                "{}: {density}",
                wood.name
            );
        } else {
            assert!(wood.note.is_some(), "{}", wood.name);
        }
        // A wood moves less along its radius than along its rings.
        if let (Some(r), Some(t)) = (wood.shrinkage.radial, wood.shrinkage.tangential) {
            assert!(r < t, "{}", wood.name);
        }
        let serious = wood.change.radial.zip(wood.change.tangential);
        assert!(
            serious.is_none_or(|(r, t)| r < t && t < 0.006),
            "{}",
            wood.name
        );
    }
}

#[test]
fn own_woods_come_first() {
    let mut own = BTreeMap::new();
    own.insert(
        "Padauk".to_string(),
        OwnWood {
            like: None,
            density: Some(745.0),
            colour: None,
        },
    );
    own.insert(
        "kitchen table".to_string(),
        OwnWood {
            like: Some("red oak".into()),
            density: None,
            colour: Some("#102030".into()),
        },
    );
    own.insert(
        "odd".to_string(),
        OwnWood {
            like: Some("wallnut".into()),
            density: None,
            colour: None,
        },
    );
    let padauk = wood::find_among("padauk", &own).expect("own");
    assert_eq!(padauk.density, Some(745.0));
    assert_eq!(padauk.density_from, DensityFrom::Maker);
    assert!((padauk.grams(1e6).expect("known") - 745.0).abs() < 1e-9);
    let table = wood::find_among("Kitchen-Table", &own).expect("own");
    assert_eq!(table.colour.to_string(), "#102030");
    assert_eq!(table.shrinkage.radial, Some(4.0));
    assert_eq!(table.density_from, DensityFrom::Printed);
    let odd = wood::find_among("odd", &own).expect_err("like is unknown");
    assert_eq!(odd.name, "wallnut");
    assert_eq!(
        wood::find_among("kitchen tabel", &own)
            .expect_err("slip")
            .nearest[0],
        "kitchen table"
    );
}

#[test]
fn black_and_white_tells_common_woods_apart() {
    let hatch = |name: &str| wood::find(name).expect("known").hatch;
    let five = ["holly", "ash", "cherry", "walnut", "ebony"].map(hatch);
    assert_eq!(
        five,
        [
            Hatch::Blank,
            Hatch::Dots,
            Hatch::Lines,
            Hatch::Crossed,
            Hatch::Filled
        ]
    );
    let many: Vec<String> = (0..40).map(|_| "maple".to_string()).collect();
    let letters = wood::letters(&many);
    assert_eq!(letters[0..5], ['M', 'A', 'P', 'L', 'E']);
    let distinct: std::collections::BTreeSet<char> = letters[..36].iter().copied().collect();
    assert_eq!(distinct.len(), 36);
}

/// "lignum vitae" stood beside "lignumvitae", and "swamp white white oak" in the list.
#[test]
fn each_wood_is_in_the_list_under_one_spelling() {
    let mut names: Vec<&str> = wood::all().iter().map(|w| w.plain.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    let mut keys: Vec<String> = names.iter().map(|n| n.replace([' ', '-'], "")).collect();
    keys.sort_unstable();
    for pair in keys.windows(2) {
        assert_ne!(pair[0], pair[1]);
    }
    for name in &names {
        let words: Vec<&str> = name.split(' ').collect();
        assert!(words.windows(2).all(|w| w[0] != w[1]), "{name}");
    }
    // Every spelling that a file may have is still known.
    for name in [
        "lignumvitae",
        "lignum vitae",
        "swamp white oak",
        "swamp white white oak",
    ] {
        assert!(wood::find(name).is_ok(), "{name}");
    }
}
