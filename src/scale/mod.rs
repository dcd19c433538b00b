//! Design in, a printable scale model out: closed bodies in the sizes of the model, on a bed.
//!
//! *Units and frame*: millimetres of the printed model; x right, y into the wall, z up, the lowest corner
//! of all bodies at the origin.
//!
//! *Errors*: [`ScaleError::Refused`] when the model cannot be printed so, with the ratio that works;
//! [`ScaleError::Union`] when bodies do not become one.

mod face;
mod figure;
pub mod flat;
mod joint;
mod kit;
mod piece;
mod settings;
mod union;
mod wedge;

pub use kit::{Kit, Numbered, Plate, Seat};
pub use settings::{Printed, ScaleError, Settings};

use glam::DVec3;

use crate::design::Design;
use crate::geom::{Bounds, Mesh};
use crate::units::Length;

/// A printable model.
#[derive(Debug, Clone)]
pub struct ScaleModel {
    /// How it was made.
    pub settings: Settings,
    /// The whole chase, a body for each group of parts that touch; empty where it is larger than the bed.
    pub look: Vec<Printed>,
    /// Why there is no look.
    pub too_large: Option<String>,
    /// Its clearance volumes, in the same place, for a second color.
    pub clearances: Vec<Printed>,
    /// The pieces to be put together.
    pub kit: Kit,
    /// What is not to scale, and why.
    pub not_to_scale: Vec<String>,
}

/// The scale model of a design.
///
/// # Errors
/// When a stick would be thinner than the printer can do or a piece of the kit larger than the bed; the message
/// names the ratio that works.
///
/// # Examples
/// ```
/// use chasewright::design::design;
/// use chasewright::params;
/// use chasewright::scale::{Settings, model};
/// use chasewright::units::Length;
///
/// let text = include_str!(concat!(
///     env!("CARGO_MANIFEST_DIR"),
///     "/params/reading-room.toml"
/// ));
/// let design = design(&params::read(text).expect("a sound file"));
/// let settings = Settings {
///     ratio: 12,
///     bed: [Length::mm(256.0); 3],
///     nozzle: Length::mm(0.4),
/// };
/// let printed = model(&design, &settings).expect("it fits the bed");
/// assert!(!printed.look.is_empty());
/// ```
pub fn model(design: &Design, settings: &Settings) -> Result<ScaleModel, ScaleError> {
    figure::refuse_thin_sticks(design, settings)?;
    let mut not_to_scale = Vec::new();
    let figures = figure::figures(design, settings, &mut not_to_scale);
    let volumes: Vec<Mesh> = design
        .clearances
        .iter()
        .map(|it| figure::in_world(&it.body))
        .collect();
    let clearances = union::bodies("clearances", &volumes)?;
    let look = union::bodies("look", figures.iter().map(|it| &it.mesh))?;
    let shift = -figure::corner(look.iter().chain(&clearances)) * settings.scale();
    let look: Vec<Printed> = look
        .iter()
        .zip(1..)
        .map(|(mesh, number)| Printed {
            name: format!("chase {number}"),
            mesh: mesh.scaled(settings.scale(), shift),
        })
        .collect();
    let too_large = too_large(&look, settings);
    let clearances = clearances.iter().zip(1..).map(|(mesh, number)| Printed {
        name: format!("clearance {number}"),
        mesh: mesh.scaled(settings.scale(), shift),
    });
    Ok(ScaleModel {
        settings: *settings,
        clearances: clearances.collect(),
        kit: kit::kit(design, &figures, settings)?,
        look: if too_large.is_none() {
            look
        } else {
            Vec::new()
        },
        too_large,
        not_to_scale,
    })
}

/// Why the whole cannot be printed in one piece, if it is larger than the bed.
fn too_large(look: &[Printed], settings: &Settings) -> Option<String> {
    let corners = look.iter().flat_map(|it| &it.mesh.vertices);
    let bounds = Bounds::around(corners.copied());
    let size = bounds.high - bounds.low;
    let bed = DVec3::from_array(settings.bed.map(Length::to_mm));
    let over = (size / bed).max_element();
    let works = (f64::from(settings.ratio) * over).ceil();
    (over > 1.0).then(|| {
        format!(
            "at 1:{} the chase is {:.0} x {:.0} x {:.0} mm, larger than the bed; 1:{works:.0} is the largest ratio that fits",
            settings.ratio, size.x, size.y, size.z
        )
    })
}
