//! Rests: what to do while a snippet rests, and which one calls back.

use crate::{
    agenda::DayPlan,
    clock::Moment,
    journal::{SnippetId, SnippetRecord, State},
    method::{HappeningKind, Standing, block, rules},
};

/// What to do while a snippet rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meanwhile {
    /// The day's first rest: Cash 2009 and Duke, Allen, Cash and Simmons 2009 found the largest
    /// overnight gain after a rest of five minutes early in practice, and Simmons, Allen, Cash and
    /// Duke 2019 a smaller one where other keys were played in it.
    Away,
    /// A pause of the plan, away from the keys, until its next block.
    Until(Moment),
    /// Another snippet that is ready; of another piece if there is one, as that is less alike.
    Another(SnippetId),
    /// Nothing else is ready to be practised.
    Nothing,
}

/// What to do at `now` while `resting` rests: what the plan says, where there is one.
pub fn meanwhile(state: &State, plan: Option<&DayPlan>, resting: SnippetId, now: Moment) -> Meanwhile {
    let Some(record) = state.snippet(resting) else { return Meanwhile::Nothing };
    if let Some(plan) = plan {
        return match (plan.turn(now), plan.next_begins()) {
            (Some(turn), _) => Meanwhile::Another(turn),
            (None, Some(begins)) => Meanwhile::Until(begins),
            (None, None) => Meanwhile::Nothing,
        };
    }
    let blocks_today: usize = state.snippets().map(|(_, record)| blocks_on(record, now)).sum();
    let since = record.history().last().map_or(i64::MAX, |last| now.ms_since(last.at));
    if blocks_today == 1 && since < rules::EARLY_REST_MS {
        return Meanwhile::Away;
    }
    let ready = |record: &SnippetRecord| {
        matches!(block::standing(record.history(), &state.preferences.method, now), Standing::Ready { .. })
    };
    let others = || state.snippets().filter(|(id, other)| *id != resting && ready(other));
    let unlike = others().find(|(_, other)| other.piece != record.piece).or_else(|| others().next());
    unlike.map_or(Meanwhile::Nothing, |(id, _)| Meanwhile::Another(id))
}

fn blocks_on(record: &SnippetRecord, now: Moment) -> usize {
    let began = |what: &HappeningKind| matches!(what, HappeningKind::BlockBegan(_));
    record.history().iter().filter(|happening| began(&happening.kind) && happening.at.day() == now.day()).count()
}

/// The snippets whose rest of today is over and not followed by a block yet. A rest that the player has cut short is
/// not news to them.
pub fn rested(state: &State, now: Moment) -> Vec<SnippetId> {
    let settings = &state.preferences.method;
    let longest = i64::from(settings.rest_minutes + settings.block_minutes) * 60_000 + rules::NEWS_MS;
    let over = state.snippets().filter(|(_, record)| {
        let recent = record.history().last().is_some_and(|last| (0..longest).contains(&now.ms_since(last.at)));
        // Years of history are looked through only where the last of it is news.
        let standing = || block::standing(record.history(), settings, now);
        let rested = || matches!(standing(), Standing::Ready { blocks_today: 1.. });
        recent && rested() && !block::rest_is_overruled(record.history(), now.day())
    });
    over.map(|(id, _)| id).collect()
}

/// Whether one has rested that had not `before`; the first look, at a page just opened, rings for none.
pub fn rings(before: Option<&[SnippetId]>, rested: &[SnippetId]) -> bool {
    before.is_some_and(|before| rested.iter().any(|id| !before.contains(id)))
}

/// Which of the snippets that have `rested` calls the player back: none that was `answered`, and not the one on the
/// screen.
pub fn calls_back(rested: &[SnippetId], answered: &[SnippetId], here: Option<SnippetId>) -> Option<SnippetId> {
    rested.iter().copied().find(|id| !answered.contains(id) && here != Some(*id))
}

/// Whether a block of the snippet is being played at `now`: nothing may interrupt it.
pub fn is_playing(state: &State, snippet: SnippetId, now: Moment) -> bool {
    let standing = |record: &SnippetRecord| block::standing(record.history(), &state.preferences.method, now);
    state.snippet(snippet).is_some_and(|record| matches!(standing(record), Standing::Practising { .. }))
}
