//! Clearance volumes: bodies of their own, each with the manual's numbers and their page.

mod vent;
mod volumes;

use std::collections::BTreeMap;

use glam::{DVec2, DVec3};

use super::builder::{Builder, block};
use crate::layout::{Layout, point};
use crate::units::{Length, Span};
use vent::Vent;
use volumes::{Volumes, along, reach};

use super::{Bars, ClearanceKind};
use crate::geom::{Body, Frame, Profile, Shape, Swept};
use crate::params::{HeightDatum, MantelRule, Permission, ProjectionDatum};

/// Builds every clearance volume.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let mut volumes = Volumes { builder };
    volumes.unit(layout);
    volumes.facing_zone(layout);
    let mut vent = Vent {
        volumes: &mut volumes,
        layout,
        numbers: BTreeMap::new(),
    };
    vent.build();
    volumes.mantel_rule(layout);
}

impl Volumes<'_> {
    /// Beside, behind, above and before the unit. Above and behind reach over the sides' width, so
    /// that nothing stands in a corner between two of them.
    fn unit(&mut self, layout: &Layout) {
        let unit = &layout.params.appliance;
        let body = Span::about(layout.unit_center, unit.body_width);
        let heights = Span::new(layout.heights.platform_top, layout.heights.body_top);
        let front = layout.faces.unit.min(layout.faces.lower_stud);
        let beside = unit.side_clearance.value;
        let outs = Span::new(layout.faces.unit_back, front);
        let skin = (Bars::Everything, "the body's skin");
        let left = Span::new(body.low - beside, body.low);
        let right = Span::new(body.high, body.high + beside);
        for (name, side, direction) in [
            ("unit left", left, DVec3::NEG_X),
            ("unit right", right, DVec3::X),
        ] {
            let out = reach(
                along(direction),
                &unit.side_clearance,
                "appliance.side_clearance",
            );
            self.add(
                name,
                ClearanceKind::UnitSide,
                block((side, outs, heights)),
                vec![out],
                skin,
            );
        }
        let wide = body.grown(beside);
        let back = Span::new(
            layout.faces.unit_back - unit.rear_clearance.value,
            layout.faces.unit_back,
        );
        let out = reach(
            along(DVec3::Y),
            &unit.rear_clearance,
            "appliance.rear_clearance",
        );
        self.add(
            "unit back",
            ClearanceKind::UnitBack,
            block((wide, back, heights)),
            vec![out],
            skin,
        );
        let top = Span::new(
            layout.heights.body_top,
            layout.heights.body_top + unit.top_clearance.value,
        );
        let outs = Span::new(back.low, front);
        let out = reach(
            along(DVec3::Z),
            &unit.top_clearance,
            "appliance.top_clearance",
        );
        self.add(
            "unit top",
            ClearanceKind::UnitTop,
            block((wide, outs, top)),
            vec![out],
            skin,
        );
        self.unit_front(layout);
    }

    fn unit_front(&mut self, layout: &Layout) {
        let unit = &layout.params.appliance;
        let sides = Span::about(layout.unit_center, unit.opening_width);
        let outs = Span::new(
            layout.faces.unit,
            layout.faces.unit + unit.front_clearance.value,
        );
        let heights = Span::new(
            layout.heights.platform_top,
            layout.heights.platform_top + unit.front_clearance_height.value,
        );
        let out = reach(
            along(DVec3::NEG_Y),
            &unit.front_clearance,
            "appliance.front_clearance",
        );
        let up = reach(
            along(DVec3::Z),
            &unit.front_clearance_height,
            "appliance.front_clearance_height",
        );
        self.add(
            "unit front",
            ClearanceKind::UnitFront,
            block((sides, outs, heights)),
            vec![out, up],
            (
                Bars::CombustibleSkins,
                "the unit's face; its height from the body's base",
            ),
        );
    }

    /// Where no surface may burn: from the stud face forward to the finished face, and behind the
    /// stud face too where the manual does not let wood stand behind the facing.
    fn facing_zone(&mut self, layout: &Layout) {
        let unit = &layout.params.appliance;
        let sides =
            Span::about(layout.unit_center, unit.opening_width).grown(unit.facing_zone_side.value);
        let heights = Span::new(
            layout.heights.platform_top,
            layout.heights.opening_top + unit.facing_zone_top.value,
        );
        let reaches = || {
            vec![
                reach(
                    along(DVec3::NEG_X),
                    &unit.facing_zone_side,
                    "appliance.facing_zone_side",
                ),
                reach(
                    along(DVec3::X),
                    &unit.facing_zone_side,
                    "appliance.facing_zone_side",
                ),
                reach(
                    along(DVec3::Z),
                    &unit.facing_zone_top,
                    "appliance.facing_zone_top",
                ),
            ]
        };
        let terms = (Bars::CombustibleSkins, "the opening's edges");
        let skins = Span::new(layout.faces.lower_stud, layout.faces.lower_finished);
        let zone = ClearanceKind::FacingZone;
        self.add(
            "facing zone",
            zone,
            block((sides, skins, heights)),
            reaches(),
            terms,
        );
        if layout.is_stepped() && (heights.high - layout.heights.framing_top).is_positive() {
            let above = Span::new(layout.heights.framing_top, heights.high);
            let outs = Span::new(layout.faces.upper_stud, layout.faces.lower_stud);
            self.add(
                "facing zone above ledge",
                zone,
                block((sides, outs, above)),
                reaches(),
                terms,
            );
        }
        if unit.wood_behind_facing.value == Permission::No {
            let depth = layout.params.lower_stud().depth();
            let behind = Span::new(layout.faces.lower_stud - depth, layout.faces.lower_stud);
            self.add(
                "behind facing",
                zone,
                block((sides, behind, heights)),
                reaches(),
                (Bars::Combustible, terms.1),
            );
        }
    }

    /// The space under the line of the mantel rule, so that a viewer shows why. The rule itself
    /// judges the mantel, so nothing is measured against this volume.
    fn mantel_rule(&mut self, layout: &Layout) {
        let Some(mantel) = &layout.params.mantel else {
            return;
        };
        let from = projection_datum(layout, mantel.projection_from.value);
        let base = height_datum(layout, mantel.height_from.value);
        let corner = |projection: Length, height: Length| {
            DVec2::new((from + projection).to_mm(), (base + height).to_mm())
        };
        let mut outline = vec![corner(Length::ZERO, Length::ZERO)];
        match &mantel.rule.value {
            MantelRule::Steps(steps) => {
                let Some(last) = steps.last() else { return };
                outline.push(corner(last.projection, Length::ZERO));
                for (index, step) in steps.iter().enumerate().rev() {
                    let inner = index
                        .checked_sub(1)
                        .and_then(|it| steps.get(it))
                        .map_or(Length::ZERO, |it| it.projection);
                    outline.push(corner(step.projection, step.height));
                    outline.push(corner(inner, step.height));
                }
            }
            MantelRule::Ramp { base, factor } => {
                let far = mantel.projection.max(Length::inches(12.0));
                outline.push(corner(far, Length::ZERO));
                outline.push(corner(far, *base + far * *factor));
                outline.push(corner(Length::ZERO, *base));
            }
        }
        let skins = layout.params.skins.board + layout.params.skins.side_finish;
        let sides = layout.site.with_skins(skins, layout.faces.lower_finished);
        let profile = Profile::polygon(super::skins::tidy(outline));
        let shape = Shape::from(Swept::square(profile, sides.size()));
        let origin = point(sides.high, Length::ZERO, Length::ZERO);
        let body = Body::new(shape, Frame::new(origin, DVec3::NEG_Y, DVec3::Z));
        let datum = "the mantel rule's own datums";
        self.add(
            "mantel rule",
            ClearanceKind::MantelRule,
            body,
            Vec::new(),
            (Bars::Combustible, datum),
        );
    }
}

/// From where the manual counts a mantel's projection, out from the wall.
pub fn projection_datum(layout: &Layout, datum: ProjectionDatum) -> Length {
    match datum {
        ProjectionDatum::FinishedFace => layout.faces.lower_finished,
        ProjectionDatum::UnitFace => layout.faces.unit,
        ProjectionDatum::Opening => layout.faces.unit + layout.params.appliance.lip,
    }
}

/// From where the manual counts a mantel's height.
pub fn height_datum(layout: &Layout, datum: HeightDatum) -> Length {
    match datum {
        HeightDatum::OpeningTop => layout.heights.opening_top,
        HeightDatum::BodyTop => layout.heights.body_top,
    }
}
