//! A cache of what follows from the histories of all snippets: keeping it up to date costs only what is new.

use crate::{
    calendar::{Chance, ColdTry, Trace},
    journal::{SnippetId, SnippetRecord},
    method::{Coach, Happening, HappeningKind, Snippet, Verdict},
};
use std::{collections::BTreeMap, rc::Rc};

/// One coach and one trace per snippet.
#[derive(Clone, Debug, Default)]
pub struct Coaches {
    following: BTreeMap<SnippetId, Following>,
}

/// What has followed a history.
#[derive(Clone, Debug)]
struct Following {
    snippet: Rc<Snippet>,
    followed: Vec<Happening>,
    now: Followed,
    /// The same before the latest block, and how much it had followed by then: undo goes back no further.
    before_block: (usize, Followed),
}

/// What follows from a history.
#[derive(Clone, Debug)]
pub struct Followed {
    /// What to do next.
    pub coach: Rc<Coach>,
    /// How long it holds.
    pub trace: Rc<Trace>,
}

impl Coaches {
    /// What follows from all of a snippet's history.
    pub fn of(&mut self, id: SnippetId, record: &SnippetRecord) -> Followed {
        let known = self.following.remove(&id).filter(|known| Rc::ptr_eq(&known.snippet, &record.snippet));
        let mut following = known.unwrap_or_else(|| Following::new(&record.snippet));
        following.follow(record.history());
        let now = following.now.clone();
        self.following.insert(id, following);
        now
    }
}

impl Following {
    fn new(snippet: &Rc<Snippet>) -> Following {
        let now = Followed { coach: Rc::new(Coach::new(Rc::clone(snippet))), trace: Rc::default() };
        Following { snippet: Rc::clone(snippet), followed: Vec::new(), before_block: (0, now.clone()), now }
    }

    fn follow(&mut self, history: &[Happening]) {
        if !history.starts_with(&self.followed) {
            self.go_back(history);
        }
        for happening in &history[self.followed.len()..] {
            if matches!(happening.kind, HappeningKind::BlockBegan(_)) {
                self.before_block = (self.followed.len(), self.now.clone());
            }
            self.now.follow(happening);
            self.followed.push(happening.clone());
        }
    }

    /// Back to before the latest block, or to the very beginning where the history differs before it.
    fn go_back(&mut self, history: &[Happening]) {
        let (length, before) = self.before_block.clone();
        if !history.starts_with(&self.followed[..length]) {
            *self = Following::new(&self.snippet);
            return;
        }
        self.followed.truncate(length);
        self.now = before;
    }
}

impl Followed {
    /// The trace hears what the coach asked for as a cold try, and what each repetition leaves for the next one.
    fn follow(&mut self, happening: &Happening) {
        let asked_cold = self.coach.cold_try();
        Rc::make_mut(&mut self.coach).follow(happening);
        match happening.kind {
            HappeningKind::Played { step, verdict, .. } => {
                let trace = Rc::make_mut(&mut self.trace);
                if asked_cold == Some(step) {
                    trace.heard(happening.at, cold_try(verdict));
                }
                let left = self.coach.tried_next().map(Chance::new);
                left.into_iter().for_each(|left| trace.practised(happening.at, left));
            }
            HappeningKind::StartedAfresh => self.trace = Rc::default(),
            _ => {}
        }
    }
}

fn cold_try(verdict: Verdict) -> ColdTry {
    match verdict {
        Verdict::Clean => ColdTry::Kept,
        Verdict::NotYet => ColdTry::Missed,
    }
}
