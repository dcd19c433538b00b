//! Collects parts while a design is built, and leaves out what has no body.

use std::collections::BTreeMap;

use glam::DVec2;

use crate::catalog::Material;
use crate::geom::{Body, Frame, Shape, Swept, TOLERANCE, overlaps};
use crate::layout::point;
use crate::params::ChaseWall;
use crate::units::{Length, Span};

use super::{Bars, Branch, Clearance, Group, Kind, Note, Part, Stage, Stock, square_cut};

/// What a part is, apart from its name, shape and place.
#[derive(Debug, Clone)]
pub(super) struct Make {
    pub(super) kind: Kind,
    pub(super) group: Group,
    pub(super) material: Material,
    pub(super) stock: Stock,
    pub(super) stage: Stage,
}

/// The parts, clearance volumes and notes so far.
#[derive(Debug, Default)]
pub(super) struct Builder {
    pub(super) parts: Vec<Part>,
    pub(super) clearances: Vec<Clearance>,
    pub(super) notes: Vec<Note>,
    /// The frame that whatever comes next is given in.
    pub(super) within: Frame,
    /// The walls whose plates have no room for square edges.
    pub(super) ripped: Vec<ChaseWall>,
    /// Below this across a stick the angle of a cut is left out.
    pub(super) saw_tolerance: Length,
    numbers: BTreeMap<(Branch, Kind), u32>,
}

impl Builder {
    /// Nothing yet; sticks are cut with this tolerance, and plates of these walls ripped.
    pub(super) fn new(saw_tolerance: Length, ripped: &[ChaseWall]) -> Self {
        Self {
            saw_tolerance,
            ripped: ripped.to_vec(),
            ..Self::default()
        }
    }

    /// Adds a part; one whose ends meet or cross is left out, with a note.
    pub(super) fn add(
        &mut self,
        (branch, id): (Branch, String),
        make: Make,
        shape: impl Into<Shape>,
        frame: Frame,
    ) {
        let mut shape = shape.into();
        let left_out = match &mut shape {
            Shape::Swept(swept) if is_cut(&make) => square_cut::squared(swept, self.saw_tolerance),
            Shape::Swept(_) | Shape::Tube(_) => [DVec2::ZERO; 2],
        };
        if !has_body(&shape) {
            let why = "there is no room between what is under it and what is over it";
            self.leave_out(id, why);
            return;
        }
        self.parts.push(Part {
            id,
            kind: make.kind,
            group: make.group,
            branch,
            material: make.material,
            stock: make.stock,
            stage: make.stage,
            body: Body::new(shape, self.within.place(&frame)),
            left_out,
        });
    }

    /// Adds a part under a branch; it takes the next number of its kind there.
    pub(super) fn add_next(
        &mut self,
        branch: impl Into<Branch>,
        make: Make,
        shape: impl Into<Shape>,
        frame: Frame,
    ) {
        let branch = branch.into();
        let number = self.numbers.entry((branch, make.kind)).or_default();
        *number += 1;
        let id = format!("{branch}/{}/{number}", make.kind.name());
        self.add((branch, id), make, shape, frame);
    }

    /// Notes that a part could not be made.
    pub(super) fn leave_out(&mut self, id: String, why: &str) {
        let why = why.to_owned();
        self.notes.push(Note::LeftOut { id, why });
    }
}

/// Whether it is a stick of wood that goes over the saw.
fn is_cut(make: &Make) -> bool {
    !make.group.stands_already() && matches!(make.stock, Stock::Stick(_) | Stock::Rip(_))
}

/// Adds a box from its spans: to the right, out from the wall, and upward.
pub(super) fn add_box(
    branch: Branch,
    make: Make,
    extent: (Span, Span, Span),
    builder: &mut Builder,
) {
    let body = block(extent);
    builder.add_next(branch, make, body.shape, body.frame);
}

/// A box between two sides, two places out and two heights.
pub(super) fn block((sides, outs, heights): (Span, Span, Span)) -> Body {
    Body::new(
        Swept::block(sides.size(), outs.size(), heights.size()),
        Frame::at(point(sides.low, outs.high, heights.low)),
    )
}

/// Whether a shape has a body everywhere over its profile.
pub(super) fn has_body(shape: &Shape) -> bool {
    match shape {
        Shape::Tube(tube) => tube.center_line.length() > TOLERANCE && tube.outer > tube.inner,
        Shape::Swept(swept) => {
            swept.profile.area() > TOLERANCE
                && swept.profile.loops().flatten().all(|corner| {
                    let floor = swept.bottom.iter().map(|plane| plane.z(*corner));
                    let roof = swept.top.iter().map(|plane| plane.z(*corner));
                    roof.fold(f64::INFINITY, f64::min) - floor.fold(f64::NEG_INFINITY, f64::max)
                        > TOLERANCE
                })
        }
    }
}

/// Whether a body of wood lies in no other part and in no clearance that keeps wood out.
pub(super) fn has_room(body: &Body, builder: &Builder) -> bool {
    fits_in(body, |bars| *bars != Bars::CombustibleSkins, builder)
}

/// Whether a body lies in no other part and in no clearance that bars it.
pub(super) fn fits_in(body: &Body, bars: impl Fn(&Bars) -> bool, builder: &Builder) -> bool {
    let in_part = builder.parts.iter().any(|part| overlaps(body, &part.body));
    let in_clearance = builder
        .clearances
        .iter()
        .any(|clearance| bars(&clearance.bars) && overlaps(body, &clearance.body));
    !in_part && !in_clearance
}
