//! Pictures, drawings and the place of the 3D view: what is to be built.

use super::coding::base64;
use super::html::Html;
use super::{Packet, section};
use crate::export::{ExportError, Format, picture};

/// The pictures, and what each shows.
const PICTURES: [(&Format, &str); 3] = [
    (&picture::ISOMETRIC, "The finished chase in the room"),
    (&picture::FRONT, "The finished front as seen from the room"),
    (
        &picture::SECTION,
        "Cut upright through the middle of the unit, seen from the left",
    ),
];
/// What stands in for the 3D view.
const STILL: (&Format, &str) = (&picture::FRAMING, "The framing without board and finish");

/// Writes the section.
pub(super) fn write(html: &mut Html, packet: Packet<'_>) -> Result<(), ExportError> {
    let still = super::picture(packet, STILL.0)?;
    let pictures = PICTURES.map(|(format, title)| Ok((super::picture(packet, format)?, title)));
    let pictures = pictures
        .into_iter()
        .collect::<Result<Vec<_>, ExportError>>()?;
    let axis = packet
        .products
        .design
        .layout
        .unit_center
        .to_mm()
        .to_string();
    section(html, "built", "What is to be built", |html| {
        html.element(
            "div",
            &[("id", "view"), ("data-axis", axis.as_str())],
            |html| {
                figure(html, &still, STILL.1, "still");
                html.own(include_str!("model.html"));
            },
        );
        html.element("div", &[("class", "pictures")], |html| {
            for (picture, title) in &pictures {
                figure(html, picture, title, "");
            }
        });
        for (title, svg) in packet.products.drawings() {
            let drawing = format!("data:image/svg+xml;base64,{}", base64(svg.as_bytes()));
            figure(html, &drawing, title, "drawing");
        }
    });
    Ok(())
}

fn figure(html: &mut Html, source: &str, title: &str, class: &str) {
    html.line();
    html.element("figure", &[("class", class)], |html| {
        html.open("img", &[("src", source), ("alt", title)]);
        html.leaf("figcaption", &[], title);
    });
}
