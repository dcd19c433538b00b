//! The low platform: a stack of layers inside the chase that comes forward between the jacks.

use glam::{DVec2, DVec3};

use super::builder::{Builder, Make};
use super::framing::backing;
use super::layout::{Layout, Span, point};
use super::skins::tidy;
use super::{Group, Kind, Stage, Stock};
use crate::catalog::{Lumber, Material};
use crate::geom::{Frame, Profile, Swept};
use crate::params::{Layer, Params};
use crate::units::Length;

/// Builds every layer from the slab up; layers of sticks run crosswise to one another.
pub(super) fn build(params: &Params, layout: &Layout, builder: &mut Builder) {
    let inside = layout.chase.grown(-params.chase.stud.width);
    let opening = layout.rough_opening;
    let area = Area {
        inside,
        back: layout.front_back,
        opening: Span::new(opening.low.max(inside.low), opening.high.min(inside.high)),
        front: layout.lower_stud_face,
    };
    let mut bottom = layout.slab;
    let mut rows = 0_u32;
    for layer in &params.platform.layers {
        match layer {
            Layer::Flat(lumber) | Layer::OnEdge(lumber) => {
                let sticks = Sticks {
                    lumber,
                    size: match layer {
                        Layer::OnEdge(_) => (lumber.thickness, lumber.width),
                        _ => (lumber.width, lumber.thickness),
                    },
                    spacing: params.platform.sleeper_spacing,
                    bottom,
                    material: if rows == 0 {
                        Material::TREATED
                    } else {
                        Material::LUMBER
                    },
                };
                if rows.is_multiple_of(2) {
                    sticks.run_out(&area, builder);
                } else {
                    sticks.run_along(&area, builder);
                }
                rows += 1;
            }
            Layer::Panel(thickness) => panel(&area, bottom, *thickness, builder),
        }
        bottom += layer.height();
    }
}

/// The platform's outline: the inside of the chase, and a tongue between the jacks.
struct Area {
    inside: Span,
    /// Front of the main part: the back of the front wall.
    back: Length,
    /// Sides of the tongue: between the jacks, and no wider than the inside of the chase.
    opening: Span,
    /// Front of the tongue: the stud face.
    front: Length,
}

/// A layer of sticks.
struct Sticks<'a> {
    lumber: &'a Lumber,
    /// Across the stick, and upward.
    size: (Length, Length),
    spacing: Length,
    bottom: Length,
    material: Material,
}

impl Sticks<'_> {
    /// Sticks that run out from the wall; those within the opening run on to the stud face.
    fn run_out(&self, area: &Area, builder: &mut Builder) {
        let across = self.size.0;
        for left in backing(area.opening, across, self.spacing) {
            self.out(left, area.front, builder);
        }
        let left = Span::new(area.inside.low, area.opening.low + across);
        let right = Span::new(area.opening.high - across, area.inside.high);
        for (side, shared) in [(left, left.high - across), (right, right.low)] {
            // the stick that a side shares with the tongue is already there
            let beside =
                |it: &Length| !Span::about(*it, across).overlaps(Span::about(shared, across));
            for it in backing(side, across, self.spacing)
                .into_iter()
                .filter(beside)
            {
                self.out(it, area.back, builder);
            }
        }
    }

    /// Sticks that run along the wall; those before the front wall's back are as long as the opening.
    fn run_along(&self, area: &Area, builder: &mut Builder) {
        let across = self.size.0;
        for near in backing(Span::new(Length::ZERO, area.back), across, self.spacing) {
            self.along(area.inside, near, builder);
        }
        let tongue = Span::new(area.back, area.front);
        match backing(tongue, across, self.spacing).as_slice() {
            // room for one only, ripped where it is wider than the tongue: it carries the front edge
            [_] => {
                let across = across.min(tongue.size());
                let one = Self {
                    size: (across, self.size.1),
                    ..*self
                };
                one.along(area.opening, area.front - across, builder);
            }
            several => {
                for near in several {
                    self.along(area.opening, *near, builder);
                }
            }
        }
    }

    fn out(&self, left: Length, length: Length, builder: &mut Builder) {
        let origin = point(left, Length::ZERO, self.bottom);
        self.add(length, Frame::new(origin, DVec3::X, DVec3::Z), builder);
    }

    fn along(&self, span: Span, near: Length, builder: &mut Builder) {
        let origin = point(span.low, near + self.size.0, self.bottom);
        self.add(span.size(), Frame::new(origin, DVec3::Y, DVec3::Z), builder);
    }

    fn add(&self, length: Length, frame: Frame, builder: &mut Builder) {
        let full = if self.size.1 > self.lumber.thickness {
            self.lumber.thickness
        } else {
            self.lumber.width
        };
        let make = Make {
            kind: Kind::Sleeper,
            group: Group::Platform,
            material: self.material,
            stock: if (full - self.size.0).is_positive() {
                Stock::Rip(self.lumber.name.clone())
            } else {
                Stock::Stick(self.lumber.name.clone())
            },
            stage: Stage::Platform,
        };
        let profile = Profile::rectangle(self.size.0, self.size.1);
        builder.add_next("platform", make, Swept::square(profile, length), frame);
    }
}

fn panel(area: &Area, bottom: Length, thickness: Length, builder: &mut Builder) {
    let corner = |right: Length, out: Length| DVec2::new(right.to_mm(), -out.to_mm());
    let outline = vec![
        corner(area.inside.low, Length::ZERO),
        corner(area.inside.low, area.back),
        corner(area.opening.low, area.back),
        corner(area.opening.low, area.front),
        corner(area.opening.high, area.front),
        corner(area.opening.high, area.back),
        corner(area.inside.high, area.back),
        corner(area.inside.high, Length::ZERO),
    ];
    let make = Make {
        kind: Kind::PlatformPanel,
        group: Group::Platform,
        material: Material::PANEL,
        stock: Stock::Sheet(thickness),
        stage: Stage::Platform,
    };
    let frame = Frame::at(DVec3::new(0.0, 0.0, bottom.to_mm()));
    builder.add_next(
        "platform",
        make,
        Swept::square(Profile::polygon(tidy(outline)), thickness),
        frame,
    );
}
