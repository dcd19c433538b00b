//! The model's extent in, saved views out: from the front, from the side, cut open, from above, and the vent.
//!
//! *Units and frame*: metres, y up. A camera looks along its own −z.

use glam::{DQuat, DVec3};
use serde_json::{Value, json};

/// Vertical angle of view of the front camera, in radians.
const VIEW_ANGLE: f64 = 0.7;
/// How near to a camera things show, in metres.
const NEAR: f64 = 0.01;
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

/// Opposite corners of a box.
type Corners = (DVec3, DVec3);

/// The saved views of a model between two corners, its vent between two others, and the middle of the
/// unit at this x.
pub(super) fn cameras((low, high): Corners, vent: Corners, axis: f64) -> Vec<Camera> {
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
                "perspective": { "yfov": VIEW_ANGLE, "znear": NEAR, "zfar": far + reach },
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
        // It stands in the middle of the unit, so that what lies to the left is behind it.
        flat(
            "section",
            half.z,
            half.y,
            far,
            middle.with_x(axis - NEAR),
            [0.0, -EIGHTH, 0.0, EIGHTH],
        ),
        of_vent(vent),
    ]
}

/// The vent from outside and above, on its left.
fn of_vent((low, high): Corners) -> Camera {
    let middle = (low + high) / 2.0;
    let radius = (high - low).length() / 2.0 * MARGIN;
    let away = radius / libm::sin(VIEW_ANGLE / 2.0);
    // A quarter turn and a half to the left, then a little down.
    let (left, down) = (2.4, -0.35);
    let turn = DQuat::from_rotation_y(-left) * DQuat::from_rotation_x(down);
    let place = middle + turn * (DVec3::Z * away);
    Camera {
        camera: json!({
            "name": "vent",
            "type": "perspective",
            "perspective": { "yfov": VIEW_ANGLE, "znear": NEAR, "zfar": away + 4.0 * radius + 4.0 },
        }),
        node: json!({
            "name": "camera vent",
            "translation": place.to_array(),
            "rotation": turn.to_array(),
        }),
    }
}

/// A view without perspective.
fn flat(name: &str, x: f64, y: f64, far: f64, place: DVec3, rotation: [f64; 4]) -> Camera {
    Camera {
        camera: json!({
            "name": name,
            "type": "orthographic",
            "orthographic": { "xmag": x.max(y), "ymag": x.max(y), "znear": NEAR, "zfar": far },
        }),
        node: json!({
            "name": format!("camera {name}"),
            "translation": place.to_array(),
            "rotation": rotation,
        }),
    }
}
