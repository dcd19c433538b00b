//! Clearance volumes: bodies of their own, each with the manual's numbers and their page.

mod vent;

use std::collections::BTreeMap;

use glam::{DVec2, DVec3};

use super::builder::{Builder, has_body};
use super::layout::Layout;
use super::span::{Span, point};
use vent::Vent;

use super::{Bars, Branch, Clearance, ClearanceKind, Own, Reach};
use crate::geom::{Body, Direction, Frame, Profile, Shape, Swept, TOLERANCE};
use crate::params::{HeightDatum, MantelRule, Manual, Params, Permission, ProjectionDatum};
use crate::units::Length;

/// Builds every clearance volume.
pub(super) fn build(params: &Params, layout: &Layout, builder: &mut Builder) {
    let mut volumes = Volumes { builder };
    volumes.unit(params, layout);
    volumes.facing_zone(params, layout);
    let mut vent = Vent {
        volumes: &mut volumes,
        params,
        layout,
        numbers: BTreeMap::new(),
    };
    vent.build();
    volumes.mantel_rule(params, layout);
}

struct Volumes<'a> {
    builder: &'a mut Builder,
}

/// What no clearance is held against: the unit and the vent themselves.
const OWN: [Own; 2] = [Own::All(Branch::Unit), Own::All(Branch::Vent)];

fn reach(direction: Direction, number: &Manual<Length>, key: &'static str) -> Reach {
    Reach {
        direction,
        required: number.value,
        source: format!("manual p. {}", number.page),
        key,
    }
}

fn along(direction: DVec3) -> Direction {
    Direction::Along(direction)
}

fn block((sides, outs, heights): (Span, Span, Span)) -> Body {
    Body::new(
        Swept::block(sides.size(), outs.size(), heights.size()),
        Frame::at(point(sides.low, outs.high, heights.low)),
    )
}

impl Volumes<'_> {
    fn add(
        &mut self,
        name: &str,
        kind: ClearanceKind,
        body: Body,
        reaches: Vec<Reach>,
        (bars, datum): (Bars, &'static str),
    ) {
        let id = format!("clearance/{name}");
        if has_body(&body.shape) {
            self.builder.clearances.push(Clearance {
                id,
                kind,
                body,
                reaches,
                belongs_to: OWN.to_vec(),
                bars,
                datum,
            });
        } else if reaches.iter().all(|it| it.required.is_positive()) {
            // a number of zero asks for no volume; anything else must not pass unseen
            self.builder
                .leave_out(id, "the clearance volume would have no body");
        }
    }

    /// Beside, behind, above and before the unit. Above and behind reach over the sides' width, so
    /// that nothing stands in a corner between two of them.
    fn unit(&mut self, params: &Params, layout: &Layout) {
        let unit = &params.appliance;
        let body = Span::about(layout.unit_center, unit.body_width);
        let heights = Span::new(layout.platform_top, layout.body_top);
        let front = layout.unit_face.min(layout.lower_stud_face);
        let beside = unit.side_clearance.value;
        let outs = Span::new(layout.unit_back, front);
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
            layout.unit_back - unit.rear_clearance.value,
            layout.unit_back,
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
        let top = Span::new(layout.body_top, layout.body_top + unit.top_clearance.value);
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
        self.unit_front(params, layout);
    }

    fn unit_front(&mut self, params: &Params, layout: &Layout) {
        let unit = &params.appliance;
        let sides = Span::about(layout.unit_center, unit.opening_width);
        let outs = Span::new(
            layout.unit_face,
            layout.unit_face + unit.front_clearance.value,
        );
        let heights = Span::new(
            layout.platform_top,
            layout.platform_top + unit.front_clearance_height.value,
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
    fn facing_zone(&mut self, params: &Params, layout: &Layout) {
        let unit = &params.appliance;
        let sides =
            Span::about(layout.unit_center, unit.opening_width).grown(unit.facing_zone_side.value);
        let heights = Span::new(
            layout.platform_top,
            layout.opening_top + unit.facing_zone_top.value,
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
        let skins = Span::new(layout.lower_stud_face, layout.lower_finished);
        let zone = ClearanceKind::FacingZone;
        self.add(
            "facing zone",
            zone,
            block((sides, skins, heights)),
            reaches(),
            terms,
        );
        if layout.is_stepped() && (heights.high - layout.framing_top).is_positive() {
            let above = Span::new(layout.framing_top, heights.high);
            let outs = Span::new(layout.upper_stud_face, layout.lower_stud_face);
            self.add(
                "facing zone above ledge",
                zone,
                block((sides, outs, above)),
                reaches(),
                terms,
            );
        }
        if unit.wood_behind_facing.value == Permission::No {
            let depth = params.lower_stud().width;
            let behind = Span::new(layout.lower_stud_face - depth, layout.lower_stud_face);
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
    fn mantel_rule(&mut self, params: &Params, layout: &Layout) {
        let Some(mantel) = &params.mantel else { return };
        let from = projection_datum(params, layout, mantel.projection_from.value);
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
        let skins = params.skins.board + params.skins.side_finish;
        let sides = layout.with_skins(skins, layout.lower_finished);
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

/// The convex outline round points, counter-clockwise; points on it that do not turn are left out.
fn hull(mut points: Vec<DVec2>) -> Vec<DVec2> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let chain = |points: &mut dyn Iterator<Item = &DVec2>| {
        let mut kept: Vec<DVec2> = Vec::new();
        for point in points {
            while let [.., before, last] = kept.as_slice()
                && (*last - *before).perp_dot(*point - *last) <= TOLERANCE
            {
                kept.pop();
            }
            kept.push(*point);
        }
        kept.pop();
        kept
    };
    let mut outline = chain(&mut points.iter());
    outline.extend(chain(&mut points.iter().rev()));
    outline
}

/// From where the manual counts a mantel's projection, out from the wall.
pub fn projection_datum(params: &Params, layout: &Layout, datum: ProjectionDatum) -> Length {
    match datum {
        ProjectionDatum::FinishedFace => layout.lower_finished,
        ProjectionDatum::UnitFace => layout.unit_face,
        ProjectionDatum::Opening => layout.unit_face + params.appliance.lip,
    }
}

/// From where the manual counts a mantel's height.
pub fn height_datum(layout: &Layout, datum: HeightDatum) -> Length {
    match datum {
        HeightDatum::OpeningTop => layout.opening_top,
        HeightDatum::BodyTop => layout.body_top,
    }
}
