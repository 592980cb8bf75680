//! Which tempo a new snippet begins with.

use crate::music::{BeatUnit, Bpm, Meter, Tempo};

/// The default tempo where none is known: a moderate quarter, the method's own choice.
pub fn usual_tempo() -> Tempo {
    Tempo { beat: BeatUnit::QUARTER, bpm: Bpm::nearest(72.0) }
}

/// What is known of a piece's tempo.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct KnownTempi {
    /// What the piece says: the player's own, or taken over from the beginning of its score.
    pub piece: Option<Tempo>,
    /// The first mark of the score.
    pub printed_first: Option<Tempo>,
    /// The mark in force where the snippet begins.
    pub printed_here: Option<Tempo>,
}

impl KnownTempi {
    /// The player's own tempo where there is one, else the mark in force, else the usual one; counted in the beat in which `meter` is felt.
    pub fn offered(self, meter: Meter) -> Tempo {
        let own = self.piece.filter(|piece| Some(*piece) != self.printed_first);
        let tempo = own.or(self.printed_here).or(self.piece);
        meter.felt(tempo.unwrap_or_else(usual_tempo))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::music::NoteValue;

    fn dotted(bpm: f64) -> Tempo {
        Tempo { beat: BeatUnit::new(NoteValue::Quarter, 1), bpm: Bpm::nearest(bpm) }
    }

    #[test]
    fn a_snippet_takes_the_tempo_that_the_player_has_set() {
        let six_eight: Meter = "6/8".parse().expect("a meter");
        let marks = KnownTempi { piece: None, printed_first: Some(dotted(52.0)), printed_here: Some(dotted(80.0)) };
        assert_eq!(marks.offered(six_eight), dotted(80.0));
        // Taken over from the score when it was read, and then changed by the player.
        assert_eq!(KnownTempi { piece: Some(dotted(52.0)), ..marks }.offered(six_eight), dotted(80.0));
        assert_eq!(KnownTempi { piece: Some(dotted(44.0)), ..marks }.offered(six_eight), dotted(44.0));
        assert_eq!(KnownTempi { piece: Some(dotted(52.0)), ..KnownTempi::default() }.offered(six_eight), dotted(52.0));
        assert_eq!(KnownTempi::default().offered(six_eight), dotted(48.0));
    }
}
