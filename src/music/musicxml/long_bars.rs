//! Very long bars, divided: cadenzas and unmeasured pieces may have thousands of notes between two bar lines, and a
//! bar is the least that is laid out, drawn and tapped at once.

use crate::{
    music::{
        Quarters,
        musicxml::mended::{Mend, Mending},
        score::{Part, ScoreBar},
        written::{Anchor, Barline, Clef, ClefChange, Ending, EndingEnd, Voice, WrittenBar},
    },
    sort,
};

/// Most places in a bar at which something begins: twice what the densest ordinary bars have.
const MOST_PLACES: usize = 128;
/// After so many the next beat divides a bar that has more.
const ENOUGH_PLACES: usize = 48;

/// Divides the bars of a part that have more places than are laid out at once.
pub(super) fn divide(part: &mut Part, mending: &mut Mending) {
    let cuts: Vec<Cuts> = part.bars.iter().map(Cuts::of).collect();
    let mut first_pieces = Vec::with_capacity(cuts.len());
    let mut pieces = Vec::with_capacity(cuts.len());
    for (bar, cuts) in std::mem::take(&mut part.bars).into_iter().zip(&cuts) {
        first_pieces.push(pieces.len());
        if cuts.0.len() > 1 {
            mending.say(&bar.number, Mend::LongBar);
            pieces.extend(cuts.divided(bar));
        } else {
            pieces.push(bar);
        }
    }
    part.bars = pieces;
    for anchor in part.spanners.iter_mut().flat_map(|spanner| [&mut spanner.from, &mut spanner.to]) {
        move_into_piece(anchor, &first_pieces, &cuts);
    }
}

fn move_into_piece(anchor: &mut Anchor, first_pieces: &[usize], cuts: &[Cuts]) {
    let Some((bar, cuts)) = usize::try_from(anchor.bar).ok().and_then(|bar| Some((bar, cuts.get(bar)?))) else {
        return;
    };
    let piece = cuts.piece(anchor.at);
    anchor.bar = (first_pieces[bar] + piece) as isize;
    anchor.at = anchor.at - cuts.0[piece];
}

/// Where the pieces of a bar start, the first at nothing; an ordinary bar is one piece.
struct Cuts(Vec<Quarters>);

impl Cuts {
    /// Cuts a long bar on its beats where enough stands between them, else wherever a piece is full.
    fn of(bar: &ScoreBar) -> Cuts {
        let events = bar.written.voices.iter().flat_map(|voice| &voice.events).map(|event| event.at);
        let mut places: Vec<Quarters> = events.chain(bar.attacks.iter().map(|attack| attack.at)).collect();
        sort::by_key(&mut places, |at| *at);
        places.dedup();
        places.retain(|at| *at < bar.length);
        let mut cuts = Cuts(vec![Quarters::ZERO]);
        if places.len() <= MOST_PLACES {
            return cuts;
        }
        let beat = bar.meter.beat().quarters();
        let mut since_cut = 0;
        for at in places {
            let on_beat = (at / beat).is_integer();
            if since_cut >= MOST_PLACES || since_cut >= ENOUGH_PLACES && on_beat {
                cuts.0.push(at);
                since_cut = 0;
            }
            since_cut += 1;
        }
        cuts
    }

    /// In which piece a place of the bar is.
    fn piece(&self, at: Quarters) -> usize {
        self.0.partition_point(|start| *start <= at).saturating_sub(1)
    }

    /// What stands in the bar, by piece and counted from its start.
    fn share<T>(&self, items: Vec<T>, at: impl Fn(&mut T) -> &mut Quarters) -> Vec<Vec<T>> {
        let mut shares: Vec<Vec<T>> = self.0.iter().map(|_| Vec::new()).collect();
        for mut item in items {
            let place = at(&mut item);
            let piece = self.piece(*place);
            *place = *place - self.0[piece];
            shares[piece].push(item);
        }
        shares
    }

    fn divided(&self, bar: ScoreBar) -> Vec<ScoreBar> {
        let ends = self.0[1..].iter().copied().chain([bar.length]);
        let attacks = self.share(bar.attacks, |attack| &mut attack.at);
        let dynamics = self.share(bar.dynamics, |dynamic| &mut dynamic.at);
        let full = bar.meter.bar();
        let content = attacks.into_iter().zip(dynamics).zip(self.print(bar.written));
        let mut pieces = Vec::with_capacity(self.0.len());
        for ((start, end), ((attacks, dynamics), written)) in self.0.iter().zip(ends).zip(content) {
            let begins = bar.missing + *start;
            let number = match pieces.len() {
                0 => bar.number.clone(),
                before => format!("{} ({})", bar.number, before + 1),
            };
            pieces.push(ScoreBar {
                number,
                length: end - *start,
                missing: begins - full * (begins / full).to_integer(),
                meter: bar.meter,
                fifths: bar.fifths,
                tempo: bar.tempo,
                attacks,
                dynamics,
                written,
            });
        }
        pieces
    }

    /// What is printed in each piece; dashed lines stand between them.
    fn print(&self, bar: WrittenBar) -> Vec<WrittenBar> {
        let WrittenBar { clefs, clef_changes, meter_sign, voices, opens, closes, ending, texts } = bar;
        let last = self.0.len() - 1;
        let texts = self.share(texts, |text| &mut text.at);
        let mut pieces = Vec::with_capacity(self.0.len());
        for ((clefs, clef_changes), texts) in self.clefs(clefs, clef_changes).into_iter().zip(texts) {
            let (is_first, is_last) = (pieces.is_empty(), pieces.len() == last);
            pieces.push(WrittenBar {
                clefs,
                clef_changes,
                meter_sign,
                voices: Vec::new(),
                opens: if is_first { opens } else { Barline::default() },
                closes: if is_last { closes } else { Barline::Dashed },
                ending: ending.as_ref().map(|ending| over_piece(ending, is_first, is_last)),
                texts,
            });
        }
        for Voice { name, events } in voices {
            for (piece, events) in pieces.iter_mut().zip(self.share(events, |event| &mut event.at)) {
                if !events.is_empty() {
                    piece.voices.push(Voice { name: name.clone(), events });
                }
            }
        }
        pieces
    }

    /// The clefs in force where each piece begins, and the changes behind its begin.
    fn clefs(&self, mut in_force: Vec<Clef>, changes: Vec<ClefChange>) -> Vec<(Vec<Clef>, Vec<ClefChange>)> {
        let take = |change: &ClefChange, in_force: &mut Vec<Clef>| {
            let clef = in_force.get_mut(usize::from(change.staff).wrapping_sub(1));
            clef.into_iter().for_each(|clef| *clef = change.clef);
        };
        let mut of_piece = |changes: Vec<ClefChange>| {
            let (at_begin, later): (Vec<_>, Vec<_>) = changes.into_iter().partition(|it| it.at == Quarters::ZERO);
            at_begin.iter().for_each(|change| take(change, &mut in_force));
            let begins_with = in_force.clone();
            later.iter().for_each(|change| take(change, &mut in_force));
            (begins_with, later)
        };
        self.share(changes, |change| &mut change.at).into_iter().map(&mut of_piece).collect()
    }
}

/// The part of an ending's bracket over a first, last or middle piece of its bar.
fn over_piece(ending: &Ending, is_first: bool, is_last: bool) -> Ending {
    let ends = if is_last { ending.ends } else { EndingEnd::GoesOn };
    Ending { text: ending.text.clone(), begins: ending.begins && is_first, ends }
}
