//! Which form of a word a number takes: the plural rules of Unicode CLDR for whole numbers
//! (<https://www.unicode.org/cldr/charts/latest/supplemental/language_plural_rules.html>).

/// A category of numbers that take the same form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names are those of CLDR")]
pub enum Category {
    Zero,
    One,
    Two,
    Few,
    Many,
    Other,
}

impl Category {
    /// By its name in CLDR.
    pub fn named(name: &str) -> Option<Self> {
        Some(match name {
            "zero" => Category::Zero,
            "one" => Category::One,
            "two" => Category::Two,
            "few" => Category::Few,
            "many" => Category::Many,
            "other" => Category::Other,
            _ => return None,
        })
    }
}

/// The rule of a language, or of several that share it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// One form: Japanese, Chinese, Korean.
    Single,
    /// English, German, Dutch, Swedish and others.
    English,
    /// French: none is singular too, and millions go their own way.
    French,
    /// Spanish and Italian: millions go their own way.
    Spanish,
    /// Czech and Slovak.
    Czech,
    /// Polish.
    Polish,
    /// Russian and Ukrainian.
    Russian,
}

impl Rule {
    /// Every rule.
    pub const ALL: [Rule; 7] =
        [Rule::Single, Rule::English, Rule::French, Rule::Spanish, Rule::Czech, Rule::Polish, Rule::Russian];

    /// By the code of a language that has it.
    pub fn named(code: &str) -> Option<Self> {
        Some(match code {
            "ja" | "zh" | "ko" => Rule::Single,
            "en" | "de" | "nl" | "sv" => Rule::English,
            "fr" => Rule::French,
            "es" | "it" => Rule::Spanish,
            "cs" | "sk" => Rule::Czech,
            "pl" => Rule::Polish,
            "ru" | "uk" => Rule::Russian,
            _ => return None,
        })
    }

    /// The categories that a whole number can be of.
    pub fn categories(self) -> &'static [Category] {
        use Category::{Few, Many, One, Other};
        match self {
            Rule::Single => &[Other],
            Rule::English => &[One, Other],
            Rule::French | Rule::Spanish => &[One, Many, Other],
            Rule::Czech => &[One, Few, Other],
            Rule::Polish | Rule::Russian => &[One, Few, Many],
        }
    }

    /// The category of a whole number.
    pub fn category(self, number: u64) -> Category {
        let (ten, hundred) = (number % 10, number % 100);
        let few = (2..=4).contains(&ten) && !(12..=14).contains(&hundred);
        match self {
            Rule::English | Rule::Spanish | Rule::Czech | Rule::Polish if number == 1 => Category::One,
            Rule::French if number < 2 => Category::One,
            Rule::French | Rule::Spanish if number > 0 && number.is_multiple_of(1_000_000) => Category::Many,
            Rule::Czech if (2..=4).contains(&number) => Category::Few,
            Rule::Russian if ten == 1 && hundred != 11 => Category::One,
            Rule::Polish | Rule::Russian if few => Category::Few,
            Rule::Polish | Rule::Russian => Category::Many,
            _ => Category::Other,
        }
    }
}
