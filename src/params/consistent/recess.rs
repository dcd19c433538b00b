//! Whether recess, screen and chase go together.

use super::{Rule, ceiling_over_chase, fits, stepped, to_nearer_end, unless_fits};
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::params::text::length_text;
use crate::units::Length;

/// How far above the ceiling a recess may be drawn before it is a slip of the pen and no finding.
const ABSURD: Length = Length::mm(1000.0);

pub(super) static RULES: &[Rule] = &[screen_with_recess, recess_deeper_than_skin, recess_in_chase];

fn screen_with_recess(params: &Params) -> Vec<Fault> {
    if params.screen.is_none() || params.recess.is_some() {
        return Vec::new();
    }
    vec![
        Fault::new("screen", "the screen has no recess")
            .found("[screen] without [recess]")
            .expected("a table [recess] to hang it in")
            .way_out("add [recess], or take [screen] out"),
    ]
}

fn recess_deeper_than_skin(params: &Params) -> Vec<Fault> {
    let skins = &params.skins;
    let finish = if stepped(params) {
        skins.upper_finish
    } else {
        skins.lower_finish
    };
    let skin = skins.board + finish;
    let shallow = params
        .recess
        .as_ref()
        .filter(|recess| fits(recess.depth, skin));
    let text = |length| length_text(length, params.project.unit);
    shallow
        .map(|recess| {
            Fault::new(
                "recess.depth",
                "the recess is no deeper than the skin around it",
            )
            .found(text(recess.depth))
            .expected(format!("more than board and finish, {}", text(skin)))
            .way_out("measure the depth from the finished face")
        })
        .into_iter()
        .collect()
}

fn recess_in_chase(params: &Params) -> Vec<Fault> {
    let Some(recess) = &params.recess else {
        return Vec::new();
    };
    let half = recess.width / 2.0 + params.skins.board + params.front_stud().breadth() * 2.0;
    let key = if recess.center.is_some() {
        "recess.center"
    } else {
        "recess.width"
    };
    let mut faults = unless_fits(
        params,
        key,
        ("half the recess with its board and two studs", half),
        (
            "the distance from its center to the chase's nearer end",
            to_nearer_end(params, recess.center),
        ),
        "make the recess narrower, or move it toward the chase's middle",
    );
    faults.extend(unless_fits(
        params,
        "recess.sill",
        (
            "the head of the recess",
            recess.sill + recess.height - params.slab(),
        ),
        (
            "1 m above the lowest ceiling",
            ceiling_over_chase(params) + ABSURD,
        ),
        "lower the sill, or the recess itself",
    ));
    faults
}
