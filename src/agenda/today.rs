//! The order of the day: what comes next, what may be practised after it or rests, what is left out.

use crate::{
    agenda::DayPlan,
    clock::Moment,
    journal::{SnippetId, SnippetRecord, State},
    method::{Done, Standing, block},
    sort,
};

/// A snippet as it stands today.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SnippetToday {
    /// Which snippet.
    pub id: SnippetId,
    /// Whether it is ready, rests, or is done for today.
    pub standing: Standing,
    /// How many days ago it was practised last.
    pub days_since: Option<i32>,
}

/// The day.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Today {
    /// What to practise now; `None` where nothing is ready.
    pub next: Option<SnippetToday>,
    /// All others that are not left out, in the order in which they should be practised.
    pub others: Vec<SnippetToday>,
    /// What the player has left out today.
    pub left_out: Vec<SnippetToday>,
}

impl Today {
    /// The day as it stands at `now`.
    pub fn at(state: &State, now: Moment) -> Today {
        let mut rows: Vec<SnippetToday> =
            state.snippets().map(|(id, record)| SnippetToday::of(id, record, state, now)).collect();
        sort::by_key(&mut rows, SnippetToday::rank);
        let (left_out, mut others): (Vec<SnippetToday>, Vec<SnippetToday>) =
            rows.into_iter().partition(SnippetToday::is_left_out);
        let next = others.first().copied().filter(SnippetToday::may_begin);
        if next.is_some() {
            others.remove(0);
        }
        Today { next, others, left_out }
    }

    /// All snippets that are not left out, the next one first.
    pub fn rows(&self) -> impl Iterator<Item = &SnippetToday> {
        self.next.iter().chain(&self.others)
    }

    /// What to play at `now` by the `plan`: the block that is under way, or the one whose turn it is.
    pub fn now(&self, plan: &DayPlan, now: Moment) -> Option<&SnippetToday> {
        let under_way = self.next.as_ref().filter(|next| matches!(next.standing, Standing::Practising { .. }));
        let turn = || plan.turn(now).and_then(|turn| self.rows().find(|row| row.id == turn));
        under_way.or_else(turn)
    }

    /// Whether there is no snippet at all.
    pub fn has_nothing(&self) -> bool {
        self.next.is_none() && self.others.is_empty() && self.left_out.is_empty()
    }
}

impl SnippetToday {
    fn of(id: SnippetId, record: &SnippetRecord, state: &State, now: Moment) -> SnippetToday {
        SnippetToday {
            id,
            standing: block::standing(record.history(), &state.preferences.method, now),
            days_since: record.last_repetition().map(|(_, played)| now.day() - played.at.day()),
        }
    }

    fn may_begin(&self) -> bool {
        matches!(self.standing, Standing::Ready { .. } | Standing::Practising { .. })
    }

    fn is_left_out(&self) -> bool {
        self.standing == Standing::DoneToday(Done::LeftOut)
    }

    /// The block under way comes first, then what has waited longest, then new snippets, then those that rest.
    fn rank(&self) -> (u8, i64) {
        match self.standing {
            Standing::Practising { .. } => (0, 0),
            Standing::Ready { blocks_today: 0 } => match self.days_since {
                Some(days) => (1, -i64::from(days)),
                None => (2, 0),
            },
            Standing::Ready { blocks_today } => (3, i64::from(blocks_today)),
            Standing::Resting { until } => (4, until.unix_ms()),
            Standing::DoneToday(_) => (5, 0),
        }
    }
}
