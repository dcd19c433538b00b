//! The walls of the room as they are built: board, sheathing, studs, and what is set into them; which parts stand
//! at or in one.

use glam::{DVec2, DVec3};

use super::builder::{Builder, Make};
use super::skins::{Band, CutOut};
use super::{Branch, Group, Kind, Part, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{EndPlane, Frame, Profile, Shape, Swept, TOLERANCE};
use crate::layout::{StandingWall, WallHole, rectangle};
use crate::units::{Length, Span};

/// What lies so near to the face, in millimetres, lies against it: walls at an angle are rounded.
const AGAINST: f64 = 1e-3;

impl StandingWall {
    /// From where to where along it an upright lies flat against one of its faces; `None` where it does not.
    pub fn against(&self, part: &Part) -> Option<Span> {
        let Shape::Swept(swept) = &part.body.shape else {
            return None;
        };
        let outside = self.depths.outside.to_mm();
        let corners = swept.profile.outline.iter();
        let placed = corners.map(|it| part.body.frame.point(it.extend(0.0)));
        let local = placed.map(|it| self.frame.local_point(it));
        let at_face: Vec<f64> = local
            .filter(|it| it.y.abs().min((it.y - outside).abs()) <= AGAINST)
            .map(|it| it.x)
            .collect();
        let low = at_face.iter().copied().fold(f64::INFINITY, f64::min);
        let high = at_face.into_iter().fold(f64::NEG_INFINITY, f64::max);
        (high - low > TOLERANCE).then(|| Span::new(Length::mm(low), Length::mm(high)))
    }

    /// Whether a part stands in it.
    pub fn holds(&self, part: &Part) -> bool {
        let middle = self.frame.local_point(part.body.bounds.center());
        let along = 0.0..=self.length.to_mm();
        let deep = 0.0..=self.depths.outside.to_mm();
        deep.contains(&middle.y) && along.contains(&middle.x)
    }

    /// Builds board and sheathing, with the hole if there is one.
    pub(super) fn build_layers(&self, hole: Option<WallHole>, builder: &mut Builder) {
        let profiles = self.profiles(hole);
        let layers = [
            (
                Span::new(Length::ZERO, self.depths.studs),
                Material::DRYWALL,
            ),
            (
                Span::new(self.depths.sheathing, self.depths.outside),
                Material::PANEL,
            ),
        ];
        for (behind, material) in layers {
            if !behind.size().is_positive() {
                continue;
            }
            let back = DVec3::new(0.0, behind.high.to_mm(), 0.0);
            for profile in &profiles {
                builder.add_next(
                    Branch::Room,
                    existing(Kind::WallLayer, material),
                    Swept::square(profile.clone(), behind.size()),
                    self.frame.place(&Frame::new(back, DVec3::X, DVec3::Z)),
                );
            }
        }
    }

    /// The wall up to the ceiling without a hole. A hole that runs past an edge leaves a notch; one that runs from edge
    /// to edge, two pieces.
    fn profiles(&self, hole: Option<WallHole>) -> Vec<Profile> {
        let whole = Profile::polygon(self.outline());
        let Some(hole) = hole else {
            return vec![whole];
        };
        let corners = rectangle(hole.sides, hole.heights);
        if corners.iter().all(|it| self.is_inside(*it)) {
            return vec![whole.with_opening(corners)];
        }
        let band = Band {
            sides: Span::new(Length::ZERO, self.length),
            bottom: Length::ZERO,
            top: self.roofline(),
        };
        band.profiles(&[CutOut {
            sides: hole.sides,
            heights: hole.heights,
        }])
    }

    /// Builds its sole plate and the two plates under its ceiling, whole, whatever goes through them.
    pub(super) fn build_plates(&self, builder: &mut Builder) {
        let mut add = |corners: [DVec2; 4]| {
            let back = DVec3::new(0.0, self.depths.sheathing.to_mm(), 0.0);
            builder.add_next(
                Branch::Room,
                existing(Kind::ExistingPlate, Material::LUMBER),
                Swept::square(Profile::polygon(corners.to_vec()), self.stud.depth()),
                self.frame.place(&Frame::new(back, DVec3::X, DVec3::Z)),
            );
        };
        let sole = DVec2::new(self.length.to_mm(), self.stud.plate().to_mm());
        add([DVec2::ZERO, DVec2::X * sole.x, sole, DVec2::Y * sole.y]);
        let line = self.roofline();
        for (from, to) in line.iter().zip(line.iter().skip(1)) {
            let plumb = self.plate_plumb((to.y - from.y) / (to.x - from.x));
            for plate in 0..Self::TOP_PLATES {
                let down = |count: u32| DVec2::Y * (plumb * f64::from(count));
                let (high, low) = (down(plate), down(plate + 1));
                add([*from - low, *to - low, *to - high, *from - high]);
            }
        }
    }

    /// Builds the studs between the plates; one that stands in the hole is headed off above and below it.
    pub(super) fn build_studs(&self, hole: Option<WallHole>, builder: &mut Builder) {
        let thickness = self.stud.breadth();
        let cut = hole.map_or_else(Vec::new, |hole| self.cut_studs(hole.sides));
        for center in &self.centers {
            let left = *center - thickness / 2.0;
            let roof = |bottom: Length| self.under_plates(left, bottom);
            let sole = self.stud.plate();
            let pieces = match hole {
                Some(hole) if cut.contains(center) => {
                    let sill = hole.heights.low - thickness;
                    let head = hole.heights.high + thickness;
                    vec![
                        (sole, vec![EndPlane::level(sill - sole)]),
                        (head, roof(head)),
                    ]
                }
                _ => vec![(sole, roof(sole))],
            };
            let stands = |it: &EndPlane| it.height > TOLERANCE;
            for (bottom, top) in pieces.into_iter().filter(|it| it.1.iter().all(stands)) {
                let shape = Swept {
                    profile: Profile::rectangle(thickness, self.stud.depth()),
                    bottom: vec![EndPlane::level(Length::ZERO)],
                    top,
                    bores: Vec::new(),
                };
                let place = Frame::at(DVec3::new(
                    left.to_mm(),
                    self.depths.studs.to_mm(),
                    bottom.to_mm(),
                ));
                let make = existing(Kind::ExistingStud, Material::LUMBER);
                builder.add_next(Branch::Room, make, shape, self.frame.place(&place));
            }
        }
    }

    /// Adds a stick that runs along the wall.
    pub(super) fn add_along(
        &self,
        branch: Branch,
        make: Make,
        (along, inward, upward): (Span, Span, Span),
        builder: &mut Builder,
    ) {
        let low = DVec3::new(along.low.to_mm(), inward.low.to_mm(), upward.low.to_mm());
        let place = Frame::new(low, DVec3::Y, DVec3::Z);
        builder.add_next(
            branch,
            make,
            Swept::square(
                Profile::rectangle(inward.size(), upward.size()),
                along.size(),
            ),
            self.frame.place(&place),
        );
    }

    /// Adds a block of the wall's own frame.
    pub(super) fn add_block(
        &self,
        branch: Branch,
        make: Make,
        (along, inward, upward): (Span, Span, Span),
        builder: &mut Builder,
    ) {
        let low = DVec3::new(along.low.to_mm(), inward.low.to_mm(), upward.low.to_mm());
        builder.add_next(
            branch,
            make,
            Swept::block(along.size(), inward.size(), upward.size()),
            self.frame.place(&Frame::at(low)),
        );
    }
}

/// What stands already.
pub(super) fn existing(kind: Kind, material: Material) -> Make {
    Make {
        kind,
        group: Group::Room,
        material,
        stock: Stock::Existing,
        stage: Stage::Existing,
    }
}
