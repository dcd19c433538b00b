//! Sheets in, one PDF out: a page a sheet at true size, with a bookmark each, the face embedded, and text that
//! can be searched.
//!
//! *Units*: points of 1/72 in, as PDF counts (ISO 32000-2:2020, 8.3.2.3). The same sheets give the same bytes:
//! there is no date in the file.

use std::sync::Arc;

use krilla::destination::XyzDestination;
use krilla::geom::{Point, Size};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::{Document, SerializeSettings};
use krilla_svg::{SurfaceExt, SvgSettings};
use usvg::{Options, Tree, fontdb};

use super::ExportError;
use super::svg::sheet_svg;
use crate::drawing::{Sheet, in_parallel, letters};
use crate::units::MM_PER_INCH;

/// Name of the file.
pub(super) const DRAWINGS: &str = "drawings.pdf";

/// Points in an inch.
const POINTS: f64 = 72.0;

/// The sheets as one PDF.
///
/// # Errors
/// When a sheet cannot be read back as SVG, or the PDF cannot be put together.
pub fn drawings_pdf(sheets: &[Sheet], title: &str) -> Result<Vec<u8>, ExportError> {
    let mut faces = fontdb::Database::new();
    faces.load_font_data(letters::face_bytes().to_vec());
    let options = Options {
        fontdb: Arc::new(faces),
        font_family: letters::FACE.to_owned(),
        ..Options::default()
    };
    let trees = in_parallel(sheets.iter(), |sheet| {
        Tree::from_str(&sheet_svg(sheet), &options)
    });
    let mut document = Document::new_with(SerializeSettings::default());
    let mut outline = Outline::new();
    for (number, (sheet, tree)) in sheets.iter().zip(trees).enumerate() {
        let size = page_size(sheet)?;
        let tree = tree.map_err(unfit)?;
        let settings = PageSettings::from_wh(size.width(), size.height());
        let settings = settings.ok_or_else(|| unfit("a page without a size"))?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        let drawn = surface.draw_svg(&tree, size, SvgSettings::default());
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

#[expect(
    clippy::cast_possible_truncation,
    reason = "pages are far below the range of f32"
)]
fn page_size(sheet: &Sheet) -> Result<Size, ExportError> {
    let size = sheet.paper.size() * (POINTS / MM_PER_INCH);
    Size::from_wh(size.x as f32, size.y as f32).ok_or_else(|| unfit("a page without a size"))
}

fn unfit(reason: impl std::fmt::Display) -> ExportError {
    ExportError::Unfit {
        file: DRAWINGS,
        reason: reason.to_string(),
    }
}
