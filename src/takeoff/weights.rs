//! A design and its buy list in, what each wall and each other thing weighs out, and what stands on the slab.

use super::buy::Line;
use crate::design::{Design, Group, Kind, Part, Stage, Stock};

/// What something weighs.
#[derive(Debug, Clone, PartialEq)]
pub struct Weight {
    /// The wall or group.
    pub what: String,
    /// Kilograms.
    pub mass: f64,
    /// Whether two people can lift it as one piece; nothing for what is never lifted as one.
    pub two_can_lift: Option<bool>,
}

/// What is bought whole and stands on the slab or hangs on what does.
pub(super) fn is_bought_whole(line: &Line) -> bool {
    (line.section == "vent"
        && !matches!(
            line.item.as_str(),
            "joints to seal" | "pipe screws" | "vent straps"
        ))
        || (line.section == "other"
            && !matches!(
                line.item.as_str(),
                "mantel" | "leg under the mantel" | "access panel"
            ))
}

/// What each wall and each other thing weighs; what stands on the slab comes last.
pub(super) fn weights(design: &Design, buy: &[Line]) -> Vec<Weight> {
    let mut found: Vec<Weight> = Vec::new();
    let mut slab = 0.0;
    let two_lift = design.params.chase.two_lift.value();
    for part in design.parts.iter().filter(|it| is_weighed(it)) {
        let mass = part.body.volume() * 1e-9 * part.material.density;
        let what = match part.group {
            Group::Framing => part.branch.name().to_owned(),
            Group::Vent => "wall pass".to_owned(),
            group => group.name().to_owned(),
        };
        if part.stage != Stage::WallPass && part.group != Group::Vent {
            slab += mass;
        }
        match found.iter_mut().find(|it| it.what == what) {
            Some(known) => known.mass += mass,
            None => found.push(Weight {
                two_can_lift: (part.group == Group::Framing).then_some(true),
                what,
                mass,
            }),
        }
    }
    for weight in &mut found {
        weight.two_can_lift = weight.two_can_lift.map(|_| weight.mass <= two_lift);
    }
    for line in buy.iter().filter(|it| is_bought_whole(it)) {
        let Some(one) = line.weight else { continue };
        let mass = one * line.count as f64;
        slab += mass;
        found.push(Weight {
            two_can_lift: Some(one <= two_lift),
            what: if line.count > 1 {
                format!("{} x {}", line.count, line.item)
            } else {
                line.item.clone()
            },
            mass,
        });
    }
    found.push(Weight {
        what: "on the slab".to_owned(),
        mass: slab,
        two_can_lift: None,
    });
    found
}

/// Whether a part's volume says what it weighs: what is bought whole is hollow inside.
pub fn is_weighed(part: &Part) -> bool {
    match part.stock {
        Stock::Stick(_) | Stock::Rip(_) | Stock::Steel(_) | Stock::Sheet(_) => true,
        Stock::Bought => matches!(part.kind, Kind::Mantel | Kind::Leg | Kind::Blocking),
        Stock::Existing => false,
    }
}
