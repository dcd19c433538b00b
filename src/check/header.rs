//! The load on a header, and what its section bears.
//!
//! The chase bears nothing of the house. A header in it bears what is over its opening, up to
//! the ceiling, and no arch is counted on: board by its area, finish by the weight that the user gave for it,
//! framing, mantel and screen by their share over the opening.
//!
//! # Source
//! Simple beam under a uniform load: 5WL³/384EI and WL/8. Dead load deflects half as much again in time (NDS
//! 2018 3.5.2, dry lumber, from memory). E and bending as of the lowest grade that yards sell, spruce-pine-fir
//! of stud grade up to 5-1/2 in and No. 3 above (NDS 2018 Supplement table 4A, from memory, no factor of
//! size), for a permanent load (factor 0.9, NDS 2018 table 2.3.2, from memory).

use super::load::finish_on;
use crate::catalog::FramingMember;
use crate::design::{Branch, ChaseFace, Design, Group, Kind, Part, front_wall_at, is_veneer};
use crate::geom::TOLERANCE;
use crate::params::{ChaseWall, Header, HeaderForm};
use crate::units::{AreaWeight, Length, Pressure, Span};

/// Newtons per square millimetre in 1 psi: NIST SP 811 (2008), appendix B.8.
const PSI: f64 = 6.894_757e-3;
/// Metres per second each second: NIST SP 811 (2008), appendix B.8.
const GRAVITY: f64 = 9.806_65;
/// Kilograms per square metre in 1 lb/ft²: NIST SP 811 (2008), appendix B.8.
const POUND_PER_SQUARE_FOOT: f64 = 4.882_428;
/// Modulus of elasticity, where the grade is not given.
const STIFFNESS: Pressure = Pressure::new(1.2e6);
/// Bending, psi: stud grade.
const BENDING: f64 = 675.0;
/// Bending of wider sticks, psi: No. 3.
const BENDING_WIDE: f64 = 500.0;
const WIDEST_STUD_GRADE: Length = Length::inches(5.5);
const PERMANENT: f64 = 0.9;
const CREEP: f64 = 1.5;
/// Span over deflection where stone or tile hangs on it: IBC 2018 1404.10 and IRC 2018 R703.8.
const UNDER_STONE: f64 = 600.0;
/// The same under board: common practice, no source.
const UNDER_BOARD: f64 = 360.0;

/// What a header spans.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Over {
    /// The unit's rough opening.
    Unit,
    /// The recess.
    Recess,
}

impl Over {
    /// What the opening is called.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Unit => "unit",
            Self::Recess => "recess",
        }
    }
}

/// A header over its opening, in the world's frame.
pub(super) struct Beam<'a> {
    /// What it spans.
    pub(super) over: Over,
    /// The wall that it stands in.
    pub(super) wall: ChaseWall,
    /// Between its jacks.
    pub(super) opening: Span,
    /// Its underside.
    pub(super) bottom: Length,
    /// What it is.
    pub(super) header: Header<'a>,
    /// Modulus of elasticity of its grade.
    pub(super) modulus: Pressure,
    /// Studs of its wall.
    pub(super) stud: &'a FramingMember,
}

/// What hangs on a header.
pub(super) struct Hung {
    /// All of it, in kilograms, as far as it is known.
    pub(super) mass: f64,
    /// Whether stone, tile or plaster is among it.
    pub(super) is_stone: bool,
    /// The key of a weight that nobody has given.
    pub(super) unknown: Option<&'static str>,
}

impl Beam<'_> {
    /// The most that its section bears over its opening, in kilograms; `None` for steel, whose maker's
    /// table says it.
    pub(super) fn carries(&self, is_stone: bool) -> Option<f64> {
        let (width, depth) = self.section()?;
        let inertia = width * depth.powi(3) / 12.0;
        let span = self.opening.size().to_mm();
        let limit = if is_stone { UNDER_STONE } else { UNDER_BOARD };
        let stiff =
            384.0 * self.modulus.value() * PSI * inertia / (5.0 * CREEP * limit * span.powi(2));
        let bending = if depth > WIDEST_STUD_GRADE.to_mm() {
            BENDING_WIDE
        } else {
            BENDING
        };
        let modulus = inertia / (depth / 2.0);
        let strong = 8.0 * bending * PSI * PERMANENT * modulus / span;
        Some(stiff.min(strong) / GRAVITY)
    }

    /// Width and depth of the wood that bends, in millimetres.
    fn section(&self) -> Option<(f64, f64)> {
        match self.header.form {
            HeaderForm::Flat => {
                let stick = self.stud.wood()?;
                Some((stick.width.to_mm(), stick.thickness.to_mm()))
            }
            HeaderForm::OnEdge => {
                let ply = self.header.stock.wood()?;
                let plies = f64::from(self.header.count(ply, self.stud));
                Some((ply.thickness.to_mm() * plies, ply.width.to_mm()))
            }
        }
    }

    /// The parts that it is made of.
    pub(super) fn parts<'d>(&self, design: &'d Design) -> impl Iterator<Item = &'d Part> {
        let top = self.bottom + self.header.height(self.stud);
        let (wall, low, high) = (self.wall, self.bottom.to_mm(), top.to_mm());
        design.parts.iter().filter(move |it| {
            let bounds = &it.body.bounds;
            it.kind == Kind::Header
                && it.is_of(wall)
                && bounds.low.z >= low - TOLERANCE
                && bounds.high.z <= high + TOLERANCE
        })
    }

    /// What hangs on it.
    pub(super) fn hung(&self, design: &Design) -> Hung {
        let mut hung = Hung {
            mass: 0.0,
            is_stone: false,
            unknown: None,
        };
        let ceiling = self.highest_ceiling(design);
        let under = self.under_recess(design).unwrap_or(ceiling);
        for part in &design.parts {
            if self.is_held(design, part) {
                let in_recess = part.is_of(Branch::Recess);
                let top = if in_recess { ceiling } else { under };
                hung.mass += self.share(part, top) * design.mass(part);
            } else if self.is_skin(part) {
                self.hang_skin(design, part, under, &mut hung);
            }
        }
        hung
    }

    /// The sill of a recess that is wider than the unit's opening: its own jacks carry what is above, and the
    /// unit's header what is below and what stands on the sill.
    fn under_recess(&self, design: &Design) -> Option<Length> {
        let recess = design.layout.recess.filter(|_| self.wall.has_recess())?;
        let clear = [
            self.opening.low - recess.framed.low,
            recess.framed.high - self.opening.high,
        ];
        let is_under = (recess.rough_height.low - self.bottom).is_positive();
        let carried = is_under && clear.into_iter().all(Length::is_positive);
        carried.then_some(recess.rough_height.low)
    }

    /// Framing of its wall and of the recess over it, and what the wall bears.
    fn is_held(&self, design: &Design, part: &Part) -> bool {
        let own = if part.kind == Kind::Mantel {
            // what lies on the ledge lies on the frame under it
            let under = part.heights().low - Length::mm(2.0 * TOLERANCE);
            front_wall_at(&design.layout, under).0 == self.wall
        } else if part.is_of(Branch::Recess) {
            self.wall.has_recess()
        } else {
            part.group == Group::Framing && part.is_of(self.wall)
        };
        own && (part.heights().high - self.bottom).is_positive()
    }

    /// Whether a part is board or finish that hangs on its wall.
    fn is_skin(&self, part: &Part) -> bool {
        let own = part.branch.face().is_some_and(|face| match face {
            ChaseFace::Front => true,
            ChaseFace::Lower => self.wall.has_ledge(),
            ChaseFace::Upper => !self.wall.has_ledge(),
            ChaseFace::Left | ChaseFace::Right | ChaseFace::Back => false,
        });
        own && matches!(part.kind, Kind::Board | Kind::Finish)
    }

    /// Adds the board or the finish over the opening, without its holes.
    fn hang_skin(&self, design: &Design, part: &Part, top: Length, hung: &mut Hung) {
        let area = self.over(part, top) * self.opening.shared(part.sides()).to_mm() * 1e-6;
        let thickness = part.body.bounds.size().y * 1e-3;
        if part.kind != Kind::Finish {
            hung.mass += area * thickness * part.material.density;
            return;
        }
        let Some(finish) = finish_on(design, self.wall) else {
            return;
        };
        hung.is_stone |= area > 0.0 && (finish.material.is_none() || is_veneer(finish.material));
        match finish.weight.map(AreaWeight::value) {
            Some(weight) => hung.mass += area * weight * POUND_PER_SQUARE_FOOT,
            None if area > 0.0 => hung.unknown = Some(finish.key),
            None => {}
        }
    }

    /// The share of a part that lies over the opening, by its length along the wall and its height.
    fn share(&self, part: &Part, top: Length) -> f64 {
        let sides = part.sides();
        let along = self.opening.shared(sides).to_mm() / sides.size().to_mm();
        let height = part.heights().size().to_mm();
        along * (self.over(part, top) / height).min(1.0)
    }

    /// How much of a part's height lies between the header's underside and where its load ends, in millimetres.
    fn over(&self, part: &Part, top: Length) -> f64 {
        let heights = part.heights();
        let span = Span::new(self.bottom, top.max(self.bottom));
        span.shared(heights).to_mm()
    }

    /// The highest that the ceiling comes over the opening, in the wall's own depth.
    pub(super) fn highest_ceiling(&self, design: &Design) -> Length {
        let layout = &design.layout;
        let depth = [layout.faces.upper_stud, layout.faces.front_back];
        let corners = [self.opening.low, self.opening.high]
            .map(|right| depth.map(|out| glam::DVec2::new(right.to_mm(), -out.to_mm())));
        let [[a, d], [b, c]] = corners;
        Length::mm(layout.ceiling.highest(&[a, b, c, d]))
    }
}

/// Every header over the unit that the chase has.
pub(super) fn over_unit(design: &Design) -> Vec<Beam<'_>> {
    let layout = &design.layout;
    let params = &design.params;
    let mut walls = vec![front_wall_at(layout, Length::mm(f64::MAX)).0];
    if layout.is_stepped() {
        walls.push(ChaseWall::BumpOut);
    }
    let beam = |wall| Beam {
        over: Over::Unit,
        wall,
        opening: layout.rough_opening,
        bottom: layout.heights.header_bottom,
        header: params.unit_header(wall),
        modulus: params.front.header_modulus.unwrap_or(STIFFNESS),
        stud: params.stud_of(wall),
    };
    walls.into_iter().map(beam).collect()
}

/// The header over the recess.
pub(super) fn over_recess(design: &Design) -> Option<Beam<'_>> {
    let (params, layout) = (&design.params, &design.layout);
    let (recess, header) = (layout.recess.as_ref()?, params.recess_header()?);
    let (wall, _) = front_wall_at(layout, recess.rough_height.high);
    Some(Beam {
        over: Over::Recess,
        wall,
        opening: recess.framed,
        bottom: recess.rough_height.high,
        header,
        modulus: params.front.header_modulus.unwrap_or(STIFFNESS),
        stud: params.front_stud(),
    })
}
