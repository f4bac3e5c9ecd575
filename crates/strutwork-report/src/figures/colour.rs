//! A colour for a utilisation: light where little is used, dark where much is, so that a grey copy still reads.

/// A colour of the screen, 0 to 255 a channel.
pub type Rgb = [u8; 3];

/// The ramp's ends and shape in CIE L*C*h: lightness falls evenly, hue runs from straw through rust to plum.
const LIGHTNESS: [f64; 2] = [84.0, 24.0];
const HUE: [f64; 2] = [92.0, -28.0];
const CHROMA: [f64; 2] = [38.0, 46.0];
/// Chroma is raised in between, where the screen has room for it.
const CHROMA_ARCH: f64 = 30.0;

/// The colour at a place of the ramp, 0 (light) to 1 (dark); places beyond are held at the ends.
///
/// # Source
/// Own ramp. CIE 15:2018, Colorimetry (L*a*b* to XYZ, D65) and IEC 61966-2-1:1999 (XYZ to sRGB), both from memory.
pub fn ramp(place: f64) -> Rgb {
    let t = if place.is_finite() { place.clamp(0.0, 1.0) } else { 1.0 };
    let mix = |ends: [f64; 2]| ends[0] + (ends[1] - ends[0]) * t;
    let chroma = mix(CHROMA) + CHROMA_ARCH * (std::f64::consts::PI * t).sin();
    let hue = mix(HUE).to_radians();
    let wanted = [mix(LIGHTNESS), chroma * hue.cos(), chroma * hue.sin()];
    // Where the screen cannot show a colour, it is made greyer, never lighter or darker.
    let mut keep = 1.0;
    loop {
        let linear = lab_to_linear([wanted[0], wanted[1] * keep, wanted[2] * keep]);
        if keep <= 0.0 || linear.iter().all(|c| (-1e-4..=1.0001).contains(c)) {
            return linear.map(to_channel);
        }
        keep -= 0.02;
    }
}

/// A colour as `#rrggbb`.
pub fn hex(colour: Rgb) -> String {
    format!("#{:02x}{:02x}{:02x}", colour[0], colour[1], colour[2])
}

fn lab_to_linear([l, a, b]: [f64; 3]) -> [f64; 3] {
    let fy = (l + 16.0) / 116.0;
    let inverse = |f: f64| {
        let delta = 6.0 / 29.0;
        if f > delta { f * f * f } else { 3.0 * delta * delta * (f - 4.0 / 29.0) }
    };
    let x = 0.950_47 * inverse(fy + a / 500.0);
    let y = inverse(fy);
    let z = 1.088_83 * inverse(fy - b / 200.0);
    [
        3.240_625_5 * x - 1.537_208_0 * y - 0.498_628_6 * z,
        -0.968_930_7 * x + 1.875_756_1 * y + 0.041_517_5 * z,
        0.055_710_1 * x - 0.204_021_1 * y + 1.056_995_9 * z,
    ]
}

fn to_channel(linear: f64) -> u8 {
    let linear = linear.clamp(0.0, 1.0);
    let encoded = if linear <= 0.003_130_8 { 12.92 * linear } else { 1.055 * linear.powf(1.0 / 2.4) - 0.055 };
    (encoded * 255.0).round() as u8
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Lightness L* of a screen colour, from the definition.
    fn lightness(colour: Rgb) -> f64 {
        let linear = colour.map(|c| {
            let c = f64::from(c) / 255.0;
            if c <= 0.040_45 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        });
        let y = 0.212_639 * linear[0] + 0.715_169 * linear[1] + 0.072_192 * linear[2];
        116.0 * y.cbrt() - 16.0
    }

    #[test]
    fn lightness_falls_evenly_from_end_to_end() {
        let steps: Vec<f64> = (0..=50).map(|i| lightness(ramp(f64::from(i) / 50.0))).collect();
        for (place, pair) in steps.windows(2).enumerate() {
            let fall = pair[0] - pair[1];
            // 60 of lightness over 50 steps are 1.2 a step; a channel's rounding is worth up to about 0.4.
            assert!((0.7..1.7).contains(&fall), "step {place}: {fall}");
        }
        assert!((steps[0] - 84.0).abs() < 0.5 && (steps[50] - 24.0).abs() < 0.5);
    }

    #[test]
    fn places_beyond_the_ends_are_held() {
        assert_eq!(ramp(-1.0), ramp(0.0));
        assert_eq!(ramp(7.0), ramp(1.0));
        assert_eq!(ramp(f64::NAN), ramp(1.0));
    }
}
