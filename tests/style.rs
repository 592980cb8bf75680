//! The style sheets: their colours against the published formulas (relative luminance and contrast ratio as WCAG 2.2
//! defines them), and their lengths.

use std::fs;

/// Every style sheet, by its name.
fn sheets() -> Vec<(String, String)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/static/style");
    let files = fs::read_dir(folder).expect("the style sheets").map(|file| file.expect("a file").path());
    files.map(|file| (file.display().to_string(), fs::read_to_string(&file).expect("a sheet"))).collect()
}

const COLOURS: &str = include_str!("../static/style/tokens.css");

/// When a colour is shown: its place in `light-dark`.
#[derive(Clone, Copy, Debug)]
enum Theme {
    Day,
    Stage,
}

fn luminance(theme: Theme, name: &str) -> f64 {
    let (_, rest) = COLOURS.split_once(&format!("--{name}: light-dark(")).unwrap_or_else(|| panic!("no {name}"));
    let (pair, _) = rest.split_once(')').expect("two colours");
    let colour = pair.split(", #").nth(theme as usize).expect("a colour").trim_start_matches('#');
    let channel = |nth: usize| {
        let value = u8::from_str_radix(&colour[2 * nth..2 * nth + 2], 16).expect("two hexadecimal digits");
        let value = f64::from(value) / 255.0;
        if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * channel(0) + 0.7152 * channel(1) + 0.0722 * channel(2)
}

fn contrast(theme: Theme, one: &str, other: &str) -> f64 {
    let (a, b) = (luminance(theme, one), luminance(theme, other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Text at least 7:1 (success criterion 1.4.6), outlines of fields and buttons and faint notes at least 3:1 (1.4.11).
#[test]
fn text_can_be_read_and_outlines_can_be_seen_in_every_theme() {
    for theme in [Theme::Day, Theme::Stage] {
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
    for area in ["paper", "raised", "fill"] {
        assert!(luminance(Theme::Stage, area) < 0.25, "{area}: {}", luminance(Theme::Stage, area));
    }
    let rules = sheets().into_iter().map(|(_, sheet)| sheet).collect::<String>();
    let filled = |selector: &str| {
        let (_, rest) = rules.split_once(&format!("\n{selector} {{")).expect("a rule");
        rest.split_once('}').expect("its end").0.contains("background: var(--fill);")
    };
    assert!(filled(".target.clean") && filled("button.primary"));
}

/// A length in px has a name, so that what belongs together stays together; only the conditions of `@media` cannot use
/// names.
#[test]
fn every_length_has_a_name() {
    for (name, sheet) in sheets() {
        for (number, line) in (1..).zip(sheet.lines()) {
            let is_length = |(at, _): (usize, &str)| line[..at].ends_with(|before: char| before.is_ascii_digit());
            let rule = !line.trim_start().starts_with("--") && !line.starts_with("@media") && line.contains(": ");
            assert!(!rule || !line.match_indices("px").any(is_length), "{name}:{number}: {line}");
        }
    }
}
