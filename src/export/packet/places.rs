//! Findings in, a still picture with their places marked out: for paper, and for who has no 3D view.
//!
//! *Units*: pixels of the picture, y down.

use glam::DVec2;

use super::Packet;
use super::html::Html;
use crate::check::Finding;
use crate::export::number::spans;
use crate::export::picture::spots;
use crate::export::{ExportError, Format, picture};

/// Marks nearer to one another than this share a label.
const NEAR: f64 = 44.0;
/// From a mark to its label.
const LEADER: DVec2 = DVec2::new(34.0, -34.0);
/// Half the height of a label.
const LABEL: f64 = 17.0;

/// The pictures on which places are marked, and what they show.
const PICTURES: [(&Format, &str); 2] = [
    (&picture::FRAMING, "The framing from the upper right"),
    (
        &picture::SECTION,
        "Cut through the middle of the unit, from the left",
    ),
];

/// A mark with the numbers of the findings that it stands for.
struct Mark {
    place: DVec2,
    numbers: Vec<usize>,
}

/// Pictures with marks.
pub(super) struct Figure {
    pictures: Vec<Marked>,
}

struct Marked {
    png: String,
    title: &'static str,
    size: DVec2,
    marks: Vec<Mark>,
}

impl Figure {
    /// Marks the places of findings, which are numbered from 1.
    pub(super) fn new(packet: Packet<'_>, findings: &[Finding]) -> Result<Self, ExportError> {
        let placed = findings.iter().enumerate();
        let placed = placed.filter_map(|(place, it)| Some((place + 1, it.location?)));
        let (numbers, points): (Vec<usize>, Vec<_>) = placed.unzip();
        if points.is_empty() {
            return Ok(Self {
                pictures: Vec::new(),
            });
        }
        let pictures = PICTURES.into_iter().map(|(format, title)| {
            let (size, places) = spots(&packet.products.bodies()?, format, &points);
            Ok(Marked {
                png: super::picture(packet, format)?,
                title,
                size,
                marks: marks(size, &numbers, &places),
            })
        });
        Ok(Self {
            pictures: pictures.collect::<Result<_, ExportError>>()?,
        })
    }

    /// Writes the pictures; nothing where no finding has a place.
    pub(super) fn write(&self, html: &mut Html) {
        if self.pictures.is_empty() {
            return;
        }
        html.element("div", &[("class", "places")], |html| {
            for picture in &self.pictures {
                picture.write(html);
            }
        });
    }
}

/// Marks within the picture; those that lie close together are one.
fn marks(size: DVec2, numbers: &[usize], places: &[DVec2]) -> Vec<Mark> {
    let mut marks: Vec<Mark> = Vec::new();
    for (number, place) in numbers.iter().zip(places) {
        if place.min_element() < 0.0 || (size - *place).min_element() < 0.0 {
            continue;
        }
        let near = marks
            .iter_mut()
            .find(|mark| mark.place.distance(*place) < NEAR);
        match near {
            Some(mark) => mark.numbers.push(*number),
            None => marks.push(Mark {
                place: *place,
                numbers: vec![*number],
            }),
        }
    }
    marks
}

impl Marked {
    fn write(&self, html: &mut Html) {
        let (width, height) = (self.size.x.to_string(), self.size.y.to_string());
        html.line();
        html.element("figure", &[], |html| {
            html.element("div", &[("class", "marked")], |html| {
                let attributes = [
                    ("src", self.png.as_str()),
                    ("alt", self.title),
                    ("width", width.as_str()),
                    ("height", height.as_str()),
                ];
                html.open("img", &attributes);
                let view = format!("0 0 {width} {height}");
                let attributes = [("viewBox", view.as_str()), ("aria-hidden", "true")];
                html.element("svg", &attributes, |html| {
                    for mark in &self.marks {
                        mark.write(html, self.size);
                    }
                });
            });
            let caption = format!("{}; the numbers are those of the verdicts", self.title);
            html.leaf("figcaption", &[], &caption);
        });
    }
}

impl Mark {
    fn write(&self, html: &mut Html, size: DVec2) {
        let text = spans(&self.numbers);
        let half = LABEL.max(6.5 * text.chars().count() as f64 + 6.0);
        let room = DVec2::new(half, LABEL) + 2.0;
        let label = self.place + LEADER + DVec2::new(half - LABEL, 0.0);
        let label = label.clamp(room, (size - room).max(room));
        let text_of = |value: f64| format!("{value:.1}");
        let [x, y, label_x, label_y] = [self.place.x, self.place.y, label.x, label.y].map(text_of);
        let line = format!("M{x},{y} L{label_x},{label_y}");
        html.element("path", &[("d", line.as_str())], |_| ());
        let ring = [("cx", x.as_str()), ("cy", y.as_str()), ("r", "7")];
        html.element("circle", &ring, |_| ());
        let corner = [label.x - half, label.y - LABEL, 2.0 * half, 2.0 * LABEL].map(text_of);
        let [left, top, width, height] = &corner;
        let attributes = [
            ("x", left.as_str()),
            ("y", top.as_str()),
            ("width", width.as_str()),
            ("height", height.as_str()),
            ("rx", "17"),
        ];
        html.element("rect", &attributes, |_| ());
        let attributes = [("x", label_x.as_str()), ("y", label_y.as_str())];
        html.leaf("text", &attributes, &text);
    }
}
