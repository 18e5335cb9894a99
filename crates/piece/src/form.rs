//! The finished form: outer and inner side, floor, foot and rim, and what they measure.
//!
//! ```text
//!   FormSpec ──► outer curve ──► inner side ──► foot, floor, rim ──► Form
//!                     └──────────────┴──────────────┴──► FormProblem, each with a remedy
//! ```

use geometry::Portable;
mod build;
mod curve;
mod foot;
mod gauge;
mod hollow;
mod problem;
mod rim;
mod volume;

use geometry::kurbo::Point;
use geometry::{Angle, Length, Outline, Profile};

use files::design::FormSpec;
use gauge::Gauge;

pub use problem::{FormPart, FormProblem, FormProblemKind};
pub use volume::{SurfaceAreas, Volume};

/// The finished form.
///
/// ```
/// use geometry::Length;
/// use files::design::{FormPoint, FormSpec, WallPoint};
/// use piece::form::Form;
/// let at = |h, r| FormPoint { height: Length::mm(h), radius: Length::mm(r), corner: false };
/// let spec = FormSpec {
///     outer: vec![at(0.0, 40.0), at(100.0, 40.0)],
///     wall: WallPoint::everywhere(Length::mm(5.0)),
///     ..FormSpec::default()
/// };
/// let (form, problems) = Form::build(&spec);
/// assert!(problems.is_empty());
/// let form = form.expect("no problems");
/// // A box 35 mm in radius and 95 mm deep holds 365.6 ml.
/// assert!((form.capacity().as_ml() - 365.6).abs() < 0.05);
/// assert!(form.floor_is_default);
/// ```
#[derive(Debug, Clone)]
pub struct Form {
    /// No wall thickness was given; it is [`FormSpec::usual_wall`].
    pub wall_is_default: bool,
    /// No floor thickness was given; it is the wall's at the bottom, or what the inner
    /// side's own lowest point leaves.
    pub floor_is_default: bool,
    /// There is a recess under the foot but no width was given for the ring around it;
    /// it is the wall's thickness at the bottom, at most half the foot's radius.
    pub foot_width_is_default: bool,
    outline: Outline,
    outside: Profile,
    inside: Profile,
    /// Both sides before the rim is eased: outside, inside.
    turned: [Profile; 2],
    gauge: Gauge,
    foot: Foot,
    floor_top: f64,
    rim_easing: f64,
}

/// Which side of the turned wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WallSide {
    /// Seen from outside; azimuth runs to the right.
    Outside,
    /// Seen from inside, from the axis; azimuth runs to the left.
    Inside,
}

/// The foot, millimetres. All zero but the radius where there is no recess.
#[derive(Debug, Clone, Copy, Default)]
struct Foot {
    radius: f64,
    recess: f64,
    width: f64,
}

impl Form {
    /// The form that a maker's points give, and everything that is wrong with them.
    ///
    /// Without a usable outer curve, inner side and floor there is no form. A recess
    /// or a rim easing that does not fit is reported and left out of the form.
    pub fn build(spec: &FormSpec) -> (Option<Form>, Vec<FormProblem>) {
        build::build(spec)
    }

    /// The half-section of the wood.
    pub fn outline(&self) -> &Outline {
        &self.outline
    }

    /// The outer side, from the foot's underside to the rim.
    pub fn outside(&self) -> &Profile {
        &self.outside
    }

    /// The inner side, from the floor to the rim.
    pub fn inside(&self) -> &Profile {
        &self.inside
    }

    /// One of the two sides.
    pub fn wall(&self, side: WallSide) -> &Profile {
        match side {
            WallSide::Outside => &self.outside,
            WallSide::Inside => &self.inside,
        }
    }

    /// One of the two sides as it is turned, before the rim is eased: what a calliper is set
    /// to while the tool cuts.
    pub fn turned(&self, side: WallSide) -> &Profile {
        let [outside, inside] = &self.turned;
        match side {
            WallSide::Outside => outside,
            WallSide::Inside => inside,
        }
    }

    /// Height from the foot's underside to the rim.
    pub fn height(&self) -> Length {
        Length::mm(self.outline.top())
    }

    /// Largest radius, before the rim is eased, and the lowest height where it is reached.
    pub fn largest_radius(&self) -> (Length, Length) {
        let widest = self
            .turned(WallSide::Outside)
            .points()
            .into_iter()
            .fold(Point::ZERO, |w, p| if p.x > w.x { p } else { w });
        (Length::mm(widest.x), Length::mm(widest.y))
    }

    /// Height of the floor's upper face.
    pub fn floor_top(&self) -> Length {
        Length::mm(self.floor_top)
    }

    /// Thickness of the floor above the recess.
    pub fn floor(&self) -> Length {
        Length::mm(self.floor_top - self.foot.recess)
    }

    /// Depth of the recess under the foot; zero where there is none.
    pub fn foot_recess(&self) -> Length {
        Length::mm(self.foot.recess)
    }

    /// Width of the foot's ring around the recess; zero where there is none.
    pub fn foot_width(&self) -> Length {
        Length::mm(self.foot.width)
    }

    /// Radius that the piece stands on; zero for a round bottom.
    pub fn foot_radius(&self) -> Length {
        Length::mm(self.foot.radius)
    }

    /// Radius that both edges of the rim are eased to.
    pub fn rim_easing(&self) -> Length {
        Length::mm(self.rim_easing)
    }

    /// Wall thickness at a height of the outer side, square to the outer side there.
    ///
    /// Nothing beside the foot and floor, where no wall stands between two sides, nor
    /// above the rim. The rim's easing is not taken off.
    pub fn wall_at(&self, height: Length) -> Option<Length> {
        self.gauge.wall_at(height.as_mm()).map(Length::mm)
    }

    /// The thinnest wall, square to the outer side, and its height on the outer side.
    pub fn thinnest_wall(&self) -> (Length, Length) {
        let (wall, height) = self.gauge.thinnest();
        (Length::mm(wall), Length::mm(height))
    }

    /// Wood in the finished form.
    pub fn wood_volume(&self) -> Volume {
        Volume::mm3(self.outline.volume())
    }

    /// What it holds, filled to the brim.
    pub fn capacity(&self) -> Volume {
        Volume::mm3(volume::under(&self.inside.points()))
    }

    /// Surfaces to be sanded and finished.
    pub fn surface_areas(&self) -> SurfaceAreas {
        let (outside, inside) = (self.outside.points(), self.inside.points());
        let end = |line: &[Point], last: bool| {
            let p = if last { line.last() } else { line.first() };
            p.map_or(0.0, |p| p.x)
        };
        let disc = |r: f64| std::f64::consts::PI * r * r;
        // The recess's ceiling and the foot's ring together are the foot's disc.
        let hole = (self.foot.radius - self.foot.width).max(0.0);
        SurfaceAreas {
            outside: volume::swept(&outside),
            inside: volume::swept(&inside) + disc(end(&inside, false)),
            rim: (disc(end(&outside, true)) - disc(end(&inside, true))).max(0.0),
            underside: disc(self.foot.radius)
                + 2.0 * std::f64::consts::PI * hole * self.foot.recess,
        }
    }

    /// Height of the centre of gravity if all wood is equally heavy.
    pub fn centre_of_gravity_height(&self) -> Length {
        Length::mm(self.outline.centroid_height())
    }

    /// How far it can be tipped before it falls by itself: the angle whose tangent is
    /// foot radius over height of the centre of gravity, all wood equally heavy.
    pub fn tipping_angle(&self) -> Angle {
        Angle::rad(self.foot.radius.arctangent2(self.outline.centroid_height()))
    }
}
