//! What every product and representation of the file refers to.

use super::form::{StepForm, StepUnit};
use super::text::{Id, Text};
use crate::units::{MM_PER_INCH, TOLERANCE};

/// What every product and representation refers to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Context {
    /// The context of products.
    pub(super) product: Id,
    /// The context of their definitions.
    pub(super) definition: Id,
    /// Units and the uncertainty of coordinates.
    pub(super) geometry: Id,
    /// The unit of length.
    pub(super) length: Id,
    /// The coordinates of a surface.
    pub(super) surface: Id,
    /// The world's origin and axes.
    pub(super) origin: Id,
}

impl Context {
    pub(super) fn new(text: &mut Text, form: StepForm) -> Self {
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

impl StepUnit {
    /// Adds the unit.
    fn add(self, text: &mut Text) -> Id {
        let millimetre = text.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))");
        if self == Self::Millimeter {
            return millimetre;
        }
        let exponents = text.add("DIMENSIONAL_EXPONENTS(1.,0.,0.,0.,0.,0.,0.)");
        let size = text.add(&format!(
            "LENGTH_MEASURE_WITH_UNIT(LENGTH_MEASURE({MM_PER_INCH}),{millimetre})"
        ));
        text.add(&format!(
            "(CONVERSION_BASED_UNIT('INCH',{size})LENGTH_UNIT()NAMED_UNIT({exponents}))"
        ))
    }
}
