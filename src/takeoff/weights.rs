//! A design and its buy list in, what each wall and each other thing weighs out, and what stands on the slab.

use std::fmt;

use super::buy::Line;
use crate::design::{Branch, Design, Group, Kind, Lifted, Part, Raising, Stage, Stock, raising};
use crate::params::ChaseWall;

/// What something weighs.
#[derive(Debug, Clone, PartialEq)]
pub struct Weight {
    /// What it is.
    pub what: Weighed,
    /// Kilograms.
    pub mass: f64,
    /// Whether two people can lift it as one piece, a wall that goes up under its top plates without them; nothing for what
    /// is never lifted as one.
    pub two_can_lift: Option<bool>,
}

/// What is weighed as one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Weighed {
    /// The framing of a wall, or of whatever else is framed.
    Framing(Branch),
    /// Everything in a group.
    Group(Group),
    /// What is bought whole: how many, and what.
    Bought(usize, String),
    /// Everything that stands on the slab.
    Slab,
}

impl Weighed {
    /// Whether it is this wall.
    pub fn is_wall(&self, wall: ChaseWall) -> bool {
        *self == Self::Framing(wall.into())
    }
}

impl fmt::Display for Weighed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Framing(branch) => f.write_str(branch.name()),
            Self::Group(group) => f.write_str(group.name()),
            Self::Bought(0 | 1, item) => f.write_str(item),
            Self::Bought(count, item) => write!(f, "{count} x {item}"),
            Self::Slab => f.write_str("on the slab"),
        }
    }
}

/// What each wall and each other thing weighs; what stands on the slab comes last.
pub(super) fn weights(design: &Design, buy: &[Line]) -> Vec<Weight> {
    let mut found: Vec<Weight> = Vec::new();
    let mut slab = 0.0;
    let two_lift = design.params.chase.two_lift.value();
    let walls = raising(design);
    for part in design.parts.iter().filter(|it| is_weighed(it)) {
        let mass = design.mass(part);
        let what = match part.group {
            Group::Framing => Weighed::Framing(part.branch),
            Group::Vent => Weighed::Framing(Branch::WallPass),
            group @ (Group::Platform
            | Group::Skins
            | Group::Unit
            | Group::Services
            | Group::Clearances
            | Group::Room
            | Group::Fixed) => Weighed::Group(group),
        };
        if part.stage != Stage::WallPass && part.group != Group::Vent {
            slab += mass;
        }
        match found.iter_mut().find(|it| it.what == what) {
            Some(known) => known.mass += mass,
            None => found.push(Weight {
                two_can_lift: None,
                what,
                mass,
            }),
        }
    }
    for weight in &mut found {
        let own = walls.iter().find(|it| weight.what.is_wall(it.wall));
        let lifted = own.and_then(|it| lifted(design, it));
        weight.two_can_lift = lifted.map(|it| it <= two_lift);
    }
    for line in buy.iter().filter(|it| it.is_whole) {
        let Some(one) = line.weight else { continue };
        let mass = one * line.count as f64;
        slab += mass;
        found.push(Weight {
            two_can_lift: Some(one <= two_lift),
            what: Weighed::Bought(line.count, line.item.clone()),
            mass,
        });
    }
    found.push(Weight {
        what: Weighed::Slab,
        mass: slab,
        two_can_lift: None,
    });
    found
}

/// What is lifted when a wall is raised, in kilograms; nothing of one that is built in place.
fn lifted(design: &Design, wall: &Raising) -> Option<f64> {
    let way = wall.method.way()?;
    let goes_up = |it: &&Part| {
        let is_own = it.group == Group::Framing && it.is_of(wall.wall) && is_weighed(it);
        is_own && (way.lifted == Lifted::Whole || it.kind != Kind::TopPlate)
    };
    Some(
        design
            .parts
            .iter()
            .filter(goes_up)
            .map(|it| design.mass(it))
            .sum(),
    )
}

/// Whether a part is weighed by itself: what is bought whole, and hollow inside, is weighed by its line of the buy
/// list.
pub fn is_weighed(part: &Part) -> bool {
    match part.stock {
        Stock::Stick(_) | Stock::Rip(_) | Stock::Steel(_) | Stock::Sheet(_) => true,
        Stock::Bought => matches!(
            part.kind,
            Kind::Mantel | Kind::MantelEnd | Kind::Bracket | Kind::Leg | Kind::Blocking
        ),
        Stock::Existing => false,
    }
}
