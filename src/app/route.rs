//! Which screen is shown, as it stands after `#` in the address.

use crate::{
    app::device::location,
    journal::{EntryId, PieceId, SnippetId},
};
use std::fmt;
use yew::prelude::*;

/// The screens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Route {
    Today,
    Pieces,
    Piece(PieceId),
    /// Cut snippets from the piece's score.
    Score(PieceId),
    /// Tap a rhythm in.
    Tap(PieceId),
    /// Count onsets.
    Count(PieceId),
    Snippet(SnippetId),
    Practise(SnippetId),
    Progress,
    Data,
    Preferences,
    Help,
}

impl fmt::Display for Route {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        match self {
            Route::Today => write!(f, "today"),
            Route::Pieces => write!(f, "pieces"),
            Route::Piece(PieceId(id)) => write!(f, "piece/{id}"),
            Route::Score(PieceId(id)) => write!(f, "score/{id}"),
            Route::Tap(PieceId(id)) => write!(f, "tap/{id}"),
            Route::Count(PieceId(id)) => write!(f, "count/{id}"),
            Route::Snippet(SnippetId(id)) => write!(f, "snippet/{id}"),
            Route::Practise(SnippetId(id)) => write!(f, "practise/{id}"),
            Route::Progress => write!(f, "progress"),
            Route::Data => write!(f, "data"),
            Route::Preferences => write!(f, "settings"),
            Route::Help => write!(f, "help"),
        }
    }
}

impl Route {
    /// The screen that an address names; an address that names none leads to today.
    pub fn named(hash: &str) -> Route {
        let (screen, of) = hash.split_once('/').unwrap_or((hash, ""));
        let entry = || of.parse::<EntryId>().ok();
        let (piece, snippet) = (|| entry().map(PieceId), || entry().map(SnippetId));
        let route = match screen {
            "pieces" => Some(Route::Pieces),
            "piece" => piece().map(Route::Piece),
            "score" => piece().map(Route::Score),
            "tap" => piece().map(Route::Tap),
            "count" => piece().map(Route::Count),
            "snippet" => snippet().map(Route::Snippet),
            "practise" => snippet().map(Route::Practise),
            "progress" => Some(Route::Progress),
            "data" => Some(Route::Data),
            "settings" => Some(Route::Preferences),
            "help" => Some(Route::Help),
            _ => None,
        };
        route.unwrap_or(Route::Today)
    }

    /// The address of the screen, for a link.
    pub fn href(self) -> String {
        format!("#{self}")
    }

    /// Goes to the screen.
    pub fn go(self) {
        location::go(&self.to_string());
    }

    /// A callback that goes to the screen.
    pub fn on_tap<E>(self) -> Callback<E> {
        Callback::from(move |_| self.go())
    }
}

/// The screen that is shown now.
#[hook]
pub fn use_route() -> Route {
    let route = use_state(|| Route::named(&location::hash()));
    let set = route.setter();
    use_effect_with((), move |()| {
        let listening = location::on_hash(move |hash| set.set(Route::named(&hash)));
        move || drop(listening)
    });
    *route
}
