//! STEP: an assembly of true solids, one product for each distinct part, placed by the model tree.
//!
//! *Units and frame*: millimetres, in the world's frame.
//!
//! *Source*: ISO 10303-21 (the text form) and ISO 10303-242 (AP242, managed model-based 3D
//! engineering), with the recommended practices for assemblies, colors and layers in common use.

mod assembly;
mod body;
mod style;
mod text;

use super::item::Item;
use super::tree::Branch;
use super::{ExportError, Format, Products};
use text::{Id, Text};

pub(super) const FORMAT: Format = Format {
    file: "model.step",
    write,
};

/// The schema's exact name and its object identifier.
const SCHEMA: &str = "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF { 1 0 10303 442 1 1 4 }";
/// The same for every file, so that the same model gives the same bytes.
const TIME_STAMP: &str = "2000-01-01T00:00:00";

#[expect(clippy::unnecessary_wraps, reason = "every format has this signature")]
fn write(products: &Products<'_>) -> Result<Vec<u8>, ExportError> {
    let items = Item::all(products);
    let tree = Branch::root(&products.design.params.project.name, &items);
    let mut text = Text::new(&header(&products.design.params.project.name));
    let context = Context::new(&mut text);
    assembly::write(&mut text, &context, products, &items, &tree);
    Ok(text.finish())
}

fn header(name: &str) -> String {
    let name = text::quoted(name);
    let tool = concat!("chasewright ", env!("CARGO_PKG_VERSION"));
    format!(
        "FILE_DESCRIPTION(('Framed chase around a direct-vent gas fireplace'),'2;1');\n\
         FILE_NAME({name},'{TIME_STAMP}',(''),(''),'{tool}','{tool}','');\n\
         FILE_SCHEMA(('{SCHEMA}'));\n"
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
    /// The coordinates of a surface.
    surface: Id,
    /// The world's origin and axes.
    origin: Id,
}

impl Context {
    fn new(text: &mut Text) -> Self {
        let application = text.add("APPLICATION_CONTEXT('managed model based 3d engineering')");
        text.add(&format!(
            "APPLICATION_PROTOCOL_DEFINITION('international standard',\
             'ap242_managed_model_based_3d_engineering',2014,{application})"
        ));
        let product = text.add(&format!("PRODUCT_CONTEXT('',{application},'mechanical')"));
        let definition = text.add(&format!(
            "PRODUCT_DEFINITION_CONTEXT('part definition',{application},'design')"
        ));
        let length = text.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))");
        let angle = text.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))");
        let solid_angle = text.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())");
        let uncertainty = text.add(&format!(
            "UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-6),{length},\
             'distance_accuracy_value','the one tolerance of the model')"
        ));
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
            surface,
            origin,
        }
    }
}
