//! How high platform, unit and header reach.

use super::choice::FrontForm;
use super::layer::Layer;
use super::list::Params;
use crate::units::Length;

/// Heights above the floor datum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heights {
    /// Top of the platform.
    pub platform_top: Length,
    /// Top of the unit's body.
    pub body_top: Length,
    /// Top of the finished opening.
    pub opening_top: Length,
    /// Underside of the header.
    pub header_bottom: Length,
    /// Top of the header.
    pub header_top: Length,
    /// Top of what the mantel may rest on: the ledge when stepped, else the header's top.
    pub framing_top: Length,
}

impl Heights {
    /// What follows from the parameters.
    pub(crate) fn new(params: &Params) -> Self {
        let (appliance, front) = (&params.appliance, &params.front);
        let layers = params.platform.layers.iter();
        let platform_top = params.slab() + layers.map(Layer::height).sum();
        let body_top = platform_top + appliance.body_height;
        let header_bottom = body_top + appliance.top_clearance.value + front.header_ease;
        let header_top = header_bottom + params.header_height();
        let ledge = match (front.form, &front.ledge) {
            (FrontForm::Stepped, Some(ledge)) => ledge.plate(),
            _ => Length::ZERO,
        };
        Self {
            platform_top,
            body_top,
            opening_top: platform_top + appliance.opening_top,
            header_bottom,
            header_top,
            framing_top: header_top + ledge,
        }
    }
}
