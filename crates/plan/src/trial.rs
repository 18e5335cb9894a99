//! Small pieces to try operations on. All are our own invention.

use files::design::{BandSpec, BlankShape, Design, FloorSpec, LayerMake, RingSpec};
use files::design::{FormPoint, FormSpec, WallPoint};
use files::design::{SectionSpec, SplitSpec};
use files::workshop::Workshop;
use geometry::{Angle, Length};
use piece::piece::Piece;
use piece::settle::{Settled, settle};

const fn mm(value: f64) -> Length {
    Length::mm(value)
}

/// A design in the plain shop.
pub fn settled(design: Design) -> Settled {
    settle(&design, &Workshop::default())
}

fn made(design: Design) -> Piece {
    settled(design).piece.unwrap()
}

fn form(points: &[(f64, f64)], wall: f64) -> FormSpec {
    FormSpec {
        outer: points
            .iter()
            .map(|&(height, radius)| FormPoint {
                height: mm(height),
                radius: mm(radius),
                corner: false,
            })
            .collect(),
        wall: WallPoint::everywhere(mm(wall)),
        ..FormSpec::default()
    }
}

fn words(all: &[&str]) -> Vec<String> {
    all.iter().map(ToString::to_string).collect()
}

/// A curved bowl with four loops in its second section.
pub fn bowl_design() -> Design {
    Design {
        title: "Trial bowl".into(),
        form: form(
            &[(0.0, 45.0), (30.0, 75.0), (60.0, 95.0), (95.0, 102.0)],
            8.0,
        ),
        sections: vec![
            SectionSpec {
                name: "foot".into(),
                wood: words(&["walnut"]),
                segments: Some(12),
                stock: Some(mm(16.0)),
                rings: Some(1),
                ..SectionSpec::default()
            },
            SectionSpec {
                name: "belly".into(),
                wood: words(&["hard maple", "hard maple", "cherry"]),
                segments: Some(12),
                stock: Some(mm(21.0)),
                rings: Some(4),
                bands: vec![BandSpec {
                    loops: Some(4),
                    height: Some(mm(40.0)),
                    reach: Some(mm(44.0)),
                    wood: words(&["padauk"]),
                    layer: Some(mm(6.0)),
                    make: Some(LayerMake::RoundRing),
                    ..BandSpec::default()
                }],
                ..SectionSpec::default()
            },
        ],
        ..Design::default()
    }
}

/// See [`bowl_design`].
pub fn bowl() -> Piece {
    made(bowl_design())
}

fn tube_design() -> Design {
    let mut shape = form(&[(0.0, 58.0), (96.0, 58.0)], 7.0);
    shape.straight = true;
    shape.floor = Some(mm(7.0));
    shape.foot_recess = Some(mm(2.0));
    shape.foot_width = Some(mm(7.0));
    Design {
        title: "Trial tube".into(),
        form: shape,
        sections: vec![
            SectionSpec {
                name: "base".into(),
                wood: words(&["walnut"]),
                segments: Some(12),
                listed: vec![RingSpec {
                    stock: Some(mm(20.0)),
                    floor: Some(FloorSpec {
                        wood: "hard maple".into(),
                        floating: true,
                        groove: Some(mm(5.0)),
                        ..FloorSpec::default()
                    }),
                    ..RingSpec::default()
                }],
                ..SectionSpec::default()
            },
            SectionSpec {
                name: "body".into(),
                wood: words(&["cherry"]),
                segments: Some(12),
                stock: Some(mm(16.4)),
                rings: Some(5),
                bands: vec![BandSpec {
                    loops: Some(3),
                    start: Some(Angle::deg(15.0)),
                    height: Some(mm(37.0)),
                    reach: Some(mm(46.0)),
                    wood: words(&["hard maple"]),
                    layer: Some(mm(5.0)),
                    ..BandSpec::default()
                }],
                ..SectionSpec::default()
            },
        ],
        ..Design::default()
    }
}

fn tube_with(change: impl FnOnce(&mut BandSpec)) -> Piece {
    let mut design = tube_design();
    change(&mut design.sections[1].bands[0]);
    made(design)
}

/// A straight tube on a floating floor, three loops in its second section.
pub fn tube() -> Piece {
    made(tube_design())
}

/// A tube of open rings on a closed base: twelve segments that fill 68 % of each ring.
pub fn open() -> Piece {
    let mut design = tube_design();
    design.title = "Trial lantern".into();
    design.form = form(&[(0.0, 78.0), (66.0, 78.0)], 16.0);
    design.form.straight = true;
    design.form.floor = Some(mm(7.0));
    design.form.foot_recess = Some(mm(2.0));
    design.form.foot_width = Some(mm(7.0));
    let body = &mut design.sections[1];
    (body.rings, body.stock, body.bands) = (None, None, Vec::new());
    body.listed = vec![RingSpec {
        repeat: Some(3),
        filled: Some(68.0),
        height: Some(mm(15.0)),
        outside: Some(mm(160.0)),
        width: Some(mm(22.0)),
        ..RingSpec::default()
    }];
    made(design)
}

/// The tube with its floor glued in.
pub fn glued_floor() -> Piece {
    let mut design = tube_design();
    let rings = design.sections[0].listed.iter_mut();
    for floor in rings.filter_map(|r| r.floor.as_mut()) {
        floor.floating = false;
    }
    made(design)
}

/// The tube with layers as long rings.
pub fn long_layers() -> Piece {
    tube_with(|b| b.make = Some(LayerMake::LongRing))
}

/// The tube, its loops cut in the order 2, 3, 1.
pub fn ordered() -> Piece {
    tube_with(|b| b.order = vec![2, 3, 1])
}

/// The tube with a spacer that the maker gives.
pub fn given_spacer() -> Piece {
    tube_with(|b| {
        b.layer = None;
        b.spacer = Some(mm(5.5));
    })
}

/// The tube with a layer thinner than its two kerfs.
pub fn thin_layer() -> Piece {
    tube_with(|b| b.layer = Some(mm(1.0)))
}

/// The tube cut straight across.
pub fn level() -> Piece {
    tube_with(|b| {
        b.reach = None;
        b.tilt = Some(Angle::ZERO);
    })
}

/// The tube with loops too near its end for positioning blocks.
pub fn short_knot() -> Piece {
    tube_with(|b| {
        b.reach = None;
        b.tilt = Some(Angle::deg(15.0));
        b.height = Some(mm(62.0));
    })
}

/// The tube sawn as a polygon.
pub fn polygon() -> Piece {
    let mut design = tube_design();
    design.sections[1].blank = Some(BlankShape::Polygon);
    made(design)
}

/// The tube with eight segments to three loops.
pub fn eight_and_three() -> Piece {
    let mut design = tube_design();
    design.sections[1].segments = Some(8);
    made(design)
}

/// Three short sections turned by 10° and 20°.
pub fn turned_sections() -> Piece {
    let section = |name: &str, turn: Option<f64>| SectionSpec {
        name: name.into(),
        wood: words(&["ash"]),
        segments: Some(12),
        stock: Some(mm(20.0)),
        rings: Some(1),
        turn: turn.map(Angle::deg),
        ..SectionSpec::default()
    };
    made(Design {
        title: "Trial tower".into(),
        form: form(&[(0.0, 40.0), (55.0, 40.0)], 8.0),
        sections: vec![
            section("low", None),
            section("middle", Some(10.0)),
            section("high", Some(20.0)),
        ],
        ..Design::default()
    })
}

/// One section of fifteen segments, split and turned by 8°.
pub fn odd() -> Piece {
    made(Design {
        title: "Trial neck".into(),
        form: form(&[(0.0, 40.0), (55.0, 40.0)], 8.0),
        sections: vec![SectionSpec {
            name: "neck".into(),
            wood: words(&["walnut"]),
            segments: Some(15),
            stock: Some(mm(20.0)),
            rings: Some(3),
            splits: vec![SplitSpec {
                id: None,
                height: mm(30.0),
                turn: Angle::deg(8.0),
                saw: None,
            }],
            ..SectionSpec::default()
        }],
        ..Design::default()
    })
}

/// A cup of two solid discs.
pub fn solid() -> Piece {
    let mut shape = form(&[(0.0, 40.0), (30.0, 40.0)], 8.0);
    shape.straight = true;
    made(Design {
        title: "Trial cup".into(),
        form: shape,
        sections: vec![SectionSpec {
            name: "cup".into(),
            wood: words(&["ash"]),
            stock: Some(mm(16.0)),
            listed: vec![RingSpec {
                repeat: Some(2),
                solid: true,
                ..RingSpec::default()
            }],
            ..SectionSpec::default()
        }],
        ..Design::default()
    })
}
