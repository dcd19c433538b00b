//! STEP: an assembly of true solids, one product for each distinct part, placed by the model tree.
//!
//! *Units and frame*: millimetres, or inches if asked for, in the world's frame.
//!
//! *Source*: ISO 10303-21 (the text form) and ISO 10303-242 (AP242, managed model-based 3D
//! engineering), with the recommended practices for assemblies, colors and layers in common use.

mod assembly;
mod attribute;
mod body;
mod form;
mod style;
mod text;

use super::item::Item;
use super::tree::Branch;
use super::{ExportError, Format, Products, Set};
use crate::units::TOLERANCE;
pub use form::{StepForm, StepSchema, StepUnit};
pub use text::quoted;
use text::{Id, Text};

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

/// What every product and representation refers to.
#[derive(Debug, Clone, Copy)]
struct Context {
    /// The context of products.
    product: Id,
    /// The context of their definitions.
    definition: Id,
    /// Units and the uncertainty of coordinates.
    geometry: Id,
    /// The unit of length.
    length: Id,
    /// The coordinates of a surface.
    surface: Id,
    /// The world's origin and axes.
    origin: Id,
}

impl Context {
    fn new(text: &mut Text, form: StepForm) -> Self {
        let [purpose, protocol, year] = form.schema.application();
        let application = text.add(&format!("APPLICATION_CONTEXT('{purpose}')"));
        text.add(&format!(
            "APPLICATION_PROTOCOL_DEFINITION('international standard',\
             '{protocol}',{year},{application})"
        ));
        let product = text.add(&format!("PRODUCT_CONTEXT('',{application},'mechanical')"));
        let definition = text.add(&format!(
            "PRODUCT_DEFINITION_CONTEXT('part definition',{application},'design')"
        ));
        let length = form.unit.add(text);
        let angle = text.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))");
        let solid_angle = text.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())");
        let uncertainty = text.begin("UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(");
        text.length(TOLERANCE).put("),").id(length);
        text.put(",'distance_accuracy_value','the one tolerance of the model')")
            .end();
        let geometry = text.add(&format!(
            "(GEOMETRIC_REPRESENTATION_CONTEXT(3)\
             GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({uncertainty}))\
             GLOBAL_UNIT_ASSIGNED_CONTEXT(({length},{angle},{solid_angle}))\
             REPRESENTATION_CONTEXT('',''))"
        ));
        let surface = text.add(
            "(GEOMETRIC_REPRESENTATION_CONTEXT(2)PARAMETRIC_REPRESENTATION_CONTEXT()\
             REPRESENTATION_CONTEXT('',''))",
        );
        let origin = text.frame(glam::DVec3::ZERO, glam::DVec3::Z, glam::DVec3::X);
        Self {
            product,
            definition,
            geometry,
            length,
            surface,
            origin,
        }
    }
}
