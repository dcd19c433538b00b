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
        "Wood, paper-faced gypsum board, foam, insulation facing and cable jackets are all combustible.",
    ),
    (
        "Air space",
        "The air space around unit and vent stays empty. Do not flatten or remove the spacers on the unit.",
    ),
    (
        "Gas",
        "A licensed fitter makes and tests all gas joints. Smell gas: leave, and call from outside.",
    ),
    (
        "Carbon monoxide",
        "A working alarm on the same floor and near where people sleep, before the first fire.",
    ),
    (
        "Bearing walls",
        "Treat an outside wall as bearing until someone qualified says it is not. A stud cut in it needs a header that someone designs.",
    ),
    (
        "Roof",
        "A truss is never cut. A rafter only with a designed header.",
    ),
    (
        "Slab",
        "Locate post-tensioning tendons and heating in the slab before drilling or shooting into it.",
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
        "Fasteners rated for it, gloves, and no scraps in any fire.",
    ),
    (
        "Sheet steel",
        "Sharp edges: gloves and glasses. Snips leave burrs; cables through it need bushings.",
    ),
    (
        "Dust and old materials",
        "Cutting cement board, mortar and stone frees silica: wet, outside, with a respirator. Old paint and old board are tested before they are opened.",
    ),
    (
        "Weight",
        "Fasten mantel, stone and screen to framing, never to board alone.",
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
