//! What can hurt people, in one line each.
//!
//! *Source*: common practice, no source.

use super::html::Html;
use super::section;

/// The cautions: what they are about, and what to do.
const CAUTIONS: [(&str, &str); 15] = [
    (
        "Plan",
        "This is a planning aid. The unit's own manual, the local code, the inspector and licensed trades decide.",
    ),
    (
        "Heat",
        "Every distance to heat here was copied from the manual of this unit; no other unit has the same.",
    ),
    (
        "What burns",
        "Wood, paper-faced gypsum board, foam, insulation facing and cable jackets all burn.",
    ),
    (
        "Air space",
        "The space round unit and vent stays empty. Spacers on the unit stay as they are.",
    ),
    (
        "Gas",
        "A licensed fitter makes and tests gas joints. Smell gas: leave, and call from outside.",
    ),
    (
        "Carbon monoxide",
        "A working alarm on the same floor and near where people sleep, before the first fire.",
    ),
    (
        "Bearing walls",
        "An outside wall carries load until somebody who knows says otherwise. A stud cut in it needs a header that somebody designs.",
    ),
    (
        "Roof",
        "A truss is never cut. A rafter only with a designed header.",
    ),
    (
        "Slab",
        "Find out about tensioned cables and heating in the slab before drilling or shooting into it.",
    ),
    (
        "Electricity",
        "Breaker off and tested dead. No cords inside walls.",
    ),
    (
        "Raked walls",
        "Brace a wall before letting go of it. Heavy ones take two people or more.",
    ),
    (
        "Treated wood",
        "Fasteners made for it, gloves, and no scraps into any fire.",
    ),
    (
        "Sheet steel",
        "Its edges cut: gloves and glasses. Snips leave burrs; cables through it want bushings.",
    ),
    (
        "Dust and old stuff",
        "Cutting cement board, mortar and stone frees silica: wet, outside, with a respirator. Old paint and old board are tested before they are opened.",
    ),
    (
        "Weight",
        "Mantel, stone and screen hang on framing, never on board alone.",
    ),
];

/// Writes the cautions.
pub(super) fn write(html: &mut Html) {
    section(html, "cautions", "Cautions", |html| {
        html.element("dl", &[("class", "cautions")], |html| {
            for (about, text) in CAUTIONS {
                html.element("div", &[], |html| {
                    html.leaf("dt", &[], about);
                    html.leaf("dd", &[], text);
                });
            }
        });
    });
}
