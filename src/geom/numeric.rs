//! Integrals and least values along a line, to the precision of the numbers.

/// Positive abscissas and weights of Gauss's rule with ten points.
///
/// Source: Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.4, n = 10.
const GAUSS: [(f64, f64); 5] = [
    (0.148_874_338_981_631_21, 0.295_524_224_714_752_87),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_36),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982_04),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_14),
];

/// (3 − √5) / 2, the golden section's smaller part.
const GOLDEN: f64 = 0.381_966_011_250_105_15;

/// Integral between two numbers of what is smooth but for square roots at the two ends.
///
/// The substitution 3s² − 2s³ takes the roots out.
pub(crate) fn integral(from: f64, to: f64, mut value: impl FnMut(f64) -> f64) -> f64 {
    let mut sum = 0.0;
    for half in [0.25, 0.75] {
        for (abscissa, weight) in GAUSS {
            for s in [half - abscissa / 4.0, half + abscissa / 4.0] {
                let place = s * s * (3.0 - 2.0 * s);
                sum += weight / 4.0 * 6.0 * s * (1.0 - s) * value(from + (to - from) * place);
            }
        }
    }
    sum * (to - from)
}

/// Where between two numbers a function with one dip is least, and how much it is there.
pub(crate) fn least(from: f64, to: f64, value: impl Fn(f64) -> f64) -> (f64, f64) {
    let (mut low, mut high) = (from, to);
    let mut left = low + GOLDEN * (high - low);
    let mut right = high - GOLDEN * (high - low);
    let (mut at_left, mut at_right) = (value(left), value(right));
    for _ in 0..52 {
        if at_left <= at_right {
            (high, right, at_right) = (right, left, at_left);
            left = low + GOLDEN * (high - low);
            at_left = value(left);
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = high - GOLDEN * (high - low);
            at_right = value(right);
        }
    }
    if at_left <= at_right {
        (left, at_left)
    } else {
        (right, at_right)
    }
}

/// The dips from 0 to 1 of a distance along a line of this length, looked for in `steps` steps,
/// then narrowed down; dips that cannot be under `bound` are passed over.
pub(crate) fn dips(
    steps: u32,
    length: f64,
    bound: f64,
    value: impl Fn(f64) -> f64,
) -> Vec<(f64, f64)> {
    let step = 1.0 / f64::from(steps);
    let samples: Vec<f64> = (0..=steps).map(|i| value(f64::from(i) * step)).collect();
    let mut found = Vec::new();
    let mut place = 0.0;
    for (i, here) in samples.iter().enumerate() {
        let before = if i == 0 {
            f64::INFINITY
        } else {
            samples[i - 1]
        };
        let after = samples.get(i + 1).copied().unwrap_or(f64::INFINITY);
        // A distance changes by no more than the way that is gone.
        if *here <= before && *here <= after && here - length * step < bound {
            found.push(least(
                (place - step).max(0.0),
                (place + step).min(1.0),
                &value,
            ));
        }
        place += step;
    }
    found
}
