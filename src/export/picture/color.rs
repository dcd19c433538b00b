//! Colors of a picture: how light falls on them, and how they mix.
//!
//! *Units*: channels as sRGB from 0 to 255, mixed as they are.

use glam::DVec3;

/// Red, green and blue.
pub(super) type Color = [u8; 3];

/// The paper.
pub(super) const WHITE: Color = [255; 3];

/// Where the light comes from, in the camera's frame: the upper left, a little from behind the viewer.
const LIGHT: DVec3 = DVec3::new(-0.5, 0.6, 0.62);
/// What a face that is turned away from the light keeps of its color.
const DARKEST: f64 = 0.5;

/// A face's color under the light; its unit normal is given in the camera's frame.
pub(super) fn shade(color: Color, normal: DVec3) -> Color {
    let toward = f64::midpoint(1.0, normal.dot(LIGHT));
    mix([0; 3], color, DARKEST + (1.0 - DARKEST) * toward)
}

/// The color `share` of the way from one to another.
pub(super) fn mix(from: Color, to: Color, share: f64) -> Color {
    let weight = share_of(share, 256.0);
    core::array::from_fn(|channel| blend(from[channel], to[channel], weight))
}

/// The weight of a share for [`blend`].
pub(super) fn weight(share: f64) -> u32 {
    share_of(share, 256.0)
}

/// How much of a pixel is covered, from 0 to 255.
pub(super) fn coverage(share: f64) -> u8 {
    u8::try_from(share_of(share, 255.0)).unwrap_or(u8::MAX)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to 0 … 256"
)]
fn share_of(share: f64, whole: f64) -> u32 {
    (share.clamp(0.0, 1.0) * whole + 0.5) as u32
}

/// A channel `weight` / 256 of the way from one value to another.
pub(super) fn blend(from: u8, to: u8, weight: u32) -> u8 {
    let mixed = (u32::from(from) * (256 - weight) + u32::from(to) * weight + 128) / 256;
    u8::try_from(mixed).unwrap_or(u8::MAX)
}

/// Whether a dark line on the color could hardly be seen.
pub(super) fn is_dark(color: Color) -> bool {
    color.iter().map(|channel| u32::from(*channel)).sum::<u32>() < 3 * 80
}
