//! Products and takeoff in, `packet.html` out: one page with everything that is needed on site, without a network.
//!
//! It holds the model as `model.glb` has it, the pictures and the drawings as data of its own. Its content security
//! policy lets nothing in but its own style sheet and script, by their digests. Scripts and style sheets are files
//! of their own beside this one.
//!
//! *Source*: W3C Content Security Policy Level 3, section 2.3.1 (hash sources) and RFC 2397 (data URLs): from memory.

mod cautions;
mod checklist;
mod clearances;
mod coding;
mod html;
mod lists;
mod model;
mod places;
mod section;
mod table;
mod verdicts;

use super::{ExportError, Format, Set, glb};
use coding::policy_hash;
pub use html::{Attributes, Html};
use section::{Packet, picture, section};

/// The packet as a file.
pub(super) const FORMAT: Format = Format::new(Set::Packet, "packet.html", |products, _| {
    Ok(page(Packet { products })?.into_bytes())
});

/// The style sheet, and the script in the order of its parts.
const STYLE: &str = concat!(
    include_str!("page.css"),
    include_str!("model.css"),
    include_str!("print.css")
);
const SCRIPT: &str = concat!(
    include_str!("algebra.js"),
    include_str!("glb.js"),
    include_str!("painter.js"),
    include_str!("camera.js"),
    include_str!("viewer.js"),
    include_str!("page.js"),
);

/// The packet as a page.
fn page(packet: Packet<'_>) -> Result<String, ExportError> {
    let mut html = Html::default();
    html.own("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n");
    head(&mut html, packet);
    html.own("</head>\n<body>\n");
    header(&mut html, packet);
    html.own("<main id=\"main\">\n");
    model::write(&mut html, packet)?;
    verdicts::write(&mut html, packet)?;
    clearances::write(&mut html, packet);
    verdicts::questions(&mut html, packet);
    verdicts::assumptions(&mut html, packet);
    lists::cuts(&mut html, packet);
    lists::buy(&mut html, packet);
    checklist::write(&mut html, packet);
    checklist::valve_and_fire(&mut html, packet);
    cautions::write(&mut html);
    html.own("</main>\n");
    footer(&mut html, packet);
    let kind = [("type", "application/octet-stream"), ("id", "model-data")];
    let model = packet.file(&glb::FORMAT)?;
    html.leaf("script", &kind, &model);
    html.own("\n<script type=\"module\">");
    html.own(SCRIPT);
    html.own("</script>\n</body>\n</html>\n");
    Ok(html.finish())
}

fn head(html: &mut Html, packet: Packet<'_>) {
    html.own("<meta charset=\"utf-8\">\n");
    let policy = format!(
        "default-src 'none'; img-src data:; style-src {}; script-src {}; base-uri 'none'; form-action 'none'",
        policy_hash(STYLE),
        policy_hash(SCRIPT)
    );
    let policy = [
        ("http-equiv", "Content-Security-Policy"),
        ("content", policy.as_str()),
    ];
    html.open("meta", &policy);
    html.own("\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    html.own("<meta name=\"color-scheme\" content=\"light dark\">\n");
    // no request for an icon either
    html.own("<link rel=\"icon\" href=\"data:,\">\n");
    let name = &packet.products.design.params.project.name;
    html.leaf("title", &[], &format!("{name}: packet"));
    html.own("\n<style>");
    html.own(STYLE);
    html.own("</style>\n");
}

/// The sections in their order: id and title.
const SECTIONS: [(&str, &str); 11] = [
    ("built", "What is to be built"),
    ("verdicts", "Verdicts"),
    ("clearances", "Clearances"),
    ("questions", "Questions still open"),
    ("assumptions", "Assumed defaults"),
    ("cuts", "Cut list"),
    ("buy", "Buy list"),
    ("checklist", "Checklist"),
    ("valve", "Valve label"),
    ("fire", "First firing"),
    ("cautions", "Cautions"),
];

fn header(html: &mut Html, packet: Packet<'_>) {
    html.own("<a class=\"skip\" href=\"#main\">To the content</a>\n<header>\n");
    html.leaf(
        "p",
        &[("class", "over")],
        "Chase around a direct-vent gas fireplace",
    );
    html.element("h1", &[], |html| {
        html.words(&packet.products.design.params.project.name);
    });
    verdicts::counts(html, packet.products.findings());
    html.leaf(
        "p",
        &[("class", "strong")],
        "A planning aid: the unit's own manual, the local code, the inspector and licensed trades decide.",
    );
    html.own("\n</header>\n<nav id=\"contents\" aria-label=\"Contents\"><ol>");
    for (id, title) in SECTIONS {
        let target = format!("#{id}");
        html.element("li", &[], |html| {
            html.leaf("a", &[("href", target.as_str())], title);
        });
    }
    html.own("</ol></nav>\n");
}

fn footer(html: &mut Html, packet: Packet<'_>) {
    let datum = match packet.products.design.params.project.floor_datum {
        crate::params::FloorDatum::BareSlab => "the bare slab",
        crate::params::FloorDatum::FinishedFloor => "the finished floor",
    };
    let text = format!(
        "Heights in the parameter file are measured from {datum}; right is along the wall from the left corner of the room, \
         out is from the wall into the room. Made by chasewright {}.",
        env!("CARGO_PKG_VERSION")
    );
    html.element("footer", &[], |html| html.leaf("p", &[], &text));
    html.line();
}
