//! Changes of single fields. What two devices change apart, one the name and one the tempo, both survive
//! their union.

use crate::{
    clock::Day,
    journal::Piece,
    method::{Direction, Grain, Snippet},
    music::{Hand, Tempo},
};

/// The fields of a piece that a change sets; all others stay as they are.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PieceEdit {
    /// As the player calls it.
    pub title: Option<String>,
    /// Empty to take it away.
    pub composer: Option<String>,
    /// `Some(None)` takes it away.
    pub tempo: Option<Option<Tempo>>,
    /// Performance date; `Some(None)` takes it away.
    pub date: Option<Option<Day>>,
}

impl PieceEdit {
    /// What makes `before` into `after`; `None` where they are the same.
    pub fn between(before: &Piece, after: &Piece) -> Option<PieceEdit> {
        let edit = PieceEdit {
            title: changed(&before.title, &after.title),
            composer: changed(&before.composer, &after.composer),
            tempo: changed(&before.tempo, &after.tempo),
            date: changed(&before.date, &after.date),
        };
        (edit != PieceEdit::default()).then_some(edit)
    }

    /// Sets the fields.
    pub fn apply(&self, piece: &mut Piece) {
        let PieceEdit { title, composer, tempo, date } = self;
        set(&mut piece.title, title);
        set(&mut piece.composer, composer);
        set(&mut piece.tempo, tempo);
        set(&mut piece.date, date);
    }
}

/// The fields of a snippet that a change sets; all others, its music among them, stay as they are.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SnippetEdit {
    /// As the player calls it.
    pub name: Option<String>,
    /// Index of the onset that it arrives at.
    pub goal: Option<usize>,
    /// Which way it grows.
    pub direction: Option<Direction>,
    /// How much is added at a time.
    pub grain: Option<Grain>,
    /// The hand that goes first.
    pub hard_hand: Option<Hand>,
    /// Target tempo.
    pub tempo: Option<Tempo>,
}

impl SnippetEdit {
    /// What makes `before` into `after`, but for their music; `None` where they are the same.
    pub fn between(before: &Snippet, after: &Snippet) -> Option<SnippetEdit> {
        let edit = SnippetEdit {
            name: changed(before.name(), after.name()),
            goal: changed(&before.goal(), &after.goal()),
            direction: changed(&before.direction(), &after.direction()),
            grain: changed(&before.grain(), &after.grain()),
            hard_hand: changed(&before.hard_hand(), &after.hard_hand()),
            tempo: changed(&before.tempo(), &after.tempo()),
        };
        (edit != SnippetEdit::default()).then_some(edit)
    }

    /// The snippet with the fields set. A goal outside its music, or a hand that does not play there, changes
    /// nothing.
    pub fn applied(&self, snippet: &Snippet) -> Snippet {
        let mut edited = snippet.clone();
        if let Some(name) = &self.name {
            edited = edited.named(name.clone());
        }
        if let Some(Ok(arriving)) = self.goal.map(|goal| edited.clone().arriving_at(goal)) {
            edited = arriving;
        }
        edited = edited.growing(self.direction.unwrap_or(snippet.direction()));
        edited = edited.growing_by(self.grain.unwrap_or(snippet.grain()));
        edited = edited.led_by(self.hard_hand.unwrap_or(snippet.hard_hand()));
        edited.at_tempo(self.tempo.unwrap_or(snippet.tempo()))
    }
}

fn changed<T: PartialEq + ToOwned + ?Sized>(before: &T, after: &T) -> Option<T::Owned> {
    (before != after).then(|| after.to_owned())
}

fn set<T: Clone>(field: &mut T, to: &Option<T>) {
    if let Some(to) = to {
        field.clone_from(to);
    }
}
