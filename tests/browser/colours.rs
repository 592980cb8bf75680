//! The colours of the style sheet against the published formulas: relative luminance and contrast ratio as WCAG 2.2
//! defines them.

const SHEET: &str = include_str!("../../static/style.css");

/// The themes' colours: by day, on stage as chosen, on stage as the device asks.
fn themes() -> [&'static str; 3] {
    let theme = |opening: &str| {
        let (_, rest) = SHEET.split_once(opening).expect("a theme");
        rest.split_once('}').expect("its end").0
    };
    [theme(":root {"), theme(":root[data-theme=\"stage\"] {"), theme(":root:not([data-theme=\"paper\"]) {")]
}

fn luminance(theme: &str, name: &str) -> f64 {
    let (_, rest) = theme.split_once(&format!("--{name}: #")).unwrap_or_else(|| panic!("no {name}"));
    let channel = |nth: usize| {
        let value = u8::from_str_radix(&rest[2 * nth..2 * nth + 2], 16).expect("two hexadecimal digits");
        let value = f64::from(value) / 255.0;
        if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * channel(0) + 0.7152 * channel(1) + 0.0722 * channel(2)
}

fn contrast(theme: &str, one: &str, other: &str) -> f64 {
    let (a, b) = (luminance(theme, one), luminance(theme, other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Text at least 7:1 (success criterion 1.4.6), outlines of fields and buttons and faint notes at least 3:1 (1.4.11).
#[test]
fn text_can_be_read_and_outlines_can_be_seen_in_every_theme() {
    for theme in themes() {
        for (text, ground) in [("ink", "paper"), ("ink", "raised"), ("quiet", "paper"), ("on-fill", "fill")] {
            assert!(contrast(theme, text, ground) >= 7.0, "{text} on {ground}: {}", contrast(theme, text, ground));
        }
        for ground in ["paper", "raised"] {
            assert!(
                contrast(theme, "faint", ground) >= 3.0,
                "outlines on {ground}: {}",
                contrast(theme, "faint", ground)
            );
        }
    }
}

/// What is large on stage does not glare: below a quarter of the luminance of white (the project's own limit).
#[test]
fn large_areas_stay_dark_on_stage() {
    for theme in &themes()[1..] {
        for area in ["paper", "raised", "fill"] {
            assert!(luminance(theme, area) < 0.25, "{area}: {}", luminance(theme, area));
        }
    }
    let filled = |selector: &str| {
        let (_, rest) = SHEET.split_once(&format!("\n{selector} {{")).expect("a rule");
        rest.split_once('}').expect("its end").0.contains("background: var(--fill);")
    };
    assert!(filled(".target.clean") && filled("button.primary"));
}
