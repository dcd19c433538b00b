//! A sheet in, SVG text out: a drawing at true size, with numbers of fixed decimals.
//!
//! *Units*: millimetres, one for one with the sheet. Letters are named by their face and not embedded.

use std::fmt::Write as _;

use glam::DVec2;

use super::escape::escaped;
use super::number::{Decimals, push};
use crate::drawing::{Fill, Ink, Pen, Sheet, Stroke, Text, letters};

/// Letters stand as [`letters::width`] measures them: without kerning, and every space is one. Neither has an attribute
/// that SVG 2 hands on to CSS (6.6, from memory), so that it takes a rule.
const LETTERS: &str = "text{font-kerning:none;white-space:pre}";

/// The sheet as an SVG file.
pub fn sheet_svg(sheet: &Sheet) -> String {
    let mut svg = begun(sheet.paper.size(), &sheet.title);
    drawn(&mut svg, sheet);
    svg.push_str("</svg>\n");
    svg
}

/// Sheets one under the other as an SVG file.
pub(super) fn column_svg(sheets: &[Sheet], title: &str) -> String {
    let sizes = sheets.iter().map(|it| it.paper.size());
    // without sheets it is a mere point
    let size = sizes.fold(DVec2::ONE, |all, it| {
        DVec2::new(all.x.max(it.x), all.y + it.y)
    });
    let mut svg = begun(size, title);
    let mut down = 0.0;
    for sheet in sheets {
        svg.push_str("<g transform=\"translate(0 ");
        number(&mut svg, down);
        svg.push_str(")\">\n");
        drawn(&mut svg, sheet);
        svg.push_str("</g>\n");
        down += sheet.paper.size().y;
    }
    svg.push_str("</svg>\n");
    svg
}

/// A file of this size so far, with its title and white paper.
fn begun(size: DVec2, title: &str) -> String {
    let mut svg = String::from("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"");
    number(&mut svg, size.x);
    svg.push_str("mm\" height=\"");
    number(&mut svg, size.y);
    svg.push_str("mm\" viewBox=\"0 0 ");
    number(&mut svg, size.x);
    svg.push(' ');
    number(&mut svg, size.y);
    let _ = writeln!(
        svg,
        "\" font-family=\"'{}', Verdana, sans-serif\">\n<title>{}</title>\n<style>{LETTERS}</style>",
        letters::FACE,
        escaped(title)
    );
    svg.push_str("<path fill=\"white\" d=\"M0 0");
    for corner in [DVec2::new(size.x, 0.0), size, DVec2::new(0.0, size.y)] {
        svg.push('L');
        point(&mut svg, corner);
    }
    svg.push_str("Z\"/>\n");
    svg
}

/// What lies on a sheet.
fn drawn(svg: &mut String, sheet: &Sheet) {
    for pen in Pen::ALL {
        lines(svg, sheet, pen);
    }
    for ink in &sheet.ink {
        match ink {
            Ink::Area { loops, fill } => area(svg, loops, *fill),
            Ink::Text(text) => words(svg, text),
            Ink::Line { .. } | Ink::Circle { .. } => {}
        }
    }
}

/// Everything that one pen draws, as one path.
fn lines(svg: &mut String, sheet: &Sheet, pen: Pen) {
    let mut path = String::new();
    for stroke in sheet.strokes(pen) {
        match stroke {
            Stroke::Run(points) => run(&mut path, &points),
            Stroke::Circle { center, radius } => circle(&mut path, center, radius),
        }
    }
    if path.is_empty() {
        return;
    }
    let tone = match pen.lightness() {
        0 => "black".to_owned(),
        light => format!("#{light:02x}{light:02x}{light:02x}"),
    };
    let _ = write!(svg, "<path fill=\"none\" stroke=\"{tone}\"");
    svg.push_str(" stroke-linecap=\"butt\" stroke-linejoin=\"round\" stroke-width=\"");
    number(svg, pen.width());
    svg.push('"');
    let dashes: Vec<String> = pen.dashes().iter().map(ToString::to_string).collect();
    if !dashes.is_empty() {
        let _ = write!(svg, " stroke-dasharray=\"{}\"", dashes.join(" "));
    }
    let _ = writeln!(svg, " d=\"{path}\"/>");
}

fn run(path: &mut String, points: &[DVec2]) {
    for (place, corner) in points.iter().enumerate() {
        path.push(if place == 0 { 'M' } else { 'L' });
        point(path, *corner);
    }
}

fn circle(path: &mut String, center: DVec2, radius: f64) {
    path.push('M');
    point(path, center - DVec2::X * radius);
    for end in [center + DVec2::X * radius, center - DVec2::X * radius] {
        path.push('A');
        point(path, DVec2::splat(radius));
        path.push_str(" 0 0 1 ");
        point(path, end);
    }
    path.push('Z');
}

fn area(svg: &mut String, loops: &[Vec<DVec2>], fill: Fill) {
    let fill = match fill {
        Fill::Black => "black",
        Fill::Gray => "#d8d8d8",
    };
    let _ = write!(svg, "<path fill=\"{fill}\" fill-rule=\"evenodd\" d=\"");
    for corners in loops {
        run(svg, corners);
        svg.push('Z');
    }
    svg.push_str("\"/>\n");
}

fn words(svg: &mut String, text: &Text) {
    svg.push_str("<text font-size=\"");
    number(svg, text.size);
    svg.push('"');
    if text.turned {
        svg.push_str(" transform=\"translate(");
        point(svg, text.at);
        svg.push_str(") rotate(-90)\"");
    } else {
        svg.push_str(" x=\"");
        number(svg, text.at.x);
        svg.push_str("\" y=\"");
        number(svg, text.at.y);
        svg.push('"');
    }
    let _ = writeln!(svg, ">{}</text>", escaped(&text.text));
}

fn point(text: &mut String, point: DVec2) {
    number(text, point.x);
    text.push(' ');
    number(text, point.y);
}

/// A number in steps of 1e-3 mm.
fn number(text: &mut String, value: f64) {
    push(text, value, Decimals::THOUSANDTHS);
    if text.ends_with('.') {
        text.pop();
    }
}
