//! Sheets in, one PDF out: a page a sheet at true size, with a bookmark each, the face embedded, and text that
//! can be searched and copied.
//!
//! *Units and frame*: millimetres of paper from the upper left corner, y down, as on the sheet; the page itself counts
//! in points of 1/72 in (ISO 32000-2:2020, 8.3.2.3). The same sheets give the same bytes: there is no date in the
//! file.

use glam::DVec2;
use krilla::color::luma::Color;
use krilla::destination::XyzDestination;
use krilla::geom::{PathBuilder, Point, Transform};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineJoin, Stroke as Line, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};

use super::ExportError;
use super::escape::printed;
use crate::drawing::{Fill as Tone, Ink, Pen, Sheet, Stroke, Text, letters};
use crate::units::MM_PER_INCH;

/// Name of the file.
pub(super) const DRAWINGS: &str = "drawings.pdf";

/// Points in a millimetre.
const POINTS: f64 = 72.0 / MM_PER_INCH;

/// How far the handles of a curve stand off its ends, as a share of the radius, where it is a quarter of a circle to
/// 3 parts in 10,000: 4/3 · (√2 − 1).
const HANDLE: f64 = 0.552_284_749_830_793_4;

/// The sheets as one PDF.
///
/// # Errors
/// When a sheet has no size or cannot be drawn, or the PDF cannot be put together.
pub fn drawings_pdf(sheets: &[Sheet], title: &str) -> Result<Vec<u8>, ExportError> {
    let face = Font::new(letters::face_bytes().into(), 0);
    let face = face.ok_or_else(|| unfit("a face that cannot be read"))?;
    let mut document = Document::new_with(SerializeSettings::default());
    let mut outline = Outline::new();
    for (number, sheet) in sheets.iter().enumerate() {
        let size = sheet.paper.size() * POINTS;
        let settings = PageSettings::from_wh(single(size.x), single(size.y));
        let settings = settings.ok_or_else(|| unfit("a page without a size"))?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        let drawn = draw(&mut surface, sheet, &face);
        surface.finish();
        page.finish();
        drawn.ok_or_else(|| unfit("a sheet that cannot be drawn"))?;
        let top = XyzDestination::new(number, Point::from_xy(0.0, 0.0));
        let name = format!("{}  {}", number + 1, sheet.title);
        outline.push_child(OutlineNode::new(name, top));
    }
    document.set_outline(outline);
    document.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .language("en".to_owned()),
    );
    document
        .finish()
        .map_err(|error| unfit(format!("{error:?}")))
}

/// Draws a sheet onto its page: paper, lines, then areas and words in the order of its list; `None` where a shape
/// is none.
fn draw(surface: &mut Surface<'_>, sheet: &Sheet, face: &Font) -> Option<()> {
    surface.push_transform(&Transform::from_scale(single(POINTS), single(POINTS)));
    let drawn = draw_in_millimetres(surface, sheet, face);
    surface.pop();
    drawn
}

fn draw_in_millimetres(surface: &mut Surface<'_>, sheet: &Sheet, face: &Font) -> Option<()> {
    let size = sheet.paper.size();
    let corners = [DVec2::ZERO, size.with_y(0.0), size, size.with_x(0.0)];
    fill(surface, &[corners.to_vec()], Color::white())?;
    for pen in Pen::ALL {
        lines(surface, sheet, pen)?;
    }
    for ink in &sheet.ink {
        match ink {
            Ink::Area { loops, fill: tone } => fill(surface, loops, shade(*tone))?,
            Ink::Text(text) => words(surface, text, face),
            Ink::Line { .. } | Ink::Circle { .. } => {}
        }
    }
    Some(())
}

/// Everything that one pen draws, as one path.
fn lines(surface: &mut Surface<'_>, sheet: &Sheet, pen: Pen) -> Option<()> {
    let strokes = sheet.strokes(pen);
    if strokes.is_empty() {
        return Some(());
    }
    let mut path = PathBuilder::new();
    for stroke in strokes {
        match stroke {
            Stroke::Run(points) => run(&mut path, &points),
            Stroke::Circle { center, radius } => circle(&mut path, center, radius),
        }
    }
    let dashes: Vec<f32> = pen.dashes().iter().map(|it| single(*it)).collect();
    surface.set_fill(None);
    surface.set_stroke(Some(Line {
        paint: Color::new(pen.lightness()).into(),
        width: single(pen.width()),
        line_join: LineJoin::Round,
        dash: (!dashes.is_empty()).then_some(StrokeDash {
            array: dashes,
            offset: 0.0,
        }),
        ..Line::default()
    }));
    draw_path(surface, path)
}

/// Fills what an odd number of outlines surrounds.
fn fill(surface: &mut Surface<'_>, loops: &[Vec<DVec2>], color: Color) -> Option<()> {
    let mut path = PathBuilder::new();
    for corners in loops {
        run(&mut path, corners);
        path.close();
    }
    surface.set_stroke(None);
    surface.set_fill(Some(Fill {
        paint: color.into(),
        rule: FillRule::EvenOdd,
        ..Fill::default()
    }));
    draw_path(surface, path)
}

fn draw_path(surface: &mut Surface<'_>, path: PathBuilder) -> Option<()> {
    surface.draw_path(&path.finish()?);
    Some(())
}

fn run(path: &mut PathBuilder, points: &[DVec2]) {
    for (place, point) in points.iter().enumerate() {
        let [x, y] = on_paper(*point);
        if place == 0 {
            path.move_to(x, y);
        } else {
            path.line_to(x, y);
        }
    }
}

/// A circle in four quarters, clockwise as seen from its left.
fn circle(path: &mut PathBuilder, center: DVec2, radius: f64) {
    let mut arm = DVec2::new(-radius, 0.0);
    let [x, y] = on_paper(center + arm);
    path.move_to(x, y);
    for _ in 0..4 {
        let next = arm.perp();
        let [ax, ay] = on_paper(center + arm + next * HANDLE);
        let [bx, by] = on_paper(center + next + arm * HANDLE);
        let [x, y] = on_paper(center + next);
        path.cubic_to(ax, ay, bx, by, x, y);
        arm = next;
    }
    path.close();
}

/// A line of text, each letter where the widths of those before it take it.
fn words(surface: &mut Surface<'_>, text: &Text, face: &Font) {
    let said: String = printed(&text.text).collect();
    let glyphs: Vec<KrillaGlyph> = said
        .char_indices()
        .map(|(place, letter)| {
            let glyph = GlyphId::new(letters::glyph(letter).into());
            let advance = single(letters::advance(letter));
            let range = place..place + letter.len_utf8();
            KrillaGlyph::new(glyph, advance, 0.0, 0.0, 0.0, range, None)
        })
        .collect();
    let [x, y] = on_paper(text.at);
    let (start, size) = (Point::from_xy(0.0, 0.0), single(text.size));
    surface.set_stroke(None);
    surface.set_fill(Some(Fill::default()));
    surface.push_transform(&if text.turned {
        Transform::from_row(0.0, -1.0, 1.0, 0.0, x, y)
    } else {
        Transform::from_translate(x, y)
    });
    surface.draw_glyphs(start, &glyphs, face.clone(), &said, size, false);
    surface.pop();
}

fn shade(tone: Tone) -> Color {
    match tone {
        Tone::Black => Color::black(),
        Tone::Gray => Color::new(0xd8),
    }
}

/// A point in steps of 1e-3 mm, as the sheet's other writer has it.
fn on_paper(point: DVec2) -> [f32; 2] {
    let [x, y] = (point * 1e3).round().to_array();
    [single(x / 1e3), single(y / 1e3)]
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "what lies on paper is far below the range of f32"
)]
fn single(value: f64) -> f32 {
    value as f32
}

fn unfit(reason: impl std::fmt::Display) -> ExportError {
    ExportError::Unfit {
        file: DRAWINGS,
        reason: reason.to_string(),
    }
}
