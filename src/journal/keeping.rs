//! How well the journal is stored: what can be said truthfully about its two copies.
//!
//! The quick copy survives the page, the safe copy survives the browser. A copy that has refused a write is behind
//! until everything it lacks has been written to it; later writes that succeed do not change that.

use crate::clock::Moment;

/// What becomes of what the page has stored, as far as the browser tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outlook {
    /// Kept until the player deletes it.
    Promised,
    /// May be cleared when the device is short of room or the page is long unused.
    Unpromised,
    /// Cleared after seven days of use of the browser without a visit to the page, as WebKit does with pages that were not
    /// added to the home screen (webkit.org, "Full third-party cookie blocking and more", 2020; from memory).
    ClearedUnlessVisited,
    /// The browser does not say.
    Unknown,
}

/// Who names itself the maker of every browser that is WebKit (`navigator.vendor`).
const MAKER_OF_WEBKIT: &str = "Apple";

impl Outlook {
    /// By whether storage is `persisted`, where the browser says so, who is the `vendor` of the browser, and whether the
    /// page was opened from the home screen.
    pub fn of(persisted: Option<bool>, vendor: &str, on_home_screen: bool) -> Outlook {
        match persisted {
            Some(true) => Outlook::Promised,
            _ if vendor.starts_with(MAKER_OF_WEBKIT) && !on_home_screen => Outlook::ClearedUnlessVisited,
            Some(false) => Outlook::Unpromised,
            None => Outlook::Unknown,
        }
    }

    /// So many days after an export the player is reminded of the next: common practice, no source, but for where
    /// everything is cleared after seven: by then the file has to be there.
    fn days_to_an_export(self) -> i32 {
        match self {
            Outlook::Promised => 30,
            Outlook::Unpromised | Outlook::Unknown => 7,
            Outlook::ClearedUnlessVisited => 3,
        }
    }

    /// How many days nothing has been exported, where that is so many that the player is to be reminded: since
    /// `exported`, or since the `first` entry where nothing ever was.
    pub fn days_without_export(self, exported: Option<Moment>, first: Option<Moment>, now: Moment) -> Option<i32> {
        let days = now.day() - exported.or(first)?.day();
        (days >= self.days_to_an_export()).then_some(days)
    }
}

/// One of the two copies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Copy {
    /// Written before a tap is drawn; lost when the browser is killed.
    Quick,
    /// Written a moment later; survives that.
    Safe,
}

/// What is written to a copy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Write {
    /// One thing more.
    More,
    /// Everything that the copy lacks.
    All,
}

/// How well everything written down so far is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// In both copies.
    Well,
    /// In the quick copy, and on its way to the safe one.
    UnderWay,
    /// In the quick copy alone: it is lost when the browser is stopped.
    QuickOnly,
    /// In the safe copy alone, or on its way to it.
    SafeOnly,
    /// Not all of it is in either copy: what is new is lost when the page is closed.
    Nowhere,
}

impl Kept {
    /// What the player has to be warned of.
    pub fn warning(self) -> Option<Kept> {
        (!matches!(self, Kept::Well | Kept::UnderWay)).then_some(self)
    }
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Side {
    under_way: u32,
    /// Writes that were refused since the latest one of everything was sent.
    refused: u32,
    whole: bool,
}

/// What the copies were given and how they answered. At first neither holds anything.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Keeping {
    quick: Side,
    safe: Side,
}

impl Keeping {
    /// A write is handed to a copy.
    pub fn sent(&mut self, to: Copy, write: Write) {
        let side = self.side(to);
        side.under_way += 1;
        if write == Write::All {
            side.refused = 0;
        }
    }

    /// The copy has answered the oldest write that it has not answered yet.
    pub fn answered(&mut self, by: Copy, write: Write, taken: bool) {
        let side = self.side(by);
        side.under_way = side.under_way.saturating_sub(1);
        match (taken, write) {
            (true, Write::More) => {}
            (true, Write::All) => side.whole = side.refused == 0,
            (false, _) => {
                side.refused += 1;
                side.whole = false;
            }
        }
    }

    /// The copy is gone, with what it held or without.
    pub fn lost(&mut self, copy: Copy) {
        self.side(copy).refused += 1;
        self.side(copy).whole = false;
    }

    /// Whether everything that the copy lacks has to be written to it.
    pub fn is_behind(&self, copy: Copy) -> bool {
        let side = match copy {
            Copy::Quick => self.quick,
            Copy::Safe => self.safe,
        };
        !side.whole && side.under_way == 0
    }

    /// Whether everything survives the end of the browser.
    pub fn is_safe(&self) -> bool {
        self.safe.whole && self.safe.under_way == 0
    }

    /// What may be said.
    pub fn kept(&self) -> Kept {
        let quick = self.quick.whole && self.quick.under_way == 0;
        match (quick, self.safe.whole, self.safe.under_way) {
            (true, true, 0) => Kept::Well,
            (false, true, _) => Kept::SafeOnly,
            (true, _, 1..) if self.safe.refused == 0 => Kept::UnderWay,
            (true, ..) => Kept::QuickOnly,
            (false, ..) => Kept::Nowhere,
        }
    }

    fn side(&mut self, copy: Copy) -> &mut Side {
        match copy {
            Copy::Quick => &mut self.quick,
            Copy::Safe => &mut self.safe,
        }
    }
}
