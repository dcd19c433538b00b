//! Triangles, lines and cuts in pixels in, a picture out: nearest thing first, lines with soft edges.
//!
//! *Units and frame*: pixels, x to the right and y down, a pixel's middle at its half; z toward the
//! viewer. Every boundary of what is drawn carries a line, so only lines need soft edges.

use glam::{DVec2, DVec3, Vec3Swizzles};

use super::color::{Color, WHITE, blend, coverage, mix, weight};

/// Half the width of a line.
const HALF_LINE: f64 = 0.7;
/// Pixels from one line of hatching to the next, and how dark the pixels beside and on the line are.
const HATCH: usize = 9;
const HATCH_SHARES: [(usize, f64); 3] = [(0, 0.5), (1, 0.25), (HATCH - 1, 0.25)];
/// The z of the paper.
const FAR: f32 = f32::NEG_INFINITY;

/// A picture under construction.
#[derive(Debug)]
pub(super) struct Canvas {
    width: usize,
    height: usize,
    colors: Vec<u32>,
    depths: Vec<f32>,
    lines: Vec<u8>,
}

/// A run of pixels in one row.
struct Span {
    row: usize,
    from: usize,
    to: usize,
}

/// The first pixel whose middle lies at or past a place, within 0 and `count`.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the canvas"
)]
fn pixel(place: f64, count: usize) -> usize {
    let place = (place - 0.5).max(0.0).min(count as f64);
    let whole = place as usize;
    whole + usize::from((whole as f64) < place)
}

#[expect(clippy::cast_possible_truncation, reason = "pixels need no more")]
fn single(value: f64) -> f32 {
    value as f32
}

fn packed([red, green, blue]: Color) -> u32 {
    u32::from_le_bytes([red, green, blue, 0])
}

fn unpacked(color: u32) -> Color {
    let [red, green, blue, _] = color.to_le_bytes();
    [red, green, blue]
}

fn over(below: u32, color: Color, weight: u32) -> u32 {
    let below = unpacked(below);
    packed(core::array::from_fn(|c| blend(below[c], color[c], weight)))
}

impl Canvas {
    /// White paper.
    pub(super) fn new(width: usize, height: usize) -> Self {
        Self {
            width,
            height,
            colors: vec![packed(WHITE); width * height],
            depths: vec![FAR; width * height],
            lines: vec![0; width * height],
        }
    }

    /// The rows of the picture from the top, three bytes a pixel.
    pub(super) fn bytes(&self) -> Vec<u8> {
        let mut bytes = vec![0; self.colors.len() * 3];
        for (pixel, color) in bytes.chunks_exact_mut(3).zip(&self.colors) {
            pixel.copy_from_slice(&unpacked(*color));
        }
        bytes
    }

    /// Draws a triangle over whatever is farther away.
    pub(super) fn fill(&mut self, corners: [DVec3; 3], color: Color) {
        let color = packed(color);
        let width = self.width;
        self.spans(corners, |canvas, span, depth, step| {
            let range = span.row * width + span.from..span.row * width + span.to;
            let depths = &mut canvas.depths[range.clone()];
            let colors = &mut canvas.colors[range];
            nearest(depths, colors, (depth, step), color);
        });
    }

    /// Tints what lies behind a triangle.
    pub(super) fn tint(&mut self, corners: [DVec3; 3], color: Color, opacity: f64) {
        let (width, weight) = (self.width, weight(opacity));
        self.spans(corners, |canvas, span, depth, step| {
            let range = span.row * width + span.from..span.row * width + span.to;
            let depths = &canvas.depths[range.clone()];
            let colors = &mut canvas.colors[range];
            for ((number, old), pixel) in (0_u16..).zip(depths).zip(colors) {
                if depth + step * f32::from(number) > *old {
                    *pixel = over(*pixel, color, weight);
                }
            }
        });
    }

    /// Tints a triangle's pixels, whatever lies before it.
    pub(super) fn tint_through(&mut self, corners: [DVec3; 3], color: Color, opacity: f64) {
        let (width, weight) = (self.width, weight(opacity));
        self.spans(corners, |canvas, span, _, _| {
            let range = span.row * width + span.from..span.row * width + span.to;
            for pixel in &mut canvas.colors[range] {
                *pixel = over(*pixel, color, weight);
            }
        });
    }

    /// The rows of a triangle, each with the z of its first pixel and the step to the next.
    fn spans(&mut self, mut corners: [DVec3; 3], mut draw: impl FnMut(&mut Self, &Span, f32, f32)) {
        let normal = (corners[1] - corners[0]).cross(corners[2] - corners[0]);
        if normal.z.abs() < 1e-9 {
            return;
        }
        let (across, down) = (-normal.x / normal.z, -normal.y / normal.z);
        corners.sort_by(|a, b| a.y.total_cmp(&b.y));
        let [top, middle, bottom] = corners;
        let lowest = top.z.min(middle.z).min(bottom.z);
        let highest = top.z.max(middle.z).max(bottom.z);
        let long = Flank::new(top, bottom);
        let parts = [
            (top.y, middle.y, Flank::new(top, middle)),
            (middle.y, bottom.y, Flank::new(middle, bottom)),
        ];
        for (from, to, short) in parts {
            for row in pixel(from, self.height)..pixel(to, self.height) {
                let y = row as f64 + 0.5;
                let (a, b) = (long.at(y), short.at(y));
                let from = pixel(a.min(b), self.width);
                let to = pixel(a.max(b), self.width);
                if from < to {
                    let x = from as f64 + 0.5;
                    let depth = top.z + across * (x - top.x) + down * (y - top.y);
                    // A sliver's own plane may lead far away from it.
                    let depth = depth.max(lowest).min(highest);
                    draw(self, &Span { row, from, to }, single(depth), single(across));
                }
            }
        }
    }

    /// Fills what closed outlines enclose, all at one z; parts of outlines may come in any order.
    pub(super) fn fill_cut(&mut self, outline: &[[DVec3; 2]], color: Color, hatched: bool) {
        let hatching: [u32; HATCH] = core::array::from_fn(|place| {
            let share = HATCH_SHARES.iter().find(|(at, _)| *at == place);
            let share = share.filter(|_| hatched).map_or(0.0, |(_, share)| *share);
            packed(mix(color, [0; 3], share))
        });
        for (depth, span) in self.enclosed(outline) {
            for x in span.from..span.to {
                let place = span.row * self.width + x;
                if depth >= self.depths[place] {
                    self.depths[place] = depth;
                    self.colors[place] = hatching[(x + span.row) % HATCH];
                }
            }
        }
    }

    /// Tints what closed outlines enclose.
    pub(super) fn tint_cut(&mut self, outline: &[[DVec3; 2]], color: Color, opacity: f64) {
        let weight = weight(opacity);
        for (_, span) in self.enclosed(outline) {
            let start = span.row * self.width;
            for pixel in &mut self.colors[start + span.from..start + span.to] {
                *pixel = over(*pixel, color, weight);
            }
        }
    }

    /// The pixels inside of outlines (inside is where a row has crossed them an odd number of times).
    fn enclosed(&self, outline: &[[DVec3; 2]]) -> Vec<(f32, Span)> {
        let mut crossings = Vec::new();
        let mut depth = f64::NEG_INFINITY;
        for [a, b] in outline {
            depth = depth.max(a.z).max(b.z);
            let (top, bottom) = if a.y <= b.y { (*a, *b) } else { (*b, *a) };
            let side = Flank::new(top, bottom);
            for row in pixel(top.y, self.height)..pixel(bottom.y, self.height) {
                crossings.push((row, side.at(row as f64 + 0.5)));
            }
        }
        crossings.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let pairs = crossings
            .chunks_exact(2)
            .filter(|pair| pair[0].0 == pair[1].0);
        let spans = pairs.map(|pair| {
            let span = Span {
                row: pair[0].0,
                from: pixel(pair[0].1, self.width),
                to: pixel(pair[1].1, self.width),
            };
            (single(depth), span)
        });
        spans.filter(|(_, span)| span.from < span.to).collect()
    }

    /// Marks the pixels of a line, where nothing hides it by more than the slack.
    /// [`Self::ink`] gives them their color.
    pub(super) fn line(&mut self, ends: [DVec3; 2], slack: f64) {
        let stroke = Stroke::new(ends);
        // Along the longer way there is one place for each pixel.
        let (along, across, step, side) = if stroke.steep {
            (self.height, self.width, self.width, 1)
        } else {
            (self.width, self.height, 1, self.width)
        };
        for number in pixel(stroke.from.x - 0.5, along)..pixel(stroke.to.x + 0.5, along) {
            let (middle, z) = stroke.at(number as f64 + 0.5);
            let place = |other: usize| number * step + other * side;
            // Of the two pixels beside the line one at least shows what the line belongs to.
            let beside = pixel(middle - 1.0, across).min(across - 1);
            let [one, other] = [beside, (beside + 1).min(across - 1)];
            let behind = self.depths[place(one)].min(self.depths[place(other)]);
            if z + slack < f64::from(behind) {
                continue;
            }
            let half = stroke.half;
            for other in pixel(middle - half - 0.5, across)..pixel(middle + half + 0.5, across) {
                let distance = (other as f64 + 0.5 - middle).abs();
                let mark = &mut self.lines[place(other)];
                *mark = (*mark).max(coverage(half + 0.5 - distance));
            }
        }
    }

    /// Colors all lines since the last time.
    pub(super) fn ink(&mut self, color: Color, opacity: f64) {
        const RUN: usize = 32;
        let weights: Vec<u32> = (0..=u8::MAX)
            .map(|covered| weight(f64::from(covered) / 255.0 * opacity))
            .collect();
        let runs = self.lines.chunks_mut(RUN).zip(self.colors.chunks_mut(RUN));
        for (lines, colors) in runs {
            if lines.iter().fold(0, |any, line| any | *line) == 0 {
                continue;
            }
            for (line, pixel) in lines.iter_mut().zip(colors) {
                *pixel = over(*pixel, color, weights[usize::from(*line)]);
            }
            lines.fill(0);
        }
    }

    /// The size of the picture in pixels.
    pub(super) fn size(&self) -> (usize, usize) {
        (self.width, self.height)
    }
}

/// Gives a row of pixels a color where the row's z, which starts at `depth` and rises by `step`, is the
/// nearest so far. Eight at a time without a branch, so that the compiler can use wide registers.
fn nearest(depths: &mut [f32], colors: &mut [u32], (depth, step): (f32, f32), color: u32) {
    const WIDE: usize = 8;
    const PLACES: [f32; WIDE] = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0];
    let ahead = PLACES.map(|place| step * place);
    let mut start = depth;
    let pixel = |old: &mut f32, pixel: &mut u32, new: f32| {
        let nearer = new > *old;
        *old = if nearer { new } else { *old };
        *pixel = if nearer { color } else { *pixel };
    };
    let mut depths = depths.chunks_exact_mut(WIDE);
    let mut colors = colors.chunks_exact_mut(WIDE);
    for (depths, colors) in depths.by_ref().zip(colors.by_ref()) {
        for place in 0..WIDE {
            pixel(&mut depths[place], &mut colors[place], start + ahead[place]);
        }
        start += step * 8.0;
    }
    let rest = depths
        .into_remainder()
        .iter_mut()
        .zip(colors.into_remainder());
    for ((old, color), ahead) in rest.zip(ahead) {
        pixel(old, color, start + ahead);
    }
}

/// A line, seen so that x is the way along which it is longer.
struct Stroke {
    from: DVec3,
    to: DVec3,
    steep: bool,
    /// Half its width, measured along y.
    half: f64,
}

impl Stroke {
    fn new([a, b]: [DVec3; 2]) -> Self {
        let steep = (b.y - a.y).abs() > (b.x - a.x).abs();
        let [a, b] = [a, b].map(|p| if steep { p.yxz() } else { p });
        let (from, to) = if a.x <= b.x { (a, b) } else { (b, a) };
        let length = to.x - from.x;
        let rise = if length > 0.0 {
            (to.y - from.y) / length
        } else {
            0.0
        };
        Self {
            from,
            to,
            steep,
            half: HALF_LINE * (1.0 + rise * rise).sqrt(),
        }
    }

    /// Its y and z at an x; beyond its ends those of the end.
    fn at(&self, x: f64) -> (f64, f64) {
        let length = self.to.x - self.from.x;
        let share = if length > 0.0 {
            ((x - self.from.x) / length).clamp(0.0, 1.0)
        } else {
            0.5
        };
        let point = self.from.lerp(self.to, share);
        (point.y, point.z)
    }
}

/// A side of a triangle, from its top downward; the same for both triangles that share it.
struct Flank {
    start: DVec2,
    slope: f64,
}

impl Flank {
    fn new(top: DVec3, bottom: DVec3) -> Self {
        Self {
            start: top.truncate(),
            slope: (bottom.x - top.x) / (bottom.y - top.y),
        }
    }

    /// Its x at a height between its ends.
    fn at(&self, y: f64) -> f64 {
        self.start.x + self.slope * (y - self.start.y)
    }
}
