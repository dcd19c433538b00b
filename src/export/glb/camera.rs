//! The model's extent in, saved views out: from the front, from the side, from above.
//!
//! *Units and frame*: metres, y up. A camera looks along its own −z.

use glam::DVec3;
use serde_json::{Value, json};

/// Vertical angle of view of the front camera, in radians.
const VIEW_ANGLE: f64 = 0.7;
/// How much more than the model a view shows.
const MARGIN: f64 = 1.15;
/// Sine and cosine of an eighth of a turn, for quarter turns as quaternions.
const EIGHTH: f64 = core::f64::consts::FRAC_1_SQRT_2;

/// A saved view.
#[derive(Debug)]
pub(super) struct Camera {
    /// The camera itself.
    pub(super) camera: Value,
    /// The node that carries it.
    pub(super) node: Value,
}

/// The saved views of a model between two corners.
pub(super) fn cameras(low: DVec3, high: DVec3) -> Vec<Camera> {
    let middle = (low + high) / 2.0;
    let half = (high - low) / 2.0 * MARGIN;
    let far = 4.0 * half.length() + 1.0;
    let reach = half.y.max(half.x / 1.4) / libm::tan(VIEW_ANGLE / 2.0);
    let front = middle + DVec3::Z * (half.z + reach);
    let side = middle + DVec3::X * (half.x + 1.0);
    let above = middle + DVec3::Y * (half.y + 1.0);
    vec![
        Camera {
            camera: json!({
                "name": "front",
                "type": "perspective",
                "perspective": { "yfov": VIEW_ANGLE, "znear": 0.01, "zfar": far + reach },
            }),
            node: json!({ "name": "camera front", "translation": front.to_array() }),
        },
        flat(
            "side",
            half.z,
            half.y,
            far,
            side,
            [0.0, EIGHTH, 0.0, EIGHTH],
        ),
        flat(
            "plan",
            half.x,
            half.z,
            far,
            above,
            [-EIGHTH, 0.0, 0.0, EIGHTH],
        ),
    ]
}

/// A view without perspective.
fn flat(name: &str, x: f64, y: f64, far: f64, place: DVec3, rotation: [f64; 4]) -> Camera {
    Camera {
        camera: json!({
            "name": name,
            "type": "orthographic",
            "orthographic": { "xmag": x.max(y), "ymag": x.max(y), "znear": 0.01, "zfar": far },
        }),
        node: json!({
            "name": format!("camera {name}"),
            "translation": place.to_array(),
            "rotation": rotation,
        }),
    }
}
