//! STEP: an assembly of true solids, one product for each distinct part, placed by the model tree.
//!
//! *Units and frame*: millimetres, or inches if asked for, in the world's frame.
//!
//! *Source*: ISO 10303-21 (the text form) and ISO 10303-242 (AP242, managed model-based 3D
//! engineering), with the recommended practices for assemblies, colors and layers in common use.

mod assembly;
mod attribute;
mod body;
mod context;
mod form;
mod style;
mod text;

use super::item::Item;
use super::tree::Branch;
use super::{ExportError, Format, Products, Set};
use context::Context;
pub use form::{StepForm, StepSchema, StepUnit};
use text::Text;
pub use text::quoted;

pub(super) const FORMAT: Format = Format::new(Set::Model, "model.step", write);

/// The same for every file, so that the same model gives the same bytes.
const TIME_STAMP: &str = "2000-01-01T00:00:00";

fn write(products: &Products<'_>, _: &'static str) -> Result<Vec<u8>, ExportError> {
    let bodies = products.bodies()?;
    let items = Item::all(&bodies);
    let tree = Branch::root(&products.design.params.project.name, &items);
    let StepForm { schema, unit } = products.step;
    let header = header(&products.design.params.project.name, schema);
    let mut text = Text::new(&header, unit);
    let context = Context::new(&mut text, products.step);
    assembly::write(&mut text, &context, &bodies, &items, &tree);
    Ok(text.finish())
}

fn header(name: &str, schema: StepSchema) -> String {
    let schema = schema.name();
    let name = quoted(name);
    let tool = concat!("chasewright ", env!("CARGO_PKG_VERSION"));
    format!(
        "FILE_DESCRIPTION(('Framed chase around a direct-vent gas fireplace'),'2;1');\n\
         FILE_NAME({name},'{TIME_STAMP}',(''),(''),'{tool}','{tool}','');\n\
         FILE_SCHEMA(('{schema}'));\n"
    )
}
