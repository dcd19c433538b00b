//! What is measured and written down once it stands, or is delivered: the inspector asks for some of it, and later
//! work goes by the rest.
//!
//! # Source
//! Which measures: common practice, no source.

use crate::design::{Design, Kind, Stage, Stock};
use crate::geom::nearest_within;
use crate::params::Collar;
use crate::units::{Length, Rounding, TapeUnit};

/// Beyond this nothing stands near a pipe.
const FAR: Length = Length::inches(48.0);

/// A measure of what was built or delivered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measured {
    /// Width of the unit's body.
    UnitBodyWidth,
    /// Its height.
    UnitBodyHeight,
    /// Its depth.
    UnitBodyDepth,
    /// Width of the unit's opening.
    UnitOpeningWidth,
    /// Top of that opening over the body's base.
    UnitOpeningTop,
    /// How far the lip stands forward of the face.
    UnitLip,
    /// Center of the collar behind the unit's face, or above its base.
    UnitCollarOffset,
    /// Outer diameter of the pipe.
    PipeDiameter,
    /// Rough opening, between jacks.
    RoughOpeningWidth,
    /// Rough opening, from the platform to the header.
    RoughOpeningHeight,
    /// Between unit and framing on the left.
    GapBesideLeft,
    /// Between unit and framing on the right.
    GapBesideRight,
    /// Between unit and the wall behind.
    GapBehind,
    /// Between unit and header.
    GapAbove,
    /// Between the vent and the nearest wood.
    PipeToWood,
    /// Between the cap and the nearest window or other opening.
    CapToWindow,
    /// The finished recess.
    RecessWidth,
    /// The finished recess.
    RecessHeight,
    /// The finished recess.
    RecessDepth,
}

impl Measured {
    /// Every measure, in the order in which they can be taken.
    pub const ALL: [Self; 19] = [
        Self::UnitBodyWidth,
        Self::UnitBodyHeight,
        Self::UnitBodyDepth,
        Self::UnitOpeningWidth,
        Self::UnitOpeningTop,
        Self::UnitLip,
        Self::UnitCollarOffset,
        Self::PipeDiameter,
        Self::RoughOpeningWidth,
        Self::RoughOpeningHeight,
        Self::GapBesideLeft,
        Self::GapBesideRight,
        Self::GapBehind,
        Self::GapAbove,
        Self::PipeToWood,
        Self::CapToWindow,
        Self::RecessWidth,
        Self::RecessHeight,
        Self::RecessDepth,
    ];

    /// Its name, the same for good.
    pub const fn name(self) -> &'static str {
        match self {
            Self::UnitBodyWidth => "unit_body_width",
            Self::UnitBodyHeight => "unit_body_height",
            Self::UnitBodyDepth => "unit_body_depth",
            Self::UnitOpeningWidth => "unit_opening_width",
            Self::UnitOpeningTop => "unit_opening_top",
            Self::UnitLip => "unit_lip",
            Self::UnitCollarOffset => "unit_collar_offset",
            Self::PipeDiameter => "pipe_diameter",
            Self::RoughOpeningWidth => "rough_opening_width",
            Self::RoughOpeningHeight => "rough_opening_height",
            Self::GapBesideLeft => "gap_beside_left",
            Self::GapBesideRight => "gap_beside_right",
            Self::GapBehind => "gap_behind",
            Self::GapAbove => "gap_above",
            Self::PipeToWood => "pipe_to_wood",
            Self::CapToWindow => "cap_to_window",
            Self::RecessWidth => "recess_width",
            Self::RecessHeight => "recess_height",
            Self::RecessDepth => "recess_depth",
        }
    }

    /// What it is, for who measures it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::UnitBodyWidth => "delivered unit, width of its body",
            Self::UnitBodyHeight => "delivered unit, height of its body",
            Self::UnitBodyDepth => "delivered unit, depth of its body behind the face",
            Self::UnitOpeningWidth => "delivered unit, width of its opening",
            Self::UnitOpeningTop => "delivered unit, top of its opening above the body's base",
            Self::UnitLip => "delivered unit, lip forward of the face",
            Self::UnitCollarOffset => "delivered unit, center of its collar",
            Self::PipeDiameter => "delivered pipe, outer diameter",
            Self::RoughOpeningWidth => "rough opening, width",
            Self::RoughOpeningHeight => "rough opening, height",
            Self::GapBesideLeft => "gap beside the unit, left",
            Self::GapBesideRight => "gap beside the unit, right",
            Self::GapBehind => "gap behind the unit",
            Self::GapAbove => "gap above the unit",
            Self::PipeToWood => "pipe to the nearest wood",
            Self::CapToWindow => "cap to the nearest window or opening",
            Self::RecessWidth => "finished recess, width",
            Self::RecessHeight => "finished recess, height",
            Self::RecessDepth => "finished recess, depth",
        }
    }

    /// After which stage it is measured; of what is delivered before the first cut, [`Stage::Existing`].
    pub const fn stage(self) -> Stage {
        match self {
            Self::UnitBodyWidth
            | Self::UnitBodyHeight
            | Self::UnitBodyDepth
            | Self::UnitOpeningWidth
            | Self::UnitOpeningTop
            | Self::UnitLip
            | Self::UnitCollarOffset
            | Self::PipeDiameter => Stage::Existing,
            Self::RoughOpeningWidth | Self::RoughOpeningHeight => Stage::Walls,
            Self::GapBesideLeft | Self::GapBesideRight | Self::GapBehind | Self::GapAbove => {
                Stage::Unit
            }
            Self::PipeToWood | Self::CapToWindow => Stage::Vent,
            Self::RecessWidth | Self::RecessHeight | Self::RecessDepth => Stage::Finish,
        }
    }

    /// Which way its number is rounded: openings up, gaps down.
    pub const fn rounding(self) -> Rounding {
        match self {
            Self::RoughOpeningWidth
            | Self::RoughOpeningHeight
            | Self::RecessWidth
            | Self::RecessHeight
            | Self::RecessDepth => Rounding::Up,
            Self::GapBesideLeft
            | Self::GapBesideRight
            | Self::GapBehind
            | Self::GapAbove
            | Self::PipeToWood
            | Self::CapToWindow => Rounding::Down,
            Self::UnitBodyWidth
            | Self::UnitBodyHeight
            | Self::UnitBodyDepth
            | Self::UnitOpeningWidth
            | Self::UnitOpeningTop
            | Self::UnitLip
            | Self::UnitCollarOffset
            | Self::PipeDiameter => Rounding::Nearest,
        }
    }
}

/// A blank for a measure, with what was planned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blank {
    /// What is measured.
    pub measured: Measured,
    /// What the design has there; nothing where it does not know.
    pub planned: Option<Length>,
}

impl Blank {
    /// What was planned, as it is written; empty where nobody knows.
    pub fn tape(&self, unit: TapeUnit) -> String {
        let planned = self.planned;
        planned.map_or(String::new(), |it| it.tape(unit, self.measured.rounding()))
    }
}

/// A blank for every measure of what is there.
pub(super) fn blanks(design: &Design) -> Vec<Blank> {
    let all = Measured::ALL.into_iter();
    let all = all.filter(|it| design.layout.recess.is_some() || it.stage() != Stage::Finish);
    all.map(|measured| Blank {
        measured,
        planned: planned(design, measured),
    })
    .collect()
}

fn planned(design: &Design, measured: Measured) -> Option<Length> {
    let (unit, layout) = (&design.params.appliance, &design.layout);
    let vent = &design.params.vent;
    let recess = layout.recess.as_ref();
    let half = unit.body_width / 2.0;
    Some(match measured {
        Measured::UnitBodyWidth => unit.body_width,
        Measured::UnitBodyHeight => unit.body_height,
        Measured::UnitBodyDepth => unit.body_depth,
        Measured::UnitOpeningWidth => unit.opening_width,
        Measured::UnitOpeningTop => unit.opening_top,
        Measured::UnitLip => unit.lip,
        Measured::UnitCollarOffset => vent.collar_offset,
        Measured::PipeDiameter => vent.pipe_diameter,
        Measured::RoughOpeningWidth => layout.rough_opening.size(),
        Measured::RoughOpeningHeight => layout.heights.header_bottom - layout.heights.platform_top,
        Measured::GapBesideLeft => layout.unit_center - half - layout.rough_opening.low,
        Measured::GapBesideRight => layout.rough_opening.high - layout.unit_center - half,
        Measured::GapBehind => layout.faces.unit_back - layout.wall_comes_out(half),
        Measured::GapAbove => layout.heights.header_bottom - layout.heights.body_top,
        Measured::PipeToWood => pipe_to_wood(design)?,
        // which window is nearest is found on the wall outside
        Measured::CapToWindow => return None,
        Measured::RecessWidth => recess?.finished.size(),
        Measured::RecessHeight => recess?.finished_height.size(),
        Measured::RecessDepth => layout.faces.upper_finished - recess?.back,
    })
}

/// From the vent's pipe to the nearest stick of wood, new or of the room.
fn pipe_to_wood(design: &Design) -> Option<Length> {
    let is_pipe = |kind| matches!(kind, Kind::Pipe | Kind::Elbow | Kind::Collar);
    let of_unit = design.params.vent.collar;
    let pipes = design.parts.iter().filter(|it| is_pipe(it.kind));
    // a collar that looks back lies in the body's own clearance
    let pipes = pipes.filter(|it| it.kind != Kind::Collar || of_unit == Collar::Up);
    let mut least = FAR.to_mm();
    for pipe in pipes {
        let wood = design.parts.iter().filter(|it| {
            it.material.combustible
                && (matches!(it.stock, Stock::Stick(_) | Stock::Rip(_))
                    || matches!(
                        it.kind,
                        Kind::ExistingStud | Kind::ExistingPlate | Kind::Rafter
                    ))
        });
        for stick in wood {
            if pipe.body.bounds.gap(&stick.body.bounds) < least {
                let apart = nearest_within(&pipe.body, &stick.body, least).distance;
                least = least.min(apart);
            }
        }
    }
    (least < FAR.to_mm()).then_some(Length::mm(least))
}
