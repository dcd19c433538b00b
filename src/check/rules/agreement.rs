//! Facts about one thing that contradict each other.
//!
//! # What it finds
//! Two keys of the file that cannot both be right: everything on the gas pipe below the unit's own input; a heating
//! value that is not that gas's; a wall entered as nonbearing although rafters run out from it; a longest run below
//! one that the same manual's table allows; a least rise above that of the table's first row; a floor covering as
//! high as what it covers; a finish with weight and no thickness; a cap or a firestop smaller than the pipe that goes
//! through it; a bracket over the top of the body; a window, door or inlet behind the chase. It asks which of the two
//! is right.
//!
//! # Why
//! One of them is a mistake, and whatever is judged by it passes or fails by mistake.
//!
//! # Source
//! Common practice, no source: natural gas has 850 to 1,200 Btu in a cubic foot, propane 2,200 to 2,600; rafters that run
//! out from a wall rest on it.

use crate::check::{Concern, Measure, Report, Row, Rule, Thing};
use crate::design::Design;
use crate::params::{Bearing, Fuel, Params, Rafters, RoomWall};
use crate::units::{Length, Span};

use super::COMMON_PRACTICE;

pub(super) const RULE: Rule = Rule {
    name: "agreement",
    concern: Concern::FireAndGas,
    text: include_str!("agreement.rs"),
    keys: &[
        "chase.alcove_depth",
        "gas.demand",
        "appliance.input",
        "gas.fuel",
        "gas.heating_value",
        "wall.bearing",
        "rafters.runs",
        "vent.longest_run",
        "vent.run_for_rise",
        "vent.least_rise",
        "project.floor_buildup",
        "appliance.opening_bottom",
        "platform.layers",
        "skins.lower_weight",
        "skins.lower_finish",
        "skins.upper_weight",
        "skins.upper_finish",
        "skins.side_weight",
        "skins.side_finish",
        "vent.cap_width",
        "vent.cap_height",
        "vent.firestop_width",
        "vent.firestop_height",
        "vent.pipe_diameter",
        "appliance.brackets",
        "appliance.body_height",
        "outside.openings",
        "chase.left",
    ],
    check,
};

/// Two keys that must agree, and whether they contradict each other.
#[derive(Debug, Clone, Copy)]
pub struct Agreement {
    /// The keys.
    pub keys: [&'static str; 2],
    /// Why they must agree, as the question says it.
    why: &'static str,
    contradict: fn(&Design) -> bool,
}

/// Every two keys that must agree.
pub static AGREEMENTS: &[Agreement] = &[
    Agreement {
        keys: ["gas.demand", "appliance.input"],
        why: "everything on the pipe together uses less than this unit alone",
        contradict: |design| is_below_input(&design.params).unwrap_or_default(),
    },
    Agreement {
        keys: ["gas.heating_value", "gas.fuel"],
        why: "this heating value is not usual for that gas",
        contradict: |design| is_of_another_gas(&design.params),
    },
    Agreement {
        keys: ["wall.bearing", "rafters.runs"],
        why: "rafters that run out from the wall commonly rest on it, and it is entered as nonbearing",
        contradict: carries_rafters,
    },
    Agreement {
        keys: ["vent.longest_run", "vent.run_for_rise"],
        why: "the table allows a longer run than the longest",
        contradict: |design| has_longer_run(&design.params).unwrap_or_default(),
    },
    Agreement {
        keys: ["vent.least_rise", "vent.run_for_rise"],
        why: "the table begins below the least rise",
        contradict: |design| begins_lower(&design.params).unwrap_or_default(),
    },
    Agreement {
        keys: ["project.floor_buildup", "appliance.opening_bottom"],
        why: "the floor covering is as high as the opening",
        contradict: is_buried,
    },
    Agreement {
        keys: ["skins.lower_weight", "skins.lower_finish"],
        why: "it has weight and no thickness",
        contradict: |design| {
            let skins = &design.params.skins;
            skins.lower_weight.is_some() && !skins.lower_finish.is_positive()
        },
    },
    Agreement {
        keys: ["skins.upper_weight", "skins.upper_finish"],
        why: "it has weight and no thickness",
        contradict: |design| {
            let skins = &design.params.skins;
            let weighs = design.layout.is_stepped() && skins.upper_weight.is_some();
            weighs && !skins.upper_finish.is_positive()
        },
    },
    Agreement {
        keys: ["skins.side_weight", "skins.side_finish"],
        why: "it has weight and no thickness",
        contradict: |design| {
            let skins = &design.params.skins;
            skins.side_weight.is_some() && !skins.side_finish.is_positive()
        },
    },
    Agreement {
        keys: ["vent.cap_width", "vent.pipe_diameter"],
        why: "the cap is narrower than the pipe that ends in it",
        contradict: |design| {
            let vent = &design.params.vent;
            vent.cap_width < vent.pipe_diameter
        },
    },
    Agreement {
        keys: ["vent.cap_height", "vent.pipe_diameter"],
        why: "the cap is lower than the pipe that ends in it",
        contradict: |design| {
            let vent = &design.params.vent;
            vent.cap_height < vent.pipe_diameter
        },
    },
    Agreement {
        keys: ["vent.firestop_width", "vent.pipe_diameter"],
        why: "the firestop's frame is narrower than the pipe that goes through it",
        contradict: |design| is_too_small(&design.params, design.params.vent.firestop_width),
    },
    Agreement {
        keys: ["vent.firestop_height", "vent.pipe_diameter"],
        why: "the firestop's frame is lower than the pipe that goes through it",
        contradict: |design| is_too_small(&design.params, design.params.vent.firestop_height),
    },
    Agreement {
        keys: ["appliance.brackets", "appliance.body_height"],
        why: "a bracket sits over the top of the body",
        contradict: |design| {
            let unit = &design.params.appliance;
            unit.brackets.iter().any(|it| *it > unit.body_height)
        },
    },
    Agreement {
        keys: ["outside.openings", "chase.left"],
        why: "a window, door or inlet is in the wall behind the chase, which would cover it",
        contradict: |design| covers_an_opening(design).unwrap_or_default(),
    },
];

fn check(design: &Design, report: &mut Report<'_>) {
    for it in AGREEMENTS.iter().filter(|it| (it.contradict)(design)) {
        let [first, second] = it.keys;
        let row = Row {
            subject: Measure("{} and {}").of([Thing::Word(first), Thing::Word(second)]),
            source: COMMON_PRACTICE.to_owned(),
            ..Row::default()
        };
        let question = format!(
            "Which is right, {first} or {second}? As they stand, {}.",
            it.why
        );
        report.ask(row, None, question);
    }
}

fn is_below_input(params: &Params) -> Option<bool> {
    let demand = params.gas.as_ref()?.demand?;
    Some(demand < params.appliance.input?)
}

fn is_of_another_gas(params: &Params) -> bool {
    params.gas.as_ref().is_some_and(|gas| {
        let usual = match gas.fuel {
            Fuel::Natural => 850..=1200,
            Fuel::Propane => 2200..=2600,
        };
        !usual.contains(&gas.heating_value)
    })
}

fn carries_rafters(design: &Design) -> bool {
    let (params, site) = (&design.params, &design.layout.site);
    let rests = params.rafters.as_ref().is_some_and(|it| match it.runs {
        Rafters::Out => true,
        Rafters::Along => false,
    });
    // a wall that is opened, or the back of an alcove, may stand inside the house
    let inside = site.opens_wall || params.chase.alcove_depth.is_some();
    rests && params.wall.bearing == Bearing::No && !inside
}

fn has_longer_run(params: &Params) -> Option<bool> {
    let rows = &params.vent.run_for_rise.as_ref()?.value.0;
    let most = rows.iter().map(|it| it[1]).reduce(Length::max)?;
    Some(most > params.vent.longest_run.as_ref()?.value)
}

fn begins_lower(params: &Params) -> Option<bool> {
    let rows = &params.vent.run_for_rise.as_ref()?.value.0;
    let least = rows.iter().map(|it| it[0]).reduce(Length::min)?;
    Some(least < params.vent.least_rise.value)
}

/// Whether the chase stands before an opening of the wall that the vent goes through, which is the wall behind it.
fn covers_an_opening(design: &Design) -> Option<bool> {
    let layout = &design.layout;
    let openings = design.params.outside.as_ref()?.openings.as_ref()?;
    let behind = layout.pass_wall()?.place == RoomWall::Back && !layout.site.is_turned();
    let covered = |it: &[Length; 4]| Span::new(it[0], it[2]).overlaps(layout.site.chase);
    Some(behind && openings.0.iter().any(covered))
}

/// Whether the firestop has a size, and the pipe does not go through it.
fn is_too_small(params: &Params, firestop: Length) -> bool {
    firestop.is_positive() && firestop < params.vent.pipe_diameter
}

/// Whether the floor covering lies over the bottom of the unit's opening.
fn is_buried(design: &Design) -> bool {
    let (params, layout) = (&design.params, &design.layout);
    let opening = layout.heights.platform_top + params.appliance.opening_bottom;
    let floor = layout.slab + params.project.floor_buildup;
    params.project.floor_buildup.is_positive() && !(opening - floor).is_positive()
}
