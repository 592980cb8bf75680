//! A cache of the coaches of all snippets: keeping one up to date costs only what is new.

use crate::{
    journal::{SnippetId, SnippetRecord},
    method::{Coach, Happening, HappeningKind, Snippet},
};
use std::{collections::BTreeMap, rc::Rc};

/// One coach per snippet.
#[derive(Clone, Debug, Default)]
pub struct Coaches {
    following: BTreeMap<SnippetId, Following>,
}

/// A coach who has followed a history.
#[derive(Clone, Debug)]
struct Following {
    snippet: Rc<Snippet>,
    followed: Vec<Happening>,
    coach: Rc<Coach>,
    /// The coach before the latest block, and how much it had followed by then: undo goes back no further.
    before_block: (usize, Rc<Coach>),
}

impl Coaches {
    /// The coach of a snippet, who has followed all of its history.
    pub fn of(&mut self, id: SnippetId, record: &SnippetRecord) -> Rc<Coach> {
        let known = self.following.remove(&id).filter(|known| Rc::ptr_eq(&known.snippet, &record.snippet));
        let mut following = known.unwrap_or_else(|| Following::new(&record.snippet));
        following.follow(record.history());
        let coach = Rc::clone(&following.coach);
        self.following.insert(id, following);
        coach
    }
}

impl Following {
    fn new(snippet: &Rc<Snippet>) -> Following {
        let coach = Rc::new(Coach::new(Rc::clone(snippet)));
        Following { snippet: Rc::clone(snippet), followed: Vec::new(), before_block: (0, Rc::clone(&coach)), coach }
    }

    fn follow(&mut self, history: &[Happening]) {
        if !history.starts_with(&self.followed) {
            self.go_back(history);
        }
        for happening in &history[self.followed.len()..] {
            if matches!(happening.kind, HappeningKind::BlockBegan(_)) {
                self.before_block = (self.followed.len(), Rc::clone(&self.coach));
            }
            Rc::make_mut(&mut self.coach).follow(happening);
            self.followed.push(happening.clone());
        }
    }

    /// Back to before the latest block, or to the very beginning where the history differs before it.
    fn go_back(&mut self, history: &[Happening]) {
        let (length, coach) = self.before_block.clone();
        if !history.starts_with(&self.followed[..length]) {
            *self = Following::new(&self.snippet);
            return;
        }
        self.followed.truncate(length);
        self.coach = coach;
    }
}
