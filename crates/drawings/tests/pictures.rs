//! Pictures show what the model says, and any piece can be drawn.

mod support;

use std::f64::consts::TAU;

use drawings::wall::Wall;
use drawings::{Camera, Image, MapOptions, WallSide, draw_all, portrait, wall_map};
use files::design::Design;
use files::units::Unit;
use files::workshop::Workshop;
use piece::settle::settle;
use support::{EXAMPLES, piece_of};

fn flat(width: u32) -> MapOptions {
    MapOptions {
        width,
        height: None,
        grain: false,
    }
}

#[test]
fn every_pixel_of_a_wall_map_is_the_wood_that_the_model_has_there() {
    for (name, text) in EXAMPLES {
        let piece = piece_of(text);
        for side in [WallSide::Outside, WallSide::Inside] {
            let wall = Wall::new(&piece, side);
            let map = wall_map(&piece, side, &flat(900));
            let span = wall.highest() - wall.lowest();
            let spot = |x: f64, y: f64| {
                let share = x / f64::from(map.width);
                let share = if side == WallSide::Inside {
                    1.0 - share
                } else {
                    share
                };
                let z = wall.highest() - y / f64::from(map.height) * span;
                wall.spot(share * TAU, z)
            };
            let (mut asked, mut compared) = (0, 0);
            for y in (2..map.height - 2).step_by(7) {
                for x in (2..map.width - 2).step_by(5) {
                    asked += 1;
                    let (cx, cy) = (f64::from(x) + 0.5, f64::from(y) + 0.5);
                    let here = spot(cx, cy);
                    let part = |s: &Option<piece::model::Spot>| s.map(|s| (s.section, s.part));
                    // Pixels on a line between parts are darkened.
                    let clear = (-2..=2).all(|i| {
                        (-2..=2).all(|j| {
                            let near = spot(cx + f64::from(i), cy + f64::from(j));
                            part(&near) == part(&here)
                        })
                    });
                    let Some(here) = here.filter(|_| clear) else {
                        continue;
                    };
                    compared += 1;
                    let c = piece.wood(here.wood).colour;
                    assert_eq!(
                        map.pixel(x, y),
                        [c.red, c.green, c.blue],
                        "{name} {side:?} at {x}, {y}"
                    );
                }
            }
            assert!(compared * 10 > asked * 5, "{name}: {compared} of {asked}");
        }
    }
}

#[test]
fn a_map_keeps_to_scale() {
    let piece = piece_of(EXAMPLES[0].1);
    let wall = Wall::new(&piece, WallSide::Outside);
    let map = wall_map(&piece, WallSide::Outside, &flat(2000));
    let across = TAU * wall.true_radius().as_mm() / f64::from(map.width);
    let down = (wall.highest() - wall.lowest()) / f64::from(map.height);
    assert!((across / down - 1.0).abs() < 0.002, "{across} {down}");
}

#[test]
fn grain_changes_shades_and_not_woods() {
    // The mean of a wood's pixels stays near its colour; the same part looks the same twice.
    let piece = piece_of(EXAMPLES[0].1);
    let plain = wall_map(&piece, WallSide::Outside, &flat(800));
    let grained = wall_map(
        &piece,
        WallSide::Outside,
        &MapOptions {
            grain: true,
            ..flat(800)
        },
    );
    let mean = |i: &Image| {
        let mut sum = [0.0; 3];
        for p in i.rgb.chunks(3) {
            for k in 0..3 {
                sum[k] += f64::from(p[k]) / (i.rgb.len() as f64 / 3.0);
            }
        }
        sum
    };
    let (a, b) = (mean(&plain), mean(&grained));
    for k in 0..3 {
        assert!((a[k] - b[k]).abs() < 16.0, "{a:?} {b:?}");
    }
    assert_ne!(plain.rgb, grained.rgb);
}

#[test]
fn a_png_holds_the_same_pixels() {
    let piece = piece_of(EXAMPLES[2].1);
    let map = wall_map(&piece, WallSide::Inside, &flat(300));
    let bytes = map.to_png();
    let decoder = png::Decoder::new(std::io::Cursor::new(bytes));
    let mut reader = decoder.read_info().expect("a PNG");
    let mut pixels = vec![0; reader.output_buffer_size().expect("a size")];
    let info = reader.next_frame(&mut pixels).expect("a frame");
    assert_eq!((info.width, info.height), (map.width, map.height));
    assert_eq!(&pixels[..info.buffer_size()], map.rgb);
}

#[test]
fn a_portrait_stands_on_paper_in_the_middle() {
    for (name, text) in EXAMPLES {
        let piece = piece_of(text);
        let picture = portrait(&piece, 240, 200, &Camera::default());
        assert_eq!((picture.width, picture.height), (240, 200));
        let paper = picture.pixel(0, 0);
        assert!(paper.iter().all(|c| *c > 225), "{name}: {paper:?}");
        // Wood is coloured (red and blue far apart) or darker than any shadow.
        let wood = |x: u32, y: u32| {
            let p = picture.pixel(x, y);
            i32::from(p[0]) - i32::from(p[2]) > 24 || p.iter().all(|c| *c < 80)
        };
        let columns: Vec<u32> = (0..240).filter(|x| (0..200).any(|y| wood(*x, y))).collect();
        let rows: Vec<u32> = (0..200).filter(|y| (0..240).any(|x| wood(x, *y))).collect();
        let (left, right) = (columns[0], 239 - columns[columns.len() - 1]);
        let (top, bottom) = (rows[0], 199 - rows[rows.len() - 1]);
        assert!(left.abs_diff(right) <= 3, "{name}: {left} {right}");
        assert!(top.abs_diff(bottom) <= 8, "{name}: {top} {bottom}");
        assert!(left.min(top) >= 12, "{name}");
        assert!(left.min(top) <= 40, "{name}: too small");
    }
}

/// Whatever can be settled can be drawn: thin, tiny, huge, off the wall, short of wood.
#[test]
fn nothing_that_settles_is_too_odd_to_draw() {
    let odd = [
        // A pen's body, 3 segments, a band as thick as its wall.
        "ringwright = 1\ntitle = \"<&\\\"pen\\\">\"\nunit = \"mm\"\n[form]\nouter = [[0, 5], [60, 6]]\nwall = 1\n[[section]]\nname = \"b/ a\"\nsegments = 3\nrings = 4\nstock = 16\n[[section.band]]\nloops = 2\nheight = 30\ntilt = 30\nlayer = 1.5\nwood = \"ebony\"\n",
        // A metre across, 144 segments, level loops.
        "ringwright = 1\ntitle = \"tray\"\nunit = \"mm\"\n[form]\nouter = [[0, 450], [40, 520]]\nwall = 12\n[[section]]\nname = \"a\"\nsegments = 144\nstock = 20\nrings = 3\n[[section.band]]\nloops = 16\nheight = 28\ntilt = 1\nlayer = 4\nwood = \"holly\"\n",
        // Loops that run out over the rim and under the foot, and a split through them.
        "ringwright = 1\ntitle = \"steep\"\nunit = \"inch\"\n[form]\nouter = [[0, 2], [3, 2.5]]\nwall = 0.3\n[[section]]\nname = \"a\"\nrings = 4\nstock = 0.8\n[[section.band]]\nloops = 5\nheight = 1.5\ntilt = 48\nlayer = 0.25\nwood = \"walnut\"\n[[section.split]]\nheight = 1.2\nturn = 11\n[[section]]\nname = \"a-1\"\n",
        // A ring that does not reach round the form, and a stack that is too low.
        "ringwright = 1\ntitle = \"short\"\nunit = \"mm\"\n[form]\nouter = [[0, 30], [50, 60], [100, 40]]\nwall = 5\n[[section]]\nname = \"a\"\n[[section.ring]]\nstock = 20\noutside = 70\nwidth = 4\n[[section.ring]]\nstock = 20\nsolid = true\n",
    ];
    let mut drawn = 0;
    for text in odd {
        let (design, _, problems) = files::read::read_design("odd", text);
        let design: Design = design.unwrap_or_else(|| {
            panic!("{}", files::report::render("odd", text, &problems));
        });
        let Some(piece) = settle(&design, &Workshop::default()).piece else {
            continue;
        };
        for unit in [Unit::Mm, Unit::Inch] {
            for (name, bytes) in draw_all(&piece, unit.into(), 64) {
                assert!(!bytes.is_empty(), "{name}");
                if name.ends_with(".svg") {
                    let svg = String::from_utf8(bytes).expect("text");
                    roxmltree::Document::parse(&svg).unwrap_or_else(|e| panic!("{name}: {e}"));
                    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{name}");
                }
                drawn += 1;
            }
        }
        for grain in [false, true] {
            let options = MapOptions {
                width: 1,
                height: Some(1),
                grain,
            };
            assert_eq!(wall_map(&piece, WallSide::Outside, &options).rgb.len(), 3);
        }
        let camera = Camera {
            elevation: geometry::Angle::deg(90.0),
            ..Camera::default()
        };
        assert_eq!(portrait(&piece, 3, 2, &camera).rgb.len(), 18);
    }
    assert!(drawn > 100, "{drawn}");
}
